"""`logbook trial`: side-by-side comparisons kept in the book."""

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    "new": ("trials.trays:new", "set a trial up: what differs, its arms, its layout"),
    "list": ("trials.trays:list_all", "the trials, the newest first"),
    "show": ("trials.judging:show", "one trial: its arms and trays, and how it stands"),
    "sow": ("trials.trays:sow", "sow all arms once, in the drawn order"),
    "add": ("trials.trays:add", "put trays that are already growing into an arm"),
    "leave-out": ("trials.trays:leave_out", "leave trays out of the judging"),
    "plan": ("trials.trays:plan", "the planned end: how many trays per arm it takes"),
    "judge": ("trials.judging:judge", "what the weights show, and what else differed"),
    "taste": ("trials.tasting:taste", "taste blind: codes, orders, scores"),
    "triangle": ("trials.tasting:triangle", "can anyone tell two arms apart?"),
    "criteria": ("trials.judging:criteria", "what counts, and which arm comes first by it"),
    "decide": ("trials.judging:decide", "what was decided, and what to try next"),
    "adopt": ("trials.judging:adopt", "a new version of the template from an arm"),
}


@click.group(cls=LazyGroup, table=TABLE, above="trial")
def trial() -> None:
    """Compare side by side: set up, sow, judge, taste, decide, adopt."""
