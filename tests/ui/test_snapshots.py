"""Every screen, at both sizes, in an empty book, in the sample and with nasty text."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.crops.templates import put_template
from logbook.actions.room.places import PlaceDraft, add_place
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trials.finding import list_trials
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from logbook.ui.subjects import (
    AirSubject,
    BatchSubject,
    ChapterSubject,
    PlaceSubject,
    TemplateSubject,
    TraySubject,
    TrialSubject,
)
from sample_db import build
from tests.room import field_test
from tests.ui.racks_book import NASTY
from tests.ui.snapshots import Scene, compare, draw, first_tray

NOW = datetime(2026, 4, 14, 6, 42, tzinfo=UTC)
SIZES = [(80, 24), (40, 20)]
NAME = '[b] "Möhre" 景 🌱'


def empty(path: Path) -> Book:
    """Make a book in which nothing has happened."""
    return begin_book(
        path, BeginDraft("Grow room", "Europe/London", racks=2), FixedClock(NOW), "ab"
    )


def sample(path: Path) -> Book:
    """Make the sample book."""
    book = build(path, NOW, zone="Europe/London", clock=FixedClock(NOW))
    book.by = "ab"
    return book


def nasty(path: Path) -> Book:
    """Make a book whose names and notes are hard to draw."""
    book = begin_book(path, BeginDraft(NAME, "Europe/London", racks=1), FixedClock(NOW), "[b]🌱")
    add_place(book, PlaceDraft(f"Rack {NAME}", kind="rack"))
    shelf = add_place(book, PlaceDraft(f"{NAME} " + "long " * 8, under=f"Rack {NAME}"))
    put_template(book, field_test(crop=NAME, variety="[100%] " + "ö" * 40, sign_to_cut="[/b] 景"))
    name = f"{NAME}, [100%] " + "ö" * 40
    sow(book, SowDraft(name, trays=3, place=shelf.path, lot=NASTY, colours=("[red]",)))
    jot(book, [101], f"{NASTY}\nsecond line " + "word " * 40)
    book.clock = FixedClock(datetime(2026, 4, 15, 17, tzinfo=UTC))
    return book


def new() -> LogbookApp:
    """Give the app when there is no book yet."""
    return LogbookApp(None, new_path=Path("/home/grower/room.book"))


BOOKS: dict[str, Callable[[Path], Book]] = {"empty": empty, "sample": sample, "nasty": nasty}


ALIKE: dict[str, Scene] = {
    "room": ("room", ()),
    "sow": ("sow", ()),
    "template": (TemplateSubject(), ()),
    "place": (PlaceSubject(), ()),
    "trial_form": ("trial_form", ()),
    "handbook": ("handbook", ()),
    "chapter": (ChapterSubject("day"), ()),
    "round, help": ("round", ("question_mark",)),
    "round, go to": ("round", ("g",)),
}
"""What looks the same in every book."""
LISTS = (
    "round", "racks", "due", "page", "weigh", "templates", "places", "light", "air", "bills",
    "trials",
)  # fmt: skip
OF_ONE = ("tray", "batch", "trial", "round, jot", "round, look", "round, skip")
NAMES = (*LISTS, *OF_ONE, *ALIKE, "begin")


def scenes(book: Book, *, alike: bool) -> dict[str, Scene]:
    """Name what is drawn of a book."""
    found: dict[str, Scene] = {name: (name, ()) for name in LISTS} | {"air": (AirSubject(), ())}
    if alike:
        found |= ALIKE
    number, trial = first_tray(book), next(iter(list_trials(book)), None)
    if number is not None:
        found |= {
            "tray": (TraySubject(number), ()),
            "batch": (BatchSubject(tray_page(book, number).tray.batch), ()),
            "round, jot": ("round", ("j",)),
            "round, look": ("round", ("l",)),
            "round, skip": ("round", ("s",)),
        }
    if trial is not None:
        found["trial"] = (TrialSubject(trial.name), ())
    return found


@pytest.fixture(scope="module")
def pictures(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, str]]:
    """Draw everything once: pictures by screen, then by title."""
    folder = tmp_path_factory.mktemp("snapshots")
    all_drawn: dict[str, dict[str, str]] = {}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(folder / "state"))
        patch.setenv("XDG_CONFIG_HOME", str(folder / "config"))
        patch.setenv("TZ", "Europe/London")
        for name, make in BOOKS.items():
            source = folder / f"{name}.book"
            built = make(source)
            for width, height in SIZES:
                path = folder / f"{name}-{width}" / "room.book"
                path.parent.mkdir()
                shutil.copyfile(source, path)
                book = open_book(path, built.clock, built.by)
                drawn = draw(
                    LogbookApp(book), scenes(book, alike=name == "sample"), (width, height)
                )
                for scene, text in drawn.items():
                    all_drawn.setdefault(scene, {})[f"{name} {width}×{height}"] = text
        for width, height in SIZES:
            drawn = draw(new(), {"begin": ("begin", ())}, (width, height))
            all_drawn.setdefault("begin", {})[f"{width}×{height}"] = drawn["begin"]
    return all_drawn


@pytest.mark.parametrize("name", NAMES)
def test_a_screen_looks_as_it_did(pictures: dict[str, dict[str, str]], name: str) -> None:
    compare(name, pictures[name])


def test_every_picture_is_looked_at(pictures: dict[str, dict[str, str]]) -> None:
    assert set(pictures) == set(NAMES)
    for name, drawn in pictures.items():
        for title, text in drawn.items():
            assert "\x1b" not in text, (name, title)
