"""`logbook reckon luck`: how far batches and trays differ, without a book."""

import click

from logbook.cli.printing import answers, tell
from logbook.exchange.trial_files import read_batches
from logbook.growing.crops.luck_parts import luck_parts

MOST = click.IntRange(1, 10_000)


@click.command()
@click.argument("file")
@click.option("--trays", type=MOST, default=1, show_default=True, help="How many new trays.")
@click.option("--batches", type=MOST, default=1, show_default=True, help="In how many batches.")
@answers("logbook.growing.crops.luck_parts:LuckParts")
def luck(file: str, trays: int, batches: int) -> None:
    """Tell the spread of batches from that of trays, and say what new trays may weigh together.

    FILE is a CSV file with the columns batch and grams, a row for each tray weighed by itself; an
    empty weight is missing, 0 is a tray that died. "-" reads standard input.
    """
    parts = luck_parts(read_batches(file), trays, batches)
    tell(parts, parts.lines())
