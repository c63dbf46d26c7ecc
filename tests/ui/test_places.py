"""Places on the screen, in walking order."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.room.places import PlaceDraft, add_place
from logbook.ui.subjects import PlaceSubject
from tests.ui.list_room import (
    NASTY,
    SIZES,
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
def test_slots_and_lamp_hours_are_shown(tmp_path: Path, size: tuple[int, int]) -> None:
    book = cutting_room(tmp_path)
    add_place(book, PlaceDraft(f"dark {NASTY}"[:60], under="Rack 1", slots=3))

    async def story(pilot: Pilot[None]) -> None:
        rack, first, second, dark = rows(pilot)[-4:]
        assert "Rack 1" in rack
        assert "full" in first
        assert "lit 06–22" in first
        assert second.split()[-3:] == ["6", "lit", "06–22"]
        assert dark.startswith("  dark [-] ")  # a slash parts the names of a path
        assert "\x1b" not in dark
        assert dark.rstrip().endswith("dark")
        assert widest(pilot) <= size[0] - 3

    walk(book, "places", story, size)


def test_the_walk_is_changed_by_keys(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "down", "down", "equals_sign")
        assert [row.split("  ")[1] for row in rows(pilot)[-2:]] == ["Shelf 2", "Shelf 1"]
        await press(pilot, "-", "-")
        assert [row.split("  ")[1] for row in rows(pilot)[-2:]] == ["Shelf 1", "Shelf 2"]
        assert words(pilot, "said") == "Rack 1/Shelf 1 is already the first there."

    walk(empty_room(tmp_path), "places", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_a_place_is_retired_only_when_empty_and_can_come_back(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "down", "down", "x", "y")
        assert "still holds 101–106" in words(pilot, "said")
        await press(pilot, "down", "x", "y")
        assert rows(pilot)[-2:] == ["Retired", "  Rack 1/Shelf 2"]
        await press(pilot, "x")
        assert "Retired" not in rows(pilot)

    walk(book, "places", story, size)


def test_keys_lead_to_the_form(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async def story(pilot: Pilot[None]) -> None:
        went = where_to(pilot, monkeypatch)
        await press(pilot, "down", "e", "+")
        assert went == [PlaceSubject("Rack 1"), PlaceSubject()]

    walk(empty_room(tmp_path), "places", story, (80, 24))
