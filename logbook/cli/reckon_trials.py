"""`logbook reckon compare`, `replicates`, `triangle` and `ranks`: trials without a book."""

from __future__ import annotations

from typing import Any

import click

from logbook.cli.printing import print_json
from logbook.growing.measures import number_words
from logbook.growing.quantities import DIFFERENCE, POWER, USUAL_SPREAD

_JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON.")


@click.command()
@click.argument("file")
@click.option("--block", metavar="COLUMN", help="The column of blocks, when not called block.")
@click.option("--spread", metavar="PERCENT", help="Usual spread from tray to tray, like 8%.")
@_JSON
def compare(file: str, block: str | None, spread: str | None, as_json: bool) -> None:
    """Compare the arms of a trial.

    FILE is a CSV file with the columns arm and grams, and block where the trial had blocks; an
    empty weight is missing, 0 is a tray that died. "-" reads standard input.
    """
    from logbook.cli.trial_files import read_trays
    from logbook.growing.trials.judging import Judgement, judge
    from logbook.growing.trials.weights import grams_of
    from logbook.growing.trials.words import joined

    read = read_trays(file, block)
    judged: Judgement = judge(read.trays, USUAL_SPREAD.given(spread))
    said = joined(judged.words, read.note)
    if as_json:
        print_json(comparison_json(judged, said))
        return
    width = min(30, max(len(arm.name) for arm in judged.arms))
    for arm in judged.arms:
        spread_words = f"spread {grams_of(arm.sd)}" if arm.sd is not None else ""
        mean = "no weight" if arm.mean is None else f"mean {grams_of(arm.mean)}"
        click.echo(f"{arm.name:{width}}  {arm.n:3d} weighed  {mean:14}  {spread_words}".rstrip())
    click.echo()
    click.echo(said)


def comparison_json(judged: Any, said: str) -> dict[str, Any]:
    """Give a judgement as plain values for JSON; what does not apply is None."""
    return {
        "design": judged.design,
        "arms": [
            {"arm": arm.name, "n": arm.n, "mean_grams": arm.mean, "sd_grams": arm.sd}
            for arm in judged.arms
        ],
        "f": judged.f,
        "df_arm": judged.df_arm,
        "df_error": judged.df_error,
        "p": judged.p,
        "block_f": judged.block_f,
        "cv_percent": judged.cv_percent,
        "pairs": [
            {
                "a": pair.a,
                "b": pair.b,
                "gap_grams": pair.gap_grams,
                "low": pair.low,
                "high": pair.high,
                "p": pair.p,
            }
            for pair in judged.pairs
        ],
        "chance_of_such_a_gap": judged.chance_of_such_a_gap,
        "trays_per_arm_to_settle": judged.trays_per_arm_to_settle,
        "words": said,
    }


@click.command()
@click.option("--spread", metavar="PERCENT", required=True, help="Spread from tray to tray.")
@click.option(
    "--difference",
    "gap",
    metavar="PERCENT",
    help="Difference to detect; a table of several by default.",
)
@click.option(
    "--power", metavar="PERCENT", default="80%", show_default=True,
    help="Chance of detecting it.",
)  # fmt: skip
@click.option(
    "--arms", type=click.IntRange(max=1000), default=2, show_default=True, help="Arms in the trial."
)
@_JSON
def replicates(spread: str, gap: str | None, power: str, arms: int, as_json: bool) -> None:
    """Trays per arm that detect a difference with the wanted power, at two-sided 5 %."""
    from logbook.growing.trials.replicates import DIFFERENCES, table

    spread_percent = USUAL_SPREAD.read(spread)
    power_percent = POWER.read(power)
    gaps = DIFFERENCES if gap is None else (DIFFERENCE.read(gap),)
    rows = table(spread_percent, gaps, power_percent / 100, arms)
    if as_json:
        given: dict[str, Any] = {
            "spread_percent": spread_percent,
            "power_percent": power_percent,
            "arms": arms,
        }
        if gap is not None:
            print_json(
                {"trays_per_arm": rows[0].trays_per_arm, "gap_percent": rows[0].difference, **given}
            )
            return
        print_json(
            {
                **given,
                "gaps": [
                    {"gap_percent": row.difference, "trays_per_arm": row.trays_per_arm}
                    for row in rows
                ],
            }
        )
        return
    click.echo(
        f"Trays that spread by {number_words(spread_percent)} %; a true gap is seen "
        f"{number_words(power_percent)} times in 100:"
    )
    for row in rows:
        trays = "more than 10,000" if row.trays_per_arm is None else f"{row.trays_per_arm:,}"
        click.echo(f"gap {number_words(row.difference):>4} %  {trays} trays per arm")


@click.command()
@click.option("--tasters", type=int, required=True, help="People who tasted.")
@click.option("--right", type=int, required=True, help="How many found the odd one.")
@_JSON
def triangle(tasters: int, right: int, as_json: bool) -> None:
    """Can anyone tell them apart? Three samples, two alike; how many found the odd one."""
    from logbook.growing.trials.tasting import triangle as judged

    result = judged(tasters, right)
    if as_json:
        print_json(
            {
                "tasters": result.tasters,
                "right": result.right,
                "needed": result.needed,
                "chance": result.chance,
                "words": result.words,
            }
        )
        return
    click.echo(result.words)


@click.command()
@click.argument("file")
@click.option("--scores", is_flag=True, help="The numbers are scores: more is better.")
@_JSON
def ranks(file: str, scores: bool, as_json: bool) -> None:
    """Judge tasters' ranks (1 is best) or scores.

    FILE is a CSV file with the columns taster, sample and rank (or score), or with taster and
    one column for each sample. "-" reads standard input.
    """
    from logbook.cli.trial_files import read_ranks
    from logbook.growing.trials.tasting import ranks as judged

    read = read_ranks(file, scores=scores)
    result = judged(read.given, more_is_better=read.scores)
    if as_json:
        print_json(
            {
                "tasters": result.tasters,
                "left_out": list(result.left_out),
                "samples": [
                    {
                        "sample": one.name,
                        "rank_sum": one.rank_sum,
                        "mean_rank": one.mean_rank,
                    }
                    for one in result.samples
                ],
                "chi_square": result.chi_square,
                "df": result.df,
                "p": result.p,
                "p_counted": result.p_counted,
                "words": result.words,
            }
        )
        return
    for one in result.samples:
        click.echo(f"{one.name:20}  mean rank {number_words(one.mean_rank, 2)}")
    click.echo()
    click.echo(result.words)
