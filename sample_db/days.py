"""The days of the sample: from three months ago to this minute."""

from __future__ import annotations

import heapq
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import count
from zoneinfo import ZoneInfo

from logbook.growing.days import day_bounds, day_of, wall
from logbook.growing.trays.chores import RoomHours
from sample_db.room import day_ends, day_starts

DAYS_BEHIND = 92
AFTERNOON = 365
LONGEST_REST = timedelta(hours=10)
JUST_DUE = timedelta(minutes=55)
NOW_AGO = timedelta(minutes=20)

Deed = Callable[[datetime], object]


@dataclass(frozen=True, slots=True)
class Days:
    """The moments that the sample hangs on; all follow from `now` (UTC) and the room's zone."""

    now: datetime
    hours: RoomHours

    @classmethod
    def around(cls, now: datetime, zone: ZoneInfo) -> Days:
        """The days before `now`, with the hours that the room keeps."""
        start = day_starts(now, zone)
        return cls(now.astimezone(UTC), RoomHours(zone, start, day_ends(start)))

    @property
    def today(self) -> date:
        """The day of now."""
        return day_of(self.now, self.hours.zone)

    @property
    def left_off(self) -> datetime:
        """From here on a change that falls due is left for who opens the sample."""
        return self.now - JUST_DUE

    @property
    def a_while_ago(self) -> datetime:
        """When the chores fell due that are fresh."""
        return self._whole(self.now - NOW_AGO)

    def on(self, ago: int, minute: int = 0) -> datetime:
        """The moment `minute` minutes into the working day, so many days ago."""
        return wall(self.today - timedelta(days=ago), self.hours.start + minute, self.hours.zone)

    def at(self, ago: int, minute: int) -> datetime:
        """A moment of a day that is past, or of this morning."""
        return self.on(ago, minute) if ago else self.this_morning(minute)

    def this_morning(self, minute: int) -> datetime:
        """A moment between the start of today's work and now, in sixtieths of that time."""
        start = min(self.on(0), self.now)
        return self._whole(start + (self.now - start) * (minute / 60))

    def later(self, share: float) -> datetime:
        """A moment of later today: a share of the rest of the day, ten hours at most."""
        end = day_bounds(self.today, self.hours.zone)[1]
        rest = min(end - self.now, LONGEST_REST)
        return self._whole(self.now + rest * share)

    @staticmethod
    def _whole(at: datetime) -> datetime:
        return at.replace(microsecond=0)


class Agenda:
    """Deeds to come, done in the order of their moments; what lies after now is left undone."""

    def __init__(self, now: datetime) -> None:
        self._now = now
        self._heap: list[tuple[datetime, int, Deed]] = []
        self._order = count()

    def put(self, at: datetime, deed: Deed) -> None:
        """Have a deed done at a moment."""
        if at <= self._now:
            heapq.heappush(self._heap, (at, next(self._order), deed))

    def run(self) -> None:
        """Do everything up to now; deeds may put further ones."""
        while self._heap:
            at, _, deed = heapq.heappop(self._heap)
            deed(at)
