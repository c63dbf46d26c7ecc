"""The command that says who writes at this terminal."""

from dataclasses import dataclass

import click

from logbook.actions.initials import set_initials
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import answers, tell
from logbook.text import clean

HINT = "`logbook me AB` sets who writes; on the screens the first entry asks, and ; changes it."


@dataclass(frozen=True, slots=True)
class Writer:
    """Who writes at this terminal."""

    by: str
    """The initials."""
    said_by: str
    """What says so: this terminal, the settings, LOGBOOK_BY, the login name …"""


@click.command()
@click.argument("initials", required=False)
@answers("logbook.cli.who:Writer")
@pass_options
def me(options: Options, initials: str | None) -> None:
    """Say who writes at this terminal from now on, or show who does: me AB."""
    kept = None if initials is None else set_initials(initials)
    name, source = options.said_writer if kept is None else (kept, "this terminal")
    name = clean(name, lines=False)
    words = f"{name} writes here ({source})."
    lines = [words, HINT] if kept is None else [f"{name} writes at this terminal."]
    tell(Writer(name, source), lines)
