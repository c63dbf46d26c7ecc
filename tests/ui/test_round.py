"""The round on the screen: walking it with single keys, at both sizes."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, TextArea

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.clock import FixedClock
from logbook.growing.crops.seed_lots import SeedLot
from logbook.growing.trays.looks import Look
from logbook.ui.app import LogbookApp
from logbook.ui.forms.asking import AskSure
from logbook.ui.screen import LogScreen
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.widgets.bars import Sentence
from logbook.ui.widgets.walk_list import WalkList
from tests.made_once import made_once
from tests.ui.racks_book import stand_at, walk
from tests.ui.steps import press, said, screen_text, sees, settle, until

SOWN = datetime(2026, 4, 1, 8, tzinfo=UTC)
SIZES = [(80, 24), (40, 20)]
NASTY = "[/] [100%] \x1b[31mred\x1b[0m 🌱 é \u202eback"


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    """Six radish trays sown on a shelf on 1 April; it is 09:00 the next day."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return six_radishes(tmp_path)


@made_once
def six_radishes(folder: Path) -> Book:
    """Make the book of the stories here."""
    book = begin_book(
        folder / "room.book",
        BeginDraft("Test room", "Europe/Lisbon", racks=1, shelves=2, slots=6),
        FixedClock(SOWN),
        "ab",
    )
    sow(book, SowDraft("radish", trays=6))
    assert isinstance(book.clock, FixedClock)
    book.clock.at = SOWN + timedelta(days=1, hours=1)
    return book


def test_one_key_waters_a_whole_shelf_also_of_two_batches(book: Book) -> None:
    # given: radish on a shelf, and a batch of kale beside it
    stand_at(book, SOWN - timedelta(hours=1))
    (one, two) = (SowDraft("pea shoots", trays=2, place="Rack 1/Shelf 2") for _ in range(2))
    sow(book, one)
    sow(book, two)
    stand_at(book, SOWN + timedelta(days=1, hours=1))
    growing = {tray.number for rack in racks(book).racks for tray in rack.shelves[1].trays}

    async def story(pilot: Pilot[None]) -> None:
        while "water" not in _line_under(pilot) or "pea" not in _line_under(pilot):
            await press(pilot, "down")
        await press(pilot, "W")
        await sees(pilot, "water, look: ")

    walk(book, story, (80, 24))
    assert set(page(book, kind="water")[-1].trays) == growing


def _line_under(pilot: Pilot[None]) -> str:
    shown = pilot.app.screen.query_one(WalkList)
    return "" if shown.highlighted is None else shown.rows[shown.highlighted].text.plain


def test_in_the_evening_the_round_says_what_comes_next(book: Book) -> None:
    stand_at(book, SOWN + timedelta(days=1, hours=1))
    for line in the_round(book).lines:
        if line.chore in ("look", "water_look"):
            did(book, "water", line.numbers)
            look(book, line.numbers, Look(height_mm=10))
        else:
            did(book, line.chore, line.numbers)
    stand_at(book, SOWN + timedelta(days=1, hours=12))

    async def story(pilot: Pilot[None]) -> None:
        await sees(pilot, "Nothing is due now. Next: water, look, Fri 07:00.")

    walk(book, story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_the_round_shows_place_trays_crop_day_and_lateness(
    book: Book, size: tuple[int, int]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        text = screen_text(pilot)
        for words in ("Rack 1/Shelf 1", "101–106", "radish", "day 2", "water", "late", "look"):
            assert words in text, text

    walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_one_key_waters_six_trays(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "enter")
        await until(pilot, lambda: "water, look: 101–106" in said(pilot))

    walk(book, story, size)
    assert [line.kind for line in page(book)] == ["water", "glance"]
    assert "water" not in {line.chore for line in the_round(book).lines}


def test_what_was_said_keeps_in_view_and_is_gone_when_one_comes_back(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "enter")
        await until(pilot, lambda: "water, look: 101–106" in said(pilot))
        screen = pilot.app.screen
        assert isinstance(screen, LogScreen)
        screen.say("a sentence that is longer than a phone is wide")
        await pilot.resize_terminal(*SIZES[1])
        await until(pilot, lambda: screen.query_one(Sentence).size.height == 2)
        await press(pilot, "f5", "escape")
        await until(pilot, lambda: pilot.app.screen is screen)
        assert said(pilot) == ""

    walk(book, story, SIZES[0])


def test_undo_strikes_and_the_chore_is_back(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "enter")
        await until(pilot, lambda: "water" in said(pilot))
        await press(pilot, "u")
        await until(pilot, lambda: "undone" in said(pilot))

    before = the_round(book)
    walk(book, story, (80, 24))
    assert the_round(book) == before


def test_a_key_that_bounces_undoes_once_and_redo_brings_it_back(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "enter")
        await until(pilot, lambda: "water" in said(pilot))
        monkeypatch.setattr("logbook.ui.app.BOUNCE_SECONDS", 3600)
        await press(pilot, "u", "u", "u")
        await until(pilot, lambda: "undone: watering" in said(pilot))
        assert "U brings it back." in said(pilot)
        await press(pilot, "U")
        await until(pilot, lambda: "redone: watering" in said(pilot))
        # the sowing before it is asked about, and Enter is no yes
        monkeypatch.setattr("logbook.ui.app.BOUNCE_SECONDS", 0)
        await press(pilot, "u", "u")
        assert isinstance(pilot.app.screen, AskSure)
        assert "Last written: " in screen_text(pilot)
        await press(pilot, "enter", "n")

    walk(book, story, (80, 24))
    assert tray_page(book, 101).tray.status == "growing"


def test_done_at_another_time_and_on_a_part(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "p")
        await press(pilot, "nonsense", "enter")
        assert "not a tray number" in screen_text(pilot)
        await press(pilot, "escape", "t")
        await press(pilot, "08:15", "enter")
        await until(pilot, lambda: "08:15" in said(pilot))

    walk(book, story, (80, 24))
    assert [line.at.hour for line in page(book)] == [7, 7]  # 08:15 in Lisbon's summer is 07:15 UTC


@pytest.mark.parametrize("size", SIZES)
def test_a_jot_keeps_every_letter(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "j")
        await until(pilot, lambda: bool(pilot.app.screen.query(TextArea)))
        pilot.app.screen.query_one(TextArea).insert(NASTY)
        await press(pilot, "enter")
        await until(pilot, lambda: "jotted" in said(pilot))
        await press(pilot, "1", "0", "1", "enter")
        await until(pilot, lambda: "101" in screen_text(pilot))

    walk(book, story, size)
    (line,) = page(book)
    assert line.note == "[/] [100%] [31mred[0m 🌱 é back"


def test_what_is_being_jotted_is_offered_again(book: Book) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await press(pilot, "j")
        await until(pilot, lambda: bool(pilot.app.screen.query(TextArea)))
        pilot.app.screen.query_one(TextArea).insert("half a thou")
        await settle(pilot)

    async def second(pilot: Pilot[None]) -> None:
        await until(pilot, lambda: "half a thou" in screen_text(pilot))
        await press(pilot, "enter")
        await until(pilot, lambda: bool(pilot.app.screen.query(TextArea)))
        assert pilot.app.screen.query_one(TextArea).text == "half a thou"
        await press(pilot, "enter")
        await until(pilot, lambda: "jotted" in said(pilot))

    walk(book, first, (80, 24))
    walk(book, second, (80, 24))
    assert [line.note for line in page(book)] == ["half a thou"]


def test_a_look_that_sees_the_sign_makes_the_cut_due(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "l")
        await until(pilot, lambda: bool(pilot.app.screen.query("#line-sign")))
        pilot.app.screen.query_one("#line-sign", Input).value = "y"
        pilot.app.screen.query_one("#line-height", Input).value = "3,5"
        await press(pilot, "f9")
        await until(pilot, lambda: "can be cut now" in said(pilot))
        assert "ready sign seen" in screen_text(pilot)

    walk(book, story, (80, 24))
    assert "3.5 cm high" in page(book)[0].words


def test_mould_brings_the_caution_and_offers_to_throw_out(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "l")
        await until(pilot, lambda: bool(pilot.app.screen.query("#line-mould")))
        pilot.app.screen.query_one("#line-mould", Input).value = "spread back left"
        await press(pilot, "f9")
        await until(pilot, lambda: "Mould on which of" in screen_text(pilot))
        pilot.app.screen.query_one("#line-mouldy", Input).value = "101"
        await press(pilot, "f9")
        await until(pilot, lambda: "Do not sell" in screen_text(pilot))
        await press(pilot, "enter")
        await until(pilot, lambda: "Enter doesn't mean yes" in screen_text(pilot))
        assert tray_page(book, 101).tray.status == "growing"
        await press(pilot, "y")
        await until(pilot, lambda: "discarded" in said(pilot))

    walk(book, story, (80, 24))
    assert tray_page(book, 101).tray.status == "discarded"
    assert tray_page(book, 102).tray.status == "growing"
    assert tray_page(book, 102).tray.state.mould_at is None


def test_a_wrong_look_is_said_beside_the_form_and_nothing_is_lost(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "l")
        await until(pilot, lambda: bool(pilot.app.screen.query("#line-emerged")))
        pilot.app.screen.query_one("#line-emerged", Input).value = "many"
        await press(pilot, "f9")
        await until(pilot, lambda: "is not a number" in screen_text(pilot))
        assert pilot.app.screen.query_one("#line-emerged", Input).value == "many"

    walk(book, story, (80, 24))
    assert page(book) == []


def test_skip_needs_a_reason_and_discard_too(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "s")
        await press(pilot, "enter")
        assert "give a reason" in screen_text(pilot)
        await press(pilot, "wet", "enter")
        await until(pilot, lambda: "skipped water" in said(pilot))

    walk(book, story, (80, 24))
    assert page(book)[0].note == "wet"


def test_another_program_writes_and_the_cursor_stays(book: Book) -> None:
    did(book, "water", [101, 102, 103])

    async def story(pilot: Pilot[None]) -> None:
        walk_list = pilot.app.screen.query_one(WalkList)
        while not walk_list.key.startswith("look/"):
            await press(pilot, "down")
        on = walk_list.key
        assert on.startswith("look/")
        did(book, "water", [104, 105, 106])
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.look_at_file()
        await settle(pilot)
        await until(pilot, lambda: "water" not in screen_text(pilot).split("enter done")[0])
        assert walk_list.key == on

    walk(book, story, (80, 24))


def test_the_bell_rings_when_a_chore_comes_due_past_midnight(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    clock = book.clock
    did(book, "water", [101, 102, 103, 104, 105, 106])
    did(book, "look", [101, 102, 103, 104, 105, 106])
    rung = []

    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.bell = lambda: rung.append(1)  # type: ignore[method-assign]
        app.tick()
        await settle(pilot)
        assert not rung
        clock.at = datetime(2026, 4, 3, 6, 30, tzinfo=UTC)  # 07:30 the next day
        app.tick()
        await settle(pilot)
        await until(pilot, lambda: "Due now" in said(pilot))
        assert rung
        assert "Fri 3 Apr" in screen_text(pilot)

    walk(book, story, (80, 24))


def test_an_empty_book_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    book = begin_book(tmp_path / "room.book", BeginDraft(), FixedClock(SOWN))

    async def story(pilot: Pilot[None]) -> None:
        assert "n sows the first batch" in screen_text(pilot)
        assert isinstance(pilot.app.screen, RoundScreen)
        await press(pilot, "enter", "t", "p", "s", "l", "j", "m", "d", "space")
        assert isinstance(pilot.app.screen, RoundScreen)

    for size in SIZES:
        walk(book, story, size)


@pytest.mark.parametrize("size", [*SIZES, (120, 30)])
def test_mould_stands_beside_the_chore_and_the_lateness_stays(
    book: Book, size: tuple[int, int]
) -> None:
    look(book, [101], Look(mould="spot"))

    async def story(pilot: Pilot[None]) -> None:
        lines = screen_text(pilot).split("\n")
        (at,) = [at for at, line in enumerate(lines) if "water" in line and "yet" in line]
        where = lines[at] if size[0] > 66 else lines[at + 1]
        assert "mould: 101" in where
        assert "not watered yet" in lines[at]

    walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_mould_that_does_not_fit_beside_the_chore_stands_below_it(
    book: Book, size: tuple[int, int]
) -> None:
    look(book, [101, 103, 106], Look(mould="spot"), mouldy=[101, 103, 106])
    stand_at(book, SOWN + timedelta(days=14))

    async def story(pilot: Pilot[None]) -> None:
        lines = [line.strip(" ┃│") for line in screen_text(pilot).split("\n")]
        at = next(place for place, line in enumerate(lines) if "late, not watered yet" in line)
        assert lines[at + 1] == "mould: 101 103 106"

    walk(book, story, size)


@pytest.mark.parametrize("days", [2, 14, 120, 900])
@pytest.mark.parametrize("size", [*SIZES, (66, 24), (74, 24), (79, 24), (90, 24)])
def test_long_lateness_and_a_long_day_number_are_not_cut(
    book: Book, size: tuple[int, int], days: int
) -> None:
    stand_at(book, SOWN)
    did(book, "water", range(101, 107))
    stand_at(book, SOWN + timedelta(days=days))

    async def story(pilot: Pilot[None]) -> None:
        text = screen_text(pilot)
        assert f"late, unwatered {days} d" in text
        assert f"day {days + 1} " in text

    walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_a_place_is_whole_and_its_lamp_hours_go_below_it(book: Book, size: tuple[int, int]) -> None:
    name = "Shelf beside the door"
    draft = PlaceDraft(name, slots=6, lamp_on=5 * 60 + 30, lamp_off=21 * 60)
    change_place(book, "Rack 1/Shelf 1", draft)

    async def story(pilot: Pilot[None]) -> None:
        text = screen_text(pilot)
        assert f"Rack 1/{name}" in text
        assert "lit 05:30–21" in text

    walk(book, story, size)


def test_enter_on_the_sow_line_asks_for_the_seed_lot(book: Book) -> None:
    """A plan from R 1 is sown from two bags, the first of which is empty half-way."""
    stand_at(book, SOWN)
    sow(book, SowDraft("radish", trays=2, lot="R 1", at=SOWN + timedelta(days=1)))
    stand_at(book, SOWN + timedelta(days=1, hours=1))

    async def story(pilot: Pilot[None]) -> None:
        while "sow" not in _line_under(pilot):
            await press(pilot, "down")
        await press(pilot, "enter")
        await sees(pilot, "From which seed lot?")
        line = pilot.app.screen.query_one(Input)
        assert line.value == "R 1"
        await press(pilot, "right", *" = 30 g + R 2 = x")
        await press(pilot, "backspace", *"2o g", "enter")
        await sees(pilot, "unknown unit")
        await press(pilot, *["backspace"] * 3, *"0 g", "enter")
        await until(pilot, lambda: "sow" in said(pilot))

    walk(book, story, (80, 24))
    batch = tray_page(book, 107).tray.batch
    assert batch_page(book, batch).lots == (SeedLot("R 1", 30.0), SeedLot("R 2", 20.0))
    assert batch_page(book, batch).seed_grams == 25
