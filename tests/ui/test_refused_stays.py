"""What the book cannot take stays on the screen with the reason, and Enter tries again."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, TextArea

from logbook.actions.book import Book, open_book
from logbook.actions.trials.setting_up import TrialDraft, set_up
from logbook.actions.trials.tasting import new_tasting
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from logbook.ui.drafts import Draft
from logbook.ui.forms.asking import Question
from logbook.ui.screen import LogScreen
from tests.actions.room_book import lit_batch, moment, room_book, stand_at, with_lamps
from tests.small_disk import fill_up, small_disk
from tests.ui.racks_book import SIZES, WIDE, walk
from tests.ui.steps import press, screen_text, sees, settle, until

REFUSAL = "Another program is still writing"
ASKED = {
    # what is asked: keys that open the question, what is typed in its line
    "jot": ("j", "one corner is dry"),
    "look": ("l", "y"),
    "skip": ("s", "nobody is here"),
    "discard": ("d enter", "mould"),
    "move": ("m", "Rack 1/Shelf 2"),
    "watering": ("t", "07:30 300ml ph 6.1"),
    "part": ("p", "101"),
    "air": ("i a", "21.4 63"),
    "water": ("i w", "6.1 1.2"),
    "outage": ("i p", "07:00 to 07:30"),
    "cleaned": ("i c", "trays; soak 10 min and rinse; bleach"),
    "comes round": ("g u plus", "racks"),
    "year of sales": (f"g i {'down ' * 8}enter", "900"),
    "lamps": ("o down e", "6"),
    "price": ("o plus t", "0.42"),
    "circuit": ("o plus c", "racks"),
    "seed bought": ("L plus b", "radish"),
    "order": ("E plus", "Bistro: radish 500g fri"),
    "strike": ("f5 k", "wrong shelf"),
    "trial struck": ("y k", "the wrong crop"),
    "what counts": ("y enter C w", "yield 2"),
    "planned end": ("y enter C e", "4"),
}
OTHER_LINES = {
    "seed bought": {"lot": "RA 1", "grams": "1kg"},
    "circuit": {"breaker": "15", "volts": "120"},
    "year of sales": {"to_end_users": "500"},
}


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two trays in the light, a trial that is set up, lamps."""
    book = room_book(tmp_path_factory.mktemp("room"))
    with_lamps(book)
    lit_batch(book)
    stand_at(book, moment(4, 9))
    set_up(book, TrialDraft("salt", "radish", "density", ("a=20g", "b=30g"), layout_number=3))
    return book.file.path


@pytest.fixture
def book(room: Path, tmp_path: Path) -> Book:
    """A book of its own; it is 10:00 on the 4th."""
    path = Path(shutil.copy(room, tmp_path / "room.book"))
    return open_book(path, FixedClock(moment(4, 10)), "ab")


@contextmanager
def taken(book: Book) -> Iterator[None]:
    """Let another program hold the book for writing."""
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        yield
        other.execute("ROLLBACK")


def entries(book: Book) -> int:
    """Give how many entries and rows beside them the book has."""
    with book.reading() as reading:
        tables = ("entry", "circuit", "tariff")
        return sum(reading.value(f"SELECT count(*) FROM {each}") for each in tables)


async def put(pilot: Pilot[None], text: str, others: dict[str, str]) -> None:
    """Put a text into the line that has the focus, and others into theirs."""
    await until(pilot, lambda: isinstance(pilot.app.screen, Question))
    for name, other in others.items():
        pilot.app.screen.query_one(f"#line-{name}", Input).value = other
    line = pilot.app.focused
    if isinstance(line, TextArea):
        line.text = text
    else:
        assert isinstance(line, Input)
        line.value = text
    await settle(pilot)


def typed(pilot: Pilot[None]) -> list[str]:
    """Give what stands in the lines of the question."""
    screen = pilot.app.screen
    lines = [each.value for each in screen.query(Input)]
    return lines + [each.text for each in screen.query(TextArea)]


@pytest.mark.parametrize("asked", ASKED)
def test_what_was_typed_stays_with_the_reason_and_enter_tries_again(
    book: Book, asked: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.PATIENCE_SECONDS", 0.05)
    keys, text = ASKED[asked]
    save = (
        "f9"
        if asked
        in ("look", "lamps", "price", "circuit", "seed bought", "comes round", "year of sales")
        else "enter"
    )

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        await press(pilot, *keys.split())
        await put(pilot, text, OTHER_LINES.get(asked, {}))
        before = entries(book)
        with taken(book):
            await press(pilot, save)
            await sees(pilot, REFUSAL)
            assert text in typed(pilot)
            assert entries(book) == before
        await press(pilot, save)
        await until(pilot, lambda: isinstance(pilot.app.screen, LogScreen))
        await settle(pilot)
        assert entries(book) > before, screen_text(pilot)
        await until(pilot, lambda: not app_drafts(pilot))

    walk(book, story, WIDE)


def app_drafts(pilot: Pilot[None]) -> list[Draft]:
    """Give what is kept of what was typed."""
    assert isinstance(pilot.app, LogbookApp)
    return pilot.app.drafts.all()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("asked", ["jot", "look"])
def test_on_a_full_disk_nothing_typed_is_lost_and_it_goes_on_when_there_is_room(
    book: Book, tmp_path: Path, asked: str, size: tuple[int, int]
) -> None:
    keys, text = ASKED[asked]
    with small_disk(tmp_path / "small") as small:
        there = open_book(Path(shutil.copy(book.file.path, small)), book.clock, "ab")
        before = entries(there)

        async def story(pilot: Pilot[None]) -> None:
            await press(pilot, keys)
            await put(pilot, text, {})
            filler = fill_up(small)
            for _ in range(2):
                await press(pilot, "f9" if asked == "look" else "enter")
                await until(pilot, lambda: "disk is full" in " ".join(screen_text(pilot).split()))
                assert text in typed(pilot)
            assert entries(there) == before
            filler.unlink()
            await press(pilot, "f9" if asked == "look" else "enter")
            await until(pilot, lambda: isinstance(pilot.app.screen, LogScreen))

        walk(there, story, size)
        assert entries(there) == before + 1


@pytest.mark.parametrize("size", SIZES)
def test_of_a_book_that_was_pulled_out_is_said_that_it_is_gone_until_it_is_back(
    book: Book, tmp_path: Path, size: tuple[int, int]
) -> None:
    path, away = book.file.path, tmp_path / "away"

    async def story(pilot: Pilot[None]) -> None:
        def words() -> str:
            return " ".join(screen_text(pilot).split())

        assert isinstance(pilot.app, LogbookApp)
        await press(pilot, "j")
        await put(pilot, "one corner is dry", {})
        path.rename(away)
        await press(pilot, "enter")
        await until(pilot, lambda: "is its disk or USB stick still there? Nothing was" in words())
        assert "logbook begin" not in words()
        assert typed(pilot) == ["one corner is dry"]
        await press(pilot, "escape")
        pilot.app.look_at_file()
        await until(pilot, lambda: "gone from its place" in words())
        away.rename(path)
        pilot.app.look_at_file()
        await until(pilot, lambda: "The book is back in its place." in words())
        await press(pilot, "j", "enter")
        await until(pilot, lambda: "jotted" in words())

    walk(book, story, size)


def test_a_refused_answer_is_let_go_by_esc_and_stands_there_again(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.PATIENCE_SECONDS", 0.05)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "s")
        await put(pilot, "nobody is here", {})
        with taken(book):
            await press(pilot, "enter")
            await sees(pilot, REFUSAL)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, LogScreen)
        await press(pilot, "s")
        assert typed(pilot) == ["nobody is here"]

    walk(book, story, WIDE)


@pytest.mark.parametrize(
    "asked", ["jot", "look", "watering", "air", "water", "cleaned", "lamps", "price", "circuit"]
)
def test_what_was_typed_when_the_line_dropped_is_offered_at_the_next_start(
    book: Book, asked: str
) -> None:
    keys, text = ASKED[asked]
    others = OTHER_LINES.get(asked, {})
    before = entries(book)

    async def dropped(pilot: Pilot[None]) -> None:
        await press(pilot, *keys.split())
        await put(pilot, text, others)

    async def again(pilot: Pilot[None]) -> None:
        await sees(pilot, "Not saved last time", text[:20])
        await press(pilot, "enter")
        await until(pilot, lambda: text in typed(pilot))
        assert set(others.values()) <= set(typed(pilot))
        await press(pilot, "f9" if others or asked in ("look", "lamps", "price") else "enter")
        await until(pilot, lambda: entries(book) > before)
        await until(pilot, lambda: not app_drafts(pilot))

    walk(book, dropped, WIDE)
    walk(book, again, WIDE)


def test_a_question_that_is_left_as_it_was_offered_leaves_no_draft(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        for keys in ("o down e", "r i l", "r m", "r l", "r j"):
            await press(pilot, *keys.split())
            await until(pilot, lambda: isinstance(pilot.app.screen, Question))
            await press(pilot, "escape")
        assert app_drafts(pilot) == []

    walk(book, story, WIDE)


def test_a_decision_that_the_line_cut_off_stands_there_again(book: Book) -> None:
    async def dropped(pilot: Pilot[None]) -> None:
        await press(pilot, "y", "enter", "D")
        await put(pilot, "thin pays", {})
        await press(pilot, "enter")
        await put(pilot, "thinner still", {})

    async def again(pilot: Pilot[None]) -> None:
        await press(pilot, "y", "enter", "D")
        assert typed(pilot) == ["thin pays"]
        await press(pilot, "enter")
        assert typed(pilot) == ["thinner still"]
        await press(pilot, "enter")
        await until(pilot, lambda: not app_drafts(pilot))

    walk(book, dropped, WIDE)
    walk(book, again, WIDE)


def test_what_a_taster_said_of_the_first_samples_stands_there_again(book: Book) -> None:
    new_tasting(book, "salt", seed=4)

    async def taste(pilot: Pilot[None]) -> None:
        await press(pilot, "y", "enter", "T", "s")
        await put(pilot, "cd", {})
        await press(pilot, "enter")

    async def dropped(pilot: Pilot[None]) -> None:
        await taste(pilot)
        await put(pilot, "7 6 8 a bit bitter", {})
        await press(pilot, "enter")
        await put(pilot, "5 5 5", {})

    async def again(pilot: Pilot[None]) -> None:
        await taste(pilot)
        assert typed(pilot) == ["7 6 8 a bit bitter"]
        await press(pilot, "enter")
        assert typed(pilot) == ["5 5 5"]
        await press(pilot, "enter")
        await until(pilot, lambda: not app_drafts(pilot))
        await until(pilot, lambda: isinstance(pilot.app.screen, LogScreen))

    walk(book, dropped, WIDE)
    walk(book, again, WIDE)
