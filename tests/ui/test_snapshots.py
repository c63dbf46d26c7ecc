"""Every screen, at both sizes, in an empty book, in the sample and with nasty text.

A terminal that changes its size shows each screen as if it had been opened at that size.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import pytest
from rich.cells import cell_len

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.crops.templates import put_template
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.room.places import PlaceDraft, add_place
from logbook.actions.trays.lots import recent_lots
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trials.finding import list_trials
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from logbook.ui.screen import LogScreen
from logbook.ui.screens import SCREENS
from logbook.ui.subjects import (
    AirSubject,
    BatchSubject,
    ChapterSubject,
    PlaceSubject,
    RecallSubject,
    TemplateSubject,
    TraceSubject,
    TraySubject,
    TrialSubject,
)
from tests.conftest import SampleMaker
from tests.room import field_test
from tests.ui.racks_book import NASTY
from tests.ui.snapshots import Scene, compare, draw, draw_resized, first_tray

NOW = datetime(2026, 4, 14, 6, 42, tzinfo=UTC)
SIZES = [(80, 24), (40, 20)]
THROUGH = ((80, 24), (200, 50), (40, 20), (60, 15), (80, 24))
"""The sizes that a terminal goes through on the sample, beginning where a screen is opened."""
NAME = '[b] "Möhre" 景 🌱'


def empty(path: Path) -> Book:
    """Make a book in which nothing has happened."""
    return begin_book(
        path, BeginDraft("Grow room", "Europe/London", racks=2), FixedClock(NOW), "ab"
    )


def nasty(path: Path) -> Book:
    """Make a book whose names and notes are hard to draw."""
    book = begin_book(path, BeginDraft(NAME, "Europe/London", racks=1), FixedClock(NOW), "[b]🌱")
    add_place(book, PlaceDraft(f"Rack {NAME}", kind="rack"))
    shelf = add_place(book, PlaceDraft(f"{NAME} " + "long " * 8, under=f"Rack {NAME}"))
    put_template(book, field_test(crop=NAME, variety="[100%] " + "ö" * 40, sign_to_cut="[/b] 景"))
    name = f"{NAME}, [100%] " + "ö" * 40
    sow(book, SowDraft(name, trays=3, place=shelf.path, lot=NASTY, colours=("[red]",)))
    order(book, OrderDraft(f"{NAME} " + "long " * 8, "2 x 50g radish every sat"))
    jot(book, [101], f"{NASTY}\nsecond line " + "word " * 40)
    book.clock = FixedClock(datetime(2026, 4, 15, 17, tzinfo=UTC))
    return book


def new() -> LogbookApp:
    """Give the app when there is no book yet."""
    return LogbookApp(None, new_path=Path("/home/grower/room.book"))


BOOKS: dict[str, Callable[[Path], Book]] = {"empty": empty, "nasty": nasty}


ALIKE: dict[str, Scene] = {
    "room": ("room", ()),
    "sow": ("sow", ()),
    "sheet": ("sheet", ()),
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
    "round", "racks", "due", "page", "weigh", "templates", "places", "seed", "light", "air", "bills", "upkeep", "records",
    "customers", "deliveries", "plan", "yields", "costs", "cold", "holds", "trials",
)  # fmt: skip
OF_ONE = ("tray", "batch", "trial", "trace", "recall", "round, jot", "round, look", "round, skip")
NAMES = (*LISTS, *OF_ONE, *ALIKE, "begin")


def scenes(book: Book, *, alike: bool = False) -> dict[str, Scene]:
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
    if lots := recent_lots(book):
        found["trace"] = (TraceSubject(lots[0]), ())
        found["recall"] = (RecallSubject(lots[0], book.now()), ())
    if trial is not None:
        found["trial"] = (TrialSubject(trial.name), ())
    return found


Pictures = dict[str, dict[str, str]]
"""By screen, then by title: "sample 80×24"."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """All that is drawn once: what is kept, and the sample's screens at the sizes of THROUGH.

    `small` are those of them that were opened at 40×20.
    """

    pictures: Pictures
    resized: dict[str, list[str]]
    small: dict[str, str]


@pytest.fixture(scope="module")
def drawn(sample_book: SampleMaker, tmp_path_factory: pytest.TempPathFactory) -> Drawn:
    """Draw everything once."""
    folder = tmp_path_factory.mktemp("snapshots")
    found: Pictures = {}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(folder / "state"))
        patch.setenv("XDG_CONFIG_HOME", str(folder / "config"))
        patch.setenv("TZ", "Europe/London")
        sample = sample_book(folder / "sample.book", NOW, "Europe/London")
        sample.by = "ab"
        every, begin = scenes(sample, alike=True), {"begin": ("begin", ())}
        resized = draw_resized(LogbookApp(sample), every, THROUGH)
        once = {name: every[name] for name in (*ALIKE, "tray")}
        small = draw(LogbookApp(sample), once, (40, 20))
        resized |= draw_resized(new(), begin, THROUGH)
        small |= draw(new(), begin, (40, 20))
        for name, make in BOOKS.items():
            source = folder / f"{name}.book"
            built = make(source)
            for width, height in SIZES:
                path = folder / f"{name}-{width}" / "room.book"
                path.parent.mkdir()
                shutil.copyfile(source, path)
                book = open_book(path, built.clock, built.by)
                for scene, text in draw(LogbookApp(book), scenes(book), (width, height)).items():
                    found.setdefault(scene, {})[f"{name} {width}×{height}"] = text
    for scene, (wide, _, narrow, *_) in resized.items():
        of = "" if scene == "begin" else "sample "
        at_both = {f"{of}80×24": wide, f"{of}40×20": small.get(scene, narrow)}
        found.setdefault(scene, {}).update(at_both)
    return Drawn(found, resized, small)


@pytest.mark.parametrize("name", NAMES)
def test_a_screen_looks_as_it_did(drawn: Drawn, name: str) -> None:
    compare(
        name,
        {title: drawn.pictures[name][title] for title in sorted(drawn.pictures[name], key=_order)},
    )


def _order(title: str) -> tuple[int, int]:
    book, _, size = title.rpartition(" ")
    return ["", "empty", "sample", "nasty"].index(book), [
        *map("{0[0]}×{0[1]}".format, SIZES)
    ].index(size)


def test_every_picture_is_looked_at(drawn: Drawn) -> None:
    assert set(drawn.pictures) == set(NAMES)
    for name, pictures in drawn.pictures.items():
        for title, text in pictures.items():
            assert "\x1b" not in text, (name, title)


# Other sizes


def _keeps_its_name_and_its_width(text: str, name: str, columns: int) -> bool:
    lines = text.split("\n")
    screen = LogbookApp.SCREENS[name.partition(",")[0]]()
    assert isinstance(screen, LogScreen)
    return bool(
        all(cell_len(line) <= columns for line in lines)
        and (name == "round, help" or (screen.heading in lines[0] and re.search(r"\?|esc", text)))
    )


def _now_in_view(text: str) -> bool:
    """Whether the line of now is seen; a tray's page is opened with it in the middle."""
    return "── now" in text


def test_every_screen_and_question_follows_the_size_of_the_terminal(drawn: Drawn) -> None:
    wrong = []
    for name, texts in drawn.resized.items():
        wrong += [
            f"{name} has no name, no way on, or lines of more than {columns} columns:\n{text}"
            for text, (columns, _) in zip(texts, THROUGH, strict=True)
            if not _keeps_its_name_and_its_width(text, name, columns)
        ]
        opened, _, narrow, _, again = texts
        pairs = ((again, opened), (narrow, drawn.small.get(name, narrow)))
        wrong += [
            f"{name} is\n{is_now}\nand was, when it was opened at this size,\n{picture}"
            for is_now, picture in pairs
            if not (_now_in_view(is_now) if name == "tray" else is_now == picture)
        ]
    assert not wrong, "\n\n".join(wrong)
    assert set(drawn.small) == {*ALIKE, "tray", "begin"}
    assert {name.partition(",")[0] for name in drawn.resized} >= set(SCREENS)
