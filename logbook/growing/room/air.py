"""What temperature and humidity mean, and how they are written: vapour pressure deficit, dew point.

Saturation vapour pressure e°(T) = 0.6108·exp(17.27 T/(T + 237.3)) kPa, T in °C: FAO Irrigation and
Drainage Paper 56, equation 11 (Allen et al. 1998). Over water, also below 0 °C.

Over time a reading holds until the next one of its place, but never longer than LONGEST_HOLD; what
no reading covers is counted as unknown, never guessed.
"""

import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo
from itertools import pairwise
from operator import attrgetter
from typing import ClassVar

from logbook.growing.bands import Band
from logbook.growing.measures import Units, hours_words, number_words, temperature_words
from logbook.growing.quantities import AIR, HUMIDITY, TEMPERATURE
from logbook.growing.wall_hours import WallHours, runs
from logbook.text import Refused, clean

FEED = "feed"
"""How an entry is marked that a sensor's feed wrote."""


def saturation_kpa(celsius: float) -> float:
    """The saturation vapour pressure in kPa."""
    celsius = TEMPERATURE.checked(celsius)
    return 0.6108 * math.exp(17.27 * celsius / (celsius + 237.3))


def vapour_kpa(celsius: float, humidity: float) -> float:
    """The vapour pressure in the air in kPa."""
    return saturation_kpa(celsius) * HUMIDITY.checked(humidity) / 100


def vpd_kpa(celsius: float, humidity: float) -> float:
    """The vapour pressure deficit of the air in kPa, 0 or more."""
    return saturation_kpa(celsius) * (100 - HUMIDITY.checked(humidity)) / 100


def leaf_vpd_kpa(celsius: float, humidity: float, leaf_celsius: float) -> float:
    """The deficit between leaf and air in kPa; below 0 the leaf is wet with dew."""
    return saturation_kpa(leaf_celsius) - vapour_kpa(celsius, humidity)


def dew_point_c(celsius: float, humidity: float) -> float | None:
    """The dew point in °C, the inverse of the saturation formula; None in wholly dry air."""
    vapour = vapour_kpa(celsius, humidity)
    if vapour <= 0:
        return None
    ratio = math.log(vapour / 0.6108)
    return 237.3 * ratio / (17.27 - ratio)


@dataclass(frozen=True, slots=True)
class AirReading:
    """Air at a moment (aware): temperature in °C, relative humidity in %, air moving or still."""

    keys: ClassVar = "at celsius humidity_percent=humidity vpd_kpa dew_point_c still"

    at: datetime
    celsius: float
    humidity: float
    still: bool | None = None
    """Whether the air stood still; null when nobody said."""

    def __post_init__(self) -> None:
        TEMPERATURE.checked(self.celsius)
        HUMIDITY.checked(self.humidity)

    @property
    def vpd_kpa(self) -> float:
        """Vapour pressure deficit in kPa."""
        return vpd_kpa(self.celsius, self.humidity)

    @property
    def dew_point_c(self) -> float | None:
        """Dew point in °C; None in wholly dry air."""
        return dew_point_c(self.celsius, self.humidity)

    def words(self, units: Units = "metric") -> str:
        """What was read and what it means: "21.4 °C, 63 %, VPD 0.94 kPa, dew point 14.1 °C"."""
        still = {True: ", still", False: ", moving", None: ""}[self.still]
        return (
            f"{temperature_words(self.celsius, units)}, {number_words(self.humidity)} %{still}, "
            f"{air_words(self.celsius, self.humidity, units=units)}"
        )


def air_words(
    celsius: float, humidity: float, leaf_celsius: float | None = None, units: Units = "metric"
) -> str:
    """Say in a line what the air is like, and whether dew falls on leaves."""
    dew = dew_point_c(celsius, humidity)
    point = "no dew point in completely dry air"
    if dew is not None:
        point = f"dew point {temperature_words(dew, units)}"
    parts = [f"VPD {vpd_kpa(celsius, humidity):.2f} kPa", point]
    if leaf_celsius is not None:
        leaf = leaf_vpd_kpa(celsius, humidity, leaf_celsius)
        parts.append(f"leaf to air {leaf:.2f} kPa")
        if leaf <= 0:
            parts.append("the leaf is at or under the dew point: dew forms on it")
    return ", ".join(parts)


def air_from(text: str, units: Units) -> tuple[float, float, bool | None]:
    """Read "21.4 63", "70F 55% still" as °C, % and whether the air stands still; raise Refused."""
    still: bool | None = None
    parts: list[str] = []
    for word in clean(text, lines=False).split():
        folded = word.casefold().strip(",;")
        if folded in ("still", "moving"):
            still = folded == "still"
        elif parts and not re.search(r"\d", word):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
    if len(parts) != 2:
        raise Refused(
            "Write temperature and humidity, like 21.4 63 or 70F 55%, and still or moving."
        )
    return AIR.read(parts[0], units), HUMIDITY.read(parts[1]), still


LONGEST_HOLD = timedelta(hours=1)

DAMP_VPD_KPA = 0.43
DAMP_HOURS_STILL = 6.0
DAMP_HOURS_MOVING = 12.0


@dataclass(frozen=True, slots=True)
class Held:
    """A reading and the stretch (UTC) for which it stands."""

    reading: AirReading
    start: datetime
    end: datetime

    @property
    def seconds(self) -> float:
        """Length of the stretch."""
        return (self.end - self.start).total_seconds()


def held(readings: Sequence[AirReading], start: datetime, end: datetime) -> Iterator[Held]:
    """Each reading with the stretch between start and end for which it stands, in order."""
    start, end = start.astimezone(UTC), end.astimezone(UTC)
    ordered = sorted(readings, key=lambda reading: reading.at)
    begins = [reading.at.astimezone(UTC) for reading in ordered]
    for reading, (begun, following) in zip(ordered, pairwise([*begins, end]), strict=True):
        low, high = max(begun, start), min(following, begun + LONGEST_HOLD, end)
        if low < high:
            yield Held(reading, low, high)


@dataclass(frozen=True, slots=True)
class AirMean:
    """Means over the time that readings cover: °C, %, kPa, and how many hours that is."""

    keys: ClassVar = "celsius humidity_percent=humidity vpd_kpa hours"

    celsius: float
    humidity: float
    vpd_kpa: float
    hours: float

    def words(self, units: Units = "metric") -> str:
        """Say it: "21.4 °C, 63 %, VPD 0.94 kPa over 14 h"."""
        return (
            f"{temperature_words(self.celsius, units)}, {number_words(self.humidity)} %, "
            f"VPD {self.vpd_kpa:.2f} kPa over {number_words(self.hours)} h"
        )


def mean_air(stretches: Sequence[Held]) -> AirMean | None:
    """Weigh readings by the time for which they stand; None when there is none."""
    total = math.fsum(one.seconds for one in stretches)
    if total <= 0:
        return None

    celsius, humidity, vpd = (
        math.fsum(of(one.reading) * one.seconds for one in stretches) / total
        for of in map(attrgetter, ("celsius", "humidity", "vpd_kpa"))
    )
    return AirMean(celsius, humidity, vpd, total / 3600)


@dataclass(frozen=True, slots=True)
class DayAndNight:
    """Means while the lamps are lit and while they are dark; None where no reading falls."""

    day: AirMean | None
    night: AirMean | None


def day_and_night(
    readings: Sequence[AirReading], lit: WallHours | None, start: datetime, end: datetime,
    zone: tzinfo,
) -> DayAndNight:  # fmt: skip
    """Split readings by the lamp hours of their place; without lamps all of it is night."""
    day: list[Held] = []
    night: list[Held] = []
    spans = [] if lit is None else list(runs(lit, start, end, zone))
    for one in held(readings, start, end):
        reached = one.start
        for low, high in ((max(low, one.start), min(high, one.end)) for low, high in spans):
            if low < high:
                night.append(Held(one.reading, reached, low))
                day.append(Held(one.reading, low, high))
                reached = high
        night.append(Held(one.reading, reached, one.end))
    return DayAndNight(mean_air(day), mean_air(night))


@dataclass(frozen=True, slots=True)
class BandHours:
    """Hours below, within and above a band, and hours that no reading covers."""

    keys: ClassVar = "hours_below=below hours_within=within hours_above=above hours_unknown=unknown"

    below: float
    within: float
    above: float
    unknown: float

    def outside(self, low: str, high: str) -> list[str]:
        """Say for how long it was too little and too much; nothing under three minutes."""
        sides = ((self.below, low), (self.above, high))
        return [f"{number_words(hours)} h {side}" for hours, side in sides if hours >= 0.05]


def band_hours(
    readings: Sequence[AirReading], of: Callable[[AirReading], float], band: Band,
    start: datetime, end: datetime,
) -> BandHours:  # fmt: skip
    """Count the hours for which `of` (temperature, humidity, VPD) lies below, within, above."""
    counted = {-1: 0.0, 0: 0.0, 1: 0.0}
    for one in held(readings, start, end):
        counted[band.side(of(one.reading))] += one.seconds / 3600
    whole = max((end - start).total_seconds() / 3600, 0.0)
    unknown = max(whole - sum(counted.values()), 0.0)
    return BandHours(counted[-1], counted[0], counted[1], unknown)


@dataclass(frozen=True, slots=True)
class MouldCaution:
    """A stretch damp for too long: when, and whether the air was still (None: not known)."""

    keys: ClassVar = "from=since to=until hours still words"

    since: datetime
    until: datetime
    still: bool | None

    @property
    def hours(self) -> float:
        """Length of the stretch in hours."""
        return (self.until - self.since).total_seconds() / 3600

    @property
    def words(self) -> str:
        """What to do, with the rule and that it is a rule of thumb."""
        air = {True: "still air", False: "moving air", None: "air that may be still"}[self.still]
        limit = DAMP_HOURS_MOVING if self.still is False else DAMP_HOURS_STILL
        return (
            f"Mould risk: {hours_words(self.hours)} damp with {air}. "
            "Look at the densest spots, lift lids, let a fan stir the air, water from below. "
            f"(A rule of thumb, not a measurement: VPD under {DAMP_VPD_KPA} kPa for "
            f"{number_words(limit)} h or more.)"
        )


def mould_caution(
    readings: Sequence[AirReading], start: datetime, end: datetime
) -> MouldCaution | None:
    """The longest damp stretch that is long enough to warn of; None when there is none.

    Damp is a VPD under DAMP_VPD_KPA: fungi live best below 0.43 kPa (Prenger & Ling, Ohio State
    Extension AEX-804). The hours, 6 where the air stands still or nobody knows and 12 where it
    moves all the time, are a rule of thumb of growers. A gap in the readings ends a stretch.
    """
    found = [
        caution
        for caution in _damp_stretches(list(held(readings, start, end)))
        if caution.hours >= (DAMP_HOURS_MOVING if caution.still is False else DAMP_HOURS_STILL)
    ]
    return max(found, key=lambda caution: caution.hours, default=None)


def _damp_stretches(stretches: Sequence[Held]) -> Iterator[MouldCaution]:
    """Join damp readings that touch; a stretch is still if any reading in it is."""
    damp = [one for one in stretches if one.reading.vpd_kpa < DAMP_VPD_KPA]
    cuts = [place for place, (one, two) in enumerate(pairwise(damp), 1) if one.end != two.start]
    for first, last in pairwise([0, *cuts, len(damp)]):
        run = damp[first:last]
        if run:
            marks = {one.reading.still for one in run}
            still = True if True in marks else None if None in marks else False
            yield MouldCaution(run[0].start, run[-1].end, still)
