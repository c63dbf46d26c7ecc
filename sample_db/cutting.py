"""Cutting trays and weighing them: one by one, together, in two cuts, or with a slip."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from logbook.growing.trays.weighing import share_out
from sample_db.cohort import NEVER, Cohort
from sample_db.crops import TRUTHS
from sample_db.dice import Dice
from sample_db.room import SHELF_YIELD
from sample_db.world import World

WEEKS = 13
BATCH_SPREAD = 0.045
FIRST_CUT, SECOND_CUT = 0.68, 0.37
REGROWTH = timedelta(days=3)
BETWEEN_WEIGHTS, TO_NOTICE = timedelta(seconds=14), timedelta(seconds=6)


def batch_luck(dice: Dice) -> float:
    """What a whole batch yields against the usual."""
    return dice.normal(1.0, BATCH_SPREAD)


def _grams(world: World, cohort: Cohort, tray: int) -> float:
    """A cut weight in whole g: the crop's, drifting; the batch's, the shelf's, the tray's."""
    truth, spot = TRUTHS[cohort.habit.crop], cohort.trays[tray]
    drift = 1 + truth.drift_per_week / 100 * (WEEKS - cohort.age / 7)
    shelf = SHELF_YIELD.get(world.places.path(spot[0]), 1.0) if spot else 1.0
    own = (cohort.own_dice or world.dice).normal(1.0, truth.spread / 100)
    return float(round(truth.grams * drift * cohort.luck * shelf * own))


def cut(world: World, cohort: Cohort, when: datetime) -> None:
    """Cut a cohort and weigh it, as its mishaps want it."""
    trays = cohort.ids
    if cohort.befallen("leave"):
        cohort.held_until = NEVER
        trays = trays[1:]
    if cohort.befallen("part") and cohort.held_until is None:
        _cut_part(world, cohort.part_off(1), when)
        trays, when = trays[1:], when + BETWEEN_WEIGHTS
    if cohort.habit.together and len(trays) > 1:
        _weigh_together(world, cohort, trays, when)
        return
    if trays and cohort.befallen("slip"):
        when = _slip(world, cohort, trays[0], when)
    for tray in trays:
        weigh(world, cohort, tray, when)
        when += BETWEEN_WEIGHTS


def weigh(world: World, cohort: Cohort, tray: int, when: datetime) -> None:
    """Weigh one tray, the rest of it where it was cut before; it leaves the rack."""
    grams = _grams(world, cohort, tray)
    if cohort.cut_before:
        grams = float(round(grams * SECOND_CUT))
    _weighed(world, cohort, [tray], [grams], when)
    world.end(cohort, tray, when, cohort.cut_before + grams)


def _weighed(
    world: World, cohort: Cohort, trays: Sequence[int], grams: Sequence[float], when: datetime
) -> int:
    entry = world.do(cohort, "weigh", when, chore="cut", trays=trays)
    lot = world.lots.of(cohort.template, entry, when)
    for tray, each in zip(trays, grams, strict=True):
        row = {"entry_id": entry, "tray_id": tray, "grams": each, "lot_id": lot}
        world.bulk.put("weight", **row, part=False, shared=len(trays) > 1)
    return entry


def _cut_part(world: World, cohort: Cohort, when: datetime) -> None:
    (tray,) = cohort.ids
    grams = float(round(_grams(world, cohort, tray) * FIRST_CUT))
    note = "tops only, second cut to come"
    entry = world.do(cohort, "weigh", when, chore="cut", note=note, grams=grams, part=True)
    row = {"entry_id": entry, "tray_id": tray, "grams": grams}
    lot = world.lots.of(cohort.template, entry, when)
    world.bulk.put("weight", **row, lot_id=lot, part=True, shared=False)
    cohort.cut_before, cohort.held_until = grams, when + REGROWTH
    world.growing.append(cohort)


def _weigh_together(world: World, cohort: Cohort, trays: list[int], when: datetime) -> None:
    shares = share_out(sum(_grams(world, cohort, tray) for tray in trays), len(trays))
    _weighed(world, cohort, trays, shares, when)
    for tray, share in zip(trays, shares, strict=True):
        world.end(cohort, tray, when, share)


def _slip(world: World, cohort: Cohort, tray: int, when: datetime) -> datetime:
    """Type a weight ten times too high and strike it; returns when that was done."""
    wrong = _weighed(world, cohort, [tray], [_grams(world, cohort, tray) * 10], when)
    struck, note = when + TO_NOTICE, "one 0 too many [10×]"
    world.do(cohort, "strike", struck, trays=[tray], strikes=wrong, note=note)
    return struck + TO_NOTICE
