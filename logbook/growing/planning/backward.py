"""When to soak and sow for what is wanted at a time, inside the hours in which the room is worked."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, wall
from logbook.growing.trays.chores import RoomHours, change_into
from logbook.growing.trays.forecast import PlannedChange, Window

STEP = 30
"""Minutes between the times of day at which a sowing is tried; the last is so long before the end."""


@dataclass(frozen=True, slots=True)
class Backward:
    """A sowing counted back from when it is wanted, each change made on the walk that it falls to."""

    soak_at: datetime | None
    sow_at: datetime
    changes: tuple[PlannedChange, ...]
    cut: Window
    cut_at: datetime
    soak_at_work: bool = True
    """Whether the soak begins while the room is worked: some lengths never can."""


def worked_by(at: datetime, hours: RoomHours) -> datetime:
    """The last moment up to `at` at which the room is worked: itself, or the round that evening."""
    day = day_of(at, hours.zone)
    if at < wall(day, hours.start, hours.zone):
        return wall(day - timedelta(days=1), hours.last_round, hours.zone)
    return at if at <= wall(day, hours.end, hours.zone) else wall(day, hours.last_round, hours.zone)


def backward(
    template: CropTemplate, ready: datetime, hours: RoomHours, after: datetime | None = None
) -> Backward | None:
    """The sowing whose best moment is nearest to the cut for `ready`; None where it is too late.

    The cut is the last worked moment up to `ready`, or where no sowing has that in its window, the
    last one before. With `after`, neither soak nor sowing is before it.
    """
    walks, wanted = _Walks(template, hours), worked_by(ready, hours)
    times, at_work = walks.near(wanted, after)
    place = bisect_right(times, wanted, key=lambda at: walks.window(at).best)
    found: list[tuple[timedelta, datetime, Window]] = []
    for at in times[max(0, place - 1) : place + 1]:
        window = walks.window(at)
        if window.start <= wanted <= window.by:
            found.append((abs(window.best - wanted), at, window))
    if found:
        _, at, window = min(found, key=lambda each: (each[0], -each[1].timestamp()))
        return walks.sowing(at, window, wanted, at_work)
    last = wanted - timedelta(seconds=template.planned_seconds() + template.cut.from_seconds)
    days = len(template.stages) + 2
    first = last - timedelta(seconds=template.cut.by_seconds, days=days)
    times, at_work = walks.times(first, last, after)
    for at in reversed(times):
        window = walks.window(at)
        cut = worked_by(min(window.by, wanted), hours)
        if window.start <= cut:
            return walks.sowing(at, window, cut, at_work)
    return None


def earliest(template: CropTemplate, after: datetime, hours: RoomHours) -> Backward:
    """The sowing from a moment on that can be cut first."""
    walks = _Walks(template, hours)
    soak = timedelta(seconds=template.soak_seconds)
    times, at_work = walks.times(after, after + soak + timedelta(days=3), after)
    window = walks.window(times[0])
    return walks.sowing(times[0], window, hours.walk_at(window.start), at_work)


def latest(
    template: CropTemplate, ready: datetime, hours: RoomHours, after: datetime
) -> Backward | None:
    """The last sowing whose cut window has begun by the cut for `ready`; None where it is too late."""
    walks, wanted = _Walks(template, hours), worked_by(ready, hours)
    last = wanted - timedelta(seconds=template.planned_seconds() + template.cut.from_seconds)
    times, at_work = walks.times(last - timedelta(days=len(template.stages) + 2), last, after)
    for at in reversed(times):
        window = walks.window(at)
        if window.start <= wanted:
            return walks.sowing(at, window, min(wanted, worked_by(window.by, hours)), at_work)
    return None


def walked_starts(template: CropTemplate, sow: datetime, hours: RoomHours) -> list[datetime]:
    """When each stage of a sowing begins, each change of hands made on the walk that it falls to."""
    return _Walks(template, hours).starts(sow)


class _Walks:
    """A template's life in a room, each change of hands on the first walk at or after its time."""

    def __init__(self, template: CropTemplate, hours: RoomHours) -> None:
        self.template, self.hours = template, hours
        stages = enumerate(template.stages[:-1], 1)
        self.changes = [(stage.seconds or 0, change_into(template, at)) for at, stage in stages]
        self.soak = timedelta(seconds=template.soak_seconds)

    def starts(self, sow: datetime) -> list[datetime]:
        """When each stage begins."""
        starts = [sow]
        for seconds, change in self.changes:
            end = starts[-1] + timedelta(seconds=seconds)
            starts.append(self.hours.walk_at(end) if change.parts else end)
        return starts

    def window(self, sow: datetime) -> Window:
        """The cut window of a sowing."""
        last, cut = self.starts(sow)[-1], self.template.cut
        ends = (cut.from_seconds, cut.best_seconds, cut.by_seconds)
        return Window(*(last + timedelta(seconds=end) for end in ends))

    def near(self, wanted: datetime, after: datetime | None) -> tuple[Sequence[datetime], bool]:
        """As times(), those of the days around the sowing that is best at a moment."""
        hours, best = self.hours, self.template.planned_seconds() + self.template.cut.best_seconds
        last = day_of(wanted - timedelta(seconds=best), hours.zone) + timedelta(days=1)
        days = [last - timedelta(days=back) for back in range(len(self.changes) + 3, -1, -1)]
        place = bisect_right(
            days, wanted, key=lambda day: self.window(wall(day, hours.start, hours.zone)).best
        )
        first = wall(days[max(0, place - 2)], 0, hours.zone)
        if after is not None:
            first = max(first, after + self.soak)
        return self.times(first, first + timedelta(days=3), after)

    def times(
        self, first: datetime, last: datetime, after: datetime | None
    ) -> tuple[Sequence[datetime], bool]:
        """The times to try, and whether their soak begins while the room is worked."""
        every = [at for at in self._worked(first, last) if after is None or at - self.soak >= after]
        at_work = [at for at in every if self._at_work(at - self.soak)]
        return at_work or every, bool(at_work) or not every

    def _worked(self, first: datetime, last: datetime) -> Iterator[datetime]:
        hours, day = self.hours, day_of(first, self.hours.zone)
        while day <= day_of(last, hours.zone):
            for minute in range(hours.start, max(hours.start, hours.end - STEP) + 1, STEP):
                at = wall(day, minute, hours.zone)
                if first <= at <= last:
                    yield at
            day += timedelta(days=1)

    def _at_work(self, at: datetime) -> bool:
        day, zone = day_of(at, self.hours.zone), self.hours.zone
        return wall(day, self.hours.start, zone) <= at <= wall(day, self.hours.end, zone)

    def sowing(self, sow: datetime, cut: Window, cut_at: datetime, at_work: bool) -> Backward:
        """All of a sowing at a time."""
        ahead = zip(self.changes, self.starts(sow)[1:], strict=True)
        changes = tuple(
            PlannedChange(stage, at, change.chore, change.words)
            for stage, ((_, change), at) in enumerate(ahead, 1)
            if change.parts
        )
        soak = sow - self.soak if self.soak else None
        return Backward(soak, sow, changes, cut, cut_at, at_work)
