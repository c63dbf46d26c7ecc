"""What crops yielded over a span, and the batches that it is made of."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template
from logbook.actions.reading import Reading
from logbook.actions.yields.gone import gone_of_batch, gone_trays
from logbook.actions.yields.sold import sold_by_crop
from logbook.actions.yields.unusual import BEFORE, usual_or_not
from logbook.growing.days import day_of, wall
from logbook.growing.keys import BatchNumber
from logbook.growing.measures import Units
from logbook.growing.yields.backtest import Backtest, backtest
from logbook.growing.yields.crop_yields import (
    PER,
    BatchYield,
    CropYield,
    TrayYield,
    crop_yields,
    tray_yields,
)
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.templates import read_templates
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, listed

WEEKS = 8
MOST_WEEKS = 2_000


@dataclass(frozen=True, slots=True)
class Yields:
    """The yield of each crop, or of the groups of it, over days from `since` to `until`."""

    keys: ClassVar = "since until per crops"

    since: date
    until: date
    per: str
    crops: tuple[CropYield, ...]
    units: Units = "metric"


@dataclass(frozen=True, slots=True)
class BatchYields:
    """The yield of each batch of a crop (of all, where it is '') over days."""

    keys: ClassVar = "since until crop batches"

    since: date
    until: date
    crop: str
    batches: tuple[BatchYield, ...]
    units: Units = "metric"


@dataclass(frozen=True, slots=True)
class TrayYields:
    """The yield of each tray of a batch over days."""

    keys: ClassVar = "since until crop batch trays"

    since: date
    until: date
    crop: str
    batch: BatchNumber
    trays: tuple[TrayYield, ...]
    units: Units = "metric"


@dataclass(frozen=True, slots=True)
class Span:
    """Days, the first and the last; without them, so many weeks up to today."""

    weeks: int = WEEKS
    since: date | None = None
    until: date | None = None

    def days(self, today: date) -> tuple[date, date]:
        """The first and the last day; raises Refused for what is none."""
        if not 1 <= self.weeks <= MOST_WEEKS:
            raise Refused(f"Give 1 to {MOST_WEEKS:,} weeks; you gave {self.weeks}.")
        until = self.until or today
        since = self.since or until - timedelta(weeks=self.weeks) + timedelta(days=1)
        if since > until:
            raise Refused(f"The first day, {since}, comes after the last, {until}.")
        return since, until


def yields(book: Book, span: Span = Span(), per: str = "", crop: str = "") -> Yields:
    """The yield of crops over a span, the least per slot-day first; raises Refused."""
    if per and per not in PER:
        raise Refused(
            f'"{per[:40]}" isn\'t a way to split a crop; use {listed(list(PER), joint="or")}.'
        )
    with book.reading() as reading:
        since, until, start, end = bounds(reading, span)
        trays = gone_trays(reading, start, end, template_id(reading, crop))
        return yields_of(reading, trays, since, until, per)


def yields_of(
    reading: Reading, trays: Sequence[GoneTray], since: date, until: date, per: str = ""
) -> Yields:
    """As yields(), of the trays of these days."""
    found = crop_yields(trays, reading.about.stack, per)
    if not per:
        sold = sold_by_crop(reading, trays, since, until)
        found = [replace(one, sold=sold.get(one.crop)) for one in found]
    return Yields(since, until, per, tuple(found), reading.units)


def yields_by_batch(
    book: Book, crop: str = "", span: Span = Span(), per: str = "", group: str = ""
) -> BatchYields:
    """The yield of each batch of a crop over a span, the newest first; raises Refused.

    With a `group` of those that `per` splits the crop into, only of its trays.
    """
    with book.reading() as reading:
        since, until, start, end = bounds(reading, span)
        template = template_id(reading, crop)
        earlier = gone_trays(reading, start - BEFORE, start, template, weights_only=True)
        trays = gone_trays(reading, start, end, template)
        if group:
            earlier, trays = (
                [one for one in each if PER[per](one) == group] for each in (earlier, trays)
            )
        return batches_of(reading, earlier, trays, since, until, crop)


def batches_of(
    reading: Reading, earlier: Sequence[GoneTray], trays: Sequence[GoneTray], since: date,
    until: date, crop: str = "",
) -> BatchYields:  # fmt: skip
    """As yields_by_batch(), of the trays of these days, with those of BEFORE that."""
    batches = {one.batch for one in trays}
    found = [one for one in usual_or_not([*earlier, *trays], reading) if one.batch in batches]
    label = trays[0].crop if crop and trays else crop
    return BatchYields(since, until, label, tuple(found), reading.units)


def yields_by_tray(
    book: Book, batch: int, span: Span | None = None, per: str = "", group: str = ""
) -> TrayYields:
    """The yield of each tray of a batch that left the rack, over a span or all; with a `group`, of those in it.

    Raises Refused where there is no such batch, or none of it has left.
    """
    with book.reading() as reading:
        known = {one.id: one.name for one in read_trays_of_batch(reading, batch)}
        if not known:
            raise Refused(f"There is no batch {batch}.")
        trays = gone_of_batch(reading, batch)
        if not trays:
            raise Refused(f"No tray of batch {batch} has left the rack yet.")
        days = [day_of(one.ended_at, reading.zone) for one in trays]
        since, until = span.days(reading.today) if span else (min(days), max(days))
        shown = [
            one
            for one, day in zip(trays, days, strict=True)
            if since <= day <= until and (not group or PER[per](one) == group)
        ]
        found = tray_yields(shown, reading.about.stack, known)
        return TrayYields(since, until, trays[0].crop, batch, tuple(found), reading.units)


def backtested(book: Book, crop: str = "", span: Span = Span(52)) -> Backtest:
    """What was expected over a span held against what was cut; raises Refused."""
    with book.reading() as reading:
        _, _, start, end = bounds(reading, span)
        trays = gone_trays(reading, start, end, template_id(reading, crop), weights_only=True)
        return backtest(trays, lambda one: day_of(one.ended_at, reading.zone))


def bounds(reading: Reading, span: Span) -> tuple[date, date, datetime, datetime]:
    """The first and the last day of a span, when they begin and when they are over."""
    since, until = span.days(reading.today)
    zone = reading.zone
    return since, until, wall(since, 0, zone), wall(until + timedelta(days=1), 0, zone)


def template_id(reading: Reading, crop: str) -> int | None:
    """The id of the template of a crop; None for all of them."""
    if not crop:
        return None
    return find_template(crop, read_templates(reading)).id
