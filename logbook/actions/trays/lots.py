"""Seed lots: what was sown from one, and where all of it is now; the way of a recall."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.growing.crops.seed_lots import (
    SeedLot,
    alike,
    lots_from,
    plain,
    refuse_twice,
)
from logbook.growing.trays.life import Status
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.lots import read_lot_names, read_lots, read_recent_lots
from logbook.store.reads.seed import read_bag_names
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, fold, listed, nearest

NEWEST = 8
RECENT = 12


@dataclass(frozen=True, slots=True)
class LotBatch:
    """A batch sown or planned from a lot, with its trays but for those whose sowing was struck."""

    keys: ClassVar = "batch template=template_name lots at cut_grams trays"

    batch: str
    template_name: str
    lots: tuple[SeedLot, ...]
    """Every lot that it was sown from."""
    at: datetime | None
    """When it was sown, or for when it is planned."""
    trays: tuple[TrayNow, ...]

    @property
    def cut_grams(self) -> float:
        """What was cut of it so far, g."""
        return sum(tray.state.grams or 0.0 for tray in self.trays)


@dataclass(frozen=True, slots=True)
class LotPage:
    """All batches of a seed lot, the oldest first."""

    keys: ClassVar = "lot spellings alike batches"

    spellings: tuple[str, ...]
    """Every way in which it was written, the most usual first, those spelled alike last."""
    alike: tuple[str, ...]
    """Those of them that are spelled alike: they may be of another bag."""
    batches: tuple[LotBatch, ...]

    @property
    def lot(self) -> str:
        """As it was written most often."""
        return self.spellings[0]

    def numbers(self, status: Status) -> tuple[int, ...]:
        """The numbers of the trays with a status."""
        return tuple(
            tray.number
            for batch in self.batches
            for tray in batch.trays
            if tray.state.status == status
        )


def lots_named(reading: Reading, text: str) -> tuple[tuple[SeedLot, ...], tuple[str, ...]]:
    """The lots of a text, each as the book spells it, and what to say of that, a sentence each.

    One in quotes stays as it is typed. Raises Refused as lots_from() does.
    """
    lots, said = lots_from(text, reading.units), []
    names = [*read_bag_names(reading), *read_lot_names(reading)] if lots else []
    found = []
    for each in lots:
        same = next((name for name in names if plain(name) == plain(each.lot)), None)
        other = [name for name in names if alike(name, each.lot)]
        if each.apart or each.lot in names:
            found.append(each)
            continue
        found.append(replace(each, lot=same or each.lot))
        if same is not None:
            said.append(
                f"Seed lot {each.lot} is stored as {same}, as the book has it. If it is another bag, "
                f'put it in quotes: "{each.lot}".'
            )
        elif other:
            said.append(
                f"Seed lot {each.lot} is spelled like {listed(other, NEWEST)}; compare the bags."
            )
    refuse_twice(found)
    return tuple(found), tuple(said)


def recent_lots(book: Book) -> list[str]:
    """The seed lots that were sown from last, then those of the newest bags."""
    with book.reading() as reading:
        known = (*read_recent_lots(reading, RECENT), *read_bag_names(reading)[:RECENT])
        return list(dict.fromkeys(known))


def lot_page(book: Book, lot: str) -> LotPage:
    """What was sown from a seed lot and from those spelled alike; Refused names the nearest lot."""
    wanted = fold(lot)
    if not wanted:
        raise Refused("Which seed lot? Write it as it is on the bag.")
    with book.reading() as reading:
        lots = read_lots(reading)
        mine = {batch: own for batch, each in lots.items() if (own := _named(lot, each))}
        batches = []
        for batch in mine:
            known = reading.folded(read_trays_of_batch(reading, batch))
            standing = [each for each in known if each.state.status != "void"]
            if standing:
                begun = [each.state.sown_at or each.state.planned_for for each in standing]
                batches.append(
                    LotBatch(
                        str(batch), standing[0].template.name, lots[batch],
                        min((at for at in begun if at is not None), default=None), tuple(standing),
                    )
                )  # fmt: skip
    if not batches:
        others = (each.lot for batch in reversed(lots) for each in lots[batch] if batch not in mine)
        known_lots = list({fold(name): name for name in others}.values())
        hint = nearest(lot, known_lots) or (
            f" The newest lots: {listed(known_lots[:NEWEST])}." if known_lots else ""
        )
        raise Refused(f'Nothing was sown from a seed lot "{lot.strip()[:40]}".{hint}')
    counted = Counter(name for batch in batches for name in mine[int(batch.batch)])
    spellings = sorted(counted, key=lambda name: (fold(name) != wanted, -counted[name]))
    other = tuple(name for name in spellings if fold(name) != wanted)
    return LotPage(tuple(spellings), other, tuple(batches))


def _named(wanted: str, lots: Sequence[SeedLot]) -> list[str]:
    """The lots that are written like the one that is wanted, case and spaces aside, or alike."""
    same = [each.lot for each in lots if fold(each.lot) == fold(wanted)]
    return same or [each.lot for each in lots if alike(each.lot, wanted)]


def planned_lots(reading: Reading, trays: Sequence[TrayNow]) -> tuple[SeedLot, ...]:
    """The lots of the batch that trays are of; their grams only where it is the whole batch."""
    batch = trays[0].stored.batch_id
    lots = read_lots(reading, [batch]).get(batch, ())
    if len(read_trays_of_batch(reading, batch)) == len(trays):
        return lots
    return tuple(replace(each, grams=None) for each in lots)
