"""`logbook trial show`, `judge`, `criteria`, `decide` and `adopt`: what a trial says, what becomes of it."""

import textwrap
from collections.abc import Mapping
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.trials.judging import judge_trial
from logbook.actions.trials.words import judged_words, titled
from logbook.cli.arguments import OF_ALL_AT, measured
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.cli.trials.options import NAME, PRIORITY, complete_arms, prices_of, prices_options
from logbook.growing.measures import number_words
from logbook.growing.numbers import name_words
from logbook.growing.quantities import USUAL_SPREAD
from logbook.growing.trials.arm_table import arm_table
from logbook.growing.trials.chart import chart
from logbook.growing.trials.factors import factor_words
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.view import JudgedTrays, JudgedTrial, TrialView
from logbook.text import Refused, clean

WIDTH = 78


@click.command()
@NAME
@book_answers("logbook.growing.trials.view:JudgedTrays")
def show(book: Book, name: str) -> None:
    """Show one trial: its arms and trays, and how it stands."""
    view = judge_trial(book, name)
    tell(JudgedTrays(view, book.units), _view_lines(view, book, whole=True))


@click.command()
@NAME
@measured("--spread", USUAL_SPREAD, "PERCENT", "Spread from tray to tray, if not the room's.")
@prices_options
@book_answers("logbook.growing.trials.view:JudgedTrial")
def judge(book: Book, name: str, spread: float | None, **priced: Any) -> None:
    """Judge a trial: what its weights show, what else differed, what to make of it."""
    view = judge_trial(book, name, spread, prices_of(book, name, **priced))
    tell(JudgedTrial(view, book.units), _view_lines(view, book, whole=False))


@click.command()
@NAME
@PRIORITY
@prices_options
@OF_ALL_AT
@book_answers(DONE, "logbook.growing.trials.criteria:Priorities")
def criteria(book: Book, name: str, weights: Mapping[str, float], **priced: Any) -> None:
    """Say what counts (--priority), or see which arm comes first by it and what would flip it."""
    from logbook.actions.trials.deciding import set_weights

    if weights:
        tell_done(set_weights(book, name, weights))
        return
    view = judge_trial(book, name, prices=prices_of(book, name, **priced))
    if view.weighing is None:
        raise Refused(
            f'No priorities yet for "{view.trial.name}"; give --priority yield=3 and '
            "the like, best before the first cut."
        )
    tell(view.weighing, _wrapped(view.weighing.words))


@click.command()
@NAME
@click.argument("decided")
@click.option("--next", "try_next", default="", help="What to try next.")
@click.option("--arm", default="", shell_complete=complete_arms, help="The arm you keep, if any.")
@OF_ALL_AT
@book_answers(DONE)
def decide(book: Book, **said: str) -> None:
    """Write what was decided, and what to try next."""
    from logbook.actions.trials.deciding import decide as write

    tell_done(write(book, **said))


@click.command()
@NAME
@click.argument("arm", shell_complete=complete_arms)
@click.option("--why", required=True, help="The reason; it is kept with the template's versions.")
@click.option("--next", "try_next", default="", help="What to try next.")
@OF_ALL_AT
@book_answers("logbook.actions.trials.deciding:Adopted")
def adopt(book: Book, **said: str) -> None:
    """Make a new version of the crop template from an arm."""
    from logbook.actions.trials.deciding import adopt as write

    done = write(book, **said)
    tell(done, [clean(f"{done.words}.")])


def _view_lines(view: TrialView, book: Book, *, whole: bool) -> list[str]:
    names = min(24, max(len(arm.name) for arm in view.arms))
    cells = WIDTH - names - 26
    drawn = chart(view.arms, cells)
    dots = [(line.arm[:names], f"{line.dots:{cells}}  {line.words}") for line in drawn.lines]
    lines = [
        titled(view.trial.name, view.trial.question),
        f"{view.template.label()}; what differs is {factor_words(view.trial.factor)}",
        *arm_table(view, book.units, width()).lines,
        *(f"{arm:{names}}  {words}".rstrip() for arm, words in dots),
        *(f"{'':{names}}  {line}" for line in (drawn.axis, drawn.foot) if line),
    ]
    for head, texts in judged_words(view, book.units):
        lines += ["", head, *(line for text in texts for line in _wrapped(text))]
    if whole and view.records:
        lines += ["", "Trays", *map(_tray_words, view.records)]
    return lines


def _tray_words(record: TrayRecord) -> str:
    weight = (
        record.state.status.words if record.grams is None else f"{number_words(record.grams)} g"
    )
    note = f"left out: {record.left_out}" if record.left_out else ""
    parts = (name_words(record.number), record.arm, record.block, weight, note)
    return "  ".join(part for part in parts if part)


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False) or [""]
