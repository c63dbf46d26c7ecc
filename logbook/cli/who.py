"""The command that says who writes at this terminal."""

from __future__ import annotations

import click

from logbook.cli.app import Options, pass_options


@click.command()
@click.argument("initials", required=False)
@pass_options
def me(options: Options, initials: str | None) -> None:
    """Say who writes at this terminal from now on, or show who does: me AB."""
    from logbook.actions.initials import set_initials
    from logbook.text import clean

    if initials is not None:
        click.echo(f"{set_initials(initials)} writes at this terminal.")
        return
    name, source = options.said_writer
    click.echo(f"{clean(name, lines=False)} writes here ({source}).")
