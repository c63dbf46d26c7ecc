"""Any text in any line of any form or question: a clear sentence, or it is in the book as typed."""

from __future__ import annotations

import asyncio
import math
import shutil
import sqlite3
from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from textual.events import Paste
from textual.pilot import Pilot

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import begin_book
from logbook.actions.trays.noticing import look
from logbook.clock import FixedClock
from logbook.growing.page_filter import parse_filter
from logbook.growing.room.air import air_from
from logbook.growing.room.light import read_grid
from logbook.growing.room.outages import outage_from
from logbook.growing.room.water_reading import quality_from, watering_from
from logbook.growing.trays.till import parse_till
from logbook.growing.trials.criteria import read_weights
from logbook.growing.when import parse_when
from logbook.text import HARMFUL, Refused, clean, clean_name, clean_words
from logbook.ui.app import LogbookApp
from logbook.ui.deeds import one_number
from logbook.ui.forms.asking import why_asked
from logbook.ui.forms.cost_forms import rate_form
from logbook.ui.forms.form import FormScreen
from logbook.ui.forms.look_form import look_form
from logbook.ui.forms.meter_form import MeterForm
from logbook.ui.forms.power_forms import circuit_form, lamps_form, tariff_form
from logbook.ui.screen import LogScreen
from logbook.ui.screens.crops.template import TemplateScreen
from logbook.ui.screens.help.begin import BeginScreen
from logbook.ui.screens.room.place import PlaceScreen
from logbook.ui.screens.trays.sheet import SheetScreen
from logbook.ui.screens.trays.sow import SowScreen
from logbook.ui.screens.trials.trial_form import TrialFormScreen, read_parts
from logbook.ui.tasting_keys import read_said
from tests.actions.room_book import lit_batch, moment, room_book
from tests.nasty import TEXT
from tests.ui.racks_book import SIZES, walk
from tests.ui.steps import press, screen_text, settle

NOW = moment(4, 10)
TODAY = date(2026, 4, 4)


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two radish trays in the light since 1 April."""
    book = room_book(tmp_path_factory.mktemp("room"))
    lit_batch(book)
    return book.file.path


def opened(path: Path, folder: str | Path) -> Book:
    """Give a copy of a book, open; it is 10:00 on the 4th."""
    return open_book(Path(shutil.copy(path, folder)), FixedClock(NOW), "ab")


def harmless(words: str) -> None:
    """Check that words may be shown."""
    assert not HARMFUL.search(words.replace("\n", " ")), ascii(words)


def sentence(refused: Refused) -> None:
    """Check that a refusal says something that may be shown."""
    assert str(refused)
    harmless(str(refused))


def whole_and_clean(path: Path) -> None:
    """Check that a book holds no text that harms and no number that is none."""
    with closing(sqlite3.connect(path)) as connection:
        for (table,) in connection.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table'"
        ).fetchall():
            for row in connection.execute(f"SELECT * FROM {table}"):
                for value in row:
                    if isinstance(value, str):
                        harmless(value)
                    elif isinstance(value, float):
                        assert math.isfinite(value), (table, row)


# forms


@dataclass
class Line:
    """A line of a form without its screen."""

    text: str
    changed: bool = True


@dataclass
class Filled:
    """A form without its screen: its lines, filled with what can be saved."""

    screen: FormScreen
    texts: dict[str, str]

    def values(self, changed: Mapping[str, str]) -> dict[str, Any]:
        """Read the lines with some of them changed; raise Refused."""
        texts = {each.name: each.start for each in self.screen.fields()} | self.texts
        texts |= {name: clean(text) for name, text in changed.items()}
        vars(self.screen)["entries"] = {name: Line(text) for name, text in texts.items()}
        return {
            each.name: each.value(texts[each.name]) for each in self.screen.fields() if each.shown
        }


FORMS: dict[str, tuple[type[FormScreen], str, dict[str, str]]] = {
    "sow": (SowScreen, "", {"template": "radish", "trays": "1", "soaked": "dry"}),
    "sheet": (SheetScreen, "", {"line-1": "water 7:30 101"}),
    "begin": (BeginScreen, "", {"zone": "Europe/Lisbon"}),
    "a new template": (TemplateScreen, "", {"crop": "sorrel", "stage-1": "weighted: 4d, weight, dark, mist 1, look 1", "stage-2": "light: 4d, lit, look 1", "cut_best": "60h"}),
    "a template": (TemplateScreen, "edit radish", {"notes": "sow thinly"}),
    "a new place": (PlaceScreen, "", {"name": "Shelf 9"}),
    "a place": (PlaceScreen, "Rack 1/Shelf 2", {}),
    "a trial": (
        TrialFormScreen,
        "",
        {"name": "salt", "crop": "radish", "factor": "density", "arm-1": "a=20g; b=30g"},
    ),
}  # fmt: skip


def filled(name: str, app: LogbookApp) -> Filled:
    """Give a form as it is after its first look into the book."""
    kind, about, texts = FORMS[name]
    screen = kind()
    screen.about = about
    if isinstance(screen, BeginScreen):
        screen.view = ("Europe/Lisbon", ("Europe/Lisbon", "Europe/London", "UTC"))
    else:
        screen.view = screen.load(app.book)
    return Filled(screen, texts)


@pytest.mark.parametrize("name", FORMS)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_a_form_takes_any_text_or_says_what_is_wrong(
    room: Path, name: str, data: st.DataObject
) -> None:
    with TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
        book = opened(room, folder)
        app = LogbookApp(book, begin=partial(begin_book, Path(folder, "new.book")))
        patch.setattr(LogScreen, "logbook", app)
        patch.setattr(LogScreen, "book", book)
        patch.setattr(LogbookApp, "use_book", lambda _app, _book: None)
        form = filled(name, app)
        names = [field.name for field in form.screen.fields()]
        changed = data.draw(
            st.dictionaries(st.sampled_from(names), TEXT, min_size=1, max_size=3), label="typed"
        )
        try:
            values = form.values(changed)
            shown = form.screen.preview(values)
            said = asyncio.run(form.screen.write(values))
        except Refused as refused:
            sentence(refused)
            return
        for line in shown.lines:
            harmless(line.plain)
        harmless(said)
        for path in Path(folder).glob("*.book"):
            whole_and_clean(path)
        note = clean(changed.get("note", ""))
        if name == "sow" and note:
            with book.reading() as reading:
                assert reading.row("SELECT 1 FROM entry WHERE note = ?", (note,))


def test_the_forms_can_be_saved_as_they_are_filled_here(room: Path) -> None:
    """Else the test above would prove less than it says."""
    for name in FORMS:
        with TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
            book = opened(room, folder)
            new = Path(folder, "new.book")
            app = LogbookApp(book, begin=partial(begin_book, new))
            patch.setattr(LogScreen, "logbook", app)
            patch.setattr(LogScreen, "book", book)
            patch.setattr(LogbookApp, "use_book", lambda _app, _book: None)
            form = filled(name, app)
            assert asyncio.run(form.screen.write(form.values({}))), name


# questions


def metered(text: str) -> None:
    """Read a text as each line of the walk with the meter."""
    form = MeterForm("Shelf", "metric")
    for field in form.fields()[:4]:
        field.value(text)
    form.answers["meter"] = "white LED"
    form.fields()[3].value(text)


def fields_of(form: Any) -> Callable[[str], object]:
    """Give a reader that puts a text into each of the lines in turn."""

    def read(text: str) -> object:
        said = []
        for name in (each.name for each in form.fields):
            texts = {**VALID, name: clean_typed(text)}
            try:
                said.append(
                    form.make({each.name: each.value(texts[each.name]) for each in form.fields})
                )
            except Refused as refused:
                said.append(str(refused))
        return said

    return read


VALID = {"lamps": "2", "watts": "18", "price": "0.3", "since": "", "hours": "", "other": "",
         "name": "c", "breaker": "15", "volts": "120", "places": "", "amps": "", "kind": "",
         "light": "", "height": "", "bought": ""}  # fmt: skip


def clean_typed(text: str) -> str:
    """Give what a line of the screen can hold of a text."""
    return text.strip()


QUESTIONS: dict[str, Callable[[str], object]] = {
    "when": lambda text: parse_when(text, NOW, NOW.tzinfo),  # type: ignore[arg-type]
    "part": one_number,
    "place": lambda text: clean_name(text, "place"),
    "reason": lambda text: why_asked("why?").read(text),
    "page": lambda text: parse_filter(text, NOW, NOW.tzinfo),  # type: ignore[arg-type]
    "air": lambda text: air_from(text, "us"),
    "water": quality_from,
    "watering": lambda text: watering_from(text, NOW, ZoneInfo("UTC"), "us"),
    "grid": read_grid,
    "meter": metered,
    "weigh-in": lambda text: parse_till(text, 101, "metric"),
    "what counts": read_weights,
    "taste": read_said,
    "parts": read_parts,
    "lamps": fields_of(lamps_form("Shelf", "metric", None, TODAY)),
    "price": fields_of(tariff_form(TODAY)),
    "cost": fields_of(rate_form("", None, ("radish",), date.fromisoformat)),
    "outage": lambda text: outage_from(text, NOW, ZoneInfo("UTC")),
    "circuit": fields_of(circuit_form(None)),
}


@pytest.mark.parametrize("asked", QUESTIONS)
@settings(max_examples=60, deadline=None)
@given(text=TEXT)
def test_a_question_reads_any_text_or_says_what_is_wrong(asked: str, text: str) -> None:
    try:
        answer = QUESTIONS[asked](text)
    except Refused as refused:
        sentence(refused)
    else:
        assert "nan" not in str(answer).casefold().replace(clean(text).casefold(), "")


@settings(max_examples=60, deadline=None)
@given(texts=st.dictionaries(st.sampled_from(
    ["sign", "emerged", "height", "mould", "wilting", "cotyledons", "leaves", "stem", "hulls",
     "uneven", "note"]), TEXT, min_size=1, max_size=4))  # fmt: skip
def test_a_look_is_written_as_it_was_typed_or_refused(room: Path, texts: dict[str, str]) -> None:
    with TemporaryDirectory() as folder:
        book = opened(room, folder)
        try:
            form = look_form("Look", "true leaves", "metric")
            seen = form.make(
                {each.name: each.value(texts.get(each.name, "")) for each in form.fields}
            )
            look(book, [101], seen.look, seen.note)
        except Refused as refused:
            sentence(refused)
            return
        assert seen.look.stem_colour == clean_words(texts.get("stem", ""), "", 200)
        assert seen.look.uneven == clean_words(texts.get("uneven", ""), "", 200)
        whole_and_clean(book.file.path)


# on the screen


@pytest.mark.parametrize("size", SIZES)
@settings(max_examples=2, deadline=None, phases=[Phase.generate])
@given(texts=st.lists(TEXT, min_size=4, max_size=4))
def test_any_text_on_the_screen_is_shown_without_terminal_codes(
    room: Path, size: tuple[int, int], texts: list[str]
) -> None:
    """Some are pasted into the jot and typed into the sowing form, and sent."""

    async def story(pilot: Pilot[None]) -> None:
        for text in texts[:2]:
            await press(pilot, "j")
            pilot.app.post_message(Paste(text))
            await settle(pilot)
            await press(pilot, "enter")
            harmless(screen_text(pilot))
            await press(pilot, "escape")
        await press(pilot, "n")
        for text in texts[2:]:
            form = pilot.app.screen
            assert isinstance(form, FormScreen)
            form.body.put_texts({"template": "radish", "trays": text, "note": text, "lot": text})
            await settle(pilot)
            await press(pilot, "f9")
            harmless(screen_text(pilot))
            if pilot.app.screen is not form:
                break

    with TemporaryDirectory() as folder:
        book = opened(room, folder)
        walk(book, story, size)
        whole_and_clean(book.file.path)
