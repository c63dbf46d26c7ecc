"""`logbook racks`: what stands on each shelf, and what it waits for."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.trays.rack_views import Racks, RackTray
from logbook.actions.trays.racks import racks as find
from logbook.cli.arguments import IN
from logbook.cli.printing import book_answers, tell
from logbook.growing.trays.chores import WORDS


@click.command()
@IN
@book_answers("logbook.actions.trays.rack_views:Racks")
def racks(book: Book, inside: str) -> None:
    """Show the racks: each shelf's trays by slot, with crop, day and what is due."""
    found = find(book, inside)
    tell(found, _racks_words(found))


def _racks_words(found: Racks) -> Iterator[str]:
    for rack in found.racks:
        yield rack.name
        for shelf in rack.shelves:
            place = shelf.place
            yield f"  {place.name}, {place.hours_words}, {shelf.slots_used} of {place.slots} slots"
            if shelf.in_the_dark:
                yield f"    {shelf.in_the_dark.words}"
            for each in shelf.trays:
                yield f"    {each.slot or '-'}  {_rack_tray_words(each)}"
    if found.loose:
        yield "No place"
    for each in found.loose:
        yield f"    {_rack_tray_words(each)}"


def _rack_tray_words(tray: RackTray) -> str:
    """A tray with its day and what there is to do on it: "103 radish day 4: water, late"."""
    marks = [WORDS[chore] for chore in tray.due]
    marks += ["late"] if tray.late else []
    marks += ["on hold"] if tray.held else []
    marks += ["mould seen"] if tray.mould_seen else []
    due = f": {', '.join(marks)}" if marks else ""
    again = "" if tray.regrowth_day is None else f", growing again day {tray.regrowth_day}"
    return f"{tray.number} {tray.crop} day {tray.day_number}{again}{due}"
