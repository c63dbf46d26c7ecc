"""Options that several commands of a trial share, and their reading."""

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.trials.finding import arm_names
from logbook.cli.arguments import measured
from logbook.cli.completing import completer_from_book
from logbook.growing import quantities
from logbook.growing.quantities import HOUR_PRICE, SEED_PRICE, WORK
from logbook.growing.trials.money import Prices, prices_from
from logbook.store.reads.trials import read_trials
from logbook.store.rows import Rows
from logbook.text import Refused, fold


@completer_from_book
def complete_trials(rows: Rows) -> list[str]:
    """The names of trials."""
    return [trial.name for trial in read_trials(rows)]


def complete_arms(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    """The arms of the trial that is named before, of all where none is."""
    name = fold(str(ctx.params.get("name") or ""))
    arms = completer_from_book(
        lambda rows: [
            arm.name
            for trial in read_trials(rows)
            if name in ("", fold(trial.name))
            for arm in trial.arms
        ]
    )
    return arms(ctx, param, begun)


def pairs(given: Sequence[str], what: str, example: str) -> list[tuple[str, str]]:
    """Read "yield=3" and the like."""
    made = []
    for text in given:
        left, mark, right = text.partition("=")
        if not mark or not left.strip() or not right.strip():
            raise Refused(f'The {what} "{text[:40]}" must be like {example}.')
        made.append((left.strip(), right.strip()))
    return made


def _weights(_ctx: click.Context, _option: click.Parameter, given: Sequence[str]) -> Any:
    return {
        name: quantities.PRIORITY.named(f"priority of {name[:20]}").read(value)
        for name, value in pairs(given, "priority", "yield=3")
    }


NAME = click.argument("name", shell_complete=complete_trials)
PRIORITY = click.option(
    "--priority", "weights", multiple=True, metavar="NAME=NUMBER", callback=_weights,
    help="What counts: yield=3, looks=1, taste=2, crunch=1, cost=1.",
)  # fmt: skip
_PRICES = (
    click.option(
        "--minutes", multiple=True, metavar="[ARM=]NUMBER", help="Minutes of work per tray."
    ),
    measured("--hour-price", HOUR_PRICE, "MONEY", "What an hour of work costs."),
    measured("--seed-price", SEED_PRICE, "PER_KG", "What a kg of seed costs."),
)


def prices_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options for what seed and work cost, which prices_of() reads."""
    for option in _PRICES:
        command = option(command)
    return command


def prices_of(
    book: Book, name: str, seed_price: Decimal | None, hour_price: Decimal | None,
    minutes: Sequence[str],
) -> Prices | None:  # fmt: skip
    """What seed and work cost, from the options; None where none was given."""
    if seed_price is None and hour_price is None and not minutes:
        return None
    spent = {}
    for text in minutes:
        arm, mark, value = text.rpartition("=")
        spent[arm.strip() if mark else ""] = WORK.read(value)
    return prices_from(arm_names(book, name), seed_price, hour_price, spent)
