"""A seed lot: its bags, what was sown from it, and where all of it is now; the way of a recall."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.crops.seed_lots import SeedLot, alike
from logbook.growing.currencies import Currency
from logbook.growing.seed.bags import LotStock
from logbook.growing.trays.life import Status
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.lots import read_lots
from logbook.store.reads.seed import read_bag_names
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, fold, listed, nearest

NEWEST = 8


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

    keys: ClassVar = "lot spellings alike stock batches currency=money.code"

    spellings: tuple[str, ...]
    """Every way in which it was written, the most usual first, those spelled alike last."""
    alike: tuple[str, ...]
    """Those of them that are spelled alike: they may be of another bag."""
    batches: tuple[LotBatch, ...]
    stock: LotStock
    """Its bags, what is left, and how much of it comes up."""
    money: Currency

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


def lot_page(book: Book, lot: str) -> LotPage:
    """What was bought and sown of a seed lot and those spelled alike; Refused names the nearest lot."""
    wanted = fold(lot)
    if not wanted:
        raise Refused("Which seed lot? Write it as it is on the bag.")
    with book.reading() as reading:
        lots, bags = read_lots(reading), read_bag_names(reading)
        bought = [each.lot for each in _named(lot, [SeedLot(name) for name in bags])]
        mine = {
            batch: [one.lot for one in own]
            for batch, each in lots.items()
            if (own := _named(lot, each))
        }
        batches = [made for batch in mine if (made := _batch_of(reading, batch, lots[batch]))]
        if not batches and not bought:
            others = (
                one.lot for batch in reversed(lots) for one in lots[batch] if batch not in mine
            )
            known = list({fold(name): name for name in (*others, *bags)}.values())
            hint = nearest(lot, known) or (
                f" The newest lots: {listed(known[:NEWEST])}." if known else ""
            )
            raise Refused(f'Nothing was sown from a seed lot "{lot.strip()[:40]}".{hint}')
        names = bought + [name for batch in batches for name in mine[int(batch.batch)]]
        counted = Counter(names)
        spellings = sorted(counted, key=lambda name: (fold(name) != wanted, -counted[name]))
        other = tuple(name for name in spellings if fold(name) != wanted)
        stock = lots_in_stock(reading, only=spellings[0])[0]
        return LotPage(tuple(spellings), other, tuple(batches), stock, reading.about.money)


def _batch_of(reading: Reading, batch: int, lots: tuple[SeedLot, ...]) -> LotBatch | None:
    known = reading.folded(read_trays_of_batch(reading, batch))
    standing = [each for each in known if each.state.status != "void"]
    if not standing:
        return None
    begun = [each.state.sown_at or each.state.planned_for for each in standing]
    at = min((at for at in begun if at is not None), default=None)
    return LotBatch(str(batch), standing[0].template.name, lots, at, tuple(standing))


def _named(wanted: str, lots: Sequence[SeedLot]) -> list[SeedLot]:
    """The lots that are written like the one that is wanted, case and spaces aside, or alike."""
    same = [each for each in lots if fold(each.lot) == fold(wanted)]
    return same or [each for each in lots if alike(each.lot, wanted)]
