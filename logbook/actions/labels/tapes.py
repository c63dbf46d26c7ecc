"""Tapes for trays: the number large, the crop, the day of sowing."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from logbook.actions.book import Book
from logbook.growing.days import day_of
from logbook.growing.labels.label import Tape
from logbook.growing.numbers import name_words


@dataclass(frozen=True, slots=True)
class Tapes:
    """The tapes of trays."""

    keys: ClassVar = "tapes"

    tapes: tuple[Tape, ...]


def tapes_of(book: Book, numbers: Sequence[int]) -> Tapes:
    """The tapes of growing and planned trays, as they are named; raise Refused for one that isn't there."""
    with book.reading() as reading:
        return Tapes(
            tuple(
                Tape(
                    name_words(tray.number), tray.crop,
                    None if tray.state.sown_at is None else day_of(tray.state.sown_at, tray.hours.zone),
                    tray.colour,
                )
                for tray in reading.trays(numbers)
            )
        )  # fmt: skip
