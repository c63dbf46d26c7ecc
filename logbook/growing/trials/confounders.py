"""Likeness: whatever else differed between the arms, besides the one thing that was tried.

Facts are what the book holds of each tray: seed lot, grams sown, soak hours, water given, light.
A fact that differs between arms could explain part of a gap; two facts that always move together
cannot be told apart; a tray without a record is named, because silence is not likeness.
"""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from statistics import fmean
from typing import Any, ClassVar

from logbook.growing.measures import number_words
from logbook.text import listed, plural

Value = str | float


@dataclass(frozen=True, slots=True)
class Fact:
    """One recorded fact: tray → value; None or an absent tray is a missing record.

    Numbers whose arm means lie within `tolerance` of each other count as alike. `many` says that
    the name is a plural; `joint` joins a number of trays to their value: "3 on Shelf 1".
    """

    name: str
    values: Mapping[Any, Value | None] = field(default_factory=dict)
    unit: str = ""
    tolerance: float = 0.0
    many: bool = False
    joint: str = "with"

    def of(self, tray: Any) -> Value | None:
        """What is recorded of a tray; None for nothing, and for what is no number."""
        value = self.values.get(tray)
        if value == "" or (isinstance(value, float | int) and not math.isfinite(value)):
            return None
        return value


@dataclass(frozen=True, slots=True)
class Difference:
    """A fact that differs between arms, with each arm's value in words."""

    fact: str
    by_arm: Mapping[str, str]
    words: str


@dataclass(frozen=True, slots=True)
class Confounders:
    """What differs, what cannot be told apart, what is not recorded, and all of it in words.

    `together` holds groups of facts that always change together; a group that holds `the_factor`
    cannot be told apart from what the trial was about.
    """

    keys: ClassVar = "differs=differences not_separable=together not_recorded=missing alike words"

    alike: tuple[str, ...]
    differences: tuple[Difference, ...]
    together: tuple[tuple[str, ...], ...]
    missing: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    words: tuple[str, ...] = ()


def confounders(
    arms: Mapping[Any, str], facts: Sequence[Fact], the_factor: str = "the arm",
    called: Callable[[Any], str] = str,
) -> Confounders:  # fmt: skip
    """Compare every fact between the arms (tray → arm); `the_factor` is what was tried.

    `called` says a tray's name in words.
    """
    differences, alike = [], []
    missing: dict[str, tuple[str, ...]] = {}
    for fact in facts:
        absent = tuple(called(tray) for tray in arms if fact.of(tray) is None)
        if absent:
            missing[fact.name] = absent
        known: dict[str, list[Value]] = {arm: [] for arm in arms.values()}
        for tray, arm in arms.items():
            if (value := fact.of(tray)) is not None:
                known[arm].append(value)
        if sum(map(bool, known.values())) < 2:
            continue
        if _differs(fact, known):
            differences.append(_difference(fact, known))
        elif not absent:
            alike.append(fact.name)
    names = {one.fact for one in differences}
    together = _together(arms, [fact for fact in facts if fact.name in names], the_factor)
    many = {fact.name for fact in facts if fact.many}
    words = [f"{one.words}." for one in differences]
    words += [_together_words(group, the_factor) for group in together]
    for name, absent in missing.items():
        some = f"{plural(len(absent), 'tray')} ({listed(list(absent), most=6)})"
        of = "any tray" if len(absent) == len(arms) else some
        words.append(f"{name} {'are' if name in many else 'is'} not recorded for {of}.")
    if not words:
        words = ["Nothing else that was recorded differs between the arms."]
    return Confounders(tuple(alike), tuple(differences), together, missing, tuple(words))


def _numbers(values: Sequence[Value]) -> list[float] | None:
    numbers = [float(value) for value in values if not isinstance(value, str)]
    return numbers if len(numbers) == len(values) else None


def _difference(fact: Fact, known: Mapping[str, Sequence[Value]]) -> Difference:
    by_arm = {arm: _arm_words(fact, values) for arm, values in known.items()}
    said = listed([f"{arm} {value}" for arm, value in by_arm.items()], most=6)
    if any(_numbers(values) is None and len(set(values)) > 1 for values in known.values()):
        # beside an arm with several values: that all trays of another one have the same
        parts = []
        for arm, values in known.items():
            alike = len(values) > 1 and len(set(values)) == 1
            all_ = f"all {len(values)} {fact.joint} " if alike else ""
            parts.append(f"{arm}: {all_}{by_arm[arm]}")
        more = [f"{len(parts) - 6} more arms"] if len(parts) > 6 else []
        said = "; ".join(parts[:6] + more)
    verb = "differ" if fact.many else "differs"
    return Difference(fact.name, by_arm, f"{fact.name} {verb}: could explain part of it ({said})")


def _differs(fact: Fact, known: Mapping[str, Sequence[Value]]) -> bool:
    present = [values for values in known.values() if values]
    numeric = [numbers for values in present if (numbers := _numbers(values)) is not None]
    if len(numeric) == len(present):
        means = list(map(fmean, numeric))
        room = fact.tolerance + 1e-9 * max(map(abs, means))
        return max(means) - min(means) > room
    counts = [Counter(map(_said, values)) for values in present]
    return any(_unlike(one, other) for one, other in combinations(counts, 2))


def _unlike(one: Counter[str], other: Counter[str]) -> bool:
    """Tell whether a value's shares in two arms lie a tray of the larger arm or more apart."""
    mine, theirs = one.total(), other.total()
    return any(
        abs(one[value] * theirs - other[value] * mine) * max(mine, theirs) >= mine * theirs
        for value in one | other
    )


def _said(value: Value) -> str:
    return value if isinstance(value, str) else number_words(value, 2)


def _arm_words(fact: Fact, values: Sequence[Value]) -> str:
    if not values:
        return "not recorded"
    unit = f" {fact.unit}" if fact.unit else ""
    numbers = _numbers(values)
    if numbers is None:
        return _shares(fact, Counter(map(_said, values)))
    mean, least, most = fmean(numbers), min(numbers), max(numbers)
    reach = f" ({_said(least)}–{_said(most)})" if most - least > fact.tolerance else ""
    return f"{_said(mean)}{unit}{reach}"


def _shares(fact: Fact, counts: Counter[str]) -> str:
    """Write how many trays have each value, the most first: "3 on Shelf 1, 1 on Shelf 2"."""
    if len(counts) == 1:
        return next(iter(counts))
    ordered = sorted(counts.items(), key=lambda pair: (-pair[1], pair[0]))
    parts = [f"{trays} {fact.joint} {value}" for value, trays in ordered[:4]]
    if len(ordered) > 4:
        parts.append(f"{sum(trays for _, trays in ordered[4:])} otherwise")
    return ", ".join(parts)


def _together(
    arms: Mapping[Any, str], facts: Sequence[Fact], the_factor: str
) -> tuple[tuple[str, ...], ...]:
    """Names of facts, and the factor, that part the trays in the same way; with a gap, in none."""
    groups = {_parting(arms.values()): [the_factor]}
    for fact in facts:
        values = [fact.of(tray) for tray in arms]
        if None not in values:
            step = fact.tolerance or 1e-9
            steps = (
                value if isinstance(value, str) else round((value or 0) / step) for value in values
            )
            groups.setdefault(_parting(steps), []).append(fact.name)
    return tuple(tuple(names) for names in groups.values() if len(names) > 1)


def _parting(values: Iterable[Value | None]) -> tuple[int, ...]:
    """Each value as the number of its first appearance."""
    seen: dict[Value | None, int] = {}
    return tuple(seen.setdefault(value, len(seen)) for value in values)


def _together_words(names: Sequence[str], the_factor: str) -> str:
    others = listed([name for name in names if name != the_factor])
    if the_factor not in names:
        return f"{others} always move together and cannot be told apart."
    return (
        f"{others} always changed together with {the_factor}: this trial cannot say which of them "
        "made the difference."
    )
