"""Moments, days and times of day as people write them."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.days import day_words, moment_words, zone_named
from logbook.growing.when import parse_day, parse_when
from logbook.text import Refused
from tests.room import LONDON, moment

NOW = moment("2026-04-14 07:42")


@pytest.mark.parametrize(
    ("text", "wall"),
    [
        ("07:30", "2026-04-14 07:30"),
        ("7.30", "2026-04-14 07:30"),
        ("now", "2026-04-14 07:42"),
        ("yesterday 18:00", "2026-04-13 18:00"),
        ("Tomorrow 06:05", "2026-04-15 06:05"),
        ("in 12 days 06:05", "2026-04-26 06:05"),
        ("1 day ago 18:00", "2026-04-13 18:00"),
        ("2026-04-12T09:00", "2026-04-12 09:00"),
        ("2026-04-12 09:00:30", "2026-04-12 09:00"),
        ("2026-04-12T09:00Z", "2026-04-12 10:00"),
        ("2026-04-12T09:00+02:00", "2026-04-12 08:00"),
        ("7", "2026-04-14 07:00"),
        ("0715", "2026-04-14 07:15"),
        ("7.15", "2026-04-14 07:15"),
        ("yesterday 6", "2026-04-13 06:00"),
        # as moment_words() writes it; a bare weekday is the last one
        ("Mon 18:00", "2026-04-13 18:00"),
        ("tuesday 07:30", "2026-04-14 07:30"),
        ("Tue 18:00", "2026-04-07 18:00"),
        ("Wed, 9.30", "2026-04-08 09:30"),
        ("Mon 13 Apr 18:00", "2026-04-13 18:00"),
        ("3 January 2027 09:00", "2027-01-03 09:00"),
    ],
)
def test_a_moment_is_read_in_the_room_s_zone(text: str, wall: str) -> None:
    read = parse_when(text, NOW, LONDON)
    assert read.utcoffset() == timedelta(0)
    assert f"{read.astimezone(LONDON):%Y-%m-%d %H:%M}" == wall


@pytest.mark.parametrize(
    "text",
    ["", "soon", "25:00", "07:60", "24:00", "24", "2460", "2026-13-01", "31 Feb 09:00", "sunflower 7", "2026-02-30", "2026-04-14T25:00",
     "0001-01-01T00:00", "1850-01-01", "9999-12-31T23:59", "2101-01-01", "nan", "1e9", "tomorrow noon",
     "2026-400"],
)  # fmt: skip
def test_what_is_no_moment_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(Refused, match=r"^[^\n]+\.$"):
        parse_when(text, NOW, LONDON)


@pytest.mark.parametrize(
    "text",
    ["yesterday", "Today", "2026-04-12", "20260412", "2026-W15-7", "2026-102", "Sat", "Mon 13 Apr",
     "3 Jan 2027"],
)  # fmt: skip
def test_a_day_alone_is_asked_for_its_hour(text: str) -> None:
    with pytest.raises(Refused, match=f"^{text}, at what hour"):
        parse_when(text, NOW, LONDON)


@pytest.mark.parametrize("text", ["2026-02-31", "31 Feb", "Tue 31 Feb"])
def test_a_day_that_is_none_is_not_asked_for_its_hour(text: str) -> None:
    with pytest.raises(Refused, match="2026-02-31\" isn't a day"):
        parse_when(text, NOW, LONDON)


def test_a_weekday_that_is_not_that_day_s_is_refused() -> None:
    with pytest.raises(Refused, match="Mon 13 Apr is the right day"):
        parse_when("Sat 13 Apr 18:00", NOW, LONDON)


@pytest.mark.parametrize(
    ("text", "wall"), [("Wed 18:00", "2026-04-15 18:00"), ("Mon 18:00", "2026-04-20 18:00"),
                       ("Tue 18:00", "2026-04-14 18:00"), ("Tue 07:30", "2026-04-21 07:30")],
)  # fmt: skip
def test_where_a_plan_is_asked_for_a_weekday_is_the_next(text: str, wall: str) -> None:
    at = parse_when(text, NOW, LONDON, ahead=True)
    assert at == moment(wall)
    assert at - NOW > timedelta(days=7) or moment_words(at, NOW, LONDON).endswith(text[-5:])


def test_iso_weeks() -> None:
    # ISO 8601: 2026 has 53 weeks; 2026-12-31 is 2026-W53-4, 2027-01-03 is 2026-W53-7
    assert parse_day("2026-W53-4", NOW, LONDON) == date(2026, 12, 31)
    assert parse_day("2026-W53-7", NOW, LONDON) == date(2027, 1, 3)
    assert parse_day("2027-W01-1", NOW, LONDON) == date(2027, 1, 4)
    with pytest.raises(Refused):
        parse_day("2027-W53-1", NOW, LONDON)


def test_today_is_the_room_s_day_not_the_machine_s() -> None:
    late = datetime(2026, 4, 14, 23, 30, tzinfo=UTC)
    assert parse_day("today", late, ZoneInfo("Europe/London")) == date(2026, 4, 15)
    assert parse_day("today", late, ZoneInfo("America/New_York")) == date(2026, 4, 14)
    assert parse_day("tomorrow", late, ZoneInfo("Pacific/Auckland")) == date(2026, 4, 16)


OFFSETS = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))


@given(
    st.datetimes(
        datetime.fromisoformat("1990-01-01"),
        datetime.fromisoformat("2100-12-31"),
        timezones=OFFSETS,
    )
)
def test_a_moment_written_with_its_offset_is_read_back(at: datetime) -> None:
    assert parse_when(at.isoformat(), NOW, LONDON) == at.astimezone(UTC)


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ("2026-04-14 18:00", "18:00"),
        ("2026-04-15 18:00", "Wed 18:00"),
        ("2026-04-20 18:00", "Mon 18:00"),
        ("2026-04-21 18:00", "Tue 21 Apr 18:00"),
        ("2026-04-13 18:00", "Mon 13 Apr 18:00"),
        ("2027-01-03 09:00", "Sun 3 Jan 2027 09:00"),
    ],
)
def test_a_moment_is_written_as_near_as_needed(at: str, words: str) -> None:
    assert moment_words(moment(at), NOW, LONDON) == words


def test_a_day_has_its_year_when_it_is_another_one() -> None:
    assert day_words(date(2026, 4, 14), date(2026, 1, 1)) == "Tue 14 Apr"
    assert day_words(date(2025, 4, 14), date(2026, 1, 1)) == "Mon 14 Apr 2025"


@pytest.mark.parametrize(
    "name", ["Europe/Nowhere", "", "../etc/passwd", "/etc/localtime", "a" * 500, "\x00"]
)
def test_an_unknown_zone_is_refused(name: str) -> None:
    with pytest.raises(Refused, match="no time zone"):
        zone_named(name)
