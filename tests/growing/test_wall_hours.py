"""Hours by the wall, clock changes included."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.days import wall
from logbook.growing.quantities import LIT_HOURS
from logbook.growing.wall_hours import WallHours, lamp_words, runs, seconds_between, seconds_on
from logbook.growing.wall_reading import chore_hours, lamp_hours, wall_hours
from logbook.text import Refused

LONDON = ZoneInfo("Europe/London")
NEW_YORK = ZoneInfo("America/New_York")
HOUR = 3600


@pytest.mark.parametrize(
    ("zone", "night", "hours"),
    [
        # tzdata: clocks change 29 March and 25 October 2026 in London,
        # 8 March and 1 November 2026 in New York.
        (LONDON, date(2026, 3, 28), 15),
        (LONDON, date(2026, 10, 24), 17),
        (NEW_YORK, date(2026, 3, 7), 15),
        (NEW_YORK, date(2026, 10, 31), 17),
        (LONDON, date(2026, 4, 14), 16),
    ],
)
def test_a_lamp_on_from_20_to_12_over_a_clock_change(
    zone: ZoneInfo, night: date, hours: float
) -> None:
    start, end = WallHours(20 * 60, 12 * 60).run(night, zone)
    assert (end - start) == timedelta(hours=hours)


@pytest.mark.parametrize(
    ("hours", "day", "lit"),
    [
        (WallHours(6 * 60, 22 * 60), date(2026, 4, 14), 16),
        (WallHours(6 * 60, 22 * 60), date(2026, 3, 29), 16),  # the change falls in the dark
        (WallHours(0, 12 * 60), date(2026, 3, 29), 11),
        (WallHours(0, 12 * 60), date(2026, 10, 25), 13),
        (WallHours(0, 1440), date(2026, 3, 29), 23),
        (WallHours(0, 1440), date(2026, 10, 25), 25),
        (WallHours(20 * 60, 12 * 60), date(2026, 3, 29), 15),  # 00–12 and 20–24, less one
        (WallHours(20 * 60, 12 * 60), date(2026, 4, 14), 16),
        (WallHours(18 * 60, 1440), date(2026, 4, 14), 6),
        (WallHours(120, 90), date(2026, 3, 29), 23),  # dark 01:30–02:00 is left out
        (WallHours(90, 12 * 60), date(2026, 3, 29), 9.5),  # 01:30 is left out: lit from 02:30
        (WallHours(90, 12 * 60), date(2026, 10, 25), 11.5),  # 01:30 comes twice: the first
    ],
)
def test_lit_time_of_a_calendar_day_in_london(hours: WallHours, day: date, lit: float) -> None:
    assert seconds_on(hours, day, LONDON) == lit * HOUR


def test_runs_are_cut_to_the_asked_time() -> None:
    hours = WallHours(20 * 60, 12 * 60)
    start = datetime(2026, 4, 14, 10, tzinfo=LONDON)
    found = list(runs(hours, start, start + timedelta(hours=12), LONDON))
    assert [(low.hour, high.hour) for low, high in found] == [(9, 11), (19, 21)]  # in UTC


def test_runs_on_some_weekdays_only() -> None:
    # 18 and 19 April 2026 are a Saturday and a Sunday.
    weekdays = WallHours(16 * 60, 20 * 60, frozenset(range(5)))
    start = datetime(2026, 4, 13, tzinfo=LONDON)
    assert seconds_between(weekdays, start, start + timedelta(days=7), LONDON) == 20 * HOUR


def test_time_backwards_has_no_lit_seconds() -> None:
    start = datetime(2026, 4, 14, 10, tzinfo=UTC)
    assert seconds_between(WallHours(0, 1440), start, start - timedelta(days=3), LONDON) == 0


@pytest.mark.parametrize(
    ("written", "on", "off"),
    [
        ("06:00-22:00", 360, 1320),
        ("6–22", 360, 1320),
        ("20:00 to 12:00", 1200, 720),
        ("06.30 - 22.45", 390, 1365),
        ("0-24", 0, 1440),
        ("24-6", 0, 360),
    ],
)
def test_hours_are_read(written: str, on: int, off: int) -> None:
    hours = wall_hours(written)
    assert (hours.on, hours.off) == (on, off)


@pytest.mark.parametrize("written", ["", "6", "06:00-06:00", "25-26", "06:61-22:00", "day-night"])
def test_hours_that_no_clock_shows_are_refused(written: str) -> None:
    with pytest.raises(Refused):
        wall_hours(written)


def test_on_equal_to_off_says_what_would_be_right() -> None:
    with pytest.raises(Refused, match="00:00-24:00 for always"):
        WallHours(360, 360)
    with pytest.raises(Refused, match="24:00"):
        WallHours(-1, 360)
    with pytest.raises(Refused, match="Weekdays"):
        WallHours(0, 360, frozenset({9}))


def test_a_lamp_lit_over_the_clock_change_gives_an_hour_less() -> None:
    # tzdata: London's clocks go forward on 29 March 2026 at 01:00 UTC.
    start, end = datetime(2026, 3, 28, 12, tzinfo=LONDON), datetime(2026, 3, 29, 15, tzinfo=LONDON)
    assert seconds_between(WallHours(20 * 60, 12 * 60), start, end, LONDON) == 15 * HOUR


def test_words() -> None:
    assert WallHours(360, 1320).words == "06:00–22:00"


def test_a_day_has_at_most_25_hours() -> None:
    assert LIT_HOURS.checked(25) == 25
    with pytest.raises(Refused):
        LIT_HOURS.checked(26)


minutes = st.integers(0, 1439)
days = st.dates(date(2020, 1, 1), date(2035, 12, 31))
zones = st.sampled_from(
    [LONDON, NEW_YORK, ZoneInfo("Australia/Lord_Howe"), ZoneInfo("Asia/Kolkata"),
     ZoneInfo("America/Santiago"), ZoneInfo("Africa/Cairo")]
)  # fmt: skip


@given(minutes, minutes, days, zones)
def test_lit_and_dark_make_the_whole_day(on: int, off: int, day: date, zone: ZoneInfo) -> None:
    if on == off:
        return
    start, end = wall(day, 0, zone), wall(day, 1440, zone)
    lit = seconds_on(WallHours(on, off), day, zone)
    dark = seconds_on(WallHours(off, on), day, zone)
    whole = (end - start).total_seconds()
    around = [wall(day + timedelta(days=shift), 0, zone) for shift in (-1, 0, 1, 2)]
    quiet = all(two - one == timedelta(days=1) for one, two in pairwise(around))
    # a boundary inside the hour that a change leaves out may be shared by both
    assert lit + dark == pytest.approx(whole, abs=1e-6 if quiet else 3600)
    assert 0 <= lit <= whole


@given(minutes, minutes, days, zones, st.integers(1, 10), st.integers(0, 14_400))
def test_lit_time_adds_up_over_a_cut(
    on: int, off: int, day: date, zone: ZoneInfo, length: int, cut: int
) -> None:
    if on == off:
        return
    hours = WallHours(on, off)
    start = wall(day, 0, zone)
    end = start + timedelta(days=length)
    middle = min(start + timedelta(minutes=cut), end)
    parts = seconds_between(hours, start, middle, zone) + seconds_between(hours, middle, end, zone)
    assert parts == pytest.approx(seconds_between(hours, start, end, zone))


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("6-22", (360, 1320)),
        ("05:30–21:00", (330, 1260)),
        ("00:00-24:00", (0, 1440)),
        ("24:00-06:00", (0, 360)),
        ("none", (None, None)),
    ],
)
def test_lamp_hours_are_read_and_written(text: str, hours: tuple[int | None, int | None]) -> None:
    assert lamp_hours(text) == hours
    assert lamp_hours(lamp_words(*hours)) == hours


@pytest.mark.parametrize("text", ["22", "-", "6-none", "[/]"])
def test_lamp_hours_that_cannot_be_read_say_how_to_write_them(text: str) -> None:
    with pytest.raises(Refused, match=r"like 06:00-22:00, or none\."):
        lamp_hours(text)


@pytest.mark.parametrize("text", ["24:00-00:00", "24:00-24:00", "0-0", "6-6"])
def test_lamp_hours_without_a_length_are_no_hours(text: str) -> None:
    with pytest.raises(Refused, match="write two different ones, or 00:00-24:00"):
        lamp_hours(text)


@pytest.mark.parametrize("text", ["25-99", "07:00-07:00", "19-7", "none", "7", ""])
def test_the_day_of_the_room_says_how_to_write_it(text: str) -> None:
    with pytest.raises(Refused, match=r"07:00-19:00|two different"):
        chore_hours(text)


def test_the_day_of_the_room_is_read() -> None:
    assert chore_hours("7-19:30") == (420, 1170)
    assert chore_hours("00:00–24:00") == (0, 1440)
