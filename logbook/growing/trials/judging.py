"""Judging a trial: from its trays to one result that a screen, a command and a file can show."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from statistics import fmean
from typing import ClassVar

from logbook.growing.measures import number_words
from logbook.growing.quantities import USUAL_SPREAD
from logbook.growing.trials import words
from logbook.growing.trials.arms import Arm, Tray, gather
from logbook.growing.trials.blocks import in_blocks
from logbook.growing.trials.distributions import SIGNIFICANCE, range_tail, special
from logbook.growing.trials.one_way import Anova, pooled_error
from logbook.growing.trials.pairs import Pair, block_pairs, games_howell, tukey
from logbook.growing.trials.replicates import trays_per_arm
from logbook.growing.trials.verdict import Design, Verdict, judgeable, verdict
from logbook.text import Refused, fold, listed, plural


@dataclass(frozen=True, slots=True)
class Judgement:
    """What a trial's weights can say. Values that do not apply are None, never NaN.

    `arms` are all of them in order of appearance, also those without a weighed tray; `pairs` have
    the widest gap first. `chance_of_such_a_gap` is between best and worst of one tray per arm.
    `trays_per_arm_to_settle` would show such a gap 8 times in 10; None when the arms are shown to
    differ, or the spread is not known. `shown` and `told_apart`: what the evidence carries.
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


def judge(
    trays: Iterable[Tray], spread_percent: float | None = None, *, spread_df: float = math.inf,
    threshold: float = SIGNIFICANCE,
) -> Judgement:  # fmt: skip
    """Judge a trial from every tray, weighed or not; by blocks where it has some.

    `spread_percent` is the room's usual spread from tray to tray (standard deviation in % of the
    mean), needed where each arm has one tray. Raises Refused where fewer than two arms have a
    weighed tray, the blocks cannot be told from the arms, or scipy is missing.
    """
    trays = tuple(trays)
    if spread_percent is not None:
        USUAL_SPREAD.checked(spread_percent)
    every = gather(trays)
    weighed = [arm for arm in every if arm.n]
    if len(weighed) < 2:
        raise Refused(_too_few(every))
    if all(arm.n == 1 for arm in weighed):
        return _one_tray(every, weighed, spread_percent, spread_df)
    blocks = {fold(tray.block) for tray in trays if tray.counts and tray.block}
    if len(blocks) > 1:
        return _with_blocks(trays, every, threshold)
    return _by_arms(every, judgeable(weighed), threshold)


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


def _one_tray(
    every: tuple[Arm, ...], weighed: Sequence[Arm], spread_percent: float | None, spread_df: float
) -> Judgement:
    means = [arm.mean or 0.0 for arm in weighed]
    gap = max(means) - min(means)
    chance = settle = None
    if spread_percent is not None:
        spread = spread_percent / 100 * fmean(means)
        chance = range_tail(gap / spread, len(weighed), spread_df)
        settle = _settling(means, spread**2)
    said = words.joined(
        words.left_out(every), words.one_tray(weighed, spread_percent, chance, settle)
    )
    return Judgement(
        "one tray", every, said, chance_of_such_a_gap=chance, trays_per_arm_to_settle=settle
    )


def _by_arms(every: tuple[Arm, ...], used: Sequence[Arm], threshold: float) -> Judgement:
    result = verdict(used, threshold)
    pairs: tuple[Pair, ...] = ()
    if result.anova is not None:
        pairs = games_howell(used) if result.design == "welch" else tukey(used, result.anova)
    mean, error = fmean(weight for arm in used for weight in arm.weights), pooled_error(used)[0]
    checks = checks_of(used, result.design) if result.anova else ()
    beside = (words.set_aside(every, used), words.held_back(result), *checks)
    settle = _settling([arm.mean or 0.0 for arm in used], error)
    return _concluded(every, used, result, pairs, error, mean, settle, beside)


def _with_blocks(trays: Sequence[Tray], every: tuple[Arm, ...], threshold: float) -> Judgement:
    blocked = in_blocks(trays)
    anova = blocked.anova
    result = Verdict("blocks", anova, threshold, anova is not None and anova.p < threshold)
    names = {fold(name) for name in blocked.names}
    used = [arm for arm in every if fold(arm.name) in names]
    outside = sum(tray.counts and not tray.block for tray in trays)
    are = "is" if outside == 1 else "are"
    aside = f"{plural(outside, 'weighed tray')} without a block {are} left out of the comparison."
    beside = (aside if outside else "", words.in_blocks(blocked))
    settle = None
    if anova is not None:
        cell = max(1, round(blocked.trays / blocked.cells))
        settle = _settling(blocked.adjusted, anova.error * (cell if blocked.of_cells else 1), cell)
    judged = _concluded(
        every, used, result, block_pairs(blocked), blocked.tray_variance if anova else None,
        blocked.mean, settle, beside,
    )  # fmt: skip
    return replace(judged, block_f=blocked.block_f)


def _settling(means: Sequence[float], variance: float, cell: int = 0) -> int | None:
    """The trays per arm that would show such means 8 times in 10; `variance` is a tray's, in g².

    Power goes by the squares around the mean of the arms: of one arm apart from all others the same.
    """
    middle, arms = fmean(means), len(means)
    apart = math.sqrt(sum((mean - middle) ** 2 for mean in means) * arms / (arms - 1))
    if variance <= 0 or apart <= 0:
        return None
    return trays_per_arm(math.sqrt(variance), apart, arms=arms, cell=cell)


def _concluded(
    every: tuple[Arm, ...], used: Sequence[Arm], result: Verdict, pairs: tuple[Pair, ...],
    variance: float | None, mean: float, settle: int | None, beside: Sequence[str],
) -> Judgement:  # fmt: skip
    """Put a judgement together; what stands `beside` begins with what is left aside."""
    told = tuple(pair for pair in pairs if result.shown and pair.p < result.threshold)
    if not pairs or result.shown:
        settle = None
    compared = words.compared(used, pairs, told, result.anova, settle, shown=result.shown)
    return Judgement(
        result.design, every, words.joined(words.left_out(every), beside[0], compared, *beside[1:]),
        anova=result.anova,
        cv_percent=None if variance is None or not mean else 100 * math.sqrt(variance) / mean,
        pairs=pairs, trays_per_arm_to_settle=settle, shown=result.shown, told_apart=told,
    )  # fmt: skip


def checks_of(arms: Sequence[Arm], design: Design) -> tuple[str, ...]:
    """Say how the spreads compare, which tray stands apart, and what cannot be checked."""
    least = min(arm.n for arm in arms)
    few = f"With only {plural(least, 'tray')} in an arm this is a rough picture."
    by_chance = "It holds if trays were placed at random and nothing else differed between arms."
    said = (_spreads(arms, design), _far_tray(arms), few if least < 4 else "", by_chance)
    return tuple(filter(None, said))


def _spreads(arms: Sequence[Arm], design: Design) -> str:
    flat = [arm.name for arm in arms if arm.n > 1 and not arm.variance]
    if flat:
        return (
            f"Within {listed(flat, most=4)} all trays weigh exactly the same, which weighed trays "
            "hardly ever do: check the entries and the scale's steps. Nothing is claimed."
        )
    spread = [arm for arm in arms if arm.sd]
    if len(spread) < 2:
        return ""
    wide = max(spread, key=lambda arm: arm.sd or 0.0)
    narrow = min(spread, key=lambda arm: arm.sd or 0.0)
    ratio = (wide.sd or 0.0) / (narrow.sd or 1.0)
    times = number_words(ratio)
    if design == "one way":
        if ratio >= 2:
            return (
                f"One spread serves all arms (widest {wide.name}, {times} times the narrowest, "
                f"{narrow.name}: that may be chance). If they truly differ that much, identical "
                "trays pass for "
                "different more than 5 times in 100, up to 11."
            )
        return (
            f"The arms' spreads look alike (widest {times} times the narrowest), so one spread "
            "serves all."
        )
    return (
        f"Each arm is taken with its own spread (widest {wide.name}, {times} times the narrowest, "
        f"{narrow.name})."
    )


def _far_tray(arms: Sequence[Arm]) -> str:
    """Name the tray farthest from its arm's others, where chance would hardly put one."""
    error, df = pooled_error(arms)
    if df < 4 or error <= 0:
        return ""
    off = [
        (abs(weight - mean) / math.sqrt(error * (1 - 1 / arm.n)), weight, arm.name)
        for arm in arms
        if arm.n > 1 and (mean := arm.mean) is not None
        for weight in arm.weights
    ]
    farthest, grams, name = max(off, key=lambda each: each[0])
    rest = df - farthest**2
    outside = farthest * math.sqrt((df - 1) / rest) if rest > 0 else 0.0
    if 2 * special().stdtr(df - 1, -outside) * len(off) >= SIGNIFICANCE:
        return ""
    return (
        f"The tray of {words.grams_of(grams)} in {name} is far from the others in its arm: check "
        "its "
        "entry before relying on this."
    )
