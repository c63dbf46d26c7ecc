"""`logbook trial decide` and `adopt`: what becomes of a trial."""

from __future__ import annotations

import click

from logbook.cli.options import Options, pass_options
from logbook.cli.printing import DONE, answers, tell, tell_done
from logbook.cli.trials.options import NAME
from logbook.text import clean


@click.command()
@NAME
@click.argument("decided")
@click.option("--next", "try_next", default="", help="What to try next.")
@click.option("--arm", default="", help="The arm that is kept, where one is.")
@answers(DONE)
@pass_options
def decide(options: Options, name: str, decided: str, try_next: str, arm: str) -> None:
    """Write what was decided, and what to try next."""
    from logbook.actions.trials.deciding import decide as write

    tell_done(write(options.open(), name, decided, try_next, arm))


@click.command()
@NAME
@click.argument("arm")
@click.option("--why", required=True, help="The reason; it stands in the template's versions.")
@click.option("--next", "try_next", default="", help="What to try next.")
@answers("logbook.actions.trials.deciding:Adopted")
@pass_options
def adopt(options: Options, name: str, arm: str, why: str, try_next: str) -> None:
    """Make a new version of the crop template from an arm."""
    from logbook.actions.trials.deciding import adopt as write

    done = write(options.open(), name, arm, why, try_next)
    tell(done, [clean(f"{done.words}.")])
