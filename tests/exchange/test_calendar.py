"""The calendar that others read: its texts, zones and names come back as they were meant."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import icalendar

from logbook.actions.book import Book
from logbook.actions.trays.agenda import Coming, agenda
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.exchange.calendar_file import calendar_file, calendar_of
from tests.actions.room_book import moment, room_book, stand_at
from tests.room import NEW_YORK

NOW = datetime(2026, 10, 30, 12, tzinfo=UTC)


def events(text: str) -> list[Any]:
    return list(icalendar.Calendar.from_ical(text).walk("VEVENT"))


def made(*coming: Coming) -> str:
    return calendar_file(coming, "Back room", "ab12", NOW, NEW_YORK)


def test_texts_of_the_standard_come_back() -> None:
    """RFC 5545: 3.3.11 (an escaped description), 3.1 (lines of at most 75 octets)."""
    text = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    odd = "commas, semicolons; a \\ and 景" + " long" * 40
    one = Coming("cut-1", "cut", NOW, "cut", "radish", (101,), odd, about=text)
    file = made(one)
    assert all(len(line.encode()) <= 75 for line in file.split("\r\n"))
    assert "DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared." in file
    (event,) = events(file)
    assert event["DESCRIPTION"] == text
    assert event["LOCATION"] == odd


def test_times_have_their_zone_with_its_rules() -> None:
    """RFC 5545, 3.6.5: New York is at UTC-5 from the first Sunday of November, 02:00, on."""
    before, after = (datetime(2026, *day, 8, tzinfo=NEW_YORK) for day in ((10, 31), (11, 1)))
    file = made(Coming("sow-1", "sow", before, "sow"), Coming("sow-2", "sow", after, "sow"))
    assert "DTSTART;TZID=America/New_York:20261031T080000" in file
    assert "DTSTART;TZID=America/New_York:20261101T080000" in file
    (zone,) = icalendar.Calendar.from_ical(file).walk("VTIMEZONE")
    parts: list[Any] = [*zone.walk("STANDARD"), *zone.walk("DAYLIGHT")]
    offsets = {each["TZOFFSETTO"].td for each in parts}
    assert offsets >= {timedelta(hours=-5), timedelta(hours=-4)}
    starts = [event.decoded("DTSTART") for event in events(file)]
    assert [each.astimezone(UTC).hour for each in starts] == [12, 13]


def _book(tmp_path: Path) -> Book:
    book = room_book(tmp_path)
    sow(book, SowDraft("radish", trays=2, soaked="dry"))
    return book


def test_an_event_keeps_its_name_when_it_moves(tmp_path: Path) -> None:
    book = _book(tmp_path)
    first = {each.name: each.at for each in agenda(book, 21)}
    assert [name.partition("-")[0] for name in first] == ["change1", "change2", "cut"]
    stand_at(book, moment(6))
    did(book, "weight_off", (101, 102))
    later = {each.name: each.at for each in agenda(book, 21)}
    assert set(later) == {"change2-1", "cut-1"}
    assert later["cut-1"] > first["cut-1"]
    discard(book, (101,), "mould")
    assert {each.name for each in agenda(book, 21)} == set(later)
    texts = [str(event["UID"]) for event in events(calendar_of(book).text)]
    assert len(set(texts)) == 2
    assert texts == [str(event["UID"]) for event in events(calendar_of(book).text)]


def test_trays_that_went_another_way_have_a_name_of_their_own(tmp_path: Path) -> None:
    book = _book(tmp_path)
    stand_at(book, moment(2))
    did(book, "weight_off", (102,))
    names = [each.name for each in agenda(book, 21)]
    assert len(names) == len(set(names))
    cuts = {each.name: each.numbers for each in agenda(book, 21) if each.what == "cut"}
    assert cuts == {"cut-1": (101,), "cut-1.2": (102,)}


def test_a_plan_has_its_soak_and_its_sowing(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    sow(book, SowDraft("pea", trays=3, at=moment(4)))
    soak, sowing = agenda(book, 3, moment(3).date())
    assert (soak.what, sowing.what, sowing.at) == ("soak", "sow", moment(4))
    assert soak.seed_grams == sowing.seed_grams
    assert "seed: " in events(calendar_of(book).text)[0]["DESCRIPTION"]
    assert replace(soak, what="sow").numbers == sowing.numbers
