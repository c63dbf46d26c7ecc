"""The daily rounds: cutting, watering and looking, in walking order."""

from datetime import datetime, timedelta
from functools import partial

from logbook.growing.days import day_of
from logbook.growing.trays.forecast import chores_of_tray, tray_window
from logbook.growing.trays.life import first_unmet
from logbook.growing.trays.looks import Look
from sample_db.befalling import seen
from sample_db.cohort import Cohort
from sample_db.cutting import cut
from sample_db.world import World

CUT_AHEAD = timedelta(hours=14)
FIRST_STOP, NEXT_STOP = timedelta(minutes=3), timedelta(seconds=72)
MEASURED = 0.7
TESTED = 0.08
FULL_HEIGHT_MM = 75.0


def morning(world: World, at: datetime) -> None:
    """Walk a whole round of a day that is past."""
    for stop, cohort in enumerate(world.walk()):
        world.agenda.put(at + FIRST_STOP + NEXT_STOP * stop, partial(_cut_or_tend, world, cohort))


def this_morning(world: World, _at: datetime) -> None:
    """Walk as much of today's round as is done already; nothing is cut yet."""
    walked = [cohort for cohort in world.walk() if cohort.age in cohort.habit.walked]
    for stop, cohort in enumerate(walked):
        moment = world.days.this_morning(5 + 45 * stop // len(walked))
        world.agenda.put(moment, partial(_tend, world, cohort))


def afternoon(world: World, ago: int, at: datetime) -> None:
    """Water again what is watered twice a day; the working day began `ago` days before today."""
    for cohort in world.walk():
        often = cohort.template.stages[cohort.state.stage].water_per_day > 1
        if often and not cohort.befallen("forget", ago=ago):
            water_if_due(world, cohort, at)


def _cut_or_tend(world: World, cohort: Cohort, when: datetime) -> None:
    window = tray_window(cohort.template, cohort.state, when)
    ripe = window is not None and window.best <= when + CUT_AHEAD
    if ripe and (cohort.held_until is None or when >= cohort.held_until):
        cut(world, cohort, when)
    else:
        _tend(world, cohort, when)


def _tend(world: World, cohort: Cohort, when: datetime) -> None:
    if not cohort.trays:
        return
    hours = world.days.hours
    day = day_of(when, hours.zone)
    forgotten = cohort.befallen("forget", ago=world.ago(when)) is not None
    watered: int | None = None
    for due in chores_of_tray(cohort.template, cohort.state, when, day, hours):
        if due.later:
            continue
        if due.chore == "water" and not forgotten:
            watered = _water(world, cohort, when)
        elif due.chore == "look":
            look = _look(world, cohort, when)
            if look.empty and watered is not None:
                world.do(cohort, "glance", when, act=watered, chore="look")
                continue
            seen(world, world.do(cohort, "look", when, chore="look"), look)


def water_if_due(world: World, cohort: Cohort, when: datetime) -> None:
    """Water a cohort that has a watering due."""
    due = first_unmet(cohort.state, cohort.template, "water", world.days.hours)
    if cohort.trays and due is not None and due <= when:
        _water(world, cohort, when)


def _water(world: World, cohort: Cohort, when: datetime) -> int:
    way = cohort.template.stages[cohort.state.stage].water
    entry = world.do(cohort, "water", when, chore="water")
    measured = way == "bottom" and world.dice.chance(MEASURED)
    amount = float(world.dice.whole(24, 38) * 10) if measured else None
    tested = measured and world.meter.chance(TESTED)
    ph = round(world.meter.between(5.6, 6.8), 1) if tested else None
    world.bulk.put("watering", entry_id=entry, amount_ml=amount, ph=ph, ec=None)
    return entry


def _look(world: World, cohort: Cohort, when: datetime) -> Look:
    template, state, dice = cohort.template, cohort.state, world.dice
    if state.sown_at is None or state.stage_since is None or dice.chance(0.5):
        return Look()
    days = (when - state.sown_at) / timedelta(days=1)
    if template.stages[state.stage].light == "dark":
        emerged = min(98.0, 22.0 * days + dice.between(0, 12))
        return Look(emerged_percent=float(round(emerged)), mould="none" if days > 2 else "")
    lit = (when - state.stage_since) / timedelta(days=1)
    whole = template.cut.best_seconds / 86_400
    height = FULL_HEIGHT_MM * (0.35 + 0.65 * min(1.2, lit / whole)) * dice.between(0.92, 1.08)
    return Look(
        height_mm=float(round(height / 5) * 5),
        cotyledons_open=lit > whole / 3,
        hulls_on=lit < whole / 2 if template.crop == "sunflower" else None,
        stem_colour="pink" if template.variety == "pink stem" else "",
        uneven="thin along one edge" if dice.chance(0.06) else "",
    )
