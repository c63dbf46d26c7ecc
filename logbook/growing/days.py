"""Days and wall times in the room's zone, beside elapsed time in UTC.

Day numbers are calendar days; lengths are elapsed time; daily chores keep their wall time.
"""

from datetime import UTC, date, datetime, time, timedelta, tzinfo
from functools import lru_cache
from zoneinfo import ZoneInfo

from logbook.text import Refused

DAY = 86_400


@lru_cache(maxsize=64)
def zone_named(name: str) -> ZoneInfo:
    """The time zone of an IANA name; raise Refused when there is none of that name."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError) as fault:
        raise Refused(
            f'There is no time zone "{name[:60]}"; write one like Europe/London or America/Chicago.'
        ) from fault


def day_of(at: datetime, zone: tzinfo) -> date:
    """The calendar day of a moment in the room's zone."""
    return at.astimezone(zone).date()


@lru_cache(maxsize=2048)
def wall(day: date, minute: int, zone: tzinfo) -> datetime:
    """The moment (UTC) of a wall time, `minute` minutes after midnight by the clock.

    A wall time that a clock change leaves out is taken as late as the change made it; one that
    comes twice is taken the first time.
    """
    days, minute = divmod(minute, 1440)
    naive = datetime.combine(day + timedelta(days=days), time(minute // 60, minute % 60))
    return naive.replace(tzinfo=zone).astimezone(UTC)


def day_bounds(day: date, zone: tzinfo) -> tuple[datetime, datetime]:
    """The first moment of a day and of the next (UTC); 23 to 25 hours apart."""
    return wall(day, 0, zone), wall(day + timedelta(days=1), 0, zone)


def day_number(sown: datetime, at: datetime, zone: ZoneInfo, first: int = 1) -> int:
    """The day number: the sowing day is `first` (1, or 0 where the room counts so)."""
    return (day_of(at, zone) - day_of(sown, zone)).days + first


def clock_words(at: datetime, zone: ZoneInfo) -> str:
    """Write a moment's wall time: "07:42"."""
    return f"{at.astimezone(zone):%H:%M}"


DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def day_words(day: date, today: date | None = None) -> str:
    """Write a day: "Tue 14 Apr"; with the year when it is not this year's."""
    words = f"{DAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"
    return words if today is None or day.year == today.year else f"{words} {day.year}"


def moment_words(at: datetime, now: datetime, zone: ZoneInfo) -> str:
    """Write a moment as near as needed: "07:42", "Tue 18:00", "Tue 14 Apr 18:00"."""
    day, today = day_of(at, zone), day_of(now, zone)
    clock = clock_words(at, zone)
    if day == today:
        return clock
    if 0 < (day - today).days < 7:
        return f"{DAYS[day.weekday()]} {clock}"
    return f"{day_words(day, today)} {clock}"
