"""What a command prints: its answer as JSON or in plain lines, and refusals as one sentence."""

import json
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC
from functools import wraps
from typing import Any

import click

from logbook.cli.options import Options, pass_options
from logbook.text import clean
from logbook.ways import in_shell

_JSON = "logbook.cli.printing.json"
DONE = "logbook.actions.trays.done:Done"
"""The view of what was written."""


class JsonOption(click.Option):
    """--json, which names the views that a command answers with ("module:Class")."""

    def __init__(self, names: Sequence[str], views: Sequence[str] = (), **more: Any) -> None:
        super().__init__(names, **more)
        self.views = tuple(views)


def answers(*views: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Add --json to a command that ends with `tell`; its answer is one of these views."""

    def keep(ctx: click.Context, _option: click.Parameter, value: bool) -> None:
        if value:
            ctx.meta[_JSON] = True

    return click.option(
        "--json", cls=JsonOption, views=views, is_flag=True, expose_value=False, callback=keep,
        help="Print JSON.",
    )  # fmt: skip


def book_answers(*views: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """As answers(), for a command that is given the book, opened, before its own arguments."""

    def add(command: Callable[..., Any]) -> Callable[..., Any]:
        @pass_options
        @wraps(command)
        def with_book(options: Options, *args: Any, **given: Any) -> Any:
            if click.get_current_context().invoked_subcommand is not None:
                return None  # of a group that answers too, when none of its commands is named
            brief = given.get("brief", False)
            book = options.open(brief=brief)
            if not brief and (doubt := book.clock_doubt()):
                say(doubt)
            return command(book, *args, **given)

        return answers(*views)(with_book)

    return add


def tell(answer: Any, lines: Iterable[str] = (), *, made: bool = False) -> None:
    """Print an answer: as JSON if that was asked, else its lines; its notices to standard error.

    `made` says that it tells of a file that is made by now.
    """
    options = click.get_current_context().find_object(Options)
    if options is not None:
        options.made = options.made or made
    for notice in getattr(answer, "notices", ()):
        say(notice)
    if not json_asked():
        for line in lines:
            click.echo(in_shell(line))
        return
    from logbook.cli.answers import written

    print_json(written(answer, type(answer), UTC if options is None else options.zone))


def json_asked() -> bool:
    """Whether the running command was given --json."""
    ctx = click.get_current_context(silent=True)
    return ctx is not None and _JSON in ctx.meta


def width() -> int:
    """Cells for a table: the terminal's, or 100 where output goes to no terminal."""
    return shutil.get_terminal_size((100, 24)).columns if sys.stdout.isatty() else 100


def tell_done(done: Any) -> None:
    """Print what was written: its words, or as JSON more."""
    tell(done, [clean(done.words)])


def print_json(value: Any) -> None:
    """Print a value as JSON; non-ASCII is kept where standard output has it, else escaped."""
    from logbook.cli.signs import fitted

    click.echo(json.dumps(value, ensure_ascii=fitted(), indent=2, allow_nan=False))


def say(sentence: str) -> None:
    """Print a sentence to standard error, so that standard output stays data.

    It may quote what was typed, so it is cleaned of what could harm a terminal. A terminal gets it
    broken between words; anything else gets it on one line.
    """
    words = clean(in_shell(sentence))
    if sys.stderr.isatty():
        width = shutil.get_terminal_size().columns
        words = "\n".join(
            textwrap.fill(line, width, break_long_words=False, break_on_hyphens=False)
            for line in words.split("\n")
        )
    click.echo(words, err=True)
