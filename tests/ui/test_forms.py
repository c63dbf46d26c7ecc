"""Forms: going from line to line, saving, what is wrong, what is kept, leaving."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widget import Widget
from textual.widgets import Input

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.ui.app import LogbookApp
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.screens.trays.sow import SowScreen
from logbook.ui.subjects import Chosen, PlaceSubject, SowSubject
from logbook.ui.widgets.form_lines import FormInput, FormNote, SaveLine, matches, picked
from tests.room import field_test
from tests.ui.forms_room import (
    CLEANED,
    NASTY,
    SIZES,
    burst,
    fill,
    flat,
    form,
    go,
    make_book,
    paste,
    play,
)
from tests.ui.steps import press, said, screen_text, sees, settle, until


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    return make_book(tmp_path, monkeypatch)


@pytest.mark.parametrize("size", SIZES)
def test_four_trays_of_kale_are_six_keys(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "k", "a", "enter", "4", "f9")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        assert "Batch 1 sown: kale, 101–104 on Rack 1/Shelf 1." in " ".join(said(pilot).split())

    play(LogbookApp(book), story, size)
    batch = batch_page(book, "1")
    assert [tray.number for tray in batch.trays] == [101, 102, 103, 104]
    assert batch.template_name == "kale"


@pytest.mark.parametrize("key", ["n", "i w"])
def test_the_line_that_one_is_in_stays_in_sight_on_five_lines(book: Book, key: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        def in_sight() -> bool:
            screen, line = pilot.app.screen, pilot.app.focused
            return (
                not isinstance(line, Input) or screen.find_widget(line).visible_region.height == 1
            )

        await press(pilot, *key.split())
        for _ in range(6):
            await press(pilot, "down")
            await until(pilot, in_sight)

    play(LogbookApp(book), story, (20, 5))


def test_keys_that_come_in_one_burst_reach_the_lines_they_were_meant_for(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await burst(pilot, "n", "k", "a", "enter", "4", "down", "down", "down", "2", "enter", "f9")
        await until(pilot, lambda: "101–104 on Rack 1/Shelf 2" in flat(pilot))
        await settle(pilot)
        await burst(pilot, "slash", "w", "e", "t")
        await until(pilot, lambda: "wet" in screen_text(pilot))

    play(LogbookApp(book), story)
    assert {line.kind for line in page(book)} == {"sow"}


@pytest.mark.parametrize("size", SIZES)
def test_the_preview_says_seed_soak_changes_cut_and_places(
    book: Book, size: tuple[int, int]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await fill(pilot, template="radish", trays="6", place="Rack 1/Shelf 2", soaked="06:00")
        text = str(pilot.app.screen.query_one("#preview").render())
        for words in (
            "radish: 6 trays 101–106",
            "seed 225 g (37.5 g per tray)",
            "soak 06:00",
            "weight off, lid on Fri 09:00",
            "lid off, under lights Sat 09:00",
            "cut from Tue 09:00, best Thu 9 Apr 09:00",
            "Rack 1/Shelf 2 has room for only 4 of the 6 trays.",
            "105 106 on Rack 1/Shelf 1",
        ):
            assert words in text, text
        hint = form(pilot).entries["grams"].hint
        assert "37.5 g by the template" in str(hint.render())
        assert "101–106" in str(form(pilot).entries["numbers"].hint.render())
        seen = [screen_text(pilot)]
        for _ in range(3):
            await press(pilot, "pagedown")
            seen.append(screen_text(pilot))
        assert any("cut from" in each for each in seen)

    play(LogbookApp(book), story, size)


def test_every_line_of_a_sowing_is_written(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await fill(
            pilot, template="sun", trays="2", at="07:30", place="1/2", numbers="7 9", lot=NASTY,
            grams="1,5 oz", soaked="yesterday 21:00", colours="red, blue", note="two\nlines",
        )  # fmt: skip
        await press(pilot, "f9")
        await until(pilot, lambda: "Batch 1 sown" in said(pilot))

    play(LogbookApp(book), story)
    batch = batch_page(book, "1")
    assert [(tray.number, tray.colour) for tray in batch.trays] == [(7, "red"), (9, "blue")]
    assert batch.lot == CLEANED
    assert batch.seed_grams == pytest.approx(1.5 * 28.349523125)
    assert [(line.kind, line.at.isoformat()[:16]) for line in batch.past] == [
        ("soak", "2026-03-31T20:00"),
        ("sow", "2026-04-01T06:30"),
    ]
    assert batch.past[1].note == "two\nlines"
    assert tray_page(book, 7).tray.place == "Rack 1/Shelf 2"


@pytest.mark.parametrize("size", SIZES)
def test_a_sowing_asks_how_the_seed_was_soaked(book: Book, size: tuple[int, int]) -> None:
    put_template(book, field_test())

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await fill(pilot, template="field test", trays="1")
        await press(pilot, "f9")
        await until(pilot, lambda: bool(form(pilot).entries["soaked"].wrong))
        words = 'The template has 4 h, so since 05:00. Or "dry"; or "now" to soak it now and sow it 13:00.'
        assert words in form(pilot).entries["soaked"].wrong
        await press(pilot, "now", "f9")
        await until(pilot, lambda: "Batch 1 planned, in water since 09:00: " in said(pilot))
        # planned trays of which nothing is said are asked about when they are sown
        sow(book, SowDraft("field test", numbers=(7,), plan=True))
        keys = pilot.app.screen
        assert isinstance(keys, RoundScreen)
        keys.run_worker(keys.do_chore(Chosen((7,), "sow", "sow")))
        await until(pilot, lambda: "From which seed lot?" in flat(pilot))
        await press(pilot, "enter")
        await until(pilot, lambda: "When did the soak begin?" in flat(pilot))
        await press(pilot, "soon", "enter")
        await until(pilot, lambda: "soon" in flat(pilot))
        assert tray_page(book, 7).tray.status == "planned"
        await press(pilot, *["backspace"] * 4, "dry", "enter")
        await until(pilot, lambda: tray_page(book, 7).tray.status == "growing")

    play(LogbookApp(book), story, size)
    assert [line.kind for line in page(book)][-4:] == ["plan", "soak", "plan", "sow"]


def test_a_time_to_come_plans_the_batch(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await fill(pilot, template="pea", trays="2", at="2026-04-03T10:00")
        assert "planned" in screen_text(pilot)
        await press(pilot, "f9")
        await until(pilot, lambda: "Batch 1 planned: pea shoots, 101 102." in said(pilot))

    play(LogbookApp(book), story)
    assert batch_page(book, "1").sown_at is None


WRONG = (
    ("template", "dragonfruit", 'There is no crop "dragonfruit".'),
    ("template", "r", "type more of it"),
    ("trays", "0", "whole number from 1 to 500"),
    ("trays", "10000", "whole number from 1 to 500"),
    ("at", "soon", "isn't a time"),
    ("at", "1999-01-01T07:00", "more than two years ago"),
    ("at", "2099-01-01T07:00", "more than a year ahead"),
    ("place", "attic", 'There is no place "attic".'),
    ("numbers", "52-55", "In use already"),
    ("numbers", "1-9", "Give as many numbers as trays"),
    ("grams", "-3", "seed per tray must be"),
    ("grams", "[/]", "is not a number"),
    ("soaked", "tomorrow 18:00", "soak begins before the sowing"),
    ("colours", "red, blue, green", "one colour mark for all trays"),
    ("lot", "x" * 10_000, "use up to 80"),
)


@pytest.mark.parametrize("size", SIZES)
def test_what_is_wrong_stands_at_its_line_and_nothing_is_lost(
    book: Book, size: tuple[int, int]
) -> None:
    sow(book, SowDraft("radish", trays=1, numbers=(55,)))
    good = {"template": "radish", "trays": "4", "soaked": "dry", "note": "keep me"}

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        screen = form(pilot)
        for name, text, sentence in WRONG:
            await fill(pilot, **(dict.fromkeys(screen.entries, "") | good | {name: text}))
            await press(pilot, "f9")
            await until(pilot, lambda name=name: bool(screen.entries[name].wrong))  # type: ignore[misc]
            wrong = {each: entry.wrong for each, entry in screen.entries.items() if entry.wrong}
            assert list(wrong) == [name]
            assert sentence in wrong[name]
            assert {**good, name: text}.items() <= screen.texts().items()
            assert screen.focused is screen.entries[name].line
            assert sentence.split()[-1] in flat(pilot)

    play(LogbookApp(book), story, size)
    assert len(page(book)) == 1  # the sowing of tray 55


def test_a_complaint_goes_as_soon_as_it_is_met(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "down", "x", "down")
        entry = form(pilot).entries["trays"]
        assert "not a number" in entry.wrong
        await press(pilot, "up", "backspace", "3")
        assert not entry.wrong

    play(LogbookApp(book), story)


@pytest.mark.parametrize(("to", "size"), [("room", (80, 24)), ("sow", (40, 20))])
def test_every_line_comes_into_view_with_down_and_up(
    book: Book, to: str, size: tuple[int, int]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, to)
        lines: list[Widget] = [entry.line for entry in screen.entries.values() if entry.display]
        lines.append(screen.query_one(SaveLine))
        for line in lines:
            assert screen.focused is line
            await until(pilot, lambda line=line: screen.can_view_entire(line))  # type: ignore[misc]
            await press(pilot, "down")
        assert screen.focused is lines[0]
        before: Widget = lines[0]
        for line in reversed(lines):
            await press(pilot, "up")
            while screen.focused is before and isinstance(before, FormNote):
                await press(pilot, "up")  # a note of several lines has its own ups
            assert screen.focused is line
            before = line

    play(LogbookApp(book), story, size)


def test_letters_are_letters_and_f_keys_are_commands(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        form(pilot).set_focus(form(pilot).entries["lot"].line)
        await press(pilot, "wnrqgu", "question_mark", "colon", "slash")
        assert form(pilot).texts()["lot"] == "wnrqgu?:/"
        await press(pilot, "f2")
        assert "This form is not saved" in screen_text(pilot)
        await press(pilot, "escape")
        assert form(pilot).texts()["lot"] == "wnrqgu?:/"
        for key in ("f6", "f7"):
            form(pilot).set_focus(form(pilot).entries["note"].line)
            await press(pilot, key)
        assert "This form is not saved" in screen_text(pilot)

    play(LogbookApp(book), story)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    ("line", "typed"), [("template", ""), ("template", "rad"), ("trays", "4"), ("lot", "")]
)
def test_a_question_mark_that_is_no_part_of_an_answer_gives_help(
    book: Book, size: tuple[int, int], line: str, typed: str
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        assert "? more" in screen_text(pilot)
        form(pilot).set_focus(form(pilot).entries[line].line)
        await press(pilot, *filter(None, [typed]), "question_mark")
        assert "Sow a batch now" in flat(pilot)
        await press(pilot, "escape")
        assert form(pilot).texts()[line] == typed

    play(LogbookApp(book), story, size)


@pytest.mark.parametrize("key", ["escape", "f2"])
def test_leaving_keeps_saves_or_throws_away(book: Book, key: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "kale", "down", "3", key)
        await press(pilot, "k")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        await press(pilot, "n")
        assert form(pilot).texts()["trays"] == "3"
        await press(pilot, key)
        await press(pilot, "s")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        await until(pilot, lambda: "Batch 1 sown" in said(pilot))
        await press(pilot, "n")
        assert not form(pilot).unsaved
        assert not any(form(pilot).texts().values())
        await press(pilot, "x", key)
        await press(pilot, "x")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        await press(pilot, "n")
        assert not form(pilot).unsaved
        await press(pilot, key)
        assert isinstance(pilot.app.screen, RoundScreen)

    play(LogbookApp(book), story)
    assert batch_page(book, "1").trays


def test_saving_twice_at_once_sows_once(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await burst(pilot, "n", "kale", "enter", "2", "f9", "f9", "f9")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))

    play(LogbookApp(book), story)
    assert [line.kind for line in page(book)].count("sow") == 1


def test_what_was_typed_is_offered_when_the_app_opens_again(book: Book) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "kale", "down", "7")

    async def second(pilot: Pilot[None]) -> None:
        await until(pilot, lambda: "kale 7" in screen_text(pilot))
        await press(pilot, "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, SowScreen))
        await settle(pilot)
        assert (form(pilot).texts()["template"], form(pilot).texts()["trays"]) == ("kale", "7")
        await press(pilot, "f9")
        await until(pilot, lambda: "Batch 1 sown" in said(pilot))

    async def third(pilot: Pilot[None]) -> None:
        assert "Not saved last time" not in screen_text(pilot)

    for story in (first, second, third):
        play(LogbookApp(book), story)


def test_a_place_that_one_came_from_is_filled_in_once(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, SowSubject(place="Rack 1/Shelf 2"))
        assert form(pilot).texts()["place"] == "Rack 1/Shelf 2"
        assert not form(pilot).unsaved
        await press(pilot, "escape", "n")
        assert form(pilot).texts()["place"] == ""

    play(LogbookApp(book), story)


@pytest.mark.parametrize("size", SIZES)
def test_nasty_text_is_pasted_whole_and_clean(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        screen = form(pilot)
        screen.set_focus(screen.entries["lot"].line)
        await paste(pilot, NASTY)
        assert screen.texts()["lot"] == CLEANED
        screen.set_focus(screen.entries["note"].line)
        await paste(pilot, "first\nsecond " + "long " * 2_000)
        assert screen.texts()["note"].startswith("first\nsecond long")
        assert len(screen.texts()["note"]) > 10_000
        assert screen.can_view_partial(screen.entries["note"].line)
        screen.set_focus(screen.entries["place"].line)
        await paste(pilot, "one\ntwo")
        assert screen.texts()["place"] == "one two"
        assert "\x1b" not in screen_text(pilot)

    play(LogbookApp(book), story, size)


def test_a_note_has_lines_and_lets_the_arrows_go_on(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        screen = form(pilot)
        note = screen.entries["note"].line
        assert isinstance(note, FormNote)
        screen.set_focus(note)
        await press(pilot, "a", "ctrl+j", "b")
        assert screen.texts()["note"] == "a\nb"
        await press(pilot, "up")
        assert screen.focused is note
        await press(pilot, "up")
        assert screen.focused is screen.entries["colours"].line
        await press(pilot, "down", "down", "down")
        assert isinstance(screen.focused, SaveLine)

    play(LogbookApp(book), story)


def test_enter_on_the_save_line_saves_and_letters_there_are_commands(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "up", "question_mark")
        assert "Sow a batch now" in flat(pilot)
        await press(pilot, "escape")
        await fill(pilot, template="kale", trays="1")
        await press(pilot, "enter")
        await until(pilot, lambda: "Batch 1 sown" in said(pilot))

    play(LogbookApp(book), story)


def test_what_another_program_writes_leaves_the_typing_alone(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "kal")
        jot(book, (), "from elsewhere")
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.look_at_file()
        app.tick()
        await settle(pilot)
        assert form(pilot).texts()["template"] == "kal"
        assert isinstance(pilot.app.focused, FormInput)

    play(LogbookApp(book), story)


def test_no_line_blinks(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        assert not any(line.cursor_blink for line in pilot.app.screen.query(Input))
        assert not any(line.cursor_blink for line in pilot.app.screen.query(FormNote))

    play(LogbookApp(book), story)


def test_a_part_of_a_name_is_enough() -> None:
    shelves = ["Rack 1/Shelf 1", "Rack 1/Shelf 2", "Rack 2/Shelf 1", "Rack 2/Shelf 2"]
    assert picked("2/1", shelves, "place") == "Rack 2/Shelf 1"
    assert picked("rack 1/shelf 2", shelves, "place") == "Rack 1/Shelf 2"
    assert matches("shelf 1", shelves) == ["Rack 1/Shelf 1", "Rack 2/Shelf 1"]
    assert matches("[/]", shelves) == []
    assert matches("pea", ["pea", "pea shoots"]) == ["pea"]


def test_a_list_is_walked_from_what_is_typed(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n", "r")
        names = [name for name in form(pilot).view.templates if name.startswith("r")]
        await sees(pilot, f"> {names[0]}")
        await press(pilot, "down")
        await sees(pilot, f"> {names[1]}")
        await press(pilot, "enter")
        form(pilot).set_focus(form(pilot).entries["place"].line)
        await press(pilot, "right", "down", "enter")
        texts = form(pilot).texts()
        assert (texts["template"], texts["place"]) == (names[1], [*form(pilot).view.places][1])

    play(LogbookApp(book), story)


def test_typing_replaces_what_was_offered_and_the_last_line_saves(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await go(pilot, PlaceSubject(""))
        await press(pilot, "down", "T", "o", "p", "down", "down", "2")
        assert screen.texts()["slots"] == "2"
        await press(pilot, "down", "enter")
        await until(pilot, lambda: "Top" in said(pilot))

    play(LogbookApp(book), story)


def test_a_question_gives_help_and_f9_saves_a_jot(book: Book) -> None:
    sow(book, SowDraft("radish", trays=1, numbers=(55,)))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "55", "enter", "j", "question_mark")
        await sees(pilot, "nothing is written")
        await press(pilot, "escape", "d", "r", "y", "question_mark", "f9")
        assert page(book)[-1].note == "dry?"

    play(LogbookApp(book), story)
