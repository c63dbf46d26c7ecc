"""What came back on paper, typed by someone who did not write it."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.trays.page import page
from logbook.actions.trays.sheet import print_sheet
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.screens.trays.sheet import SheetScreen
from tests.actions.room_book import moment, room_book, stand_at
from tests.ui.racks_book import NARROW, SIZES, walk
from tests.ui.steps import press, said, sees, until


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    """Three trays sown on the 1st; the round of the 2nd is printed, and back on the 3rd."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    book = room_book(tmp_path)
    sow(book, SowDraft("radish", trays=3, soaked="dry"))
    stand_at(book, moment(2, 7))
    return book


@pytest.mark.parametrize("size", SIZES)
def test_lines_are_understood_and_written_in_one_act(book: Book, size: tuple[int, int]) -> None:
    (line, *_) = print_sheet(book).lines
    stand_at(book, moment(3, 8))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "B", *"rb", "enter", "enter")
        await press(pilot, *line.code, "space", *"7:50", "space", *"not", "space", *"103", "enter")
        await press(pilot, *"jot", "space", *"8:10", "space", *"103", "space", *"dry", "f9")
        await until(pilot, lambda: isinstance(pilot.app.screen, RoundScreen))
        assert "2 lines written by rb" in " ".join(said(pilot).split())

    walk(book, story, size)
    lines = [each for each in page(book, moment(2).date()) if each.by == "rb"]
    assert {(each.at, each.trays) for each in lines} == {
        (moment(2, 7, 50), (101, 102)),
        (moment(2, 8, 10), (103,)),
    }
    assert len({each.act_id for each in lines}) == 1


def test_a_line_that_is_wrong_is_said_at_its_place_and_nothing_is_written(book: Book) -> None:
    (line, *_) = print_sheet(book).lines

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "B", "enter", "enter", *line.code, "enter", *"QQQ", "f9")
        await sees(pilot, "is neither a code on")
        assert isinstance(pilot.app.screen, SheetScreen)

    walk(book, story, NARROW)
    assert [entry.kind for entry in page(book, moment(2).date())] == []
