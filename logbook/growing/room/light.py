"""What light readings mean: daily light, hours, estimates from lux, evenness, targets, fading lamps.

Daily light integral (DLI) [mol m⁻² d⁻¹] = PPFD [µmol m⁻² s⁻¹] × lit seconds ÷ 10⁶ (Torres & Lopez,
Purdue Extension HO-238-W). Light is never scaled by distance to the lamp: re-measure.
"""

import math
import re
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from functools import partial
from typing import Literal

from logbook.growing.bands import Band
from logbook.growing.currencies import UNSET, Currency, exact
from logbook.growing.measures import hours_words, number_words
from logbook.growing.quantities import LIT_HOURS, LUX, PPFD
from logbook.text import Refused, clean, fold, listed, nearest

MICRO = 1e-6
LIKE_HEIGHT_MM = 10.0
DARK_PPFD = 0.001
"""Less than any meter shows: taken as dark."""


def moles(ppfd: float, lit_seconds: float) -> float:
    """The mol m⁻² delivered by a PPFD [µmol m⁻² s⁻¹] in some lit seconds."""
    if lit_seconds < 0:
        raise Refused("The lit time is negative; it must be 0 or more.")
    return PPFD.checked(ppfd) * lit_seconds * MICRO


def daily_light(ppfd: float, hours: float) -> float:
    """The daily light [mol m⁻² d⁻¹] of a mean PPFD for 0 to 25 lit hours."""
    return moles(ppfd, LIT_HOURS.checked(hours) * 3600)


def hours_needed(ppfd: float, daily: float) -> float | None:
    """The lit hours for a daily light [mol m⁻² d⁻¹], past 24 if it cannot be; None in the dark."""
    if daily < 0:
        raise Refused("The wanted daily light (DLI) is negative; write 0 or more mol/m²/d.")
    if PPFD.checked(ppfd) < DARK_PPFD:
        return 0.0 if daily == 0 else None
    return daily / (ppfd * 3600 * MICRO)


def ppfd_needed(daily: float, hours: float) -> float:
    """The mean PPFD that makes a daily light [mol m⁻² d⁻¹] in a minute or more of light."""
    if hours * 60 < 1 or daily < 0:
        raise Refused("Give at least a minute of light and a daily light of 0 or more.")
    return daily / (hours * 3600 * MICRO)


@dataclass(frozen=True, slots=True)
class LampKind:
    """Lux per µmol m⁻² s⁻¹ of one kind of lamp, how far off it may be (± %), and who says so."""

    name: str
    lux_per_ppfd: float
    off_percent: float
    source: str


_THIMIJAN = "Thimijan & Heins 1983, HortScience 18(6)"
LAMP_KINDS = {
    name: LampKind(name, lux, off, source)
    for name, lux, off, source in (
        ("sun", 54, 10, _THIMIJAN),
        ("cool white fluorescent", 74, 10, _THIMIJAN),
        ("high-pressure sodium", 82, 10, _THIMIJAN),
        ("metal halide", 71, 10, _THIMIJAN),
        ("white LED", 70, 15, "typical of white LEDs, common practice, no published source"),
    )
}
_OTHER_NAMES = {
    "fluorescent": "cool white fluorescent", "hps": "high-pressure sodium", "led": "white LED",
    "sunlight": "sun",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class LuxEstimate:
    """PPFD guessed from lux: the guess and the range it may lie in, µmol m⁻² s⁻¹."""

    ppfd: float
    low: float
    high: float
    kind: LampKind

    @property
    def words(self) -> str:
        """The mark that goes wherever the number goes."""
        digits = next((each for each in range(3) if self.low * 10**each >= 10), 3)
        guess, low, high = (number_words(x, digits) for x in (self.ppfd, self.low, self.high))
        return (
            f"estimate from lux for {self.kind.name}: {guess} ({low} to {high}) µmol/m²/s; "
            "a lux meter sees what eyes see, so a red and blue lamp cannot be judged by it"
        )


def lamp_kind(name: str) -> LampKind:
    """Find a kind of lamp by name; raise Refused with the known ones."""
    known = {fold(kind): kind for kind in LAMP_KINDS} | _OTHER_NAMES
    if fold(name) not in known:
        raise Refused(
            f'No lux factor is known for "{name[:40]}" lamps; known are '
            f"{listed(list(LAMP_KINDS))}.{nearest(name, list(LAMP_KINDS))}"
        )
    return LAMP_KINDS[known[fold(name)]]


def from_lux(lux: float, kind: LampKind) -> LuxEstimate:
    """Estimate PPFD from lux under one kind of lamp; raise Refused for a negative lux."""
    return guessed(LUX.checked(lux) / kind.lux_per_ppfd, kind)


def guessed(ppfd: float, kind: LampKind) -> LuxEstimate:
    """The range in which a PPFD that was guessed from lux may lie."""
    off = kind.off_percent / 100
    return LuxEstimate(PPFD.checked(ppfd), ppfd / (1 + off), ppfd / (1 - off), kind)


@dataclass(frozen=True, slots=True)
class Survey:
    """The mean of one walk round a shelf with a meter: when (aware), PPFD, mm from tray to lamp."""

    when: datetime
    ppfd: float
    height_mm: float | None
    estimated: bool = False


def percent_of_first(surveys: Sequence[Survey]) -> tuple[float | None, ...]:
    """Each survey in percent of the earliest one at like height, in the order given.

    Like height is within LIKE_HEIGHT_MM, both measured the same way. The first of its height is
    100; None where a height is missing or the first was dark.
    """
    ordered = sorted(surveys, key=lambda survey: survey.when)
    firsts = [next(filter(partial(_alike, survey), ordered), None) for survey in surveys]
    return tuple(
        100 * survey.ppfd / first.ppfd if first and first.ppfd > 0 else None
        for survey, first in zip(surveys, firsts, strict=True)
    )


def _alike(one: Survey, other: Survey) -> bool:
    if one.height_mm is None or other.height_mm is None or one.estimated != other.estimated:
        return False
    return abs(one.height_mm - other.height_mm) <= LIKE_HEIGHT_MM


@dataclass(frozen=True, slots=True)
class LightJudgement:
    """A shelf's daily light against a target; hours that would just meet it (None: no hours do)."""

    verdict: Literal["too little", "enough", "too much"]
    daily: float
    hours_then: float | None
    cost_change: Decimal | None
    words: str
    money: Currency = UNSET


def judge(
    ppfd: float, hours: float, target: Band, cost_per_lit_hour: Decimal | None = None,
    money: Currency = UNSET,
) -> LightJudgement:  # fmt: skip
    """Judge a mean PPFD for some lit hours a day; with a cost, say what the change costs a day."""
    daily = daily_light(ppfd, hours)
    got = f"DLI {target.told(daily)} mol/m²/d in {hours_words(hours)}"
    side = target.side(daily)
    if not side:
        words = f"Enough light: {got}, wanted {target.written(1)}."
        return LightJudgement("enough", daily, hours, Decimal(0), words, money)
    wanted = (target.low if side < 0 else target.high) or 0.0
    then = hours_needed(ppfd, wanted)
    verdict: Literal["too little", "too much"] = "too little" if side < 0 else "too much"
    opening = f"{verdict.capitalize()} light: {got}, wanted {target.written(1)}."
    if then is None or then > 24:
        lit = hours if hours * 60 >= 1 else 24.0
        words = (
            f"{opening} No number of hours meets it; the trays need a mean PPFD of "
            f"{number_words(ppfd_needed(wanted, lit), 0)} µmol/m²/s "
            f"for {hours_words(lit)}: more lamps, or lamps nearer, then measure again."
        )
        return LightJudgement(verdict, daily, None, None, words, money)
    change = None
    if cost_per_lit_hour is not None:
        change = exact(then - hours) * cost_per_lit_hour
    words = f"{opening} {hours_words(then)} per day would meet it"
    if change is not None:
        words += f" and cost {money.rate(abs(change))} {'more' if change >= 0 else 'less'} per day"
    words += "."
    if then > 20:
        words += " That leaves little dark; more lamps may be better."
    return LightJudgement(verdict, daily, then, change, words, money)


DEPTHS = ("front", "middle", "back")


@dataclass(frozen=True, slots=True)
class Spot:
    """A reading at tray height: row 1 is the front, column 1 the left; PPFD in µmol m⁻² s⁻¹."""

    row: int
    column: int
    ppfd: float


def odd_reading(spots: Sequence[Spot]) -> tuple[Spot, str] | None:
    """The reading farthest from the others, of three or more, and what to ask; None if it is near."""

    def usual(spot: Spot) -> float:
        return statistics.median(each.ppfd for each in spots if each is not spot)

    def far(spot: Spot) -> float:
        low, high = sorted((spot.ppfd, usual(spot)))
        return high / low if low > 0 else math.inf if usual(spot) > 0 else 0.0

    odd = max(spots, key=far) if len(spots) > 2 else None
    if odd is None or PPFD.near(odd.ppfd, usual(odd)):
        return None
    value, others = number_words(odd.ppfd), number_words(usual(odd))
    return odd, f"{value} where the others are about {others}: is that right?"


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
                    f"The spot in {where} is outside the grid of {self.rows} rows "
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
