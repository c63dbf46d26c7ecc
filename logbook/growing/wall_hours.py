"""Hours by the wall clock: when lamps are lit, when electricity is dearer.

Lengths are elapsed time, so the night of a clock change is an hour shorter or longer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo

from logbook.growing.days import wall
from logbook.text import Refused, clean

DAY_MINUTES = 1440
Span = tuple[datetime, datetime]
EVERY_DAY = frozenset(range(7))

_CLOCK = r"\s*(\d{1,2})(?:[:.](\d{2}))?\s*"
_HOURS = re.compile(rf"{_CLOCK}(?:-|–|\bto\b){_CLOCK}")


@dataclass(frozen=True, slots=True)
class WallHours:
    """From `on` until `off`, in minutes after midnight by the wall; past midnight when off < on.

    On 0 with off 1440 is all day and all night. `days` are the weekdays (Monday 0) on which a run
    begins. Raise Refused for two equal times or a time that no clock shows.
    """

    on: int
    off: int
    days: frozenset[int] = EVERY_DAY

    def __post_init__(self) -> None:
        if not (0 <= self.on < DAY_MINUTES and 0 <= self.off <= DAY_MINUTES):
            raise Refused("Times of day go from 00:00 to 24:00.")
        if self.on == self.off % DAY_MINUTES and self.off != DAY_MINUTES:
            raise Refused(
                f"Both times are {wall_words(self.on)}; "
                "write two different ones, or 00:00-24:00 for always."
            )
        if not self.days <= EVERY_DAY:
            raise Refused("Weekdays go from Monday (0) to Sunday (6).")

    @property
    def words(self) -> str:
        """The two times: "06:00–22:00"."""
        return f"{wall_words(self.on)}–{wall_words(self.off)}"

    def run(self, day: date, zone: tzinfo) -> Span:
        """Start and end (UTC) of the run that begins on a day."""
        last = day if self.off > self.on else day + timedelta(days=1)
        start, end = wall(day, self.on, zone), wall(last, self.off, zone)
        return start, max(start, end)


def wall_words(minute: int | None) -> str:
    """Write minutes after midnight as "06:00"; "" for none."""
    return "" if minute is None else f"{minute // 60:02}:{minute % 60:02}"


def wall_hours(text: str, what: str = "hours", like: str = "06:00-22:00") -> WallHours:
    """Read "06:00-22:00", "6–22" or "20:00 to 12:00"; raise Refused otherwise."""
    cleaned = clean(text, lines=False).casefold()
    found = _HOURS.fullmatch(cleaned)
    if not found:
        raise Refused(f'The {what} "{cleaned[:40]}" cannot be read; write them like {like}.')
    on_hour, on_minute, off_hour, off_minute = (int(part or 0) for part in found.groups())
    on, off = on_hour * 60 + on_minute, off_hour * 60 + off_minute
    if max(on_minute, off_minute) > 59 or max(on, off) > DAY_MINUTES:
        raise Refused(
            f'The {what} "{cleaned[:40]}" name a time that no clock shows; write them like {like}.'
        )
    return _between(on, off)


def _between(on: int, off: int) -> WallHours:
    return WallHours(on % DAY_MINUTES, off % DAY_MINUTES if on == off else off)


def lamp_hours(text: str) -> tuple[int | None, int | None]:
    """Read "06:00-22:00" as minutes after midnight; "none" (two None) for a dark shelf."""
    if clean(text, lines=False).casefold() in ("", "none", "no", "never", "off"):
        return None, None
    hours = wall_hours(text, "lamp hours", "06:00-22:00, or none")
    return hours.on, hours.off


def checked_lamp_hours(on: int | None, off: int | None) -> tuple[int | None, int | None]:
    """Lamp hours, on at 24:00 as on at 00:00; raise Refused when they are none."""
    if on is None and off is None:
        return None, None
    if on is None or off is None:
        raise Refused(
            "Give both the lamp's on and off time, or neither for a dark shelf.", about="lamps"
        )
    hours = _between(on, off)
    return hours.on, hours.off


def lamp_words(on: int | None, off: int | None) -> str:
    """Write lamp hours as lamp_hours reads them."""
    return "none" if on is None or off is None else f"{wall_words(on)}-{wall_words(off)}"


def chore_hours(text: str) -> tuple[int, int]:
    """Read "07:00-19:00" as minutes after midnight, the earlier first; raise Refused."""
    hours = wall_hours(text, "daily chores' hours", "07:00-19:00")
    if hours.on >= hours.off:
        raise Refused("The daily chores must go from an earlier to a later time, like 07:00-19:00.")
    return hours.on, hours.off


def wall_time(text: str, what: str = "time of day") -> int:
    """Read "17:00" or "17" as minutes after midnight; raise Refused."""
    cleaned = clean(text, lines=False)
    found = re.fullmatch(_CLOCK, cleaned)
    minute = int(found[1]) * 60 + int(found[2] or 0) if found else DAY_MINUTES
    if not found or int(found[2] or 0) > 59 or minute >= DAY_MINUTES:
        raise Refused(f'The {what} "{cleaned[:40]}" cannot be read; write it like 17:00.')
    return minute


def runs(hours: WallHours, start: datetime, end: datetime, zone: tzinfo) -> Iterator[Span]:
    """The runs between two moments, cut to them, in order; hours that are always on day by day."""
    reached, end = start.astimezone(UTC), end.astimezone(UTC)
    day = reached.astimezone(zone).date() - timedelta(days=1)
    last = end.astimezone(zone).date()
    while day <= last:
        if day.weekday() in hours.days:
            run_start, run_end = hours.run(day, zone)
            low, high = max(run_start, reached), min(run_end, end)
            if low < high:
                yield low, high
                reached = high
        day += timedelta(days=1)


def seconds_between(hours: WallHours, start: datetime, end: datetime, zone: tzinfo) -> float:
    """Count the real seconds of the hours between two moments; 0 when end is not after start."""
    return sum((high - low).total_seconds() for low, high in runs(hours, start, end, zone))


def seconds_on(hours: WallHours, day: date, zone: tzinfo) -> float:
    """Count the real seconds of the hours on a calendar day, midnight to midnight in the zone."""
    return seconds_between(hours, wall(day, 0, zone), wall(day, DAY_MINUTES, zone), zone)
