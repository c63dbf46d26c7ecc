"""A month on one page: what crops gave and cost, what was lost, what was out of the usual."""

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.costs.costing import CropCosts, costs_of
from logbook.actions.yields.gone import gone_trays
from logbook.actions.yields.listing import (
    BatchYields,
    Span,
    Yields,
    batches_of,
    bounds,
    yields_of,
)
from logbook.actions.yields.unusual import BEFORE
from logbook.growing.costs.margin import CropMargin
from logbook.growing.when import EARLIEST, LATEST
from logbook.growing.yields.crop_yields import BatchYield, CropYield
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Month:
    """What trays that left the rack in a month gave and cost."""

    keys: ClassVar = "since until crops costs=cost_rows unusual currency=costs.currency.code"

    room: str
    yields: Yields
    costs: CropCosts
    batches: BatchYields

    @property
    def since(self) -> date:
        """The first day."""
        return self.yields.since

    @property
    def until(self) -> date:
        """The last day, today at the latest."""
        return self.yields.until

    @property
    def crops(self) -> tuple[CropYield, ...]:
        """The yield of each crop, the least per slot-day first."""
        return self.yields.crops

    @property
    def cost_rows(self) -> tuple[CropMargin, ...]:
        """The costs of each crop, the least left per slot-day first."""
        return self.costs.crops

    @property
    def unusual(self) -> tuple[BatchYield, ...]:
        """The batches that gave less than is usual."""
        return tuple(one for one in self.batches.batches if one.unusual)

    @property
    def title(self) -> str:
        """The room and the month: "Test room, April 2026"."""
        return f"{self.room}, {self.since:%B %Y}"


def month(book: Book, text: str = "") -> Month:
    """The page of a month ("2026-04"), else of the last whole one; raises Refused."""
    today = book.today()
    last = today.replace(day=1) - timedelta(days=1)
    if text:
        told = re.fullmatch(r"\s*(\d{4})-(\d{1,2})\s*", text)
        if told is None or not 1 <= int(told[2]) <= 12 or not EARLIEST <= int(told[1]) <= LATEST:
            raise Refused(f'"{text.strip()[:40]}" isn\'t a month; write one like 2026-04.')
        last = date(int(told[1]), int(told[2]), monthrange(int(told[1]), int(told[2]))[1])
    since = last.replace(day=1)
    if since > today:
        raise Refused(f"{since:%B %Y} is still to come.")
    span = Span(since=since, until=min(last, today))
    with book.reading() as reading:
        since, until, start, end = bounds(reading, span)
        earlier = gone_trays(reading, start - BEFORE, start, weights_only=True)
        trays = gone_trays(reading, start, end)
        return Month(
            reading.about.name, yields_of(reading, trays, since, until),
            costs_of(reading, trays, since, until),
            batches_of(reading, earlier, trays, since, until),
        )  # fmt: skip
