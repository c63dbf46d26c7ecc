"""What will happen to a tray: its changes, its cut window, and the chores of a day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_bounds, day_of, wall
from logbook.growing.trays.chores import RECURRING, Chore, RoomHours, change_into, slots
from logbook.growing.trays.life import TrayState, first_unmet, per_day, stage_end


@dataclass(frozen=True, slots=True)
class PlannedChange:
    """A change of cover or light that lies ahead: into which stage, when by plan, called what."""

    keys: ClassVar = "chore at"

    stage: int
    at: datetime
    chore: Chore
    words: str


@dataclass(frozen=True, slots=True)
class Window:
    """From when a tray may be cut, when it is best, and by when it should be."""

    keys: ClassVar = "from=start best by"

    start: datetime
    """Not before."""
    best: datetime
    """The best moment."""
    by: datetime
    """Not after."""

    def state(self, now: datetime, sign_at: datetime | None = None) -> str:
        """Whether it is "soon", "ready" or "late"; a sign to cut makes it ready whatever the clock says."""
        if now > self.by:
            return "late"
        if now >= self.start or (sign_at is not None and sign_at <= now):
            return "ready"
        return "soon"


@dataclass(frozen=True, slots=True)
class DueChore:
    """One chore due on one tray. `later` marks one whose time is still to come.

    `stage` is the number of the stage that the tray is in by then.
    """

    chore: str
    words: str
    due_at: datetime
    later: bool
    overdue: bool
    stage: int = 0


def stage_starts(
    template: CropTemplate, stage: int, since: datetime, now: datetime | None = None
) -> list[datetime]:
    """When the stages from `stage` on begin; one already late is taken as begun at `now`."""
    starts = [since]
    for place in range(stage, len(template.stages) - 1):
        end = stage_end(starts[-1], template.stages[place])
        if end is None:
            break
        starts.append(max(end, now) if now is not None else end)
    return starts


def changes_ahead(
    template: CropTemplate, stage: int, since: datetime, now: datetime | None = None
) -> list[PlannedChange]:
    """The changes that follow stage number `stage`, begun at `since`."""
    return _changes(template, stage, stage_starts(template, stage, since, now))


def _changes(template: CropTemplate, stage: int, starts: Sequence[datetime]) -> list[PlannedChange]:
    ahead = ((at, place, change_into(template, place)) for place, at in enumerate(starts, stage))
    return [
        PlannedChange(place, at, change.chore, change.words)
        for at, place, change in ahead
        if place > stage and change.parts
    ]


def cut_window(
    template: CropTemplate, stage: int, since: datetime, now: datetime | None = None
) -> Window:
    """The cut window of a tray whose stage number `stage` began at `since`."""
    last = stage_starts(template, stage, since, now)[-1]
    cut = template.cut
    ends = (cut.from_seconds, cut.best_seconds, cut.by_seconds)
    return Window(*(last + timedelta(seconds=end) for end in ends))


def tray_window(template: CropTemplate, state: TrayState, now: datetime) -> Window | None:
    """A tray's cut window, late changes taken as made now; None when it was never sown."""
    if state.status == "planned" and state.planned_for is not None:
        return cut_window(template, 0, max(state.planned_for, now))
    if state.stage_since is None:
        return None
    late = now if state.status == "growing" else None
    return cut_window(template, state.stage, state.stage_since, late)


def _put_off(state: TrayState, chore: str, due: datetime, hours: RoomHours) -> datetime:
    """Move a skipped chore to the day after the skip, at its own wall time."""
    skipped = state.put_off.get(chore)
    if skipped is None or day_of(due, hours.zone) > skipped:
        return due
    clock = due.astimezone(hours.zone)
    return wall(skipped + timedelta(days=1), clock.hour * 60 + clock.minute, hours.zone)


def _starts_ahead(
    template: CropTemplate, state: TrayState, since: datetime, now: datetime, hours: RoomHours
) -> list[datetime]:
    """When the stages from the present one on begin, a change that was put off counted in."""
    starts = stage_starts(template, state.stage, since, now)
    for change in changes_ahead(template, state.stage, since)[:1]:
        put_off = _put_off(state, change.chore, change.at, hours)
        if put_off > starts[change.stage - state.stage]:
            before = starts[: change.stage - state.stage]
            return before + stage_starts(template, change.stage, put_off)
    return starts


def _item(chore: str, words: str, due: datetime, now: datetime, stage: int = 0) -> DueChore:
    return DueChore(chore, words, due, later=due > now, overdue=due < now, stage=stage)


def chores_of_tray(
    template: CropTemplate, state: TrayState, now: datetime, day: date, hours: RoomHours
) -> list[DueChore]:
    """What is due on a tray on a day.

    For the day of `now`: what is due or overdue, and the next of each kind later that day. For a
    later day: what falls on it if everything before is done in time.
    """
    if state.status == "planned":
        return _before_sowing(template, state, now, day, hours)
    if state.status != "growing" or state.stage_since is None:
        return []
    if day > day_of(now, hours.zone):
        return _on_a_later_day(template, state, now, day, hours)
    end = day_bounds(day, hours.zone)[1]
    found, change_at = [], None
    ahead = changes_ahead(template, state.stage, state.stage_since)
    if ahead:
        change_at = _put_off(state, ahead[0].chore, ahead[0].at, hours)
        if change_at < end:
            found.append(_item(ahead[0].chore, ahead[0].words, change_at, now, state.stage))
    for chore in RECURRING:
        due = first_unmet(state, template, chore, hours)
        if due is not None and due < end and (due <= now or change_at is None or due < change_at):
            found.append(_item(chore, chore, due, now, state.stage))
    window = cut_window(template, state.stage, state.stage_since, now)
    cut = _cut_due(state, window, hours)
    if cut < end:
        found.append(DueChore("cut", "cut", cut, cut > now, now > window.by, state.stage))
    return found


def _cut_due(state: TrayState, window: Window, hours: RoomHours) -> datetime:
    return _put_off(state, "cut", min(state.sign_at or window.best, window.best), hours)


def _before_sowing(
    template: CropTemplate, state: TrayState, now: datetime, day: date, hours: RoomHours
) -> list[DueChore]:
    if state.planned_for is None:
        return []
    begin, end = day_bounds(day, hours.zone)
    today = day_of(now, hours.zone) >= day
    soak, steps = timedelta(seconds=template.soak_seconds), [("sow", state.planned_for)]
    if soak and state.soaked_at is None:
        steps.insert(0, ("soak", state.planned_for - soak))
    elif soak and state.soaked_at is not None:
        steps = [("sow", state.soaked_at + soak)]
    dues = ((chore, _put_off(state, chore, at, hours)) for chore, at in steps)
    return [
        _item(chore, chore, due, now)
        for chore, due in dues
        if due < end and (today or due >= begin)
    ]


def _on_a_later_day(
    template: CropTemplate, state: TrayState, now: datetime, day: date, hours: RoomHours
) -> list[DueChore]:
    begin, end = day_bounds(day, hours.zone)
    assert state.stage_since is not None  # noqa: S101 - growing trays have one
    starts = _starts_ahead(template, state, state.stage_since, now, hours)
    last = len(template.stages) - 1
    window = cut_window(template, last, starts[-1])
    found = [
        _item(change.chore, change.words, change.at, now, change.stage - 1)
        for change in _changes(template, state.stage, starts)
        if begin <= change.at < end
    ]
    for stage, (since, until) in enumerate(
        zip(starts, [*starts[1:], window.by], strict=True), state.stage
    ):
        for chore in RECURRING:
            times = per_day(template.stages[stage], chore)
            after = max(since, begin - timedelta(seconds=1), now)
            due = next(slots(times, since, after, hours), None)
            if due is not None and begin <= due < min(end, until):
                found.append(_item(chore, chore, due, now, stage))
    cut = _cut_due(state, window, hours)
    if begin <= cut < end:
        found.append(_item("cut", "cut", cut, now, last))
    unique: dict[str, DueChore] = {}
    for item in found:
        if item.chore not in unique or item.due_at < unique[item.chore].due_at:
            unique[item.chore] = item
    return list(unique.values())


def stage_for_chore(template: CropTemplate, state: TrayState, chore: str) -> int | None:
    """The next stage into which a change of this name leads; None when there is none."""
    ahead = range(state.stage + 1, len(template.stages))
    return next((stage for stage in ahead if chore in change_into(template, stage).parts), None)
