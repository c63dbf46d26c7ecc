"""A week of a room that is worked from 07:00 to 19:00, with changes that fall into the night."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.due import due
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.trays.round import RoundLine
from logbook.text import Refused
from tests.actions.days import stand_at
from tests.room import day, moment, wall_words

SOWINGS = ("2026-04-01 21:10", "2026-04-01 23:40", "2026-04-02 02:20", "2026-04-02 05:55",
           "2026-04-02 12:00", "2026-04-02 19:00")  # fmt: skip
MOMENTS = ("00:30", "06:59", "07:45", "12:30", "18:30", "23:59")
WALKS = ("07:45", "12:30", "18:30")


@pytest.fixture
def room(book: Book) -> Book:
    """A tray of the field crop sown at each hour of a night and a day."""
    stand_at(book, "2026-04-02 20:00")
    for at in SOWINGS:
        sow(book, SowDraft("field test", 1, at=moment(at)))
    return book


def late_everywhere(book: Book) -> set[int]:
    """Trays that are late, after all screens and commands have said the same."""
    now, room = the_round(book), racks(book)
    lines = now.due
    of_round = {number for line in lines if line.late for number in line.numbers}
    shelves = [shelf for rack in room.racks for shelf in rack.shelves]
    standing = [tray for shelf in shelves for tray in shelf.trays] + list(room.loose)
    assert {tray.number for tray in standing if tray.late} == of_round
    to_cut = {n for line in lines if line.late and line.chore == "cut" for n in line.numbers}
    assert {tray.number for tray in due(book) if tray.ready == "late"} == to_cut
    assert {tray.number for tray in standing if tray.ready == "late"} == to_cut
    for tray in standing[: 6 if of_round else 1]:
        said = any(each.late for each in tray_page(book, tray.number).ahead)
        assert said == (tray.number in of_round)
    assert now.late == sum(line.late for line in lines)
    return of_round


def walk(book: Book) -> None:
    """Do all that the round asks for, until it asks for nothing."""
    while lines := the_round(book).due:
        for line in sorted(lines, key=lambda line: line.chore == "cut"):
            if line.chore == "cut":
                for number in line.numbers:
                    weigh(book, [number], 500)
            else:
                did(book, line.chore, line.numbers)


def test_who_walks_in_the_hours_of_the_room_is_never_called_late(room: Book) -> None:
    changes = 0
    stand_at(room, "2026-04-04 18:30")
    walk(room)
    for shift in range(5, 12):
        for clock in MOMENTS:
            stand_at(room, f"2026-04-{shift:02} {clock}")
            assert late_everywhere(room) == set(), (shift, clock)
            if clock in WALKS:
                changes += sum("off" in line.words for line in the_round(room).due)
                walk(room)
    assert changes >= 2 * 4  # both changes of most trays
    assert due(room) == []


def test_a_change_of_the_night_is_offered_by_the_morning_s_walk_and_late_an_hour_after(
    room: Book,
) -> None:
    """The tray sown at 23:40 has its weight off at 23:40 on the 5th: planned then, walked at 07:00."""

    def weight_off(now: str, on: str | None = None) -> RoundLine | None:
        stand_at(room, now)
        lines = the_round(room, day(on) if on else None).lines
        return next((x for x in lines if x.chore == "weight_off" and 102 in x.numbers), None)

    assert weight_off("2026-04-05 18:00") is None
    ahead = weight_off("2026-04-05 18:00", on="2026-04-06")
    assert ahead is not None
    assert ahead.when_words(room.now()) == "Mon 07:00 (planned Sun 5 Apr 23:40)"
    for now, later, late in (
        ("2026-04-06 06:59", True, False),
        ("2026-04-06 07:00", False, False),
        ("2026-04-06 07:59", False, False),
        ("2026-04-06 08:00", False, True),
    ):
        line = weight_off(now)
        assert line is not None
        assert (line.later, line.late) == (later, late), now
        assert wall_words(line.due_at) == "2026-04-05 23:40"
        if not later and not late:
            assert line.when_words(room.now()) == "since Sun 23:40"
        assert wall_words(line.walk_at) == "2026-04-06 07:00"
    assert line is not None
    assert line.when_words(room.now()) == "late 1 h"
    ahead_of = tray_page(room, 102).ahead
    assert [wall_words(x.at) for x in ahead_of if x.of == "weight_off"] == ["2026-04-05 23:40"]


def test_who_stays_away_is_late_everywhere_alike(room: Book) -> None:
    stand_at(room, "2026-04-07 07:30")
    assert late_everywhere(room)
    for clock in MOMENTS:
        stand_at(room, f"2026-04-14 {clock}")
        assert len(late_everywhere(room)) == len(SOWINGS)


def test_a_change_that_is_skipped_in_the_morning_is_asked_again_tomorrow_morning(
    room: Book,
) -> None:
    stand_at(room, "2026-04-06 07:30")
    skip(room, "weight_off", [102], "the seed needs a day more")
    stand_at(room, "2026-04-06 23:00")
    assert not [x for x in the_round(room).lines if x.chore == "weight_off" and 102 in x.numbers]
    stand_at(room, "2026-04-07 07:00")
    (line,) = [x for x in the_round(room).due if x.chore == "weight_off" and 102 in x.numbers]
    assert (line.late, wall_words(line.due_at)) == (False, "2026-04-07 07:00")


def test_tonight_s_change_may_be_made_from_the_tray_s_own_page(room: Book) -> None:
    stand_at(room, "2026-04-05 21:00")
    (change,) = [x for x in tray_page(room, 102).ahead if x.of == "weight_off"]
    assert (change.chore, change.late) == ("weight_off", False)


def test_a_watering_that_a_change_makes_due_is_asked_for_at_once_in_the_evening_too(
    room: Book,
) -> None:
    for at, chore in (("2026-04-05 21:30", "weight_off"), ("2026-04-06 21:45", "light_on")):
        stand_at(room, at)
        did(room, chore, [101])
    dry = [line for line in the_round(room).due if line.chore == "water" and 101 in line.numbers]
    assert [wall_words(line.walk_at) for line in dry] == ["2026-04-06 21:45"]


def test_the_evening_is_a_setting_of_the_room(room: Book) -> None:
    assert room.about.hours.last_round == 17 * 60
    change_room(room, RoomDraft(evening=18 * 60))
    assert room.about.hours.last_round == 18 * 60
    with pytest.raises(Refused, match="between 07:00 and 19:00"):
        change_room(room, RoomDraft(evening=20 * 60))
    with pytest.raises(Refused, match="between 07:00 and 15:00"):
        change_room(room, RoomDraft(day_end=15 * 60))
    change_room(room, RoomDraft(day_end=15 * 60, evening=14 * 60))
