"""Likeness: whatever else differed between the arms, besides the one thing that was tried.

Facts are what the book holds of each tray: seed lot, grams sown, soak hours, water given, light.
A fact that differs between arms could explain part of a gap; two facts that always move together
cannot be told apart; a tray without a record is named, because silence is not likeness.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import ClassVar

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
    values: Mapping[str, Value | None]
    unit: str = ""
    tolerance: float = 0.0
    many: bool = False
    joint: str = "with"


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
    arms: Mapping[str, str], facts: Sequence[Fact], the_factor: str = "the arm"
) -> Confounders:
    """Compare every fact between the arms.

    Args:
        arms: tray → arm.
        facts: everything recorded besides the one thing that was tried.
        the_factor: what was tried, for the words.
    """
    order = list(dict.fromkeys(arms.values()))
    differences, alike = [], []
    missing: dict[str, tuple[str, ...]] = {}
    for fact in facts:
        absent = tuple(tray for tray in arms if _of(fact, tray) is None)
        if absent:
            missing[fact.name] = absent
        known = {arm: _known(fact, arms, arm) for arm in order}
        if sum(bool(values) for values in known.values()) < 2:
            continue
        if _differs(fact, known):
            differences.append(_difference(fact, known))
        elif not absent:
            alike.append(fact.name)
    names = {one.fact for one in differences}
    together = _together(arms, [fact for fact in facts if fact.name in names], the_factor)
    return Confounders(
        tuple(alike),
        tuple(differences),
        together,
        missing,
        _words(differences, together, missing, facts, the_factor, len(arms)),
    )


def _of(fact: Fact, tray: str) -> Value | None:
    value = fact.values.get(tray)
    if isinstance(value, float | int) and not math.isfinite(value):
        return None
    return value if value != "" else None


def _known(fact: Fact, arms: Mapping[str, str], arm: str) -> list[Value]:
    return [
        value for tray, its in arms.items() if its == arm and (value := _of(fact, tray)) is not None
    ]


def _numbers(values: Sequence[Value]) -> list[float] | None:
    numbers = [float(value) for value in values if not isinstance(value, str)]
    return numbers if len(numbers) == len(values) else None


def _difference(fact: Fact, known: Mapping[str, Sequence[Value]]) -> Difference:
    by_arm = {arm: _arm_words(fact, values) for arm, values in known.items()}
    mixed = any(_numbers(values) is None and len(set(values)) > 1 for values in known.values())
    if mixed:
        parts = [f"{arm}: {_of_all(fact, known[arm], value)}" for arm, value in by_arm.items()]
        more = [f"{len(parts) - 6} more arms"] if len(parts) > 6 else []
        said = "; ".join(parts[:6] + more)
    else:
        said = listed([f"{arm} {value}" for arm, value in by_arm.items()], most=6)
    verb = "differ" if fact.many else "differs"
    return Difference(fact.name, by_arm, f"{fact.name} {verb}: could explain part of it ({said})")


def _of_all(fact: Fact, values: Sequence[Value], words: str) -> str:
    """Say beside an arm with several values that all trays of this one have the same."""
    alike = len(values) > 1 and len(set(values)) == 1
    return f"all {len(values)} {fact.joint} {words}" if alike else words


def _differs(fact: Fact, known: Mapping[str, Sequence[Value]]) -> bool:
    present = [values for values in known.values() if values]
    numeric = [numbers for values in present if (numbers := _numbers(values)) is not None]
    if len(numeric) == len(present):
        means = [math.fsum(numbers) / len(numbers) for numbers in numeric]
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
    mean = math.fsum(numbers) / len(numbers)
    if max(numbers) - min(numbers) <= fact.tolerance:
        return f"{number_words(mean, 2)}{unit}"
    least, most = number_words(min(numbers), 2), number_words(max(numbers), 2)
    return f"{number_words(mean, 2)}{unit} ({least}–{most})"


def _shares(fact: Fact, counts: Counter[str]) -> str:
    """Write how many trays have each value, the most first: "3 on Shelf 1, 1 on Shelf 2"."""
    if len(counts) == 1:
        return next(iter(counts))
    ordered = sorted(counts.items(), key=lambda pair: (-pair[1], pair[0]))
    parts = [f"{trays} {fact.joint} {value}" for value, trays in ordered[:4]]
    if len(ordered) > 4:
        parts.append(f"{sum(trays for _, trays in ordered[4:])} otherwise")
    return ", ".join(parts)


def _parting(arms: Mapping[str, str], fact: Fact) -> tuple[int, ...] | None:
    """Number the trays by which value they share; None when a record is missing."""
    seen: dict[str, int] = {}
    numbers = []
    for tray in arms:
        value = _of(fact, tray)
        if value is None:
            return None
        if not isinstance(value, str):
            step = fact.tolerance or 1e-9
            value = str(round(value / step))
        numbers.append(seen.setdefault(value, len(seen)))
    return tuple(numbers)


def _together(
    arms: Mapping[str, str], facts: Sequence[Fact], the_factor: str
) -> tuple[tuple[str, ...], ...]:
    seen: dict[str, int] = {}
    groups = {tuple(seen.setdefault(arm, len(seen)) for arm in arms.values()): [the_factor]}
    for fact in facts:
        parting = _parting(arms, fact)
        if parting is not None:
            groups.setdefault(parting, []).append(fact.name)
    return tuple(tuple(names) for names in groups.values() if len(names) > 1)


def _words(
    differences: Sequence[Difference], together: Sequence[Sequence[str]],
    missing: Mapping[str, Sequence[str]], facts: Sequence[Fact], the_factor: str, trays: int,
) -> tuple[str, ...]:  # fmt: skip
    said = [f"{one.words}." for one in differences]
    for names in together:
        others = [name for name in names if name != the_factor]
        if the_factor in names:
            said.append(
                f"{listed(others)} always changed together with {the_factor}: this trial cannot "
                "say which of them made the difference."
            )
        else:
            said.append(f"{listed(others)} always move together and cannot be told apart.")
    many = {fact.name for fact in facts if fact.many}
    for name, absent in missing.items():
        verb = "are" if name in many else "is"
        some = f"{plural(len(absent), 'tray')} ({listed(list(absent), most=6)})"
        of = "any tray" if len(absent) == trays else some
        said.append(f"{name} {verb} not recorded for {of}.")
    if not differences and not missing:
        said.append("Nothing else that was recorded differs between the arms.")
    return tuple(said)
