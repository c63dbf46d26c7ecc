"""`logbook trial new`, `list`, `sow`, `add` and `leave-out`: a trial and its trays."""

from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.trials.finding import TrialLine, TrialList, list_trials
from logbook.cli.arguments import AT, OF_ALL_AT, trays, when
from logbook.cli.completing import (
    complete_lots,
    complete_places,
    complete_templates,
    complete_trays,
)
from logbook.cli.printing import DONE, book_answers, say, tell, tell_done
from logbook.cli.trials.options import NAME, PRIORITY, complete_arms
from logbook.cli.usage import WrongUsage
from logbook.growing.measures import grams
from logbook.text import plural

NUMBERS = click.argument("numbers", nargs=-1, required=True, shell_complete=complete_trays)


@click.command()
@click.argument("name")
@click.option("--crop", required=True, shell_complete=complete_templates, help="Crop template.")
@click.option(
    "--factor", required=True, metavar="WORD",
    help="What differs: lamps, density, soak, medium, stages, water, or a free word.",
)  # fmt: skip
@click.option("--arm", "arms", multiple=True, metavar="ARM", help="An arm: thick=34g, or 34g.")
@click.option("--question", default="", help="The question, in a sentence.")
@click.option(
    "--measure", "measures", multiple=True, metavar="WORD",
    help="Measured besides grams: height, days, looks, taste.",
)  # fmt: skip
@click.option("--replicates", default=1, show_default=True, help="Trays per arm in each block.")
@click.option(
    "--shelf", "shelves", multiple=True, shell_complete=complete_places,
    help="A shelf as a block; give two or more.",
)  # fmt: skip
@click.option("--weeks", default=0, help="How many weeks it is sown in.")
@click.option(
    "--draw", "layout_number", type=int, help="Layout number, to draw the same layout again."
)
@PRIORITY
@click.option("--dry-run", is_flag=True, help="Show the result; write nothing.")
@OF_ALL_AT
@book_answers("logbook.actions.trials.setting_up:TrialPlan")
def new(book: Book, dry_run: bool, **asked: Any) -> None:
    """Set a trial up: one thing that differs, its arms, how many trays, how grouped."""
    from logbook.actions.trials.setting_up import TrialDraft, preview_trial, set_up
    from logbook.actions.trials.words import layout_words, set_up_words

    plan = (preview_trial if dry_run else set_up)(book, TrialDraft(**asked))
    tell(plan, [*set_up_words(plan), *layout_words(plan)])


@click.command("list")
@book_answers("logbook.actions.trials.finding:TrialList")
def list_all(book: Book) -> None:
    """List the trials, the newest first."""
    found = list_trials(book)
    tell(TrialList(tuple(found)), map(_line_words, found) if found else ["No trials."])


def _line_words(line: TrialLine) -> str:
    trays = f", {line.cut} of {plural(line.trays, 'tray')} off the rack" if line.trays else ""
    return f"{line.name}: {line.state}, {line.crop}{trays}. {line.question}".rstrip()


@click.command()
@NAME
@AT
@click.option("--plan", is_flag=True, help="Plan it: its soak and sowing come onto the round.")
@click.option("--lot", default="", shell_complete=complete_lots, help="Seed lot.")
@click.option("--grams", "weight", metavar="WEIGHT", help="Dry seed per tray, as weighed.")
@click.option("--numbers", default="", metavar="LIST", help="The numbers on the tape.")
@click.option(
    "--place", default="", shell_complete=complete_places,
    help="Where they go, if the trial names no shelves; by default the next free slots.",
)  # fmt: skip
@click.option("--soaked", is_flag=True, help="Each arm was soaked as long as it needs.")
@click.option("--soaked-at", metavar="WHEN", help="When the soak began.")
@click.option("--dry", is_flag=True, help="Sown dry, without its soak.")
@click.option("--again", is_flag=True, help="Sow another week on the same day.")
@click.option("--anyway", is_flag=True, help="Sow even if its shelves are short of room.")
@click.option("--dry-run", is_flag=True, help="Show where the trays go; write nothing.")
@book_answers("logbook.actions.trials.sowing:SownTrial")
def sow(
    book: Book, name: str, at: str | None, weight: str | None, numbers: str, dry_run: bool,
    soaked: bool, soaked_at: str | None, dry: bool, **how: Any,
) -> None:  # fmt: skip
    """Sow all arms once: marked batches, in the drawn order. Another day: another week."""
    from logbook.actions.trials.sowing import SowTrialDraft, preview_sowing, sow_trial
    from logbook.actions.trials.words import sown_words

    seed = None if weight is None else grams(weight, "seed per tray")
    named = trays(numbers) if numbers else ()
    if soaked + dry + (soaked_at is not None) > 1:
        raise WrongUsage("Soaked or dry? Give one of --soaked, --soaked-at and --dry.")
    said: Any = "arms" if soaked else "dry" if dry else when(book, soaked_at)
    draft = SowTrialDraft(at=when(book, at), grams=seed, numbers=named, soaked=said, **how)
    if not dry_run and preview_sowing(book, name, draft).asks_soak:
        raise WrongUsage(
            "When did the soak begin? Use --soaked if each arm was soaked as long as it needs, --soaked-at WHEN, or --dry; --plan puts its soak on the round."
        )
    sown = (preview_sowing if dry_run else sow_trial)(book, name, draft)
    for warning in (sown.same_day, sown.lack) if dry_run else ():
        if warning:
            say(warning)
    tell(sown, sown_words(sown))


@click.command()
@NAME
@click.option(
    "--per-arm",
    type=int,
    required=True,
    help="Trays per arm in all blocks and weeks; 1 for no planned end.",
)
@OF_ALL_AT
@book_answers(DONE)
def plan(book: Book, name: str, per_arm: int) -> None:
    """Change a trial's planned end: how many trays per arm its verdict waits for.

    Once trays are weighed, a change has a price: the trial is then judged at every look, and a
    difference must be below 1 %, not 5 %.
    """
    from logbook.actions.trials.planned_end import plan_end

    tell_done(plan_end(book, name, per_arm))


@click.command()
@NAME
@click.argument("arm", shell_complete=complete_arms)
@NUMBERS
@click.option("--week", "run", type=int, help="Which week they belong to; by default the newest.")
@click.option("--shelf", default="", shell_complete=complete_places, help="Which block.")
@OF_ALL_AT
@book_answers(DONE)
def add(book: Book, name: str, arm: str, numbers: tuple[str, ...], **block: Any) -> None:
    """Put trays that are already growing, or cut, into an arm."""
    from logbook.actions.trials.joining import join_trial

    tell_done(join_trial(book, name, arm, trays(numbers), **block))


@click.command("leave-out")
@NAME
@NUMBERS
@click.option("--why", required=True, help="The reason.")
@OF_ALL_AT
@book_answers(DONE)
def leave_out(book: Book, name: str, numbers: tuple[str, ...], why: str) -> None:
    """Leave trays out of the judging, with the reason; they stay in the record."""
    from logbook.actions.trials.joining import leave_out as leave

    tell_done(leave(book, name, trays(numbers), why))
