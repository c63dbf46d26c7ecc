"""What a command prints: JSON or plain lines, and refusals as one sentence."""

from __future__ import annotations

import json
import shutil
import sys
import textwrap
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from logbook.text import clean

if TYPE_CHECKING:
    from logbook.actions.doing import Done


def print_json(value: Any) -> None:
    """Print a value as JSON; non-ASCII is kept where standard output has it, else escaped."""
    from logbook.cli.signs import fitted

    click.echo(json.dumps(value, ensure_ascii=fitted(), indent=2, allow_nan=False))


def say(sentence: str) -> None:
    """Print a sentence to standard error, so that standard output stays data.

    It may quote what was typed, so it is cleaned of what could harm a terminal. A terminal gets it
    broken between words; anything else gets it on one line.
    """
    words = clean(sentence)
    if sys.stderr.isatty():
        width = shutil.get_terminal_size().columns
        words = "\n".join(
            textwrap.fill(line, width, break_long_words=False, break_on_hyphens=False)
            for line in words.split("\n")
        )
    click.echo(words, err=True)


_JSON = "logbook.cli.printing.json"


def done_json(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add --json to a command that ends with show_done."""

    def keep(context: click.Context, _option: click.Parameter, value: bool) -> None:
        context.meta[_JSON] = value

    return click.option(
        "--json", is_flag=True, expose_value=False, callback=keep, help="Print JSON."
    )(command)


def show_done(done: Done) -> None:
    """Print what an action wrote, and what is worth saying of it; as JSON if that was asked."""
    context = click.get_current_context(silent=True)
    if context is not None and context.meta.get(_JSON):
        print_json(
            {
                "act": done.act_id,
                "trays": [str(number) for number in done.numbers],
                "words": clean(done.words),
                "notices": list(done.notices),
            }
        )
        return
    click.echo(clean(done.words))
    for notice in done.notices:
        say(notice)
