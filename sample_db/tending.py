"""The daily rounds: cutting, watering and looking, in walking order."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import partial

from logbook.growing.days import day_of
from logbook.growing.forecast import chores_of_tray, tray_window
from logbook.growing.life import Deed, first_unmet
from sample_db.cohort import Cohort
from sample_db.cutting import cut
from sample_db.seeing import look_at
from sample_db.world import World

CUT_AHEAD = timedelta(hours=14)
FIRST_STOP, NEXT_STOP = timedelta(minutes=3), timedelta(seconds=72)
MEASURED = 0.7
TESTED = 0.08


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
    if ripe and not cohort.waits(when):
        cut(world, cohort, when)
    else:
        _tend(world, cohort, when)


def _tend(world: World, cohort: Cohort, when: datetime) -> None:
    if not cohort.trays:
        return
    hours = world.days.hours
    day = day_of(when, hours.zone)
    forgotten = cohort.befallen("forget", ago=world.ago(when)) is not None
    for due in chores_of_tray(cohort.template, cohort.state, when, day, hours):
        if due.later:
            continue
        if due.chore == "water" and not forgotten:
            _water(world, cohort, when)
        elif due.chore == "look":
            _look(world, cohort, when)


def water_if_due(world: World, cohort: Cohort, when: datetime) -> None:
    """Water a cohort that has a watering due."""
    due = first_unmet(cohort.state, cohort.template, "water", world.days.hours)
    if cohort.trays and due is not None and due <= when:
        _water(world, cohort, when)


def _water(world: World, cohort: Cohort, when: datetime) -> None:
    entry = world.entry(cohort, "water", when, chore="water")
    way = cohort.template.stages[cohort.state.stage].water
    measured = way == "bottom" and world.dice.chance(MEASURED)
    amount = float(world.dice.whole(24, 38) * 10) if measured else None
    tested = measured and world.meter.chance(TESTED)
    ph = round(world.meter.between(5.6, 6.8), 1) if tested else None
    world.diary.watered(entry, amount, ph=ph)
    world.live(cohort, Deed(entry, "water", when))


def _look(world: World, cohort: Cohort, when: datetime) -> None:
    entry = world.entry(cohort, "look", when, chore="look")
    world.diary.seen(entry, look_at(cohort.template, cohort.state, when, world.dice))
    world.live(cohort, Deed(entry, "look", when))
