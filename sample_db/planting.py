"""Planning, soaking and sowing batches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial

from logbook.growing.days import day_of, local, wall
from logbook.growing.life import Deed
from logbook.growing.templates import CropTemplate
from sample_db.befalling import await_mishaps
from sample_db.changing import await_change
from sample_db.cohort import Cohort
from sample_db.crops import lot_of
from sample_db.cutting import batch_luck
from sample_db.days import DAYS_BEHIND
from sample_db.dice import Dice
from sample_db.room import DARK
from sample_db.shelves import Spot
from sample_db.sowings import Habit, Plan
from sample_db.trials import join
from sample_db.tried import tried_with
from sample_db.versions import version_at
from sample_db.world import World

PLANNED_AHEAD = timedelta(hours=36)
TO_COME = -1


def take_up(world: World, habit: Habit) -> None:
    """Have a crop sown again and again, up to its youngest batch."""
    youngest = _youngest(world, habit)
    zone = world.days.hours.zone
    clock = local(youngest, zone)
    for back in range(0, DAYS_BEHIND - habit.age, habit.every):
        day = day_of(youngest, zone) - timedelta(days=back)
        at = wall(day, clock.hour * 60 + clock.minute, zone) if back else youngest
        _foresee(world, habit, habit.age + back, at)


def _youngest(world: World, habit: Habit) -> datetime:
    """Give when the youngest batch was sown, so that its change falls where it is wanted."""
    if habit.turns is None:
        return world.days.on(habit.age, habit.minute)
    stage, when = habit.turns
    turn = world.days.a_while_ago if when == "now" else world.days.later(float(when))
    template = world.versions[habit.crop][-1].template
    return turn - timedelta(seconds=sum(each.seconds or 0 for each in template.stages[:stage]))


def _foresee(world: World, habit: Habit, age: int, sown: datetime) -> None:
    """Have a batch planned ahead where its seed is soaked, else just sown."""
    planned = sown - PLANNED_AHEAD
    soak = version_at(world.versions[habit.crop], planned).template.soak_seconds
    if not soak or planned < world.days.on(DAYS_BEHIND):
        world.agenda.put(sown, lambda at: _sow_all(world, _batches(world, habit, age, at), at))
        return

    def plan(at: datetime) -> None:
        cohorts = _batches(world, habit, age, at, sown)
        for cohort in cohorts:
            _write_plan(world, cohort, at)
        soaked = sown - timedelta(seconds=cohorts[0].template.soak_seconds)
        for cohort in cohorts:
            world.agenda.put(soaked, partial(_soak, world, cohort))
        world.agenda.put(sown, lambda then: _sow_all(world, cohorts, then))

    world.agenda.put(planned, plan)


def _batches(
    world: World, habit: Habit, age: int, at: datetime, planned_for: datetime | None = None
) -> list[Cohort]:
    """Begin a batch, or one for each arm where it is part of a trial: they share their luck."""
    tried = tried_with(habit.crop, habit.trays, age)
    if tried is None:
        return [_batch(world, habit, age, at, planned_for)]
    version = version_at(world.versions[habit.crop], at)
    dice = Dice(tried.seed + age)
    luck = batch_luck(dice)
    cohorts = []
    for arm in tried.arms:
        batch = world.diary.batch(version.id, lot_of(habit.crop, age // 7), arm.seed, planned_for)
        tray = world.diary.tray(world.number(), batch, version.id, arm.colour)
        own = replace(habit, trays=1, colour=arm.colour)
        cohort = Cohort(own, age, batch, version.template, luck * arm.gives, {tray: None})
        cohort.own_dice = dice
        cohorts.append(cohort)
    return cohorts


def _sow_all(world: World, cohorts: Sequence[Cohort], at: datetime) -> None:
    """Sow the batches of one sowing in one act, and write which arm of a trial they are."""
    act = None
    for cohort in cohorts:
        act = _sow(world, cohort, at, act)
    habit, age = cohorts[0].habit, cohorts[0].age
    tried = tried_with(habit.crop, len(cohorts), age) if len(cohorts) > 1 else None
    if tried is not None and act is not None:
        join(world, tried, cohorts, at, act)


def plan_ahead(world: World, plan: Plan) -> None:
    """Have a batch planned that is still to be soaked or sown."""
    habit = Habit(plan.crop, plan.trays, TO_COME, plan.rack)
    soak = timedelta(seconds=world.versions[plan.crop][-1].template.soak_seconds)
    written, soaked = world.days.on(1, 90), None
    if plan.when == "tonight":
        sown = world.days.later(0.5) + soak
    elif plan.when == "now":
        sown = world.days.a_while_ago
        soaked = sown - soak
        written = min(written, soaked - timedelta(hours=3))
    else:
        sown = world.days.on(-1, 15)

    def deed(at: datetime) -> None:
        cohort = _batch(world, habit, TO_COME, at, sown)
        _write_plan(world, cohort, at, plan.note)
        if soaked is not None:
            world.agenda.put(soaked, lambda then: _soak(world, cohort, then))

    world.agenda.put(written, deed)


def _batch(
    world: World, habit: Habit, age: int, at: datetime, planned_for: datetime | None = None
) -> Cohort:
    """Begin a batch with its numbered trays; for three in five the seed was really weighed."""
    version = version_at(world.versions[habit.crop], at)
    seed, grams = version.template.seed_grams, None
    if seed is not None and world.dice.chance(0.6):
        grams = round(seed * world.dice.between(0.97, 1.03), 1)
    lot = lot_of(habit.crop, max(0, age) // 7)
    batch = world.diary.batch(version.id, lot, grams, planned_for)
    trays: dict[int, Spot | None] = {
        world.diary.tray(world.number(), batch, version.id, habit.colour): None
        for _ in range(habit.trays)
    }
    return Cohort(habit, age, batch, version.template, batch_luck(world.dice), trays)


def _first_rack(habit: Habit, template: CropTemplate) -> str:
    return DARK if template.stages[0].light == "dark" else habit.rack


def _write_plan(world: World, cohort: Cohort, at: datetime, note: str = "") -> None:
    entry = world.entry(cohort, "plan", at, note=note)
    rack = _first_rack(cohort.habit, cohort.template)
    shelf = world.shelves.named(f"{rack}/Shelf 1").id
    for tray in cohort.trays:
        world.diary.placed(entry, tray, shelf, None)
    world.live(cohort, Deed(entry, "plan", at))


def _soak(world: World, cohort: Cohort, at: datetime) -> None:
    entry = world.entry(cohort, "soak", at, chore="soak")
    world.live(cohort, Deed(entry, "soak", at))


def _sow(world: World, cohort: Cohort, at: datetime, act: int | None = None) -> int:
    """Sow a batch; give the act that it is part of."""
    if cohort.template.soak_seconds and cohort.state.soaked_at is None:
        soaked = at - timedelta(seconds=cohort.template.soak_seconds)
        soak = world.entry(cohort, "soak", soaked, chore="soak", written_at=at, act=act)
        act = act or soak
    entry = world.entry(cohort, "sow", at, chore="sow", act=act)
    world.place(cohort, entry, _first_rack(cohort.habit, cohort.template))
    world.live(cohort, Deed(entry, "sow", at))
    world.growing.append(cohort)
    await_change(world, cohort)
    await_mishaps(world, cohort)
    return act or entry
