"""A room's own spread from tray to tray: how far trays that were sown together lie apart."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean

from logbook.growing.measures import number_words
from logbook.growing.trials.arms import squares
from logbook.text import plural

ENOUGH = 6
"""Degrees of freedom from which the room's own spread is taken instead of the template's."""


@dataclass(frozen=True, slots=True)
class RoomSpread:
    """Standard deviation from tray to tray in % of the mean, and what it rests on.

    `trays` and `sowings` are 0 where it is the template's.
    """

    percent: float
    trays: int
    sowings: int

    @property
    def words(self) -> str:
        """Say it with what it rests on."""
        rests = (
            f"{plural(self.trays, 'tray')} of {plural(self.sowings, 'sowing')} of this room"
            if self.trays
            else "the template's figure; too few own trays were weighed singly"
        )
        return f"{number_words(self.percent)} % from tray to tray ({rests})"


def room_spread(sowings: Mapping[int, Sequence[float]], template_percent: float) -> RoomSpread:
    """Pool the spread within sowings, each as a share of its own mean.

    Trays of one sowing shared their week, so their spread is the luck of trays alone (the within
    mean square of a one-way analysis, Gomez & Gomez 1984, ch. 2.1, on relative weights). From batch
    → weights in g of trays that were weighed singly (0 is left out); `template_percent` is taken
    where fewer than ENOUGH degrees of freedom are known.
    """
    alive = [tuple(grams for grams in weights if grams > 0) for weights in sowings.values()]
    several = [weights for weights in alive if len(weights) > 1]
    trays = sum(map(len, several))
    df = trays - len(several)
    total = sum(squares(weights) / fmean(weights) ** 2 for weights in several)
    if df < ENOUGH or total <= 0:
        return RoomSpread(template_percent, 0, 0)
    return RoomSpread(100 * math.sqrt(total / df), trays, len(several))
