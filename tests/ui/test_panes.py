"""A broad screen shows beside its list what the cursor is on."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.trays.noticing import look
from logbook.growing.trays.looks import Look
from logbook.ui.app import LogbookApp
from logbook.ui.frame import Frame
from logbook.ui.subjects import RecallSubject, Subject, TraceSubject, TrialSubject
from logbook.ui.widgets.bars import Pane
from tests.conftest import SampleMaker
from tests.pictures.shots import NOW
from tests.trial_room import finished
from tests.ui.racks_book import walk
from tests.ui.steps import press, settle, until
from tests.ui.test_round import six_radishes

BROAD = (160, 50)


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return six_radishes(tmp_path)


def beside(pilot: Pilot[None]) -> str:
    return str(pilot.app.screen.query_one(Pane).content)


def below(pilot: Pilot[None]) -> str:
    return str(pilot.app.screen.query_one("#below", Static).content)


async def shows(pilot: Pilot[None], *words: str) -> None:
    await until(pilot, lambda: all(each in beside(pilot) for each in words))


def test_the_round_shows_the_tray_the_racks_the_slot_due_the_batch_and_the_page_the_entry(
    room: Book,
) -> None:
    look(room, [103], Look(height_mm=30), note="a note that is as long as one likes")

    async def story(pilot: Pilot[None]) -> None:
        await shows(
            pilot, "101  radish  day 2", "Rack 1/Shelf 1 slot 1", "expected", "── now", "lit 06"
        )
        await press(pilot, "space", "down", "down", "down")
        await shows(pilot, "103  radish  day 2", "last look   10:00, 3 cm high")
        await press(pilot, "f3")
        await shows(pilot, "101  radish  day 2")
        await press(pilot, "down")
        await shows(pilot, "Rack 1/Shelf 2\nlit 06–22")
        await press(pilot, "f4")
        await until(pilot, lambda: "due" in str(type(pilot.app.screen)).casefold())
        await shows(pilot, "batch 1", "── now")
        await press(pilot, "f5", "end")
        await shows(pilot, "entry ", "a note that is as long as one likes")

    walk(room, story, BROAD)


def test_a_list_is_no_wider_than_it_is_read_and_a_small_screen_has_no_pane(room: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = pilot.app.screen
        assert isinstance(screen, Frame)
        for width, columns, broad in ((80, 80, False), (119, 92, False), (120, 80, True),
                                      (132, 92, True), (200, 92, True)):  # fmt: skip
            await pilot.resize_terminal(width, 40)
            await until(pilot, lambda: pilot.app.screen.query_one(Pane).display is broad)  # noqa: B023
            assert (screen.columns, screen.walk.outer_size.width) == (columns, columns)

    walk(room, story, (80, 24))


def test_the_list_of_trials_shows_the_verdict(book: Book) -> None:
    finished(book, {"thin": [100, 110, 105], "thick": [200, 210, 205]})

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "y")
        await shows(pilot, "thick or thin", "In short")

    walk(book, story, BROAD)


TOLD: dict[str | Subject, tuple[str, ...]] = {
    "deliveries": ("the chef", "to pack  sunflower 8 × 100 g", "promised  800 g", "chance"),
    "customers": ("the chef", "at the kitchen door", "sunflower 8 x 100g every thu,sun"),
    "plan": ("1 × kale", "weight off, lid on", "for Fri 24 Apr: 320 g, the corner shop"),
    "costs": ("rocket", "electricity", "Not known: seed"),
    "yields": ("basil", "lost: 1", "packed 0 g"),
    "cold": ("Pack lot 260405-RAD-1", "Seed lot RA 48/2: bought", "the chef, Thu 9 Apr"),
    "seed": ("Seed lot BR-48", "71 of 100 up", "Batch 119"),
    "upkeep": ("check cold store", "2 times a day", "17:00"),
    "records": ("Mon 13 Apr", "checked: cold store, 4.1 °C"),
    "places": ("Rack 1/Shelf 1", "PPFD 184", "coriander  day 11, light"),
    "handbook": ("The first day",),
    TrialSubject("thicker broccoli"): ("In short", "thicker cut more than usual", "Tasting"),
    TraceSubject("SU-48A"): ("sold for food", "90 % germination"),
    RecallSubject("SU-48A", NOW): ("at the kitchen door", "260324-SUN-1  Thu 26 Mar, 8 packs"),
}
"""What a broad screen tells of the first line of each list, from the sample."""


def test_every_list_tells_of_its_line_beside_it(sample_book: SampleMaker, tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        for screen, words in TOLD.items():
            app.go(screen)
            await settle(pilot)
            if screen == "places":
                await shows(pilot, "slots   66", "free    22")
                await press(pilot, "down", "down")
            await shows(pilot, *words)

    walk(sample_book(tmp_path / "sample.book", NOW, "Europe/Lisbon"), story, BROAD)


def test_where_there_is_no_pane_costs_are_told_below_the_list(
    sample_book: SampleMaker, tmp_path: Path
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.go("costs")
        await settle(pilot)
        assert "electricity 10.65 EUR" in below(pilot)
        await press(pilot, "down")
        assert "In its slots" in below(pilot)

    walk(sample_book(tmp_path / "sample.book", NOW, "Europe/Lisbon"), story, (80, 24))
