"""`logbook trial decide` and `adopt`: what becomes of a trial."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.trials.options import NAME
from logbook.text import clean

if TYPE_CHECKING:
    from logbook.actions.book import Book


@click.command()
@NAME
@click.argument("decided")
@click.option("--next", "try_next", default="", help="What to try next.")
@click.option("--arm", default="", help="The arm that is kept, where one is.")
@book_answers(DONE)
def decide(book: Book, name: str, decided: str, try_next: str, arm: str) -> None:
    """Write what was decided, and what to try next."""
    from logbook.actions.trials.deciding import decide as write

    tell_done(write(book, name, decided, try_next, arm))


@click.command()
@NAME
@click.argument("arm")
@click.option("--why", required=True, help="The reason; it stands in the template's versions.")
@click.option("--next", "try_next", default="", help="What to try next.")
@book_answers("logbook.actions.trials.deciding:Adopted")
def adopt(book: Book, name: str, arm: str, why: str, try_next: str) -> None:
    """Make a new version of the crop template from an arm."""
    from logbook.actions.trials.deciding import adopt as write

    done = write(book, name, arm, why, try_next)
    tell(done, [clean(f"{done.words}.")])
