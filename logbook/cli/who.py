"""The command that says who writes at this terminal."""

from __future__ import annotations

import click

from logbook.cli.arguments import json_option
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import print_json


@click.command()
@click.argument("initials", required=False)
@json_option
@pass_options
def me(options: Options, initials: str | None, as_json: bool) -> None:
    """Say who writes at this terminal from now on, or show who does: me AB."""
    from logbook.actions.initials import set_initials
    from logbook.text import clean

    kept = None if initials is None else set_initials(initials)
    name, source = options.said_writer if kept is None else (kept, "this terminal")
    name = clean(name, lines=False)
    if as_json:
        print_json({"by": name, "said_by": source})
    elif kept is None:
        click.echo(f"{name} writes here ({source}).")
    else:
        click.echo(f"{name} writes at this terminal.")
