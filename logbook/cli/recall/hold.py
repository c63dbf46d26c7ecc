"""`logbook hold` and `logbook release`: what may not go on, until it may."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.recall import holding as acts
from logbook.cli.arguments import AT, when
from logbook.cli.completing import (
    complete_holds,
    complete_lots,
    complete_places,
    complete_trays,
    either,
)
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.growing.numbers import numbers_words


@click.command()
@click.argument(
    "code", required=False,
    shell_complete=either(complete_lots, complete_trays, complete_places),
)  # fmt: skip
@click.option("--why", default="", help="The reason; with a code.")
@AT
@book_answers(DONE, "logbook.actions.recall.holding:HoldList")
def hold(book: Book, code: str | None, why: str, at: str | None) -> None:
    """Put a seed lot, batch (b12), trays or a shelf on hold: hold "DK 10" --why "mould on three trays".

    What it covers leaves the round, the weigh-in and the deliveries until it is released; you can still
    write its care: did water 101. With no code, the holds are listed.
    """
    if code is None:
        if why or at:
            raise WrongUsage("What goes on hold? Name it, like: hold b12 --why mould.")
        found = acts.list_holds(book)
        tell(found, _hold_words(found, book))
        return
    tell_done(acts.hold(book, code, why, when(book, at)))


@click.command()
@click.argument("code", shell_complete=complete_holds)
@click.option("--why", required=True, help="The reason.")
@AT
@book_answers(DONE)
def release(book: Book, code: str, why: str, at: str | None) -> None:
    """Let what is on hold go on again: release "DK 10" --why "the laboratory found nothing"."""
    tell_done(acts.release(book, code, why, when(book, at)))


def _hold_words(found: acts.HoldList, book: Book) -> Iterator[str]:
    if not found.holds:
        yield "Nothing is on hold."
    for each in found.holds:
        trays = f"; trays {numbers_words(each.numbers)}" if each.numbers else ""
        yield f"{book.when(each.hold.at)}  {each.hold.words}{trays}  {each.hold.by}"
