"""`logbook trial`: side-by-side comparisons kept in the book."""

from __future__ import annotations

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    "new": (
        "logbook.cli.trials.setting_up:new",
        "set a trial up: what differs, its arms, its layout",
    ),
    "list": ("logbook.cli.trials.setting_up:list_all", "the trials, the newest first"),
    "show": ("logbook.cli.trials.judging:show", "one trial: its arms and trays, and how it stands"),
    "sow": ("logbook.cli.trials.sowing:sow", "sow all arms once, in the drawn order"),
    "add": ("logbook.cli.trials.sowing:add", "take trays that stand already into an arm"),
    "leave-out": ("logbook.cli.trials.sowing:leave_out", "leave trays out of the judging"),
    "judge": (
        "logbook.cli.trials.judging:judge",
        "what the weights can say, and what else differed",
    ),
    "taste": ("logbook.cli.trials.tasting:taste", "taste blind: codes, orders, scores"),
    "triangle": ("logbook.cli.trials.tasting:triangle", "can anyone tell two arms apart?"),
    "criteria": (
        "logbook.cli.trials.judging:criteria",
        "what counts, and which arm comes first by it",
    ),
    "decide": ("logbook.cli.trials.deciding:decide", "what was decided, and what to try next"),
    "adopt": ("logbook.cli.trials.deciding:adopt", "a new version of the template from an arm"),
}


@click.group(
    cls=LazyGroup,
    table=TABLE,
    above="trial",
    context_settings={"help_option_names": ["-h", "--help"]},
)
def trial() -> None:
    """Compare side by side: set up, sow, judge, taste, decide, adopt."""
