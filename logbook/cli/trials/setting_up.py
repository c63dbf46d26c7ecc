"""`logbook trial new` and `trial list`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.arguments import complete_places, complete_templates
from logbook.cli.printing import book_answers, tell
from logbook.cli.trials.options import PRIORITY, weights
from logbook.text import plural

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.trials.finding import TrialLine


@click.command()
@click.argument("name")
@click.option("--crop", required=True, shell_complete=complete_templates, help="Crop template.")
@click.option(
    "--factor",
    "factor",
    required=True,
    metavar="WORD",
    help="What differs: lamps, density, soak, medium, stages, water, or a free word.",
)
@click.option("--arm", "arms", multiple=True, metavar="ARM", help="An arm: thick=34g, or 34g.")
@click.option("--question", default="", help="The question, in a sentence.")
@click.option(
    "--measure",
    "measures",
    multiple=True,
    metavar="WORD",
    help="Measured besides grams: height, days, looks, taste.",
)
@click.option("--replicates", default=1, show_default=True, help="Trays per arm in each block.")
@click.option(
    "--shelf",
    "shelves",
    multiple=True,
    shell_complete=complete_places,
    help="A shelf as a block; give two or more.",
)
@click.option("--weeks", default=0, help="In how many weeks it is to be sown.")
@click.option(
    "--draw", "layout_number", type=int, help="Layout number, to draw the same layout again."
)
@PRIORITY
@click.option("--dry-run", is_flag=True, help="Show what it comes to; write nothing.")
@book_answers("logbook.actions.trials.setting_up:TrialPlan")
def new(
    book: Book, name: str, crop: str, factor: str, arms: tuple[str, ...], question: str,
    measures: tuple[str, ...], replicates: int, shelves: tuple[str, ...], weeks: int,
    layout_number: int | None, priorities: tuple[str, ...], dry_run: bool,
) -> None:  # fmt: skip
    """Set a trial up: one thing that differs, its arms, how many trays, how grouped."""
    from logbook.actions.trials.setting_up import TrialDraft, preview_trial, set_up
    from logbook.actions.trials.words import layout_words, set_up_words

    draft = TrialDraft(
        name, crop, factor, arms, question, measures, replicates, shelves, weeks, layout_number,
        weights(priorities),
    )  # fmt: skip
    plan = (preview_trial if dry_run else set_up)(book, draft)
    tell(plan, [*set_up_words(plan), *layout_words(plan)])


@click.command("list")
@book_answers("logbook.actions.trials.finding:TrialList")
def list_all(book: Book) -> None:
    """List the trials, the newest first."""
    from logbook.actions.trials.finding import TrialList, list_trials

    found = list_trials(book)
    tell(TrialList(tuple(found)), map(_line_words, found) if found else ["No trials."])


def _line_words(line: TrialLine) -> str:
    trays = f", {line.cut} of {plural(line.trays, 'tray')} off the rack" if line.trays else ""
    return f"{line.name}: {line.state}, {line.crop}{trays}. {line.question}".rstrip()
