"""Planning, soaking and sowing batches, and the changes that follow in time, late, early or never."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, wall
from logbook.growing.trays.forecast import changes_ahead
from logbook.growing.trials.factors import mark_of
from logbook.store.rows import stored
from sample_db.befalling import await_mishaps
from sample_db.cohort import Cohort
from sample_db.crops import lot_of
from sample_db.cutting import batch_luck
from sample_db.days import DAYS_BEHIND
from sample_db.dice import Dice
from sample_db.room import DARK
from sample_db.sowings import Habit, Plan
from sample_db.tending import water_if_due
from sample_db.trials import join
from sample_db.tried import tried_with
from sample_db.versions import Version, version_at
from sample_db.world import World

PLANNED_AHEAD = timedelta(hours=36)
MOST_MINUTES_LATE = 40
TO_COME = -1


def take_up(world: World, habit: Habit) -> None:
    """Have a crop sown again and again, up to its youngest batch."""
    youngest = _youngest(world, habit)
    zone = world.days.hours.zone
    clock = youngest.astimezone(zone)
    for back in range(0, DAYS_BEHIND - habit.age, habit.every):
        day = day_of(youngest, zone) - timedelta(days=back)
        at = wall(day, clock.hour * 60 + clock.minute, zone) if back else youngest
        _foresee(world, habit, habit.age + back, at)


def _youngest(world: World, habit: Habit) -> datetime:
    """When the youngest batch was sown, so that its change falls where it is wanted."""
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
    if soak and planned >= world.days.on(DAYS_BEHIND):
        world.agenda.put(planned, partial(_plan, world, habit, age, sown, ""))
    else:
        world.agenda.put(sown, lambda at: _sow_all(world, _batches(world, habit, age, at), at))


def plan_ahead(world: World, plan: Plan) -> None:
    """Have a batch planned that is still to be soaked or sown."""
    days, habit = world.days, Habit(plan.crop, plan.trays, TO_COME, plan.rack)
    soak = timedelta(seconds=world.versions[plan.crop][-1].template.soak_seconds)
    moments = {
        "tonight": days.later(0.5) + soak,
        "now": days.a_while_ago,
        "tomorrow": days.on(-1, 15),
    }
    sown = moments[plan.when]
    written = min(days.on(1, 90), sown - soak - timedelta(hours=3))
    world.agenda.put(written, partial(_plan, world, habit, TO_COME, sown, plan.note))


def _plan(world: World, habit: Habit, age: int, sown: datetime, note: str, at: datetime) -> None:
    cohorts = _batches(world, habit, age, at, sown)
    for cohort in cohorts:
        entry = world.do(cohort, "plan", at, note=note)
        shelf = world.places.find(f"{_first_rack(habit, cohort.template)}/Shelf 1").id
        for tray in cohort.trays:
            world.bulk.put("tray_place", entry_id=entry, tray_id=tray, place_id=shelf, slot=None)
        soaked = sown - timedelta(seconds=cohort.template.soak_seconds)
        world.agenda.put(soaked, partial(world.do, cohort, "soak", chore="soak"))
    if age != TO_COME:
        world.agenda.put(sown, partial(_sow_all, world, cohorts))


def _batches(
    world: World, habit: Habit, age: int, at: datetime, planned_for: datetime | None = None
) -> list[Cohort]:
    """Begin a batch (three in five with weighed seed), or one per arm of a trial, of like luck."""
    version = version_at(world.versions[habit.crop], at)
    tried = tried_with(habit, age)
    if tried is None:
        seed, grams = version.template.seed_grams, None
        if seed is not None and world.dice.chance(0.6):
            grams = round(seed * world.dice.between(0.97, 1.03), 1)
        cohort = _begin(world, habit, age, version, grams, planned_for)
        cohort.luck = batch_luck(world.dice)
        return [cohort]
    dice = Dice(tried.seed + age)
    luck = batch_luck(dice)
    cohorts = list[Cohort]()
    for position, arm in enumerate(tried.arms):
        own = replace(habit, trays=1, colour=mark_of(position))
        cohort = _begin(world, own, age, version, arm.seed, planned_for)
        cohort.luck, cohort.own_dice = luck * arm.gives, dice
        cohorts.append(cohort)
        cohort.arms = cohorts
    return cohorts


def _begin(
    world: World, habit: Habit, age: int, version: Version, grams: float | None,
    planned_for: datetime | None,
) -> Cohort:  # fmt: skip
    lot = lot_of(habit.crop, max(0, age) // 7)
    planned = planned_for and stored(planned_for)
    batch = world.bulk.numbered(
        "batch", version_id=version.id, grams_per_tray=grams, planned_for=planned
    )
    world.bulk.put("batch_lot", batch_id=batch, position=0, lot=lot, grams=None)
    row = {"batch_id": batch, "version_id": version.id, "colour": habit.colour}
    trays = [
        world.bulk.numbered(
            "tray", number=next(world.numbers), **row, live=True, ended_at=None, cut_grams=None
        )
        for _ in range(habit.trays)
    ]
    return Cohort(habit, age, batch, version.template, 1.0, dict.fromkeys(trays))


def _first_rack(habit: Habit, template: CropTemplate) -> str:
    return DARK if template.stages[0].light == "dark" else habit.rack


def _sow_all(world: World, cohorts: Sequence[Cohort], at: datetime) -> None:
    act = None
    for cohort in cohorts:
        template = cohort.template
        if template.soak_seconds and cohort.state.soaked_at is None:
            soaked = at - timedelta(seconds=template.soak_seconds)
            soak = world.do(cohort, "soak", soaked, chore="soak", written_at=at, act=act)
            act = act or soak
        entry = world.do(cohort, "sow", at, chore="sow", act=act)
        act = act or entry
        world.place(cohort, entry, _first_rack(cohort.habit, template), cohort.ids)
        world.growing.append(cohort)
        await_change(world, cohort)
        await_mishaps(world, cohort)
    if len(cohorts) > 1:
        join(world, cohorts, at)


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
    elif cohort.age == cohort.habit.age:
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
    entry = world.do(cohort, "change", when, chore=chore, stage=stage, note=note)
    if cohort.template.stages[stage].light == "lit":
        moved = world.do(cohort, "move", when, act=entry)
        world.place(cohort, moved, cohort.habit.rack, cohort.ids)
    water_if_due(world, cohort, when)
    await_change(world, cohort)
