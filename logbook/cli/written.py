"""What the commands about the room share: options, saying what was written, rounding for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.arguments import complete_places
from logbook.cli.printing import print_json, say

if TYPE_CHECKING:
    from logbook.actions.doing import Done

PLACE = click.option("--place", default="", shell_complete=complete_places, help="Rack or shelf.")
NOTE = click.option("--note", default="", help="A note.")


def show_written(done: Done, as_json: bool = False) -> None:
    """Say what was written; what is worth saying beside it goes to standard error."""
    for notice in done.notices:
        say(notice)
    if as_json:
        print_json({"entry": done.act_id, "words": done.words, "notices": list(done.notices)})
    else:
        click.echo(done.words)


def rounded(value: float | None, digits: int = 4) -> float | None:
    """Give a number for JSON with so many decimals, never a negative zero."""
    return None if value is None else round(value, digits) + 0.0
