"""Lists of trays, batches and seed lots, for who knows no name of one yet."""

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.batch_lines import BatchLine, read_batch_lines
from logbook.store.reads.lots import read_lots
from logbook.store.rows import grouped


@dataclass(frozen=True, slots=True)
class TrayLine(TrayNow):
    """A tray in a list."""

    keys: ClassVar = f"{TrayNow.keys} batch crop mark=colour"


@dataclass(frozen=True, slots=True)
class LotLine:
    """A seed lot in a list."""

    lot: str
    batches: int
    """Batches that were sown from it, or are planned."""
    in_use: int
    """Trays of them that are planned or growing."""
    last_sown_at: datetime | None


def list_trays(book: Book) -> list[TrayLine]:
    """The trays that are planned or growing, by number."""
    with book.reading() as reading:
        return list(map(TrayLine.of, reading.live))


def list_batches(book: Book, *, every: bool = False) -> list[BatchLine]:
    """The batches with trays in use, or every one, the newest first."""
    with book.reading() as reading:
        return read_batch_lines(reading, every=every)


def list_lots(book: Book, *, every: bool = False) -> list[LotLine]:
    """The seed lots of those batches, the newest first."""
    with book.reading() as reading:
        batches = read_batch_lines(reading, every=every)
        lots = read_lots(reading, [each.batch for each in batches])
    of_lots = grouped((lot.lot, batch) for batch in batches for lot in lots.get(batch.batch, ()))
    return [
        LotLine(
            lot, len(own), sum(each.in_use for each in own),
            max((each.sown_at for each in own if each.sown_at), default=None),
        )
        for lot, own in of_lots.items()
    ]  # fmt: skip
