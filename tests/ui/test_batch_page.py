"""A batch's page: its trays, the weights, and the time line of all of them."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import TextArea

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.ui.app import LogbookApp
from logbook.ui.screens.trays.batch import BatchScreen
from logbook.ui.screens.trays.tray import TrayScreen
from logbook.ui.subjects import BatchSubject
from logbook.ui.timeline import TimeLineList
from tests.ui.racks_book import SIZES, WIDE, at, fits, small_book, walk
from tests.ui.steps import press, said, sees, settle, until


@pytest.fixture(autouse=True)
def _own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return small_book(tmp_path)


async def open_batch(pilot: Pilot[None], name: str) -> BatchScreen:
    """Go to a batch's page."""
    app = pilot.app
    assert isinstance(app, LogbookApp)
    app.go(BatchSubject(name))
    await until(pilot, lambda: isinstance(app.screen, BatchScreen))
    await settle(pilot)
    screen = app.screen
    assert isinstance(screen, BatchScreen)
    return screen


def whole(screen: BatchScreen) -> str:
    return "\n".join(row.text.plain for row in screen.query_one(TimeLineList).rows)


@pytest.mark.parametrize("size", SIZES)
def test_the_page_shows_template_trays_and_weights(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await open_batch(pilot, "1")
        await sees(pilot, "template radish, version 1", "sown Wed 1 Apr 08:00", "101", "day 4")
        await sees(pilot, "cut 1 of 4 280 g in all", "weighted")
        await sees(pilot, "Rack 1/Shelf 1 slot 1")
        assert fits(pilot, size)
        await until(pilot, lambda: "── now" in whole(screen))

    walk(book, story, size)


def test_entries_name_their_trays_unless_they_are_on_all(book: Book) -> None:
    did(book, "water", [101, 102, 103, 105])

    async def story(pilot: Pilot[None]) -> None:
        screen = await open_batch(pilot, "1")
        text = whole(screen)
        assert "08:00  sown on Rack 1/Shelf 1" in text
        assert "104  cut 280 g" in text
        assert "101–103  watered" in text
        assert "105" not in text

    walk(book, story, WIDE)


def test_trays_of_one_batch_may_be_in_different_stages(book: Book) -> None:
    did(book, "weight_off", [101])
    found = batch_page(book, "1")
    stages = [each.stage for each in found.trays]
    assert stages == ["blackout", "weighted", "weighted", ""]
    off = [each for each in found.ahead if each.chore == "weight_off"]
    assert [each.trays for each in off] == [(102, 103)]


def test_means_are_over_trays_that_were_cut_to_the_end(book: Book) -> None:
    weigh(book, [101], 100, part=True)
    found = batch_page(book, "1")
    assert (found.cut_grams, found.mean_grams, found.grams_per_gram_seed) == (380, 280, 7)
    weigh(book, [101], 140)
    found = batch_page(book, "1")
    assert (found.cut_grams, found.mean_grams, found.grams_per_gram_seed) == (520, 260, 6.5)


@pytest.mark.parametrize("size", SIZES)
def test_enter_opens_a_tray_and_escape_leads_back(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_batch(pilot, "1")
        await press(pilot, "down", "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, TrayScreen))
        await sees(pilot, "102  radish")
        await press(pilot, "escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, BatchScreen))

    walk(book, story, size)


def test_a_jot_is_for_the_tray_here_or_for_all_that_grow(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        async def jot(text: str) -> None:
            await press(pilot, "j")
            await until(pilot, lambda: bool(pilot.app.screen.query(TextArea)))
            pilot.app.screen.query_one(TextArea).insert(text)
            await press(pilot, "enter")
            await until(pilot, lambda: "jotted" in said(pilot))

        await open_batch(pilot, "1")
        await jot("one")
        await press(pilot, "end")
        await jot("all")

    walk(book, story, WIDE)
    assert [(line.trays, line.note) for line in page(book)] == [
        ((101,), "one"),
        ((101, 102, 103), "all"),
    ]


def test_a_planned_batch_and_one_that_is_gone(book: Book) -> None:
    sow(book, SowDraft("radish", trays=2, at=at(9)))
    discard(book, [105], "mould")

    async def story(pilot: Pilot[None]) -> None:
        await open_batch(pilot, "3")
        await sees(pilot, "planned for Thu 08:00", "planned", "sow")
        screen = await open_batch(pilot, "2")
        await sees(pilot, "template kale", "discarded")
        assert screen.weighing_trays() == ()

    walk(book, story, WIDE)


def test_a_batch_that_is_not_there_is_said(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_batch(pilot, "77")
        await until(pilot, lambda: "There is no batch 77" in said(pilot))

    walk(book, story, WIDE)


def test_a_batch_that_waits_for_its_numbers_is_opened_by_its_name_and_from_the_page(
    tmp_path: Path,
) -> None:
    book = small_book(tmp_path)
    change_room(book, RoomDraft(pool=range(1, 201)))
    sow(book, SowDraft("radish", trays=2, at=at(9)))

    async def story(pilot: Pilot[None]) -> None:
        for keys in (["1", "backspace", "b", "3", "enter"], ["f5", "end", "enter"]):
            await press(pilot, *keys)
            await until(pilot, lambda: isinstance(pilot.app.screen, BatchScreen))
            await sees(pilot, "planned for Thu 08:00", "b3")
            await press(pilot, "f2")
        await press(pilot, "1", "backspace", "b", "9", "enter")
        await until(pilot, lambda: "There is no batch 9" in said(pilot))

    walk(book, story, WIDE)
