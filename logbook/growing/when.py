"""Moments as people write them: ISO 8601 with or without offset, or 07:30 for today."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of, wall
from logbook.text import Refused, clean

EARLIEST, LATEST = 1990, 2100
_CLOCK = re.compile(r"(\d{1,2})[:.](\d{2})")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}|\d{4}-W\d{2}-\d|\d{8}|\d{4}-\d{3}")


def parse_when(text: str, now: datetime, zone: ZoneInfo, start_of_day: int = 0) -> datetime:
    """Read a moment; give it aware, in UTC.

    A wall time alone is today's; a day alone is that day at `start_of_day` minutes; "now",
    "yesterday 18:00" and "tomorrow 06:00" work. Raise Refused when it is no moment, or lies
    before 1990 or after 2100.
    """
    words = clean(text, lines=False)
    folded = words.casefold()
    today = day_of(now, zone)
    if folded == "now":
        return now
    for name, shift in (("today", 0), ("yesterday", -1), ("tomorrow", 1)):
        if folded == name:
            return wall(today + timedelta(days=shift), start_of_day, zone)
        if folded.startswith(name + " "):
            return _clock(words[len(name) :].strip(), today + timedelta(days=shift), zone, words)
    if _CLOCK.fullmatch(words):
        return _clock(words, today, zone, words)
    if _DATE.fullmatch(words):
        return wall(parse_day(words, now, zone), start_of_day, zone)
    try:
        given = datetime.fromisoformat(words)
    except ValueError as fault:
        raise Refused(
            f'"{words[:40]}" is no moment; write 07:30 for today, or like 2026-04-14T07:30.'
        ) from fault
    if not EARLIEST <= given.year <= LATEST:
        raise Refused(f"The year {given.year} is out of reach; use {EARLIEST} to {LATEST}.")
    if given.tzinfo is None:
        given = given.replace(tzinfo=zone)
    return given.astimezone(UTC)


def _clock(words: str, day: date, zone: ZoneInfo, whole: str) -> datetime:
    found = _CLOCK.fullmatch(words)
    if not found or int(found[1]) > 23 or int(found[2]) > 59:
        raise Refused(f'"{whole[:40]}" is no time of day; write it like 07:30.')
    return wall(day, int(found[1]) * 60 + int(found[2]), zone)


def parse_day(text: str, now: datetime, zone: ZoneInfo) -> date:
    """Read a day: 2026-04-14, 2026-W16-2, today, yesterday, tomorrow; raise Refused otherwise."""
    words = clean(text, lines=False)
    shifts = {"today": 0, "yesterday": -1, "tomorrow": 1}
    if words.casefold() in shifts:
        return day_of(now, zone) + timedelta(days=shifts[words.casefold()])
    try:
        if re.fullmatch(r"\d{4}-\d{3}", words):
            import pendulum

            parsed = pendulum.parse(words, exact=True)
            day = date.fromisoformat(str(parsed)[:10])
        else:
            day = date.fromisoformat(words)
    except ValueError as fault:
        raise Refused(f'"{words[:40]}" is no day; write it like 2026-04-14.') from fault
    if not EARLIEST <= day.year <= LATEST:
        raise Refused(f"The year {day.year} is out of reach; use {EARLIEST} to {LATEST}.")
    return day


def parse_wall(text: str) -> int | None:
    """Read a time of day as minutes after midnight; None for nothing written; 24:00 is 1440."""
    words = clean(text, lines=False)
    if not words or words.casefold() in ("none", "no", "-", "never", "off"):
        return None
    if re.fullmatch(r"\d{1,2}", words):
        words += ":00"
    found = _CLOCK.fullmatch(words)
    minutes = int(found[1]) * 60 + int(found[2]) if found else -1
    if not found or int(found[2]) > 59 or not 0 <= minutes <= 1440:
        raise Refused(f'"{words[:40]}" is no time of day; write it like 06:00.')
    return minutes


def wall_words(minute: int | None) -> str:
    """Write minutes after midnight as "06:00"; "" for none."""
    return "" if minute is None else f"{minute // 60:02}:{minute % 60:02}"


def parse_lamp_hours(text: str) -> tuple[int | None, int | None]:
    """Read "06:00-22:00" as minutes after midnight; "none" (two None) for a dark shelf."""
    ends = _wall_ends(text)
    if ends == [None]:
        return None, None
    if len(ends) == 2 and None not in ends:
        return checked_lamp_hours(ends[0], ends[1])
    raise Refused(f'Lamp hours "{text[:40]}" must be like 06:00-22:00, or none.')


def _wall_ends(text: str) -> list[int | None]:
    try:
        return [parse_wall(part) for part in clean(text).replace("–", "-").split("-")]
    except Refused:
        return []


def parse_day_hours(text: str) -> tuple[int, int]:
    """Read "07:00-19:00" as minutes after midnight, the earlier first; raise Refused."""
    match _wall_ends(text):
        case [int(start), int(end)] if start < end:
            return start, end
    raise Refused(
        f'The day of the room "{text[:40]}" must go from an earlier to a later time, '
        "like 07:00-19:00."
    )


def checked_lamp_hours(on: int | None, off: int | None) -> tuple[int | None, int | None]:
    """Give lamp hours back, on at 24:00 as on at 00:00.

    Raise Refused when one is missing or they are the same time of day.
    """
    if (on is None) != (off is None):
        raise Refused(
            "Give both the lamp's on and off time, or neither for a dark shelf.", about="lamps"
        )
    if on is not None and off is not None and on % 1440 == off % 1440 and (on, off) != (0, 1440):
        raise Refused(
            "The lamp goes on and off at the same time; write 00:00-24:00 for all day, or none "
            "for a dark shelf.",
            about="lamps",
        )
    return None if on is None else on % 1440, off


def lamp_words(on: int | None, off: int | None) -> str:
    """Write lamp hours as parse_lamp_hours reads them."""
    return "none" if on is None or off is None else f"{wall_words(on)}-{wall_words(off)}"
