"""The gap in money beside the gap in grams: what 100 g cost in each arm, as far as it is known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from logbook.growing.measures import number_words
from logbook.growing.numbers import numbers_words
from logbook.growing.trials.words import joined
from logbook.text import listed

LEAST_SAID = 0.0005
"""A gap in money per 100 g below this is none: it is less than the digits that are shown."""


@dataclass(frozen=True, slots=True)
class CostPart:
    """One part of what a tray costs: arm → money per tray; an arm without a value is not known."""

    name: str
    per_tray: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class PerTray:
    """Arm → mean over the trays of which something is known; tray number → arm of the others."""

    means: Mapping[str, float]
    lacking: Mapping[int, str]

    def notes(self, name: str, whys: Mapping[int, str]) -> list[str]:
        """Say which trays lack a part (`name`), and why: number → reason."""
        groups: dict[str, list[int]] = {}
        for number in self.lacking:
            groups.setdefault(whys[number], []).append(number)
        said = []
        for why, numbers in groups.items():
            arms = [self.lacking[number] for number in numbers]
            trays = "tray" if len(numbers) == 1 else "trays"
            of = listed(list(dict.fromkeys(arms)), most=4)
            line = f"{name.capitalize()} is not known of {trays} {numbers_words(numbers)} ({of}): {why}"
            rest = any(arm in self.means for arm in arms)
            said.append(f"{line}{'; the other trays of the arm stand for them' if rest else ''}.")
        return said


def per_tray(trays: Sequence[tuple[int, str, float | None]]) -> PerTray:
    """The mean of something by arm over the trays of which it is known.

    Args:
        trays: (number, arm, what it cost or took; None where that is not known).
    """
    values: dict[str, list[float]] = {}
    lacking = {}
    for number, arm, value in trays:
        if value is None:
            lacking[number] = arm
        else:
            values.setdefault(arm, []).append(value)
    return PerTray({arm: sum(each) / len(each) for arm, each in values.items()}, lacking)


@dataclass(frozen=True, slots=True)
class Costs:
    """Arm → money per 100 g over the parts that are known for every arm, and what is missing."""

    per_100_g: Mapping[str, float]
    counted: tuple[str, ...]
    missing: tuple[str, ...]
    words: str


def costs_of(
    means: Mapping[str, float], parts: Sequence[CostPart], *, shown: bool,
    missing: Sequence[str] = (), notes: Sequence[str] = (),
) -> Costs:  # fmt: skip
    """Reckon what 100 g cost in each arm.

    Where the weights are not shown to differ every arm is given the same mean, because a gap that
    may be chance must not make money.

    Args:
        means: arm → mean g of a tray; arms without one are not in it.
        parts: what is known of the cost of a tray.
        shown: the arms are shown to differ in weight.
        missing: parts of which nothing is known.
        notes: sentences on the trays of which something is not known, to stand at the end.
    """
    whole = [part for part in parts if means and all(arm in part.per_tray for arm in means)]
    lacking = [part.name for part in parts if part not in whole] + list(missing)
    if not whole:
        are = "is" if len(lacking) == 1 else "are"
        said = f"Nothing can be said of money: {listed(lacking)} {are} not known."
        return Costs({}, (), tuple(lacking), joined(said if lacking else "", *notes))
    middle = sum(means.values()) / len(means)
    grams = means if shown else dict.fromkeys(means, middle)
    per_100 = {arm: 100 * sum(part.per_tray[arm] for part in whole) / grams[arm] for arm in means}
    names = [part.name for part in whole]
    said = joined(_words(per_100, names, lacking, shown=shown), *notes)
    return Costs(per_100, tuple(names), tuple(lacking), said)


def _words(
    per_100: Mapping[str, float], names: Sequence[str], lacking: Sequence[str], *, shown: bool
) -> str:
    each = listed([f"{arm} {number_words(cost, 3)}" for arm, cost in per_100.items()], most=6)
    alike = "" if shown else " (the same weight taken for all, as no difference in weight is shown)"
    first = max(per_100, key=lambda arm: per_100[arm])
    last = min(per_100, key=lambda arm: per_100[arm])
    gap = per_100[first] - per_100[last]
    said = (
        f"Per 100 g cut, {listed(list(names))} cost{'s' if len(names) == 1 else ''}: {each}{alike}."
    )
    if gap >= LEAST_SAID:
        said += f" {first} costs {number_words(gap, 3)} more than {last}."
    if lacking:
        said += f" Not in it, because not known: {listed(list(lacking))}."
    return said
