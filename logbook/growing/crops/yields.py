"""Expected weights: a template's guess, taught by this room's own trays."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from logbook.growing.crops.templates import CropTemplate
from logbook.text import plural

GUESS_WORTH = 3.0
OWN_SPREAD_FROM = 6


@dataclass(frozen=True, slots=True)
class Expected:
    """Grams a tray: the middle, the tray-to-tray standard deviation, and what it rests on.

    `low` and `high` hold about two trays in three (one standard deviation to either side).
    """

    grams: float
    """What is expected, g a tray."""
    spread_grams: float
    """One standard deviation, g."""
    trays: int
    """On how many of this room's trays it is based."""
    guess: bool

    @property
    def low(self) -> float:
        """One standard deviation below the middle."""
        return max(0.0, self.grams - self.spread_grams)

    @property
    def high(self) -> float:
        """One standard deviation above the middle."""
        return self.grams + self.spread_grams

    def rest(self, cut_grams: float) -> Expected:
        """What is left to expect of a tray of which so many g were cut already."""
        return replace(self, grams=max(0.0, self.grams - cut_grams)) if cut_grams else self

    @property
    def basis(self) -> str:
        """Say shortly what the number rests on: "12 trays", or that it is a guess."""
        if not self.trays:
            return "starting guess" if self.guess else "template"
        return plural(self.trays, "tray")

    @property
    def rests_on(self) -> str:
        """Say what the number rests on."""
        return f"{self.basis} of this room" if self.trays else self.basis


@dataclass(frozen=True, slots=True)
class OwnWeights:
    """What this room's trays of a template weighed, g: singly, and as an even share of a sum.

    A share says as much about the middle as a single weight, and nothing about the spread.
    """

    single: tuple[float, ...] = ()
    shared: tuple[float, ...] = ()


def expected_weight(
    guess_grams: float | None, spread_percent: float, own: OwnWeights, *, guess: bool = True
) -> Expected | None:
    """The expected weight of a tray, or None when nothing is known.

    The template's guess counts as much as GUESS_WORTH trays (the mean of a normal sample with a
    conjugate prior of that many observations: Gelman et al., Bayesian Data Analysis, §2.5); the
    spread is the template's until OWN_SPREAD_FROM trays have been weighed singly, then the room's
    own (n−1).
    Weights of nothing (a tray that died) are left out: they are losses, not yields.
    """
    single = [grams for grams in own.single if grams > 0]
    weights = single + [grams for grams in own.shared if grams > 0]
    count = len(weights)
    if guess_grams is None and not count:
        return None
    worth = GUESS_WORTH if guess_grams is not None else 0.0
    middle = ((guess_grams or 0.0) * worth + sum(weights)) / (worth + count)
    spread = middle * spread_percent / 100
    if len(single) >= OWN_SPREAD_FROM:
        mean = sum(single) / len(single)
        spread = math.sqrt(sum((grams - mean) ** 2 for grams in single) / (len(single) - 1))
    return Expected(middle, spread, count, guess)


def expected_of(template: CropTemplate, weights: OwnWeights, harvest: int = 1) -> Expected | None:
    """The expected weight of a tray's harvest (from 1): its guess and the room's weights of it."""
    guess = template.expected_grams if harvest == 1 else template.regrow_grams
    return expected_weight(guess, template.spread_percent, weights, guess=template.guess)
