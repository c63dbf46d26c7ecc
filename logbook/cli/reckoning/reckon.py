"""`logbook reckon`: the calculators. Nothing is written and no book is needed."""

from __future__ import annotations

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    "light": ("logbook.cli.reckoning.room:light", "evenness and daily light of a shelf's readings"),
    "power": ("logbook.cli.reckoning.room:power", "watts, kWh and cost a day of lamps"),
    "circuit": ("logbook.cli.reckoning.room:circuit", "a circuit's load against its breaker"),
    "air": ("logbook.cli.reckoning.room:air", "vapour pressure deficit and dew point"),
    "dilute": ("logbook.cli.reckoning.room:dilute", "stock and water for a wanted strength"),
    "seed": ("logbook.cli.reckoning.room:seed", "seeds and grams for a wanted density"),
    "compare": ("logbook.cli.reckoning.trials:compare", "arms of a trial, from a CSV file"),
    "replicates": (
        "logbook.cli.reckoning.trials:replicates",
        "trays per arm to detect a difference",
    ),
    "triangle": ("logbook.cli.reckoning.trials:triangle", "can anyone tell them apart?"),
    "ranks": ("logbook.cli.reckoning.trials:ranks", "tasters' ranks, from a CSV file"),
}


@click.group(
    cls=LazyGroup,
    table=TABLE,
    above="reckon",
    context_settings={"help_option_names": ["-h", "--help"]},
)
def reckon() -> None:
    """Calculators: light, power, air, dilution, seed, trials. Nothing is written."""
