"""The invented room: its racks, its lamps, the hours that it keeps, and who works in it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of, wall

NAME = "The Undercroft"
SHELVES = 3
LATEST_BACK = timedelta(minutes=50)
WORKING_MINUTES = 12 * 60
OWNER = "IV"
DUTY = ("IV", "IV", "TM", "IV", "TM", "TM", "OQ")
"""Who walks the round, Monday first."""


@dataclass(frozen=True, slots=True)
class Rack:
    """A rack of SHELVES like shelves; lamp hours in minutes after midnight, None for no lamp."""

    name: str
    slots: int
    lamp_on: int | None = None
    lamp_off: int | None = None


DARK = "Dark rack"
RACKS = (
    Rack("Rack 1", 4, 6 * 60, 22 * 60),
    Rack("Rack 2", 4, 5 * 60 + 30, 21 * 60),
    Rack("Rack 3", 4, 20 * 60, 12 * 60),
    Rack(DARK, 10),
)
LONGER_NIGHT = ("Rack 2", 3, 30, 19 * 60)
"""A rack, the number of its shelf, how many days ago its lamps got the rack's hours, and when they
went off before."""
SHELF_YIELD: Mapping[str, float] = {
    "Rack 1/Shelf 1": 1.04,
    "Rack 2/Shelf 3": 0.97,
    "Rack 3/Shelf 3": 0.92,
}
"""How much a shelf yields against the others: what a grower would have to find out."""


def on_duty(day: date) -> str:
    """The initials of who walks the round on a day."""
    return DUTY[day.weekday()]


def day_starts(now: datetime, zone: ZoneInfo) -> int:
    """The minute after midnight at which the room's daily chores fall due.

    The sample shows a round just begun whenever it is opened, so its room starts its day on the
    last half hour that is ten minutes old or more, and of two such the full hour; clock changes
    are stepped over.
    """
    clock, day = now.astimezone(zone), day_of(now, zone)
    minute = clock.minute
    back = minute if 10 <= minute <= 45 else minute - 30 if minute > 45 else minute + 30
    start = max(0, clock.hour * 60 + minute - back)
    while start > 0 and wall(day, start, zone) > now - timedelta(minutes=5):
        start = max(0, start - 30)
    while now - wall(day, start, zone) > LATEST_BACK and wall(day, start + 30, zone) <= now:
        start += 30
    return start


def day_ends(start: int) -> int:
    """The minute at which the working day that began at `start` is over."""
    return min(start + WORKING_MINUTES, 1440)
