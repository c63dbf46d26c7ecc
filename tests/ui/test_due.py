"""What is due: days, crops under them, and the way to the scale."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.crops.templates import put_template, show_template
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.growing.crops.templates import CutWindow
from logbook.ui.columns import range_bar
from logbook.ui.screens.trays.due import DueScreen
from logbook.ui.subjects import TraySubject, WeighSubject
from tests.ui.list_room import (
    SIZES,
    at,
    cutting_room,
    empty_room,
    rows,
    walk,
    where_to,
    widest,
    words,
)
from tests.ui.steps import press


@pytest.mark.parametrize("size", SIZES)
def test_days_crops_and_grams_are_shown_in_words(tmp_path: Path, size: tuple[int, int]) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        text = "\n".join(rows(pilot))
        assert "Sat 28 Mar today" in text
        assert "radish" in text
        assert "101–104" in text
        assert "ready, best Sun 10:00" in text  # 09:00 UTC, summer time since that night
        assert re.search(r"\d+–\d+ g, 4 in 5", text), "of the day, from low to high"
        assert "ready from" in text
        if size[0] == 80:
            assert re.search(r" guess$", text, re.MULTILINE)
            assert "█" in text
        assert widest(pilot) <= size[0] - 3

    walk(book, "due", story, size)


def test_heavy_crops_keep_their_unit_and_spread(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    sow(book, SowDraft("radish", trays=40))

    async def story(pilot: Pilot[None]) -> None:
        text = "\n".join(rows(pilot))
        found = re.findall(r"\d+(?:\.\d)?–\d+(?:\.\d)? kg", text)
        assert len(found) == 2, "for its day and for the crop"
        assert found[0] == found[1]

    at(book, datetime(2026, 4, 1, 9, tzinfo=UTC))
    walk(book, "due", story, (80, 24))


def test_no_day_beyond_those_asked_for_is_said_to_have_nothing(tmp_path: Path) -> None:
    book = empty_room(tmp_path)
    long = replace(
        show_template(book, "radish").template, cut=CutWindow(86_400, 86_400 * 20, 86_400 * 21)
    )
    put_template(book, long, "late")
    sow(book, SowDraft("radish", trays=1))

    async def story(pilot: Pilot[None]) -> None:
        text = rows(pilot)
        assert sum("nothing" in row for row in text) == 15
        assert "nothing" not in text[-2]

    walk(book, "due", story, (80, 24))


def test_late_is_a_word(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    at(book, datetime(2026, 4, 2, 9, tzinfo=UTC))

    async def story(pilot: Pilot[None]) -> None:
        assert "late 2 days" in "\n".join(rows(pilot))
        assert isinstance(pilot.app.screen, DueScreen)
        assert pilot.app.screen.late == "4 late"

    walk(book, "due", story, (80, 24))


def test_enter_weighs_what_is_ready_and_opens_what_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        went = where_to(pilot, monkeypatch)
        await press(pilot, "enter")
        assert went == [WeighSubject((101, 102, 103, 104))]
        await press(pilot, "down", "enter")
        assert any(row.strip().startswith("105") for row in rows(pilot))
        await press(pilot, "down", "enter")
        assert went[1:] == [TraySubject(105)]
        await press(pilot, "space")
        assert not any(row.strip().startswith("105") for row in rows(pilot))

    walk(book, "due", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_an_empty_book_has_nothing_due(tmp_path: Path, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert rows(pilot)[-2:] == ["Nothing will be ready within 14 days.", "n sows a batch."]
        await press(pilot, "enter", "space", "j")
        assert words(pilot, "said") == "No trays here: n sows a batch, F3 shows all trays."

    walk(empty_room(tmp_path), "due", story, size)


def test_a_bar_is_dense_to_the_low_end_of_its_range_and_light_to_the_high_one() -> None:
    assert range_bar(80, 100, 100, 10) == "████████░░"
    assert range_bar(100, 100, 100, 10) == "█" * 10
    assert range_bar(0.1, 0.2, 100, 10) == "░"
    assert range_bar(0, 0, 100, 10) == range_bar(5, 6, 0, 10) == ""
