"""A batch's page: its trays, what happened to them, and the weights."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.trays.ahead import Ahead, ahead_of_all
from logbook.actions.trays.entry_lines import Line, lines_of
from logbook.actions.trays.known import tray_now
from logbook.actions.trays.tray_page import day_of_tray, regrowth_day
from logbook.growing.crops.seed_lots import SeedLot
from logbook.growing.crops.yields import Expected
from logbook.growing.keys import DayNumber
from logbook.growing.trays.life import Status
from logbook.growing.trays.round import TrayNow
from logbook.store.reads.batches import batches_instead, read_lots
from logbook.store.reads.entries import read_entries
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, listed


@dataclass(frozen=True, slots=True)
class BatchTray:
    """A tray on its batch's page."""

    keys: ClassVar = """
        tray=tray.number status stage place=tray.place grams=tray.state.grams day_number
        harvest=tray.state.harvest regrowth_day mould_seen=tray.mould_seen
    """

    tray: TrayNow
    status: Status
    stage: str
    """The stage's name; empty outside one."""
    day_number: DayNumber | None
    regrowth_day: DayNumber | None
    """As the day number, from the cut after which it grows again; null where it does not."""


@dataclass(frozen=True, slots=True)
class BatchPage:
    """A batch: its trays as they stand, what happened to any of them, and the weights."""

    keys: ClassVar = """
        batch template=template_name version lot lots seed_grams_per_tray=seed_grams sown_at planned_for
        trays=standing cut_grams past ahead cut_trays mean_grams grams_per_gram_seed
        expected_grams=expected.grams spread_grams=expected.spread_grams
        low_grams=expected.low high_grams=expected.high
        rests_on_trays=expected.trays rests_on_batches=expected.batches
    """

    batch: str
    template_name: str
    version: int
    """The template's version that it was sown with."""
    lot: str
    """Seed lot, several joined by +; empty when none was given."""
    lots: tuple[SeedLot, ...]
    """The seed lots, with the grams taken from each where they were weighed."""
    seed_grams: float | None
    sown_at: datetime | None
    planned_for: datetime | None
    standing: tuple[BatchTray, ...]
    """Its trays, one by one."""
    past: tuple[Line, ...]
    ahead: tuple[Ahead, ...]
    """What will happen if nothing else does."""
    cut_grams: float
    """All that was cut, g."""
    cut_trays: int
    """Trays that were weighed."""
    expected: Expected | None

    @property
    def trays(self) -> tuple[TrayNow, ...]:
        """Its trays, as the round sees them."""
        return tuple(each.tray for each in self.standing)

    @property
    def mean_grams(self) -> float | None:
        """Weight of a tray's first harvest, in g, over those where it is whole and weighed."""
        weights = [
            each.grams
            for tray in self.trays
            for each in tray.state.harvests
            if each.done and each.weighed and each.number == 1
        ]
        return sum(weights) / len(weights) if weights else None

    @property
    def grams_per_gram_seed(self) -> float | None:
        """Cut weight per g of seed, over the same trays."""
        mean, seed = self.mean_grams, self.seed_grams
        return None if mean is None or not seed else round(mean / seed, 4)


def batch_page(book: Book, batch: str) -> BatchPage:
    """A batch's page by its name; raises Refused where there is none."""
    if not re.fullmatch(r"\s*[bB]?\d{1,15}\s*", batch):
        raise Refused(f'"{batch[:20]}" is not a batch; batches are numbered, like 12.')
    with book.reading() as reading:
        number = int(batch.strip().lstrip("bB"))
        known = reading.folded(read_trays_of_batch(reading, number))
        if not known:
            now = batches_instead(reading, number)
            rest = f" Its sowing was corrected: it is batch {listed(now)} now." if now else ""
            raise Refused(f"There is no batch {batch.strip()[:20]}.{rest}")
        first, template = known[0].stored, known[0].template
        standing = tuple(
            BatchTray(
                tray_now(each, reading.places.by_id),
                each.state.status,
                template.stages[each.state.stage].name if each.state.status == "growing" else "",
                day_of_tray(each, reading),
                regrowth_day(each, reading),
            )
            for each in known
        )
        weights = [each.state.grams for each in known if each.state.grams is not None]
        return BatchPage(
            batch=str(first.batch_id),
            template_name=template.name,
            version=template.version,
            lot=first.lot,
            lots=read_lots(reading, [number]).get(number, ()),
            seed_grams=known[0].seed_grams,
            sown_at=min((k.state.sown_at for k in known if k.state.sown_at), default=None),
            planned_for=first.planned_for,
            standing=standing,
            past=tuple(lines_of(reading, read_entries(reading, batch_id=number))),
            ahead=tuple(ahead_of_all(known, reading)),
            cut_grams=sum(weights),
            cut_trays=len(weights),
            expected=reading.expected([first.version_id])[first.version_id],
        )
