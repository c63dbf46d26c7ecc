"""Trays that need light and have none, as the round, the racks and what is written say it."""

from collections.abc import Iterable, Sequence

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.growing.trays.in_the_dark import InTheDark
from logbook.growing.trays.tray_now import TrayNow
from logbook.ways import Way


def in_the_dark(reading: Reading, trays: Iterable[TrayNow]) -> tuple[InTheDark, ...]:
    """Those of the trays that are in a stage of light on a shelf without, shelf by shelf."""
    return _unlit(reading, [(t.number, t.state.place) for t in trays if t.wants_light])


def _unlit(reading: Reading, stand: Iterable[tuple[int, int | None]]) -> tuple[InTheDark, ...]:
    there: dict[int, list[int]] = {}
    for number, place in stand:
        if place in reading.unlit:
            there.setdefault(place, []).append(number)
    return tuple(
        InTheDark(place.path, tuple(sorted(there[place.id])), reading.unlit[place.id])
        for place in reading.places
        if place.id in there
    )


def dark_notices(reading: Reading, trays: Iterable[TrayNow]) -> list[str]:
    """The same as what an act says: where its trays lack light, and what helps."""
    return _said(in_the_dark(reading, trays))


def dark_under(book: Book, path: str) -> list[str]:
    """As dark_notices(), of all trays of a place and of what is under it."""
    with book.reading() as reading:
        shelves = {shelf.id for shelf in reading.places.under(reading.places.find(path))}
        return dark_notices(reading, [t for t in reading.live if t.state.place in shelves])


def sown_in_the_dark(
    reading: Reading, numbers: Sequence[int], places: Sequence[int | None]
) -> list[str]:
    """As dark_notices(), of trays to be sown whose first stage is one of light, and where each goes."""
    return _said(_unlit(reading, zip(numbers, places, strict=True)))


def _said(found: Iterable[InTheDark]) -> list[str]:
    return [f"{each.words}. {Way.MOVE} moves trays to a lit shelf." for each in found]
