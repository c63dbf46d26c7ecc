"""Whatever is done in whatever order, the book holds together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.crops.templates import CutWindow, Stage
from logbook.growing.trays.chores import CHORES
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import stand_at, summaries_equal_the_fold, views
from tests.room import DAY, crop_of

FEW = settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
NUMBERS = st.one_of(
    st.just([101, 102]), st.lists(st.integers(101, 106), min_size=1, max_size=3, unique=True)
)
KINDS = ("sow", "plan", "due", "did", "skip", "look", "move", "weigh", "part", "discard", "jot")


@dataclass(frozen=True)
class Intent:
    """Something that somebody wants; much of it does not fit the day and is refused."""

    kind: str
    chore: str
    trays: tuple[int, ...]
    hours: int
    crop: str


INTENTS = st.builds(
    Intent,
    st.sampled_from(KINDS),
    st.sampled_from(CHORES),
    NUMBERS.map(tuple),
    st.one_of(st.integers(0, 2), st.integers(0, 60)),
    st.sampled_from(("field test", "odd", "basil")),
)


def perform(book: Book, wanted: Intent) -> bool:
    """Do it; give whether the book took it."""
    trays, ago = wanted.trays, book.now() - timedelta(hours=wanted.hours)
    ahead = book.now() + timedelta(hours=wanted.hours + 1)
    try:
        match wanted.kind:
            case "sow":
                sow(book, SowDraft(wanted.crop, len(trays), at=ago))
            case "plan":
                sow(book, SowDraft(wanted.crop, len(trays), at=ahead, place="Rack 2"))
            case "due":
                due = the_round(book).due
                if not due:
                    return False
                line = due[wanted.hours % len(due)]
                did(book, line.chore, line.numbers)
            case "did":
                did(book, wanted.chore, trays, ago)
            case "skip":
                skip(book, wanted.chore, trays, "why")
            case "look":
                look(book, trays, Look(true_leaves=True), at=ago)
            case "move":
                move(book, trays, "Rack 2/Shelf 1", ago)
            case "weigh" | "part":
                weigh(book, trays, wanted.hours * 10, at=ago, part=wanted.kind == "part")
            case "discard":
                discard(book, trays, "why", ago)
            case "jot":
                jot(book, trays, "x")
            case "strike":
                strike(book, wanted.hours % 12 + 1, "why")
            case "retime":
                replace_entry(book, wanted.hours % 12 + 1, "why", Changes(at=ago))
            case "replan":
                replace_entry(book, wanted.hours % 12 + 1, "why", Changes(at=ahead))
            case "undo":
                undo(book)
            case "wait":
                _wait(book, wanted.hours)
    except Refused as refused:
        words = str(refused)
        assert words.endswith((".", "?"))
        assert "could not be used" not in words
        return False
    return True


def _wait(book: Book, hours: int) -> None:
    assert isinstance(book.clock, FixedClock)
    book.clock.at += timedelta(hours=hours)


def odd_crop(book: Book) -> None:
    """Give the book a crop whose middle change asks nothing of the hands."""
    put_template(
        book,
        crop_of(
            Stage("wet", DAY, "weight", "dark", "mist", 2.0, 1.0),
            Stage("dry", DAY, "weight", "dark"),
            Stage("light", DAY, "none", "lit", "bottom", 0.5),
            cut=CutWindow(0, DAY, 2 * DAY),
        ),
    )


LATER = ("strike", "retime", "replan", "undo", "wait", "due")
ALL = st.lists(
    st.one_of(
        INTENTS,
        st.builds(replace, INTENTS, kind=st.sampled_from(LATER)),
    ),
    min_size=6,
    max_size=14,
)


@FEW
@given(wanted=ALL)
def test_the_trays_summary_always_equals_the_fold(
    new_book: Callable[[], Book], wanted: list[Intent]
) -> None:
    book = new_book()
    odd_crop(book)
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 3))
    for each in wanted:
        perform(book, each)
    summaries_equal_the_fold(book)


@FEW
@given(wanted=st.lists(INTENTS, min_size=3, max_size=10))
def test_undoing_all_of_it_leads_back_step_by_step(
    new_book: Callable[[], Book], wanted: list[Intent]
) -> None:
    book = new_book()
    odd_crop(book)
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("odd", 2))
    stand_at(book, "2026-04-03 12:00")
    seen = [views(book)]
    seen += [views(book) for each in wanted if perform(book, each)]
    while len(seen) > 1:
        assert views(book) == seen.pop()
        undo(book)
    assert views(book) == seen[0]
    summaries_equal_the_fold(book)


@FEW
@given(wanted=ALL)
def test_marking_everything_done_empties_the_round(
    new_book: Callable[[], Book], wanted: list[Intent]
) -> None:
    book = new_book()
    odd_crop(book)
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 3))
    for each in wanted:
        perform(book, each)
    for _ in range(20):
        due = the_round(book).due
        if not due:
            break
        for line in due:
            if line in the_round(book).due:
                did(book, line.chore, line.numbers)
    assert the_round(book).due == ()
    summaries_equal_the_fold(book)
