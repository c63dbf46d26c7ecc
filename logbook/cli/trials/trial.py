"""`logbook trial`: side-by-side comparisons kept in the book."""

from __future__ import annotations

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    name: (f"logbook.cli.trials.{command}", words)
    for name, command, words in (
        ("new", "trays:new", "set a trial up: what differs, its arms, its layout"),
        ("list", "trays:list_all", "the trials, the newest first"),
        ("show", "judging:show", "one trial: its arms and trays, and how it stands"),
        ("sow", "trays:sow", "sow all arms once, in the drawn order"),
        ("add", "trays:add", "take trays that stand already into an arm"),
        ("leave-out", "trays:leave_out", "leave trays out of the judging"),
        ("judge", "judging:judge", "what the weights can say, and what else differed"),
        ("taste", "tasting:taste", "taste blind: codes, orders, scores"),
        ("triangle", "tasting:triangle", "can anyone tell two arms apart?"),
        ("criteria", "judging:criteria", "what counts, and which arm comes first by it"),
        ("decide", "judging:decide", "what was decided, and what to try next"),
        ("adopt", "judging:adopt", "a new version of the template from an arm"),
    )
}
HELP = {"help_option_names": ["-h", "--help"]}


@click.group(cls=LazyGroup, table=TABLE, above="trial", context_settings=HELP)
def trial() -> None:
    """Compare side by side: set up, sow, judge, taste, decide, adopt."""
