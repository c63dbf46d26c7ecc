"""`logbook reckon compare`, `replicates`, `triangle` and `ranks`: trials without a book."""

from collections.abc import Iterator
from dataclasses import replace

import click

from logbook.cli.arguments import measured
from logbook.cli.printing import answers, tell
from logbook.exchange.trial_files import read_ranks, read_trays
from logbook.growing import quantities
from logbook.growing.measures import number_words
from logbook.growing.trials import replicates as needed
from logbook.growing.trials.judging import Judgement, judge
from logbook.growing.trials.replicates import ReplicatesTable
from logbook.growing.trials.tasting import ranks as judged_ranks
from logbook.growing.trials.tasting import triangle as judged_triangle
from logbook.growing.trials.words import grams_of, joined


@click.command()
@click.argument("file")
@click.option("--block", metavar="COLUMN", help="The column of blocks, when not called block.")
@measured(
    "--spread", quantities.USUAL_SPREAD, "PERCENT", "Expected spread from tray to tray, like 8%."
)
@answers("logbook.growing.trials.judging:Judgement")
def compare(file: str, block: str | None, spread: float | None) -> None:
    """Compare the arms of a trial.

    FILE is a CSV file with the columns arm and grams, and block where the trial had blocks; an
    empty weight is missing, 0 is a tray that died. "-" reads standard input.
    """
    read = read_trays(file, block)
    judged = judge(read.trays, spread)
    judged = replace(judged, words=joined(judged.words, read.note))
    tell(judged, _compared(judged))


def _compared(judged: Judgement) -> Iterator[str]:
    width = min(30, max(len(arm.name) for arm in judged.arms))
    for arm in judged.arms:
        spread = f"spread {grams_of(arm.sd)}" if arm.sd is not None else ""
        mean = "no weight" if arm.mean is None else f"mean {grams_of(arm.mean)}"
        yield f"{arm.name:{width}}  {arm.n:3d} weighed  {mean:14}  {spread}".rstrip()
    yield ""
    yield judged.words


@click.command()
@measured(
    "--spread", quantities.USUAL_SPREAD, "PERCENT", "Spread from tray to tray.", required=True
)
@measured(
    "--difference gap", quantities.DIFFERENCE, "PERCENT",
    "Difference to detect; a table of several by default.",
)  # fmt: skip
@measured(
    "--power", quantities.POWER, "PERCENT", "Chance of detecting it.", default="80%",
    show_default=True,
)  # fmt: skip
@click.option(
    "--arms", type=click.IntRange(max=1000), default=2, show_default=True, help="Arms in the trial."
)
@answers(
    "logbook.growing.trials.replicates:ReplicatesNeeded",
    "logbook.growing.trials.replicates:ReplicatesTable",
)
def replicates(spread: float, gap: float | None, power: float, arms: int) -> None:
    """Trays per arm needed to detect a difference of one arm from the others, judged at 5 %."""
    gaps = needed.DIFFERENCES if gap is None else (gap,)
    rows = needed.table(spread, gaps, power / 100, arms)
    answer = needed.ReplicatesTable(spread, power, arms, tuple(rows))
    one = needed.ReplicatesNeeded(rows[0], spread, power, arms)
    tell(answer if gap is None else one, _table_words(answer))


def _table_words(table: ReplicatesTable) -> Iterator[str]:
    yield (
        f"Spread from tray to tray {number_words(table.spread_percent)} %; a true difference is found {number_words(table.power_percent)} times in 100:"
    )
    for row in table.gaps:
        trays = "more than 10,000" if row.trays_per_arm is None else f"{row.trays_per_arm:,}"
        yield f"difference {number_words(row.difference):>4} %  {trays} trays per arm"


@click.command()
@click.option("--tasters", type=int, required=True, help="How many people tasted.")
@click.option("--right", type=int, required=True, help="How many found the odd one.")
@answers("logbook.growing.trials.tasting:Triangle")
def triangle(tasters: int, right: int) -> None:
    """Can anyone tell them apart? Three samples, two alike; how many found the odd one."""
    result = judged_triangle(tasters, right)
    tell(result, [result.words])


@click.command()
@click.argument("file")
@click.option("--scores", is_flag=True, help="The numbers are scores: more is better.")
@answers("logbook.growing.trials.tasting:Ranks")
def ranks(file: str, scores: bool) -> None:
    """Judge tasters' ranks (1 is best) or scores.

    FILE is a CSV file with the columns taster, sample and rank (or score), or with taster and
    one column for each sample. "-" reads standard input.
    """
    read = read_ranks(file, scores=scores)
    result = judged_ranks(read.given, more_is_better=read.scores)
    lines = [f"{one.name:20}  mean rank {number_words(one.mean_rank, 2)}" for one in result.samples]
    tell(result, [*lines, "", result.words])
