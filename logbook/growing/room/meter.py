"""A shelf's meter: what its lamps used up to any moment, so that shares of many trays are quick."""

from bisect import bisect_right
from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from typing import NamedTuple

from logbook.growing.currencies import exact
from logbook.growing.room.energy_bill import Bill, pieces
from logbook.growing.room.shelf_past import ShelfPast, Use
from logbook.growing.room.tariffs import Tariff, ordered_tariffs
from logbook.growing.step_functions import stretches


class Read(NamedTuple):
    """A reading, or what lies between two: kWh, money, and seconds lit."""

    kwh: float = 0.0
    cost: Decimal = Decimal(0)
    unpriced_kwh: float = 0.0
    lit: float = 0.0
    unknown: float = 0.0
    """Lit with lamps that nobody wrote down."""

    def less(self, other: "Read") -> "Read":
        """What was used since another reading."""
        return Read(
            self.kwh - other.kwh, self.cost - other.cost, self.unpriced_kwh - other.unpriced_kwh,
            self.lit - other.lit, self.unknown - other.unknown,
        )  # fmt: skip

    def more(self, other: "Read") -> "Read":
        """Both together."""
        return Read(
            self.kwh + other.kwh, self.cost + other.cost, self.unpriced_kwh + other.unpriced_kwh,
            self.lit + other.lit, self.unknown + other.unknown,
        )  # fmt: skip

    def share(self, trays: int) -> "Read":
        """One tray's part of it; hours stay whole, for each tray has all of them."""
        return Read(
            self.kwh / trays, self.cost / trays, self.unpriced_kwh / trays, self.lit, self.unknown
        )


def use_of(reads: Sequence[Read]) -> Use:
    """All that some readings tell of together."""
    kwh, cost, unpriced, lit, unknown = (sum(each) for each in zip(*reads, strict=True))
    return Use(Bill(kwh, Decimal(cost), unpriced), lit / 3600, unknown / 3600)


class Meter:
    """The readings of a shelf from a moment on; between two turns of its lamps or prices they are straight."""

    def __init__(
        self, past: ShelfPast, start: datetime, end: datetime, tariffs: Sequence[Tariff]
    ) -> None:
        """Read from start to end alone."""
        ordered, none = ordered_tariffs(tariffs), None
        self.turns: list[tuple[datetime, datetime, Decimal | None, Decimal | None]] = []
        for low, high, lamps in stretches(past.lamps, none, start, end):
            watts = None if lamps is None else exact(lamps.draw.watts)
            for run in past.lit(low, high):
                self.turns += (
                    (begin, until, watts, price)
                    for begin, until, price in pieces(*run, ordered, past.zone)
                )
        self.begins = [turn[0] for turn in self.turns]
        self.reads = [Read()]
        for turn in self.turns:
            self.reads.append(self._after(self.reads[-1], turn[1], turn))

    def at(self, moment: datetime) -> Read:
        """The reading of a moment."""
        place = bisect_right(self.begins, moment)
        if not place:
            return self.reads[0]
        turn = self.turns[place - 1]
        if moment >= turn[1]:
            return self.reads[place]
        return self._after(self.reads[place - 1], moment, turn)

    @staticmethod
    def _after(
        before: Read, moment: datetime, turn: tuple[datetime, datetime, Decimal | None, Decimal | None]
    ) -> Read:  # fmt: skip
        begin, _, watts, price = turn
        seconds = (moment - begin).total_seconds()
        kwh, cost, unpriced, lit, unknown = before
        if watts is None:
            return Read(kwh, cost, unpriced, lit, unknown + seconds)
        used = float(watts) * seconds / 3_600_000
        if price is None:
            return Read(kwh + used, cost, unpriced + used, lit + seconds, unknown)
        spent = watts * exact(seconds) * price / 3_600_000
        return Read(kwh + used, cost + spent, unpriced, lit + seconds, unknown)
