"""Moments as people write them: ISO 8601 with or without offset, or 07:30 for today."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of, wall
from logbook.text import Refused, clean

EARLIEST, LATEST = 1990, 2100
_NEAR = {"today": 0, "yesterday": -1, "tomorrow": 1}
_CLOCK = re.compile(r"(\d{1,2})[:.](\d{2})")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}|\d{4}-W\d{2}-\d|\d{8}|\d{4}-\d{3}")


def parse_when(text: str, now: datetime, zone: ZoneInfo, start_of_day: int = 0) -> datetime:
    """Read a moment, aware, in UTC.

    A wall time alone is today's; a day alone is that day at `start_of_day` minutes; "now",
    "yesterday 18:00" and "tomorrow 06:00" work. Raise Refused when it is no moment, or lies
    before 1990 or after 2100.
    """
    words = clean(text, lines=False)
    if words.casefold() == "now":
        return now
    name, _, clock = words.partition(" ")
    if clock and name.casefold() in _NEAR:
        return _clock(clock.strip(), parse_day(name, now, zone), zone, words)
    if _CLOCK.fullmatch(words):
        return _clock(words, day_of(now, zone), zone, words)
    if _DATE.fullmatch(words) or words.casefold() in _NEAR:
        return wall(parse_day(words, now, zone), start_of_day, zone)
    try:
        given = datetime.fromisoformat(words)
    except ValueError as fault:
        raise Refused(
            f'"{words[:40]}" is no moment; write 07:30 for today, or like 2026-04-14T07:30.'
        ) from fault
    _check_year(given.year)
    if given.tzinfo is None:
        given = given.replace(tzinfo=zone)
    return given.astimezone(UTC)


def _check_year(year: int) -> None:
    if not EARLIEST <= year <= LATEST:
        raise Refused(f"The year {year} is out of reach; use {EARLIEST} to {LATEST}.")


def _clock(words: str, day: date, zone: ZoneInfo, whole: str) -> datetime:
    found = _CLOCK.fullmatch(words)
    if not found or int(found[1]) > 23 or int(found[2]) > 59:
        raise Refused(f'"{whole[:40]}" is no time of day; write it like 07:30.')
    return wall(day, int(found[1]) * 60 + int(found[2]), zone)


def parse_day(text: str, now: datetime, zone: ZoneInfo) -> date:
    """Read a day: 2026-04-14, 2026-W16-2, today, yesterday, tomorrow; raise Refused otherwise."""
    words = clean(text, lines=False)
    if words.casefold() in _NEAR:
        return day_of(now, zone) + timedelta(days=_NEAR[words.casefold()])
    try:
        if re.fullmatch(r"\d{4}-\d{3}", words):
            import pendulum

            words = str(pendulum.parse(words, exact=True))[:10]
        day = date.fromisoformat(words)
    except ValueError as fault:
        raise Refused(f'"{words[:40]}" is no day; write it like 2026-04-14.') from fault
    _check_year(day.year)
    return day
