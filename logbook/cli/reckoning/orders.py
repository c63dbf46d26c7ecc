"""`logbook reckon trays`: trays for an order, without a book."""

import click

from logbook.cli.arguments import measured
from logbook.cli.printing import answers, tell
from logbook.growing import quantities
from logbook.growing.planning.enough import Yield, fewest


@click.command()
@measured("--order", quantities.ORDER, "WEIGHT", "What is to be packed.", required=True)
@measured("--yield", quantities.EXPECTED, "WEIGHT", "What a tray gives.", required=True)
@measured("--spread", quantities.SPREAD, "PERCENT", "Spread from tray to tray.", required=True)
@measured("--batch-share", quantities.BATCH_SHARE, "PERCENT",
          "Share of the variance common to trays of one sowing (0).", default="0%")  # fmt: skip
@measured(
    "--sure", quantities.SURE, "PERCENT", "The chance of enough that you want.", required=True
)
@measured("--loss", quantities.LOSS, "PERCENT", "Lost in trimming (0).", default="0%")
@answers("logbook.growing.planning.enough:Enough")
def trays(**given: float) -> None:
    """Say how many trays of one sowing are enough for an order with the chance you want."""
    kept = given["yield"] * (1 - given["loss"] / 100)
    of = Yield(kept, kept * given["spread"] / 100, given["batch_share"] / 100)
    enough = fewest(given["order"], of, given["sure"] / 100)
    tell(enough, enough.lines())
