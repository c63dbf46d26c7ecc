"""`logbook upkeep`: cleaning and checks that come round, and how often."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.room import upkeep as acts
from logbook.cli.arguments import PLACE, SETTINGS_AT, measured
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.growing.quantities import KNOWN
from logbook.growing.room.upkeep import SORTS, DueDuty, Interval, due_words, read_interval
from logbook.text import listed


@click.command()
@click.argument("name", required=False)
@click.option("--every", type=read_interval, metavar="HOW OFTEN",
              help="7 days, weekly, 2 a day, tue,fri; none to stop.")  # fmt: skip
@click.option("--how", help="How it is done, written each time.")
@measured("--known", KNOWN, "WEIGHT", "What the scale is checked with: 100g.")
@PLACE
@SETTINGS_AT
@book_answers(DONE, "logbook.actions.room.upkeep:Upkeep")
def upkeep(
    book: Book, name: str | None, every: Interval | None, how: str | None, known: float | None,
    place: str,
) -> None:  # fmt: skip
    """Show the cleaning and checks that come round; with a name, set how often.

    Known by name are racks, trays, cold store, water test and scale; any other name is a cleaning. They
    come up on the round; `logbook cleaning NAME` writes that one was done, with --value for what a
    check showed. Air readings of a cold store that is a place count as its temperature check.
    """
    if name is not None:
        tell_done(acts.set_duty(book, acts.DutyDraft(name, every, place, how, known)))
        return
    found = acts.upkeep(book)
    tell(found, _lines(found, book))


def _lines(found: acts.Upkeep, book: Book) -> Iterator[str]:
    for each in found.duties:
        yield f"{due_words(each.duty, each.place)}; {_next(each, book)}"
    if not found.duties:
        names = listed(list(SORTS), most=len(SORTS), joint="or")
        yield f"No upkeep is set yet. Set {names}: logbook upkeep racks --every weekly"


def _next(one: DueDuty, book: Book) -> str:
    last = "not done yet" if one.last_at is None else f"last {book.when(one.last_at)}"
    shown = f" ({one.shown})" if one.shown else ""
    return f"{last}{shown}, next {book.when(one.walk_at)}"
