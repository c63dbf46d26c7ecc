"""`logbook trial show`, `judge` and `criteria`: what a trial says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.trials.options import NAME, PRIORITY, prices_of, prices_options, weights
from logbook.growing.quantities import USUAL_SPREAD
from logbook.text import Refused

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.growing.trials.view import TrialView

WIDTH = 78


@click.command()
@NAME
@book_answers("logbook.growing.trials.view:JudgedTrays")
def show(book: Book, name: str) -> None:
    """Show one trial: its arms and trays, and how it stands."""
    from logbook.actions.trials.judging import judge_trial
    from logbook.growing.trials.view import JudgedTrays

    view = judge_trial(book, name)
    tell(JudgedTrays(view, book.units), _view_lines(view, book, whole=True))


@click.command()
@NAME
@click.option("--spread", metavar="PERCENT", help="Spread from tray to tray, if not the room's.")
@prices_options
@book_answers("logbook.growing.trials.view:JudgedTrial")
def judge(
    book: Book, name: str, spread: str | None, seed_price: str | None,
    hour_price: str | None, minutes: tuple[str, ...],
) -> None:  # fmt: skip
    """Judge a trial: what its weights can say, what else differed, what may be made of it."""
    from logbook.actions.trials.judging import judge_trial
    from logbook.growing.trials.view import JudgedTrial

    prices = prices_of(book, name, seed_price, hour_price, minutes)
    view = judge_trial(book, name, USUAL_SPREAD.given(spread), prices)
    tell(JudgedTrial(view, book.units), _view_lines(view, book, whole=False))


@click.command()
@NAME
@PRIORITY
@prices_options
@book_answers(DONE, "logbook.growing.trials.criteria:Priorities")
def criteria(
    book: Book, name: str, priorities: tuple[str, ...], seed_price: str | None,
    hour_price: str | None, minutes: tuple[str, ...],
) -> None:  # fmt: skip
    """Say what counts (--priority), or see which arm comes first by it and what would flip it."""
    from logbook.actions.trials.deciding import set_weights
    from logbook.actions.trials.judging import judge_trial

    if priorities:
        tell_done(set_weights(book, name, weights(priorities)))
        return
    view = judge_trial(book, name, prices=prices_of(book, name, seed_price, hour_price, minutes))
    if view.weighing is None:
        raise Refused(
            f'Nobody has said yet what counts in "{view.trial.name}"; give --priority yield=3 and '
            "the like, best before the first cut."
        )
    tell(view.weighing, _wrapped(view.weighing.words))


def _view_lines(view: TrialView, book: Book, *, whole: bool) -> list[str]:
    from logbook.actions.trials.words import judged_words
    from logbook.growing.trials.factors import factor_words

    trial_ = view.trial
    lines = [f"{trial_.name}: {trial_.question}" if trial_.question else trial_.name]
    lines.append(f"{view.template.label()}; what differs is {factor_words(trial_.factor)}")
    lines += _chart_lines(view)
    for head, texts in judged_words(view, book.units):
        lines += ["", head, *(line for text in texts for line in _wrapped(text))]
    return lines + _tray_lines(view) if whole and view.records else lines


def _chart_lines(view: TrialView) -> list[str]:
    from logbook.growing.trials.chart import chart

    names = min(24, max(len(arm.name) for arm in view.arms))
    drawn = chart(view.arms, WIDTH - names - 26)
    lines = [
        f"{line.arm[:names]:{names}}  {line.dots:{WIDTH - names - 26}}  {line.words}".rstrip()
        for line in drawn.lines
    ]
    return [*lines, f"{'':{names}}  {drawn.foot}".rstrip()] if drawn.foot else lines


def _tray_lines(view: TrialView) -> list[str]:
    from logbook.growing.measures import number_words

    lines = ["", "Trays"]
    for record in view.records:
        weight = "" if record.grams is None else f"{number_words(record.grams)} g"
        note = f"left out: {record.left_out}" if record.left_out else ""
        parts = (
            str(record.number),
            record.arm,
            record.block,
            weight or record.state.status.words,
            note,
        )
        lines.append("  ".join(part for part in parts if part))
    return lines


def _wrapped(text: str) -> list[str]:
    import textwrap

    return textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False) or [""]
