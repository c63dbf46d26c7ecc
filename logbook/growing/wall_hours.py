"""Hours by the wall clock: when lamps are lit, when electricity is dearer.

Lengths are elapsed time, so the night of a clock change is an hour shorter or longer.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo

from logbook.growing.days import wall
from logbook.text import Refused

DAY_MINUTES = 1440
Span = tuple[datetime, datetime]
EVERY_DAY = frozenset(range(7))


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


def lamp_words(on: int | None, off: int | None) -> str:
    """Write lamp hours as lamp_hours reads them."""
    return "none" if on is None or off is None else f"{wall_words(on)}-{wall_words(off)}"


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
