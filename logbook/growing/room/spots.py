"""Light readings at the spots of a shelf: how much, and how even."""

from __future__ import annotations

import math
import re
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.growing.measures import number_words
from logbook.growing.quantities import PPFD
from logbook.text import Refused, clean

DEPTHS = ("front", "middle", "back")


@dataclass(frozen=True, slots=True)
class Spot:
    """A reading at tray height: row 1 is the front, column 1 the left; PPFD in µmol m⁻² s⁻¹."""

    row: int
    column: int
    ppfd: float


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the spots of a shelf lie: rows from front to back, columns from left to right."""

    rows: int
    columns: int

    def __post_init__(self) -> None:
        if not (1 <= self.rows <= 20 and 1 <= self.columns <= 50):
            raise Refused("A grid of spots has 1 to 20 rows and 1 to 50 columns.")

    def check(self, spots: Sequence[Spot]) -> None:
        """Raise Refused for a spot outside the grid, one read twice, or an impossible reading."""
        seen: set[tuple[int, int]] = set()
        for spot in spots:
            where = f"row {spot.row}, column {spot.column}"
            if not (1 <= spot.row <= self.rows and 1 <= spot.column <= self.columns):
                raise Refused(
                    f"The spot in {where} lies outside the grid of {self.rows} rows "
                    f"and {self.columns} columns."
                )
            if (spot.row, spot.column) in seen:
                raise Refused(f"The spot in {where} is given twice; give it once.")
            seen.add((spot.row, spot.column))
            PPFD.checked(spot.ppfd)


def read_grid(text: str) -> Grid:
    """Read "3" as three spots from front to back, "2x4" as rows × columns; raise Refused."""
    found = re.fullmatch(r"(\d{1,3})(?:\s*[x×*]\s*(\d{1,3}))?", clean(text, lines=False))
    if not found:
        raise Refused("Write 3 for front, middle and back, or rows x columns like 2x4.")
    return Grid(int(found[1]), int(found[2] or 1))


@dataclass(frozen=True, slots=True)
class Uniformity:
    """What some PPFD readings come to, in µmol m⁻² s⁻¹; ratios from 0 to 1.

    `sd` divides by n−1. `sd` and `cv_percent` are None for one reading, the ratios and
    `cv_percent` are None in the dark.
    """

    count: int
    mean: float
    least: float
    most: float
    sd: float | None
    min_over_mean: float | None
    min_over_max: float | None
    cv_percent: float | None

    @property
    def words(self) -> str:
        """One line for the grower."""
        if self.count == 1:
            return "one reading says nothing about evenness; measure at three spots or more"
        if self.min_over_mean is None or self.min_over_max is None or self.cv_percent is None:
            return "no light at any spot"
        return (
            f"the darkest spot has {number_words(100 * self.min_over_mean, 0)} % of the mean "
            f"and {number_words(100 * self.min_over_max, 0)} % of the brightest; "
            f"CV {number_words(self.cv_percent)} %"
        )


def uniformity(ppfds: Sequence[float]) -> Uniformity:
    """Sum up readings; raise Refused when there is none or one is impossible."""
    if not ppfds:
        raise Refused("There is no light reading; give at least one.")
    values = [PPFD.checked(value) for value in ppfds]
    mean, least, most = math.fsum(values) / len(values), min(values), max(values)
    mean = min(max(mean, least), most)
    sd = statistics.stdev(values) if len(values) > 1 else None
    return Uniformity(count=len(values), mean=mean, least=least, most=most, sd=sd,
        min_over_mean=least / mean if mean else None, min_over_max=least / most if most else None,
        cv_percent=100 * sd / mean if mean and sd is not None else None)  # fmt: skip
