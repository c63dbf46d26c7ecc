"""Judging a trial: from its trays to one result that a screen, a command and a file can show."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.quantities import USUAL_SPREAD
from logbook.growing.trials import words
from logbook.growing.trials.arms import Arm, Tray, centred_mean, counts, gather
from logbook.growing.trials.blocks import Blocked, in_blocks
from logbook.growing.trials.checks import checks_of
from logbook.growing.trials.distributions import SIGNIFICANCE
from logbook.growing.trials.one_way import Anova, pooled_error
from logbook.growing.trials.pairs import Pair, block_pairs, games_howell, tukey
from logbook.growing.trials.range_test import range_p_value
from logbook.growing.trials.replicates import trays_per_arm
from logbook.growing.trials.verdict import Design, judgeable, verdict
from logbook.text import Refused, fold, listed, plural


@dataclass(frozen=True, slots=True)
class Judgement:
    """What a trial's weights can say. Values that do not apply are None, never NaN.

    Attributes:
        design: which analysis was made.
        arms: every arm, also those without a weighed tray, in order of appearance.
        anova: the F test of the arms.
        block_f: F of the blocks.
        pairs: the arms two by two, widest gap first.
        chance_of_such_a_gap: one tray per arm: chance of such a gap between best and worst.
        trays_per_arm_to_settle: trays per arm that would show such a gap 8 times in 10; None when
            the arms are shown to differ, or the spread is not known.
        shown: the evidence carries "the arms differ".
        told_apart: the pairs that the evidence carries.
    """

    keys: ClassVar = """
        design arms *anova block_f cv_percent pairs chance_of_such_a_gap trays_per_arm_to_settle
        words
    """

    design: Design
    arms: tuple[Arm, ...]
    words: str
    """The verdict."""
    anova: Anova | None = None
    block_f: float | None = None
    cv_percent: float | None = None
    """Spread from tray to tray."""
    pairs: tuple[Pair, ...] = ()
    chance_of_such_a_gap: float | None = None
    trays_per_arm_to_settle: int | None = None
    shown: bool = False
    told_apart: tuple[Pair, ...] = ()


def judge(trays: Iterable[Tray], spread_percent: float | None = None) -> Judgement:
    """Judge a trial.

    Args:
        trays: every tray of the trial, weighed or not. With blocks the block analysis is made.
        spread_percent: the room's usual spread from tray to tray (standard deviation in % of the
            mean), needed where each arm has one tray.

    Raises:
        Refused: fewer than two arms have a weighed tray, a weight is negative, the blocks cannot
            be told from the arms, or scipy is missing.
    """
    trays = tuple(trays)
    if spread_percent is not None:
        USUAL_SPREAD.checked(spread_percent)
    every = gather(trays)
    weighed = [arm for arm in every if arm.n]
    if len(weighed) < 2:
        raise Refused(_too_few(every))
    if _uses_blocks(trays, weighed):
        return _with_blocks(trays, every)
    if all(arm.n == 1 for arm in weighed):
        return _one_tray(every, weighed, spread_percent)
    return _compared(every, judgeable(weighed))


def _too_few(arms: Sequence[Arm]) -> str:
    if not arms:
        return "There are no trays; a comparison needs two arms with a weighed tray each."
    if len(arms) == 1:
        return (
            f'There is one arm, "{arms[0].name}"; a comparison needs two arms or more, '
            "say with and without."
        )
    empty = listed([arm.name for arm in arms if not arm.n], most=5)
    return f"Fewer than two arms have a weighed tray (none in {empty}); weigh or wait."


def _uses_blocks(trays: Sequence[Tray], weighed: Sequence[Arm]) -> bool:
    blocks = {fold(tray.block) for tray in trays if counts(tray) and tray.block}
    return len(blocks) > 1 and any(arm.n > 1 for arm in weighed)


def _grand_mean(arms: Sequence[Arm]) -> float:
    return centred_mean(tuple(weight for arm in arms for weight in arm.weights))


def _one_tray(
    every: tuple[Arm, ...], weighed: Sequence[Arm], spread_percent: float | None
) -> Judgement:
    means = [arm.mean or 0.0 for arm in weighed]
    difference = max(means) - min(means)
    chance = settle = None
    if spread_percent is not None:
        spread = spread_percent / 100 * _grand_mean(weighed)
        chance = range_p_value(difference, spread, len(weighed))
        if difference > 0:
            settle = trays_per_arm(spread, difference, arms=len(weighed))
    said = (words.left_out(every), words.one_tray(weighed, spread_percent, chance, settle))
    return Judgement(
        "one tray",
        every,
        words.joined(*said),
        chance_of_such_a_gap=chance,
        trays_per_arm_to_settle=settle,
    )


def _compared(every: tuple[Arm, ...], weighed: Sequence[Arm]) -> Judgement:
    result = verdict(weighed)
    anova = result.anova
    pairs: tuple[Pair, ...] = ()
    if anova is not None:
        pairs = games_howell(weighed) if result.design == "welch" else tukey(weighed, anova)
    told = tuple(pair for pair in pairs if result.shown and pair.p < result.threshold)
    error, df = pooled_error(weighed)
    grand = _grand_mean(weighed)
    settle = _settle(pairs, error, len(weighed)) if anova and not result.shown else None
    said = (
        words.left_out(every),
        words.set_aside(every, weighed),
        words.compared(weighed, pairs, told, anova, settle, shown=result.shown),
        words.held_back(result),
        *(checks_of(weighed, result.design) if anova else ()),
    )
    return Judgement(
        result.design,
        every,
        words.joined(*said),
        anova=anova,
        cv_percent=100 * math.sqrt(error) / grand if df and grand else None,
        pairs=pairs,
        trays_per_arm_to_settle=settle,
        shown=result.shown,
        told_apart=told,
    )


def _with_blocks(trays: Sequence[Tray], every: tuple[Arm, ...]) -> Judgement:
    blocked = in_blocks(trays)
    anova = blocked.anova
    pairs = block_pairs(blocked)
    shown = anova is not None and anova.p < SIGNIFICANCE
    told = tuple(pair for pair in pairs if shown and pair.p < SIGNIFICANCE)
    inside = tuple(
        tray.grams for tray in trays if counts(tray) and tray.block and tray.grams is not None
    )
    grand = centred_mean(inside)
    in_use = {fold(name) for name in blocked.names}
    used = [arm for arm in every if fold(arm.name) in in_use]
    settle = _settle(pairs, anova.error, len(used)) if anova and not shown else None
    outside = sum(counts(tray) and not tray.block for tray in trays)
    are = "is" if outside == 1 else "are"
    aside = f"{plural(outside, 'weighed tray')} without a block {are} left out of the comparison."
    said = (
        words.left_out(every),
        aside if outside else "",
        words.compared(used, pairs, told, anova, settle, shown=shown),
        words.in_blocks(blocked),
        _block_check(blocked),
    )
    return Judgement(
        "blocks",
        every,
        words.joined(*said),
        anova=anova,
        block_f=blocked.block_f,
        cv_percent=100 * math.sqrt(anova.error) / grand if anova and grand else None,
        pairs=pairs,
        trays_per_arm_to_settle=settle,
        shown=shown,
        told_apart=told,
    )


def _block_check(blocked: Blocked) -> str:
    if blocked.uneven is not None and blocked.uneven < SIGNIFICANCE:
        return (
            "The gaps are not the same from block to block, more so than chance usually makes "
            "them: look at each block before relying on the mean gap."
        )
    return "This takes the gap between arms to be about the same in every block."


def _settle(pairs: Sequence[Pair], error: float, arms: int) -> int | None:
    if not pairs or pairs[0].gap_grams <= 0 or error <= 0:
        return None
    return trays_per_arm(math.sqrt(error), pairs[0].gap_grams, arms=arms)
