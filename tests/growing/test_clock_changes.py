"""Days of 23 and 25 hours, by tzdata: London 29 March and 25 October 2026, New York 8 March."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from itertools import islice
from typing import NamedTuple
from zoneinfo import ZoneInfo, available_timezones

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.templates import CutWindow, Stage
from logbook.growing.days import day_bounds, day_number, wall
from logbook.growing.trays.chores import RoomHours, slots
from logbook.growing.trays.forecast import changes_ahead, chores_of_tray
from tests.room import (
    DAY,
    HOUR,
    LONDON,
    NEW_YORK,
    crop_of,
    moment,
    sown,
    tray_after,
    wall_words,
    watered,
)


class ClockChange(NamedTuple):
    """A clock change: where, on which day, the instant, and the hours of that day."""

    zone: ZoneInfo
    day: date
    instant: datetime
    hours: int


CHANGES = [
    # tzdata: clocks go forward 29 March 01:00Z, back 25 October 01:00Z in London,
    # forward 8 March 07:00Z, back 1 November 06:00Z in New York
    ClockChange(LONDON, date(2026, 3, 29), datetime(2026, 3, 29, 1, tzinfo=UTC), 23),
    ClockChange(LONDON, date(2026, 10, 25), datetime(2026, 10, 25, 1, tzinfo=UTC), 25),
    ClockChange(NEW_YORK, date(2026, 3, 8), datetime(2026, 3, 8, 7, tzinfo=UTC), 23),
    ClockChange(NEW_YORK, date(2026, 11, 1), datetime(2026, 11, 1, 6, tzinfo=UTC), 25),
]
EVERY = pytest.mark.parametrize(
    "change", CHANGES, ids=lambda change: f"{change.zone.key}-{change.hours}h"
)


LATER = CutWindow(8 * DAY, 9 * DAY, 10 * DAY)


@EVERY
def test_a_day_has_23_or_25_hours(change: ClockChange) -> None:
    start, end = day_bounds(change.day, change.zone)
    assert end - start == timedelta(hours=change.hours)
    assert start <= change.instant < end


@EVERY
def test_a_tray_sown_the_day_before_keeps_its_day_numbers(change: ClockChange) -> None:
    for clock in ("00:10", "08:00", "23:50"):
        at = moment(f"{change.day - timedelta(days=1)} {clock}", change.zone)
        for number in range(1, 6):
            shown = moment(f"{change.day + timedelta(days=number - 2)} 12:00", change.zone)
            if shown >= at:
                assert day_number(at, shown, change.zone) == number
                assert day_number(at, shown, change.zone, first=0) == number - 1


@EVERY
def test_a_stage_of_24_h_ends_after_24_real_hours(change: ClockChange) -> None:
    crop = crop_of(Stage("lid", DAY, "lid"), Stage("light", None, light="lit"))
    at = moment(f"{change.day - timedelta(days=1)} 20:00", change.zone)
    (ahead,) = changes_ahead(crop, 0, at)
    assert ahead.at - at == timedelta(hours=24)
    assert (
        wall_words(ahead.at, change.zone)
        == f"{change.day} {'21:00' if change.hours == 23 else '19:00'}"
    )


@EVERY
def test_a_daily_watering_stays_at_its_wall_time(change: ClockChange) -> None:
    crop = crop_of(Stage("light", None, light="lit", water="top", water_per_day=1.0), cut=LATER)
    room = RoomHours(change.zone)
    at = moment(f"{change.day - timedelta(days=3)} 09:00", change.zone)
    deeds = [sown(at)]
    for shift in range(-2, 4):
        today = change.day + timedelta(days=shift)
        due = moment(f"{today} 07:00", change.zone)
        state = tray_after(crop, deeds, due, room)
        chores = chores_of_tray(crop, state, due, today, room)
        assert [each.due_at for each in chores if each.chore.startswith("water")] == [due]
        deeds.append(watered(due + timedelta(minutes=20)))


@EVERY
def test_a_shelf_s_watering_thrice_a_day_keeps_to_the_wall(change: ClockChange) -> None:
    room = RoomHours(change.zone)
    since = moment(f"{change.day - timedelta(days=1)} 08:00", change.zone)
    times = [wall_words(each, change.zone)[11:] for each in islice(slots(3, since, since, room), 8)]
    assert times == ["12:00", "17:00", "07:00", "12:00", "17:00", "07:00", "12:00", "17:00"]


def test_a_lamp_from_20_to_12_runs_15_or_17_hours_that_night() -> None:
    # tzdata: the nights into 29 March and 25 October 2026 in London
    for evening, lit_hours in (
        (date(2026, 3, 28), 15),
        (date(2026, 10, 24), 17),
        (date(2026, 4, 9), 16),
    ):
        on, off = wall(evening, 20 * 60, LONDON), wall(evening + timedelta(days=1), 12 * 60, LONDON)
        assert (off - on).total_seconds() == lit_hours * HOUR


def test_a_wall_time_left_out_is_taken_late_and_a_double_one_the_first_time() -> None:
    assert wall(date(2026, 3, 29), 90, LONDON) == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)
    assert wall(date(2026, 10, 25), 90, LONDON) == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)


ZONES = sorted(available_timezones() - {"localtime"})


@given(
    st.sampled_from(ZONES),
    st.datetimes(datetime.fromisoformat("2024-01-01"), datetime.fromisoformat("2030-01-01")),
    st.lists(st.integers(0, 40 * DAY), min_size=2, max_size=8),
    st.sampled_from((0, 1)),
)
def test_the_day_number_never_falls_as_time_passes(
    name: str, naive: datetime, steps: list[int], first: int
) -> None:
    zone, at = ZoneInfo(name), naive.replace(tzinfo=UTC)
    moments = sorted(at + timedelta(seconds=step) for step in steps)
    numbers = [day_number(at, each, zone, first) for each in moments]
    assert numbers == sorted(numbers)
    assert day_number(at, at, zone, first) == first


@given(st.sampled_from(ZONES), st.dates(date(2024, 1, 1), date(2029, 12, 31)))
def test_days_lie_end_to_end_and_hold_their_own_noon(name: str, today: date) -> None:
    zone = ZoneInfo(name)
    start, end = day_bounds(today, zone)
    assert end == day_bounds(today + timedelta(days=1), zone)[0]
    assert start <= wall(today, 720, zone) < end
    assert timedelta(hours=22) <= end - start <= timedelta(hours=26)
