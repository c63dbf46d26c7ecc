"""Changes between stages: in time, late, for some trays early, or left for who opens the book."""

from __future__ import annotations

from datetime import datetime, timedelta

from logbook.growing.forecast import changes_ahead
from logbook.growing.life import Deed
from sample_db.cohort import Cohort
from sample_db.tending import water_if_due
from sample_db.world import World

MOST_MINUTES_LATE = 40


def await_change(world: World, cohort: Cohort) -> None:
    """Have the next change made, in time or as the mishaps want it."""
    if cohort.state.stage_since is None:
        return
    ahead = changes_ahead(cohort.template, cohort.state.stage, cohort.state.stage_since)
    if not ahead:
        return
    stage, due, chore = ahead[0].stage, ahead[0].at, ahead[0].chore
    split = cohort.befallen("split", chore=chore)
    if split is not None and len(cohort.trays) > split.trays:
        early = cohort.part_off(split.trays)
        world.growing.append(early)
        at = due - timedelta(hours=split.hours)
        world.agenda.put(at, lambda when: _change(world, early, stage, chore, when))
    if due > world.days.left_off or cohort.befallen("never", chore=chore):
        return
    late = cohort.befallen("late", chore=chore)
    if late is not None:
        delay, note = timedelta(hours=late.hours), late.words
    elif cohort.youngest:
        delay, note = timedelta(0), ""
    else:
        delay, note = timedelta(minutes=world.dice.whole(0, MOST_MINUTES_LATE)), ""
    world.agenda.put(due + delay, lambda when: _change(world, cohort, stage, chore, when, note))


def _change(
    world: World, cohort: Cohort, stage: int, chore: str, when: datetime, note: str = ""
) -> None:
    """Make a change; trays that come to the light move to their lit rack, dry ones are watered."""
    if not cohort.trays:
        return
    entry = world.entry(cohort, "change", when, chore=chore, stage=stage, note=note)
    world.live(cohort, Deed(entry, "change", when, stage))
    if cohort.template.stages[stage].light == "lit":
        moved = world.entry(cohort, "move", when, act=entry)
        world.place(cohort, moved, cohort.habit.rack)
    water_if_due(world, cohort, when)
    await_change(world, cohort)
