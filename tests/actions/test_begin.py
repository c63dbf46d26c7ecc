"""A new book: its racks, its templates, and what it refuses."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from logbook.actions.book import open_book
from logbook.actions.care.begin import BeginDraft, begin_book, local_zone_name
from logbook.actions.crops.templates import list_templates
from logbook.actions.room.places import list_places
from logbook.clock import FixedClock
from logbook.growing.crops.starters import starters
from logbook.text import Refused
from tests.room import moment

CLOCK = FixedClock(moment("2026-04-01 08:00"))


def test_a_new_book_has_its_racks_and_the_starting_templates(tmp_path: Path) -> None:
    draft = BeginDraft("Cellar", "America/New_York", 2, 3, 5, "us", None, None, 0)
    book = begin_book(tmp_path / "room.book", draft, CLOCK, "JM")
    assert open_book(book.file.where).about == book.about
    about = book.about
    assert (about.name, about.zone, about.units, about.first_day) == (
        "Cellar",
        "America/New_York",
        "us",
        0,
    )
    shelves = [each.place for each in list_places(book) if each.place.kind == "shelf"]
    assert [shelf.path for shelf in shelves][:4] == [
        "Rack 1/Shelf 1", "Rack 1/Shelf 2", "Rack 1/Shelf 3", "Rack 2/Shelf 1",
    ]  # fmt: skip
    assert {(shelf.slots, shelf.lit) for shelf in shelves} == {(5, False)}
    assert {crop.name: crop for crop in list_templates(book)} == {
        crop.name: crop for crop in starters()
    }


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"name": " \x1b "}, "empty"),
        ({"name": "x" * 81}, "use up to 80"),
        ({"zone": "Mars/Olympus"}, "no time zone"),
        ({"name": "rack 2"}, "Racks and shelves get names like that"),
        ({"racks": 0}, "from 1 to 50"),
        ({"racks": 51}, "from 1 to 50"),
        ({"shelves": -1}, "from 1 to 20"),
        ({"slots": 101}, "from 1 to 100"),
        ({"units": "stone"}, "use metric or us"),
        ({"first_day": 2}, "day 0 or day 1"),
        ({"currency": "gold"}, "like EUR, GBP or USD"),
    ],
)
def test_a_book_that_cannot_be_is_not_made(
    tmp_path: Path, changes: dict[str, Any], words: str
) -> None:
    with pytest.raises(Refused, match=words):
        begin_book(tmp_path / "room.book", replace(BeginDraft(), **changes), CLOCK)
    assert list(tmp_path.iterdir()) == []


def test_what_is_there_is_never_touched(tmp_path: Path) -> None:
    path = tmp_path / "room.book"
    path.write_text("somebody's")
    with pytest.raises(Refused, match="already a file"):
        begin_book(path, BeginDraft(), CLOCK)
    with pytest.raises(Refused, match="is a folder"):
        begin_book(tmp_path, BeginDraft(), CLOCK)
    assert path.read_text() == "somebody's"


@pytest.mark.parametrize(("given", "zone"), [("Pacific/Auckland", "Pacific/Auckland"), (":Europe/London", "Europe/London"), ("Etc/UTC", "UTC")])  # fmt: skip
def test_the_machine_s_zone_is_the_default(
    monkeypatch: pytest.MonkeyPatch, given: str, zone: str
) -> None:
    monkeypatch.setenv("TZ", given)
    assert local_zone_name() == zone


def test_a_machine_zone_without_a_name_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "<+03>-3")
    assert local_zone_name()


def test_a_slash_in_the_room_s_name_is_a_dash_among_the_places(tmp_path: Path) -> None:
    book = begin_book(tmp_path / "room.book", BeginDraft("Back/left"), CLOCK, "JM")
    assert book.about.name == "Back/left"
    assert [each.place.name for each in list_places(book) if each.place.kind == "room"] == [
        "Back-left"
    ]
