"""A tray's time line: what happened, and what will."""

from dataclasses import dataclass
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.trays.ahead import Ahead, ahead_of
from logbook.actions.trays.entry_lines import Line, lines_of
from logbook.actions.trays.named import OtherLife, other_lives, trays_named
from logbook.growing.crops.yields import Expected, expect
from logbook.growing.keys import TrayNumber
from logbook.growing.numbers import name_words
from logbook.growing.trays.chores import RoomHours
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.entries import read_entries
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, plural


@dataclass(frozen=True, slots=True)
class TrayPage:
    """One tray: what happened, and what will."""

    keys: ClassVar = """
        *tray batch=tray.batch crop=tray.crop grams_per_gram_seed past ahead *tray.window *expected
        lot=tray.stored.lot harvests=tray.state.harvests mark=tray.colour
        seed_grams=tray.seed_grams batch_trays=batch_numbers other_lives
    """

    tray: TrayNow
    past: tuple[Line, ...]
    ahead: tuple[Ahead, ...]
    """What will happen if nothing else does."""
    grams_per_gram_seed: float | None
    expected: Expected | None
    batch_numbers: tuple[TrayNumber, ...]
    """All trays of its batch, itself too."""
    batch_names: tuple[int, ...]
    """What they are called by, whoever has their numbers by now."""
    other_lives: tuple[OtherLife, ...]
    """The other trays that had its number, the oldest first."""

    @property
    def hours(self) -> RoomHours:
        """The day of its room."""
        return self.tray.hours


def tray_page(book: Book, number: int) -> TrayPage:
    """The page of the tray that a name means; of a number the live one or the newest that had it."""
    with book.reading() as reading:
        found = trays_named(reading, [number], reading.zone)
        if len(found) > 1:
            raise Refused(f"{name_words(number)} is {plural(len(found), 'tray')}: one at a time.")
        tray = reading.folded(found)[0]
        beside = read_trays_of_batch(reading, tray.stored.batch_id)
        seed = tray.seed_grams if tray.state.all_weighed else None
        grams = tray.state.grams
        return TrayPage(
            tray=tray,
            past=tuple(lines_of(reading, read_entries(reading, tray_ids=[tray.id]), tray.id)),
            ahead=tuple(ahead_of(tray)),
            grams_per_gram_seed=round(grams / seed, 4) if grams is not None and seed else None,
            expected=expect(reading.meant([tray]).values()),
            batch_numbers=tuple(each.number for each in beside),
            batch_names=tuple(each.name for each in beside),
            other_lives=other_lives(reading, tray.stored, reading.zone),
        )
