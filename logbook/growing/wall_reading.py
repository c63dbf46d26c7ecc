"""Reading hours by the wall as people write them."""

import re

from logbook.growing.wall_hours import DAY_MINUTES, WallHours
from logbook.text import Refused, clean

_CLOCK = r"\s*(\d{1,2})(?:[:.](\d{2}))?\s*"
_HOURS = re.compile(rf"{_CLOCK}(?:-|–|\bto\b){_CLOCK}")


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
