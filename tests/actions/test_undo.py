"""Undo strikes what was written last, and everything is shown as it was before."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import (
    MORNING,
    batches,
    chores,
    counts,
    sow_at,
    stand_at,
    summaries_equal_the_fold,
    views,
)
from tests.room import moment

Act = Callable[[Book], object]


@pytest.fixture(scope="module")
def lively_path(book_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Trays 101–104 lit since the 6th, 105–106 under weight, 107–108 planned, 110 cut long ago."""
    path = tmp_path_factory.mktemp("lively") / "room.book"
    shutil.copyfile(book_template, path)
    book = open_book(path, FixedClock(moment(MORNING)), "tester")
    sow_at(book, "2026-04-01 08:00", 4, place="Rack 1/Shelf 1")
    stand_at(book, "2026-04-02 08:00")
    sow(book, SowDraft("field test", numbers=(110,), place="Rack 2/Shelf 2"))
    stand_at(book, "2026-04-05 08:00")
    did(book, "weight_off", [101, 102, 103, 104])
    weigh(book, [110], 480)
    sow_at(book, "2026-04-05 09:00", 2, numbers=(105, 106), place="Rack 2/Shelf 1")
    stand_at(book, "2026-04-06 08:00")
    did(book, "light_on", [101, 102, 103, 104], place="Rack 1/Shelf 2")
    stand_at(book, "2026-04-06 10:00")
    sow(
        book,
        SowDraft("field test", numbers=(107, 108), at=moment("2026-04-08 12:00"), place="Rack 2"),
    )
    return path


@pytest.fixture
def lively(lively_path: Path, tmp_path: Path) -> Book:
    """Give a copy of the lively day's book on the evening of the 7th."""
    path = tmp_path / "room.book"
    shutil.copyfile(lively_path, path)
    return open_book(path, FixedClock(moment("2026-04-07 20:00")), "tester")


ACTS: dict[str, Act] = {
    "water": lambda book: did(book, "water", [101, 102], amount_ml=300),
    "look by did": lambda book: did(book, "look", [105]),
    "weight off": lambda book: did(book, "weight_off", [105, 106]),
    "weight off and away": lambda book: did(book, "weight_off", [105, 106], place="Rack 2/Shelf 4"),
    "to the light at once": lambda book: did(book, "light_on", [105]),
    "soak": lambda book: did(book, "soak", [107, 108]),
    "sow a planned one": lambda book: did(book, "sow", [107]),
    "cut": lambda book: did(book, "cut", [101]),
    "skip water": lambda book: skip(book, "water", [101, 102, 103, 104], "wet enough"),
    "skip weight off": lambda book: skip(book, "weight_off", [105, 106], "not up yet"),
    "skip soak": lambda book: skip(book, "soak", [107, 108], "no seed"),
    "look": lambda book: look(
        book, [101, 102], Look(height_mm=40.0, mould="spot"), "by the wall", mouldy=[102]
    ),
    "ready sign": lambda book: look(book, [101, 102], Look(true_leaves=True)),
    "jot on trays": lambda book: jot(book, [101, 110], "smells of cress"),
    "jot on the room": lambda book: jot(book, [], "a moth"),
    "jot on a place": lambda book: jot(book, [], "lamp hums", place="Rack 1/Shelf 2"),
    "move": lambda book: move(book, [101, 105], "Rack 2/Shelf 3"),
    "move to a slot": lambda book: move(book, [101], "Rack 2/Shelf 3/4"),
    "discard": lambda book: discard(book, [102], "mould"),
    "discard a planned one": lambda book: discard(book, [108], "no room"),
    "weigh": lambda book: weigh(book, [101], 512.5),
    "weigh a part": lambda book: weigh(book, [101], 200, part=True),
    "weigh together": lambda book: weigh(book, [101, 102, 103], 1500.1),
    "weigh nothing": lambda book: weigh(book, [104], 0),
    "sow": lambda book: sow(book, SowDraft("sunflower", 3, lot="L-7", colours=("red",))),
    "sow under an old number": lambda book: sow(book, SowDraft("field test", numbers=(110,))),
    "sow a week ago": lambda book: sow(book, SowDraft("kale", 2, at=moment("2026-04-01 09:00"))),
    "plan": lambda book: sow(book, SowDraft("kale", 2, at=moment("2026-04-09 09:00"))),
}


@pytest.mark.parametrize("name", ACTS)
def test_undo_restores_the_very_same_views(lively: Book, name: str) -> None:
    before, pages = views(lively), batches(lively)
    ACTS[name](lively)
    changed = views(lively) != before or batches(lively) != pages
    undo(lively)
    # then
    assert views(lively) == before
    assert batches(lively) == pages
    assert changed or name in ("jot on the room", "jot on a place")
    summaries_equal_the_fold(lively)


def test_undo_goes_back_act_by_act(lively: Book) -> None:
    seen = [views(lively)]
    for name in (
        "water",
        "ready sign",
        "move",
        "weigh a part",
        "weigh",
        "weight off",
        "jot on trays",
    ):
        ACTS[name](lively)
        seen.append(views(lively))
    while len(seen) > 1:
        assert views(lively) == seen.pop()
        undo(lively)
    assert views(lively) == seen.pop()


def test_nothing_is_erased(lively: Book) -> None:
    did(lively, "water", [101])
    before = counts(lively)
    undo(lively)
    after = counts(lively)
    assert after["entry"] == before["entry"] + 1
    assert all(after[name] >= before[name] for name in before)
    last = page(lively)[-2:]
    assert [(line.kind, line.struck) for line in last] == [("water", True), ("strike", False)]


def test_undo_takes_back_one_s_own_only(lively: Book) -> None:
    did(lively, "water", [101])
    lively.by = "JM"
    with pytest.raises(Refused, match="nothing of JM's"):
        undo(lively)
    jot(lively, [101], "by JM")
    lively.by = "tester"
    assert "water" in undo(lively).words
    lively.by = "JM"
    assert "jot" in undo(lively).words


def test_a_strike_needs_a_reason_and_an_entry(lively: Book) -> None:
    entry = did(lively, "water", [101]).act_id
    before = counts(lively)
    for number, why, words in (
        (entry, " ", "give a reason"),
        (99_999, "x", "no entry 99999"),
        (0, "x", "no entry 0"),
        (-4, "x", "no entry -4"),
        (10**30, "x", "no entry 1000"),
    ):
        with pytest.raises(Refused, match=words):
            strike(lively, number, why)
    assert counts(lively) == before
    strike(lively, entry, "the wrong tray")
    with pytest.raises(Refused, match="struck out already"):
        strike(lively, entry, "again")
    with pytest.raises(Refused, match="strikes another one out"):
        strike(lively, entry + 1, "again")
    assert page(lively)[-1].note == "the wrong tray"


def test_a_cut_cannot_be_taken_back_when_its_number_is_on_another_tray(lively: Book) -> None:
    cut = weigh(lively, [101], 500)[0].act_id
    sow(lively, SowDraft("field test", numbers=(101,)))
    before = views(lively)
    with pytest.raises(Refused, match="on another tray now"):
        strike(lively, cut, "typo")
    assert views(lively) == before


def test_a_sowing_cannot_be_struck_from_under_a_weight(book: Book) -> None:
    sown = sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-09 08:00")
    book.by = "JM"
    weigh(book, [101], 500)
    book.by = "tester"
    with pytest.raises(Refused, match="Off the rack already: 101"):
        undo(book)
    assert sown.plan.numbers == (101, 102)
    summaries_equal_the_fold(book)


def test_a_struck_sowing_gives_its_numbers_back(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    undo(book)
    with pytest.raises(Refused, match="struck"):
        did(book, "water", [101])
    assert sow_at(book, "2026-04-01 09:00", 3).plan.numbers == (101, 102, 103)


def test_a_struck_change_puts_the_tray_back_and_later_ones_stand(lively: Book) -> None:
    entries = [
        line for line in page(lively, moment("2026-04-06 12:00").date()) if line.kind == "change"
    ]
    strike(lively, entries[0].id, "it was the other rack")
    assert ("light_on", (101, 102, 103, 104)) in chores(lively)


def test_a_plan_cannot_be_taken_from_under_a_tray_thrown_out_before_it_was_sown(
    book: Book,
) -> None:
    stand_at(book, "2026-04-01 08:00")
    plan = sow(book, SowDraft("field test", 2, at=moment("2026-04-05 08:00")))
    entry = next(line.id for line in page(book) if line.kind == "plan")
    discard(book, [102], "no room")
    with pytest.raises(Refused, match="Off the rack already: 102"):
        strike(book, entry, "not planned")
    undo(book)
    strike(book, entry, "not planned")
    assert all(tray_page(book, number).tray.status == "void" for number in plan.plan.numbers)


def test_a_tray_whose_sowing_is_taken_back_is_planned_again_though_it_was_thrown_out(
    book: Book,
) -> None:
    """A sown tray that had a plan: without the sowing it was discarded as a planned one."""
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, at=moment("2026-04-05 08:00")))
    stand_at(book, "2026-04-05 08:00")
    sowing = did(book, "sow", [101, 102]).act_id
    discard(book, [102], "spilled")
    strike(book, sowing, "not today")
    assert [tray_page(book, number).tray.status for number in (101, 102)] == [
        "planned",
        "discarded",
    ]
    summaries_equal_the_fold(book)


def test_seed_that_is_in_the_water_is_not_soaked_again_until_that_is_undone(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, at=moment("2026-04-02 08:00")))
    did(book, "soak", [102])
    before = counts(book)
    with pytest.raises(Refused, match="seed of tray 102 is already soaking"):
        did(book, "soak", [101, 102])
    assert counts(book) == before
    undo(book)
    did(book, "soak", [101, 102])
