"""A shelf's past: which hours, lamps and light held when, and what its trays had of them.

A lamp set holds from its entry on; what was lit before the first is counted as unknown. A survey
holds until the next one of its shelf, and the first also for the time before it. What a shelf
uses is shared by the trays on it that are in a stage of light at that moment.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, tzinfo
from itertools import pairwise
from typing import ClassVar

from logbook.growing.currencies import Currency
from logbook.growing.room.energy_bill import Bill, Summed, bill
from logbook.growing.room.light import moles
from logbook.growing.room.outages import without
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import Tariff
from logbook.growing.step_functions import seconds_of, stretches, value_at
from logbook.growing.wall_hours import Span, WallHours, runs


@dataclass(frozen=True, slots=True)
class ShelfPast:
    """What is known of a shelf: changes as (from when, what), and the hours before the first.

    `zone` is that of its room; `ppfd` are the means of its surveys in µmol m⁻² s⁻¹.
    """

    zone: tzinfo
    hours_before: WallHours | None = None
    hours: tuple[tuple[datetime, WallHours | None], ...] = ()
    lamps: tuple[tuple[datetime, LampSet], ...] = ()
    ppfd: tuple[tuple[datetime, float], ...] = ()
    outages: tuple[Span, ...] = ()
    """When the power was off."""

    @property
    def hanging(self) -> LampSet | None:
        """The lamps that hang there since the last change; None where none are known."""
        return self.lamps[-1][1] if self.lamps else None

    def lit(self, start: datetime, end: datetime) -> list[Span]:
        """The spans (UTC) in which the lamps were lit: by the hours that held, while there was power."""
        lit = [
            run
            for low, high, hours in stretches(self.hours, self.hours_before, start, end)
            if hours is not None
            for run in runs(hours, low, high, self.zone)
        ]
        return without(lit, self.outages)

    def faded(self, start: datetime, end: datetime) -> float | None:
        """By how many % the light from start to end fell short of the first survey under its lamps.

        None where the shelf was measured only once under them, or never; below 0 for more light.
        """
        hung = [datetime.min.replace(tzinfo=UTC), *sorted(at for at, _ in self.lamps)]
        found = whole = 0.0
        for low, high in pairwise([*hung, datetime.max.replace(tzinfo=UTC)]):
            mine = sorted(one for one in self.ppfd if low <= one[0] < high)
            if len(mine) < 2 or not mine[0][1] > 0:
                continue
            first = mine[0][1]
            for since, until, ppfd in stretches(mine, first, max(low, start), min(high, end)):
                seconds = (until - since).total_seconds()
                found, whole = found + seconds * (1 - ppfd / first), whole + seconds
        return 100 * found / whole if whole else None

    def lost(self, start: datetime, end: datetime) -> float:
        """The seconds in which the lamps would have been lit, had there been power."""
        lit = seconds_of(replace(self, outages=()).lit(start, end))
        return lit - seconds_of(self.lit(start, end))

    def hours_at(self, moment: datetime) -> WallHours | None:
        """The lamp hours that held at a moment."""
        return value_at(self.hours, self.hours_before, moment)

    def use(self, start: datetime, end: datetime, tariffs: Sequence[Tariff]) -> Use:
        """What the shelf's lamps used from start to end."""
        found = Use()
        none: LampSet | None = None
        for low, high, lamps in stretches(self.lamps, none, start, end):
            lit = self.lit(low, high)
            if lamps is None:
                found += Use(unknown_hours=seconds_of(lit) / 3600)
            elif lit:
                found += Use(
                    bill(lamps.draw.watts, lit, tariffs, self.zone), seconds_of(lit) / 3600
                )
        return found

    def light(self, start: datetime, end: datetime) -> tuple[float, float]:
        """The mol m⁻² that fell from start to end, and the lit hours that no survey covers."""
        lit = self.lit(start, end)
        if not self.ppfd:
            return 0.0, seconds_of(lit) / 3600
        first = min(self.ppfd)[1]
        found = sum(
            moles(ppfd, (min(high, until) - max(low, since)).total_seconds())
            for since, until, ppfd in stretches(self.ppfd, first, start, end)
            for low, high in lit
            if max(low, since) < min(high, until)
        )
        return found, 0.0


@dataclass(frozen=True, slots=True)
class Use(Summed):
    """Electricity used: energy with its cost, lit hours, and lit hours with no known lamp set."""

    keys: ClassVar = """
        kwh=known.kwh cost=known.known_cost unpriced_kwh=bill.unpriced_kwh lit_hours unknown_hours
    """

    bill: Bill = field(default_factory=Bill)
    lit_hours: float = 0.0
    unknown_hours: float = 0.0
    """Lit with lamps that nobody wrote down."""

    @property
    def known(self) -> Bill | None:
        """The energy; None where nobody wrote down any of the lamps that were lit."""
        return self.bill if self.lit_hours or not self.unknown_hours else None

    def words(self, money: Currency, digits: int | None = None) -> str:
        """The energy, in short to so many digits, and its cost; or that the lamps aren't known."""
        if self.known is None:
            return "lamps not known"
        return self.bill.words(money) if digits is None else self.bill.brief(money, digits)
