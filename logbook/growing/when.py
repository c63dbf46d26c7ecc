"""Moments as people write them: ISO 8601 with or without offset, or 07:30 for today."""

import re
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from logbook.growing.days import DAYS, MONTHS, day_of, day_words, wall
from logbook.text import Refused, clean

EARLIEST, LATEST = 1990, 2100
_NEAR = {"today": 0, "yesterday": -1, "tomorrow": 1}
_AWAY = re.compile(r"(?i)in (\d{1,4}) days?|(\d{1,4}) days? ago")
_CLOCK = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?|([01]\d|2[0-3])([0-5]\d)")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}|\d{4}-W\d{2}-\d|\d{8}|\d{4}-\d{3}")
_OURS = re.compile(
    rf"(?i)(?:({'|'.join(DAYS)})(?:[a-z]{{0,6}}day)?,?\s*)?"
    rf"(?:(\d{{1,2}}) ({'|'.join(MONTHS)})[a-z]{{0,6}}(?: (\d{{4}}))?)?"
)
"""A day as day_words() writes it: "Tue", "Tue 14 Apr", "3 Jan 2027"."""


def parse_when(text: str, now: datetime, zone: ZoneInfo, *, ahead: bool = False) -> datetime:
    """Read a moment, aware, in UTC.

    A wall time alone ("07:30", "7", "0730") is today's; "now", "yesterday 18:00", "in 9 days 18:00",
    "Tue 18:00" and "Tue 14 Apr 18:00" work. A bare weekday is the last one, with `ahead` the next. Raise Refused
    when it is no moment, a day without an hour, or lies before 1990 or after 2100.
    """
    words = clean(text, lines=False)
    if words.casefold() == "now":
        return now
    if _CLOCK.fullmatch(words):
        return _clock(words, day_of(now, zone), zone, words)
    if _DATE.fullmatch(words) or _away(words) is not None or (words and _OURS.fullmatch(words)):
        _day(words, now, zone)
        raise Refused(f"{words}, at what hour? Write it like {words} 18:00.")
    head, _, clock = words.rpartition(" ")
    if head and (_away(head) is not None or _OURS.fullmatch(head)):
        day = _day(head, now, zone, ahead=ahead)
        at = _clock(clock, day, zone, words)
        bare = head.rstrip(",").isalpha() and _away(head) is None
        if bare and (at < now if ahead else at > now):
            at = _clock(clock, day + timedelta(days=7 if ahead else -7), zone, words)
        return at
    try:
        given = datetime.fromisoformat(words)
    except ValueError as fault:
        raise Refused(f'"{words[:40]}" isn\'t a time. Try 07:30 or yesterday 18:00.') from fault
    _check_year(given.year)
    return (given if given.tzinfo else given.replace(tzinfo=zone)).astimezone(UTC)


def _away(words: str) -> int | None:
    """How many days from today a text like "tomorrow" or "4 days ago" is; None for another."""
    found = _AWAY.fullmatch(words)
    if found is None:
        return _NEAR.get(words.casefold())
    return int(found[1]) if found[1] else -int(found[2])


def _day(words: str, now: datetime, zone: ZoneInfo, *, ahead: bool = False) -> date:
    """The day of a text that names one; a bare weekday is in the seven days up to today.

    With `ahead` a day without its year that is more than half a year ago is next year's.
    """
    found = _OURS.fullmatch(words)
    if _away(words) is not None or not found:
        return parse_day(words, now, zone)
    today = day_of(now, zone)
    name, number, month, year = found.groups()
    weekday = DAYS.index(name.title()) if name else None
    if number is None:
        return today - timedelta(days=(today.weekday() - (weekday or 0)) % 7)
    month_number = MONTHS.index(month.title()) + 1
    day = parse_day(f"{year or today.year}-{month_number:02}-{int(number):02}", now, zone)
    if ahead and not year and today - day > timedelta(days=183):
        day = parse_day(f"{today.year + 1}-{month_number:02}-{int(number):02}", now, zone)
    if weekday not in (None, day.weekday()):
        raise Refused(f"{day_words(day, today)} is the right day of the week; you wrote {words}.")
    return day


def _check_year(year: int) -> None:
    if not EARLIEST <= year <= LATEST:
        raise Refused(f"The year {year} is too far off; use {EARLIEST} to {LATEST}.")


def _clock(words: str, day: date, zone: ZoneInfo, whole: str) -> datetime:
    found = _CLOCK.fullmatch(words)
    hour, minute = (int(found[1] or found[3]), int(found[2] or found[4] or 0)) if found else (24, 0)
    if hour > 23 or minute > 59:
        raise Refused(f'"{whole[:40]}" isn\'t a time. Try 07:30 or yesterday 18:00.')
    return wall(day, hour * 60 + minute, zone)


def parse_day(text: str, now: datetime, zone: ZoneInfo) -> date:
    """Read a day: 2026-04-14, 2026-W16-2, yesterday, tomorrow, 4 days ago; raise Refused otherwise."""
    words = clean(text, lines=False)
    away = _away(words)
    if away is not None:
        return day_of(now, zone) + timedelta(days=away)
    try:
        if re.fullmatch(r"\d{4}-\d{3}", words):
            import pendulum

            words = str(pendulum.parse(words, exact=True))[:10]
        day = date.fromisoformat(words)
    except ValueError as fault:
        raise Refused(f'"{words[:40]}" isn\'t a day; write it like 2026-04-14.') from fault
    _check_year(day.year)
    return day


def parse_day_ahead(text: str, now: datetime, zone: ZoneInfo, after: date | None = None) -> date:
    """Read a day as plans name it: "fri" (the next one, today too), "4 Dec", tomorrow; raise Refused.

    The next is that from now on, or from the day `after`.
    """
    end_of_day = "23:59"
    now = now if after is None else wall(after, 0, zone)
    try:
        return day_of(parse_when(f"{text} {end_of_day}", now, zone, ahead=True), zone)
    except Refused as refused:
        if end_of_day not in str(refused):
            raise
        raise Refused(f'"{text[:40]}" isn\'t a day. Try fri, 4 Dec or 2026-12-04.') from refused
