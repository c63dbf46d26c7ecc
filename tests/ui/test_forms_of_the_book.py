"""The forms of a new book, of crop templates and of places."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import begin_book
from logbook.actions.crops.templates import show_template
from logbook.actions.room.places import list_places
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import FixedClock
from logbook.growing.crops.templates import CutWindow, Stage
from logbook.ui.app import LogbookApp
from logbook.ui.screens.help.begin import BeginScreen
from logbook.ui.screens.help.handbook import HandbookScreen
from logbook.ui.screens.room.room import RoomScreen
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.subjects import PlaceSubject, SowSubject, TemplateSubject
from tests.room import targets_from
from tests.ui.forms_room import CLEANED, NASTY, NOW, SIZES, fill, flat, form, go, make_book, play
from tests.ui.steps import press, said, screen_text, settle, until


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    return make_book(tmp_path, monkeypatch)


def app_with_no_book(path: Path) -> LogbookApp:
    def begin(draft: Any) -> Book:
        return begin_book(path, draft, FixedClock(NOW), "ab")

    return LogbookApp(None, begin=begin, new_path=path)


# a new book


@pytest.mark.parametrize("size", SIZES)
def test_a_new_book_is_made_and_the_round_opens(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    path = tmp_path / "new.book"

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app.screen, BeginScreen)
        await fill(pilot, name=NASTY, zone="lisbon", racks="3", shelves="2", slots="5")
        preview = str(pilot.app.screen.query_one("#preview").render())
        assert "room for 30 trays" in preview
        assert "new.book" in preview
        assert "Money is in EUR, guessed from Europe/Lisbon" in preview
        assert "you can change all of this later except the time zone" in preview
        await fill(pilot, units="us", lamps="none")
        await press(pilot, "f9")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        await until(pilot, lambda: "is ready" in said(pilot))
        assert "09:00" in screen_text(pilot)

    play(app_with_no_book(path), story, size)
    made = open_book(path)
    assert (made.about.name, made.about.zone, made.units) == (CLEANED, "Europe/Lisbon", "us")
    assert made.about.currency == "EUR"
    shelves = [view.place for view in list_places(made) if view.place.kind == "shelf"]
    assert len(shelves) == 6
    assert not any(shelf.lit for shelf in shelves)


def test_without_a_book_nothing_else_opens_and_esc_asks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    async def story(pilot: Pilot[None]) -> None:
        for key in ("f2", "f3", "f4", "f5", "f6", "f7", "f8", "f10"):
            await press(pilot, key)
            assert isinstance(pilot.app.screen, BeginScreen)
        assert "There is no book yet" in said(pilot)
        await fill(pilot, racks="many")
        await press(pilot, "f9")
        assert "is not a number" in form(pilot).entries["racks"].wrong
        await press(pilot, "escape")
        assert "Close without making a book?" in screen_text(pilot)
        await press(pilot, "n")
        assert form(pilot).texts()["racks"] == "many"

    play(app_with_no_book(tmp_path / "new.book"), story)
    assert not (tmp_path / "new.book").exists()


@pytest.mark.parametrize("size", SIZES)
def test_the_handbook_opens_where_there_is_no_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    async def story(pilot: Pilot[None]) -> None:
        await fill(pilot, name="Cellar")
        await press(pilot, "ctrl+o")
        assert isinstance(pilot.app.screen, HandbookScreen)
        await press(pilot, "enter")
        assert "You need a terminal" in screen_text(pilot)
        await press(pilot, "f2")
        assert "There is no book yet" in said(pilot)
        await press(pilot, "escape", "end", "enter")
        assert "needs a book" in said(pilot)
        await press(pilot, "escape", "up", "h")  # from the save line, where letters are keys
        assert isinstance(pilot.app.screen, HandbookScreen)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, BeginScreen)
        assert form(pilot).texts()["name"] == "Cellar"
        await press(pilot, "f9")
        await until(pilot, lambda: "n sows the first batch" in said(pilot))

    play(app_with_no_book(tmp_path / "new.book"), story, size)


def test_a_path_that_is_taken_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    path = tmp_path / "new.book"

    async def story(pilot: Pilot[None]) -> None:
        path.write_text("mine")
        await fill(pilot, name="Cellar")
        await press(pilot, "f9")
        await until(pilot, lambda: "There is already a file" in said(pilot))
        assert form(pilot).texts()["name"] == "Cellar"

    play(app_with_no_book(path), story)
    assert path.read_text() == "mine"


# crop templates


@pytest.mark.parametrize("size", SIZES)
def test_a_new_version_changes_what_was_changed_alone(book: Book, size: tuple[int, int]) -> None:
    sow(book, SowDraft("radish", trays=1))
    before = show_template(book, "radish").template

    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, TemplateSubject("radish"))
        assert not screen.unsaved
        assert not screen.entries["name"].display
        lines = {
            name: text for name, text in screen.texts().items() if f"{name}-".startswith("stage-1-")
        }
        assert lines == {
            "stage-1": "weighted", "stage-1-seconds": "2d", "stage-1-cover": "weight",
            "stage-1-light": "dark", "stage-1-water": "mist 1", "stage-1-looks_per_day": "1",
        }  # fmt: skip
        preview = str(screen.query_one("#preview").render())
        for words in ("day 3", "Fri 09:00", "weight off, lid on (to blackout)", "starting guess"):
            assert words in preview, preview
        parts = {"stage-1-seconds": "60h", "stage-1-water": "mist 2", "stage-1-looks_per_day": ""}
        await fill(pilot, guess="n", why="slow", **parts)
        await press(pilot, "f9")
        await until(pilot, lambda: "radish is version 2 now." in said(pilot))

    play(LogbookApp(book), story, size)
    view = show_template(book, "radish")
    after = view.template
    assert after.stages[0] == Stage("weighted", 60 * 3600, "weight", "dark", "mist", 2.0, 0.0)
    assert after.stages[1:] == before.stages[1:]
    assert (after.guess, after.cut, after.seed_grams) == (False, before.cut, before.seed_grams)
    assert after.notes == before.notes
    newest = view.versions[0]
    assert (newest.number, newest.why) == (2, "slow")


def test_numbers_that_are_not_touched_keep_all_their_digits(book: Book) -> None:
    from dataclasses import replace

    from logbook.actions.crops.templates import put_template

    odd = replace(
        show_template(book, "radish").template,
        name="odd", seed_grams=123.4567, expected_grams=287.6543, soak_ph=6.1234567,
        tray=(511.2345, 254.0), spread_percent=12.3456789,
    )  # fmt: skip
    put_template(book, odd)

    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, TemplateSubject("odd"))
        await fill(pilot, medium="hemp")
        await press(pilot, "f9")
        await until(pilot, lambda: "version 2" in said(pilot))

    play(LogbookApp(book), story)
    after = show_template(book, "odd").template
    assert after == replace(odd, medium="hemp")


def test_stages_are_added_and_taken_out_by_their_lines(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, TemplateSubject("radish"))
        assert screen.entries["stage-4"].display
        assert not screen.entries["stage-5"].display
        assert screen.entries["stage-2-light"].display
        assert not screen.entries["stage-4-light"].display
        await fill(pilot, stage_2="", stage_4="rest")
        assert screen.entries["stage-5"].display
        assert not screen.entries["stage-2-light"].display
        await fill(pilot, **{"stage-4-light": "da"})
        await fill(pilot, stage_3="light: 3d lit bottom 1")
        await press(pilot, "f9")
        await until(pilot, lambda: "version 2" in said(pilot))

    play(LogbookApp(book), story)
    names = [stage.name for stage in show_template(book, "radish").template.stages]
    assert names == ["weighted", "light", "rest"]


def test_a_new_template_of_our_own(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, TemplateSubject())
        await fill(
            pilot, crop="field test", variety=NASTY, seed="100", tray="25x50cm", soak="4h",
            stage_1="weighted: 4d weight dark mist", stage_2="blackout", stage_3="light: lit bottom",
            **{"stage-2-seconds": "1d", "stage-2-cover": "lid", "stage-2-light": "dark"}, cut_from="2d", cut_best="60h", cut_by="4d", expected="500",
            sign_to_cut="first true leaves", spread="15", notes="[100%] one\ntwo",
        )  # fmt: skip
        await press(pilot, "f9")
        await until(pilot, lambda: "is version 1 now" in said(pilot))

    play(LogbookApp(book), story, (40, 20))
    made = show_template(book, f"field test, {CLEANED}").template
    assert made.cut == CutWindow(2 * 86_400, 60 * 3_600, 4 * 86_400)
    assert (made.seed_grams, made.expected_grams, made.spread_percent) == (100, 500, 15)
    assert made.tray == (500, 250)
    assert made.notes == "[100%] one\ntwo"
    assert [stage.water_per_day for stage in made.stages] == [1, 0, 1]


def test_a_copy_needs_another_name(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, TemplateSubject("radish", copy=True))
        await fill(pilot, name="Radish")
        await press(pilot, "f9")
        assert "already a template" in screen.entries["name"].wrong
        await fill(pilot, name="radish, thick")
        await press(pilot, "f9")
        await until(pilot, lambda: "radish, thick is version 1 now." in said(pilot))

    play(LogbookApp(book), story)
    view = show_template(book, "radish, thick")
    assert view.versions[0].why == "copied from radish version 1"
    assert view.template.stages == show_template(book, "radish").template.stages


WRONG = (
    ("crop", "", "The crop is empty"),
    ("stage-1", "x: -4d dark", "is negative"),
    ("stage-1-seconds", "-4d", "is negative"),
    ("stage-1-seconds", "", "only the last stage may go without one"),
    ("stage-1-light", "", "dark or lit"),
    ("stage-1-cover", "tent", "There is open, lid and weight"),
    ("stage-1-water", "look 2", "not a way of watering"),
    ("stage-2-water", "mist 99", "use 0, or 0.1 to 12"),
    ("stage-2-looks_per_day", "[/]", "is not a number"),
    ("stage-2", "x: dark", "only the last stage may go without one"),
    ("stage-2", "x: 1d dark mist 99", "use 0, or 0.1 to 12"),
    ("stage-2", "x: 1d [/]", '"[/]" is not a word for a stage'),
    ("cut_best", "", "is it best to cut"),
    ("cut_from", "9d", "must run from, best, by"),
    ("seed", "nan", "is not a number"),
    ("seed", "1e999", "unknown unit"),
    ("tray", "big", "must be like"),
    ("soak", "9d", "longer than a week"),
    ("soak_ph", "15", "0 to 14"),
    ("crop", "tomato", "nightshades contain poisonous alkaloids"),
    ("mucilage", "perhaps", "write y or n"),
    ("mucilage", "y", ""),
    ("spread", "900", "0 to 200"),
)


def test_what_is_wrong_with_a_template_stands_at_its_line(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, TemplateSubject("sunflower"))
        start = screen.texts()
        right: dict[str, str] = {}
        for name, text, sentence in WRONG:
            screen.body.put_texts({**right, name: text})
            right = {name: start[name]}
            await press(pilot, "f9")
            about = "soak" if text == "y" else name  # the soak is what must go
            await until(pilot, lambda about=about: bool(screen.entries[about].wrong))  # type: ignore[misc]
            assert sentence in screen.entries[about].wrong
            assert screen.texts()[name] == text
            assert screen.focused is screen.entries[about].line
        await press(pilot, "escape", "x")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))

    play(LogbookApp(book), story, (40, 20))
    assert show_template(book, "sunflower").template.version == 1


WANTED = {
    "want_light": ("many", "8-12", "daily light"),
    "want_lit_hours": ("30", "16", "0 to 25 h"),
    "want_temperature": ("200-300", "18-24", "temperature"),
    "want_humidity": ("40-130 %", "at most 65 %", "130 %"),
    "want_ph": ("5-15", "5.5-6.5", "must be 0 to 14"),
    "want_ec": ("1200", "0.8-1.6", "Write µS"),
    "want_water": ("-3 ml", "200-400 ml", "amount of water"),
}


def test_what_a_crop_wants_is_asked_line_by_line(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, TemplateSubject("radish"))
        for name, (wrong, right, sentence) in WANTED.items():
            screen.body.put_texts({name: wrong})
            await press(pilot, "f9")
            assert sentence in screen.entries[name].wrong
            screen.body.put_texts({name: right})
        await press(pilot, "f9")
        await until(pilot, lambda: "radish is version 2 now." in said(pilot))
        screen = await go(pilot, TemplateSubject("radish"))
        assert screen.texts()["want_temperature"] == "18 to 24 C"
        await fill(pilot, want_ph="")
        await press(pilot, "f9")
        await until(pilot, lambda: "radish is version 3 now." in said(pilot))

    play(LogbookApp(book), story)
    wishes = {
        "light": "8-12", "lit_hours": "16", "temperature": "18-24", "humidity": "at most 65",
        "ec": "0.8-1.6", "water": "200-400",
    }  # fmt: skip
    assert show_template(book, "radish").template.targets == targets_from(wishes)


def test_a_template_that_is_saved_unchanged_gets_no_new_version(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, TemplateSubject("radish"))
        await press(pilot, "f9")
        await until(pilot, lambda: "Nothing changed" in said(pilot))

    play(LogbookApp(book), story)
    assert show_template(book, "radish").template.version == 1


def test_two_templates_are_two_drafts(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, TemplateSubject("radish"))
        await fill(pilot, why="for radish")
        await press(pilot, "escape", "k")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        screen = await go(pilot, TemplateSubject("kale"))
        assert screen.texts()["crop"] == "kale"
        assert screen.texts()["why"] == ""
        await press(pilot, "escape")
        screen = await go(pilot, TemplateSubject("radish"))
        assert (screen.texts()["crop"], screen.texts()["why"]) == ("radish", "for radish")
        assert "not saved yet" in said(pilot)

    play(LogbookApp(book), story)


def test_sowing_from_a_template_fills_in_its_crop(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, SowSubject("kale"))
        assert form(pilot).texts()["template"] == "kale"
        assert not form(pilot).unsaved

    play(LogbookApp(book), story)


# places


def test_a_shelf_is_added_under_the_last_rack(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, PlaceSubject())
        await fill(pilot, name="Dark [/] shelf", slots="6", lamps="none")
        assert "A shelf, Rack 1/Dark [/] shelf" in flat(pilot).replace("- ", "-")
        await press(pilot, "f9")
        await until(pilot, lambda: "is added." in said(pilot))

    play(LogbookApp(book), story, (40, 20))
    place = list_places(book)[-1].place
    assert (place.kind, place.slots, place.lit) == ("shelf", 6, False)


def test_a_rack_has_a_name_alone(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, PlaceSubject())
        await fill(pilot, kind="rack", name="Rack 9")
        shown_lines = [name for name, entry in screen.entries.items() if entry.display]
        assert shown_lines == ["kind", "name", "under"]
        await press(pilot, "f9")
        await until(pilot, lambda: "Rack 9 is added." in said(pilot))

    play(LogbookApp(book), story)
    assert list_places(book)[-1].place.kind == "rack"


def test_a_place_is_changed_and_its_faults_stand_at_their_lines(book: Book) -> None:
    sow(book, SowDraft("radish", trays=3))

    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, PlaceSubject("Rack 1/Shelf 1"))
        assert screen.texts() == {
            "kind": "shelf", "name": "Shelf 1", "under": "", "slots": "4",
            "lamps": "06:00-22:00",
        }  # fmt: skip
        for name, text, sentence in (
            ("name", "shelf 2", "There is already a"),
            ("name", "", "at least one letter"),
            ("slots", "2", "holds 3 trays"),
            ("slots", "1000", "from 1 to 100"),
            ("lamps", "dawn to dusk", "like 06:00-22:00"),
            ("lamps", "06:00-06:00", "Both times are 06:00"),
        ):
            await fill(pilot, **{"name": "Top", "slots": "4", "lamps": "6-22", name: text})
            await press(pilot, "f9")
            await until(pilot, lambda name=name: bool(screen.entries[name].wrong))  # type: ignore[misc]
            assert sentence in screen.entries[name].wrong
        await fill(pilot, name="Top", slots="5", lamps="05:30-21:00")
        await press(pilot, "f9")
        await until(pilot, lambda: "Rack 1/Top is changed." in said(pilot))
        await settle(pilot)

    play(LogbookApp(book), story)
    top = next(view for view in list_places(book) if view.place.name == "Top")
    assert (top.place.slots, top.place.lamp_on, top.place.lamp_off) == (5, 330, 1260)
    assert top.used == 3


# the room


@pytest.mark.parametrize("size", SIZES)
def test_the_room_is_changed_from_the_list_of_places(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f10", "home", "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoomScreen))
        for name, wrong, sentence in (
            ("units", "stone", "metric and us"),
            ("first_day", "2", "Write 1"),
            ("day", "19:00-07:00", "like 07:00-19:00"),
            ("day", "none", "like 07:00-19:00"),
        ):
            before = form(pilot).texts()[name]
            await fill(pilot, **{name: wrong})
            await press(pilot, "f9")
            assert sentence in form(pilot).entries[name].wrong
            await fill(pilot, **{name: before})
        await fill(pilot, name="[/] Cellar", units="us", first_day="0", day="6-20")
        await press(pilot, "f9")
        await until(pilot, lambda: "[/] Cellar is changed" in said(pilot))

    play(LogbookApp(book), story, size)
    about = book.about
    assert (about.name, about.units, about.first_day) == ("[/] Cellar", "us", 0)
    assert (about.day_start, about.day_end) == (360, 1200)
