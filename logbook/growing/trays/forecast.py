"""What will happen to a tray: its changes, its cut window, and the chores of a day."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import takewhile
from typing import ClassVar

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_bounds, day_of, wall
from logbook.growing.trays.chores import (
    BOTH,
    RECURRING,
    WORDS,
    Chore,
    RoomHours,
    change_into,
    slots,
)
from logbook.growing.trays.life import TrayState, first_unmet, per_day, stage_end


@dataclass(frozen=True, slots=True)
class PlannedChange:
    """A planned change of cover or light: into which stage, when, and its name."""

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

    def state(self, now: datetime, hours: RoomHours, sign_at: datetime | None = None) -> str:
        """Whether it is "soon", "ready" or "late"; a ready sign makes it ready whatever the clock says."""
        if now > hours.walk_at(self.by):
            return "late"
        if now >= self.start or (sign_at is not None and sign_at <= now):
            return "ready"
        return "soon"


LATE_AFTER = timedelta(hours=1)
ROUND_TAKES = timedelta(hours=4)
"""How long the daily walk may take: water and looks of the morning are not late before that."""
QUIET_BEFORE_CUT = timedelta(hours=6)
"""A tray is cut dry and seen then anyway: so long before its cut, water and looks are not asked for."""


@dataclass(frozen=True, slots=True)
class DueChore:
    """One chore due on one tray; `stage` is the number of the stage that the tray is in by then.

    `due_at` is the planned moment and `walk_at` the first walk at or after it: the round offers it
    then. A chore is late an hour past its walk, water and looks four hours, a cut once the first
    walk after its window has begun; how late it is counts from `late_from`.
    """

    chore: str
    words: str
    due_at: datetime
    walk_at: datetime
    late_from: datetime
    later: bool
    """Whether its walk is still to come; for a cut, whether its best moment is."""
    overdue: bool
    late: bool
    stage: int = 0


def is_late(chore: str, late_from: datetime, now: datetime) -> bool:
    """Whether a chore whose lateness counts from a moment is called late."""
    if chore == "cut":
        return now > late_from
    return now - late_from >= (ROUND_TAKES if chore in RECURRING else LATE_AFTER)


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


def regrowth_window(template: CropTemplate, since: datetime) -> Window:
    """The window of a tray that grows again; by default as long as the last stage to its best."""
    cut, best = template.cut, template.regrow_seconds
    later = 0 if best is None else best - cut.best_seconds
    ends = (cut.from_seconds, cut.best_seconds, cut.by_seconds)
    return Window(*(since + timedelta(seconds=max(0, end + later)) for end in ends))


def tray_window(template: CropTemplate, state: TrayState, now: datetime) -> Window | None:
    """A tray's cut window, late changes taken as made now; None when it was never sown."""
    if state.status == "planned" and state.planned_for is not None:
        return cut_window(template, 0, max(state.planned_for, now))
    if state.stage_since is None:
        return None
    late = now if state.status == "growing" else None
    if state.regrowing_since is not None and late is not None:
        return regrowth_window(template, state.regrowing_since)
    return cut_window(template, state.stage, state.stage_since, late)


def _put_off(state: TrayState, chore: str, due: datetime, hours: RoomHours) -> datetime:
    """Move a skipped chore to the day after the skip, at the wall time at which it is offered."""
    skipped = state.put_off.get(chore)
    offered = due if chore == "cut" else _walk(chore, due, hours)
    if skipped is None or day_of(offered, hours.zone) > skipped:
        return due
    clock = offered.astimezone(hours.zone)
    return wall(skipped + timedelta(days=1), clock.hour * 60 + clock.minute, hours.zone)


def _walk(chore: str, at: datetime, hours: RoomHours) -> datetime:
    """The walk at which a chore is offered; soak and sow at the time that the grower chose."""
    return at if chore in ("soak", "sow") else hours.walk_at(at)


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


def _item(
    chore: str, words: str, due: datetime, now: datetime, hours: RoomHours, stage: int = 0,
    *, here: bool = False, by: datetime | None = None,
) -> DueChore:  # fmt: skip
    """A chore with its walk: `here` says that somebody was there at its moment; `by` ends a cut's."""
    walk = due if here else _walk(chore, due, hours)
    late_from = walk if by is None else hours.walk_at(by)
    later = (due if chore == "cut" else walk) > now
    late = is_late(chore, late_from, now)
    return DueChore(chore, words, due, walk, late_from, later, late_from < now, late, stage)


def chores_of_tray(
    template: CropTemplate, state: TrayState, now: datetime, day: date, hours: RoomHours,
    *, whole: bool = False,
) -> list[DueChore]:  # fmt: skip
    """What is due on a tray on a day, by the walks of that day; a cut on all of its best day.

    For the day of `now`: what is due or overdue, and the next of each kind later that day, or all
    of that day when it is asked for `whole`. For a later day: what falls on it if everything
    before is done in time, and what is late at the next walk: after today's work, tomorrow's.
    """
    if state.status == "planned":
        return _before_sowing(template, state, now, day, hours)
    if state.status != "growing" or state.stage_since is None:
        return []
    if day > day_of(now, hours.zone):
        return _still_to_come(template, state, now, day, hours)
    end = day_bounds(day, hours.zone)[1]
    found, change_at = [], None
    ahead = changes_ahead(template, state.stage, state.stage_since)
    if ahead:
        change_at = _put_off(state, ahead[0].chore, ahead[0].at, hours)
        found.append(_item(ahead[0].chore, ahead[0].words, change_at, now, hours, state.stage))
    for chore in RECURRING:
        due = first_unmet(state, template, chore, hours)
        if due is not None and (due <= now or change_at is None or due < change_at):
            entered = due == state.stage_since and change_into(template, state.stage).parts
            found.append(_item(chore, chore, due, now, hours, state.stage, here=bool(entered)))
    window = tray_window(template, state, now)
    assert window is not None  # noqa: S101 - growing trays have one
    cut = _cut(state, window, now, hours, state.stage)
    found = [each for each in found if each.walk_at < end and not _cut_instead(each, cut, now)]
    if cut.due_at < end:
        found.append(cut)
    if whole:
        known = {(each.chore, each.due_at) for each in found}
        rest = _still_to_come(template, state, now, day, hours)
        found += [
            each for each in rest if each.due_at > now and (each.chore, each.due_at) not in known
        ]
    return found


def _cut_instead(chore: DueChore, cut: DueChore, now: datetime) -> bool:
    """Whether it is left out for the cut that comes soon after it; asked again once that has passed."""
    walk = max(chore.walk_at, now)
    return chore.chore in RECURRING and cut.due_at - QUIET_BEFORE_CUT <= walk < cut.due_at


def both(water: DueChore, look: DueChore) -> DueChore:
    """Water and a look as one chore."""
    return replace(
        water, chore=BOTH, words=WORDS[BOTH], due_at=min(water.due_at, look.due_at),
        walk_at=min(water.walk_at, look.walk_at), late_from=min(water.late_from, look.late_from),
        overdue=water.overdue or look.overdue, late=water.late or look.late,
    )  # fmt: skip


def _cut(state: TrayState, window: Window, now: datetime, hours: RoomHours, stage: int) -> DueChore:
    """The cut at its best moment, or when the sign was seen."""
    due = _put_off(state, "cut", min(state.sign_at or window.best, window.best), hours)
    here = due == state.sign_at
    words = "cut" if state.harvest == 1 else "cut again"
    return _item("cut", words, due, now, hours, stage, here=here, by=window.by)


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
    dues = {chore: _put_off(state, chore, at, hours) for chore, at in steps}
    if not today:
        dues = {chore: hours.walk_at(now) if at <= now else at for chore, at in dues.items()}
        if "soak" in dues:
            dues["sow"] = max(dues["sow"], dues["soak"] + soak)
    return [
        _item(chore, chore, due, now, hours)
        for chore, due in dues.items()
        if due < end and (today or due >= begin)
    ]


def _still_to_come(
    template: CropTemplate, state: TrayState, now: datetime, day: date, hours: RoomHours
) -> list[DueChore]:
    """All that falls on a day after `now`, each of several waterings too."""
    begin, end = day_bounds(day, hours.zone)
    assert state.stage_since is not None  # noqa: S101 - growing trays have one
    starts = _starts_ahead(template, state, state.stage_since, now, hours)
    last = len(template.stages) - 1
    window = cut_window(template, last, starts[-1])
    if state.regrowing_since is not None:
        window = regrowth_window(template, state.regrowing_since)
    found = [
        _item(change.chore, change.words, change.at, now, hours, change.stage - 1)
        for change in _changes(template, state.stage, starts)
    ]
    for stage, (since, until) in enumerate(
        zip(starts, [*starts[1:], window.by], strict=True), state.stage
    ):
        for chore in RECURRING:
            times = per_day(template.stages[stage], chore)
            after = max(since, begin - timedelta(seconds=1), now)
            if stage == state.stage:
                after = max(after, state.met.get(chore, after))
            dues = takewhile(lambda due: due < min(end, until), slots(times, since, after, hours))  # noqa: B023
            found += [_item(chore, chore, due, now, hours, stage) for due in dues]
    cut = _cut(state, window, now, hours, last)
    found = [
        each for each in found
        if begin <= each.walk_at < end and not _cut_instead(each, cut, now)
    ]  # fmt: skip
    left = cut.due_at < begin <= hours.walk_at(now)  # today's work is over
    return found + [cut] * (left or begin <= cut.due_at) * (cut.due_at < end)


def stage_for_chore(template: CropTemplate, state: TrayState, chore: str) -> int | None:
    """The next stage into which a change of this name leads; None when there is none."""
    ahead = range(state.stage + 1, len(template.stages))
    return next((stage for stage in ahead if chore in change_into(template, stage).parts), None)
