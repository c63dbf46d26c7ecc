"""`logbook trial sow`, `add` and `leave-out`: the trays of a trial."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.arguments import AT, complete_places, complete_trays, trays, when
from logbook.cli.printing import DONE, book_answers, say, tell, tell_done
from logbook.cli.trials.options import NAME

if TYPE_CHECKING:
    from logbook.actions.book import Book

NUMBERS = click.argument("numbers", nargs=-1, required=True, shell_complete=complete_trays)


@click.command()
@NAME
@AT
@click.option("--plan", is_flag=True, help="Plan it: soak and sow come onto the round.")
@click.option("--lot", default="", help="Seed lot.")
@click.option("--grams", "weight", metavar="WEIGHT", help="Dry seed a tray, as weighed.")
@click.option("--numbers", default="", metavar="LIST", help="The numbers on the tape.")
@click.option(
    "--place",
    default="",
    shell_complete=complete_places,
    help="Where they go, if the trial names no shelves; the next free slots without it.",
)
@click.option("--again", is_flag=True, help="Sow another week on the same day.")
@click.option("--anyway", is_flag=True, help="Sow although its shelves lack room.")
@click.option("--dry-run", is_flag=True, help="Say where the trays go; write nothing.")
@book_answers("logbook.actions.trials.sowing:SownTrial")
def sow(
    book: Book, name: str, at: str | None, plan: bool, lot: str, weight: str | None,
    numbers: str, place: str, again: bool, anyway: bool, dry_run: bool,
) -> None:  # fmt: skip
    """Sow all arms once: marked batches, in the drawn order. Another day: another week."""
    from logbook.actions.trials.sowing import SowTrialDraft, preview_sowing, sow_trial
    from logbook.actions.trials.words import sown_words
    from logbook.growing.measures import grams

    draft = SowTrialDraft(
        at=when(book, at),
        plan=plan,
        lot=lot,
        grams=None if weight is None else grams(weight, "seed a tray", book.units),
        numbers=trays(numbers) if numbers else (),
        place=place,
        again=again,
        anyway=anyway,
    )
    sown = (preview_sowing if dry_run else sow_trial)(book, name, draft)
    for warning in (sown.same_day, sown.lack) if dry_run else ():
        if warning:
            say(warning)
    tell(sown, sown_words(sown))


@click.command()
@NAME
@click.argument("arm")
@NUMBERS
@click.option("--week", type=int, help="Which week they belong to; the newest without it.")
@click.option("--shelf", default="", shell_complete=complete_places, help="Which block.")
@book_answers(DONE)
def add(
    book: Book, name: str, arm: str, numbers: tuple[str, ...], week: int | None, shelf: str
) -> None:
    """Take trays that stand already, or are cut, into an arm."""
    from logbook.actions.trials.joining import join_trial

    tell_done(join_trial(book, name, arm, trays(numbers), run=week, shelf=shelf))


@click.command("leave-out")
@NAME
@NUMBERS
@click.option("--why", required=True, help="The reason.")
@book_answers(DONE)
def leave_out(book: Book, name: str, numbers: tuple[str, ...], why: str) -> None:
    """Leave trays out of the judging, with the reason; they stay in the record."""
    from logbook.actions.trials.joining import leave_out as leave

    tell_done(leave(book, name, trays(numbers), why))
