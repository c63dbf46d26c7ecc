"""`logbook reckon`: the calculators. Nothing is written and no book is needed."""

from __future__ import annotations

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    "light": ("logbook.cli.reckon_room:light", "evenness and daily light of a shelf's readings"),
    "power": ("logbook.cli.reckon_room:power", "watts, kWh and cost a day of lamps"),
    "circuit": ("logbook.cli.reckon_room:circuit", "a circuit's load against its breaker"),
    "air": ("logbook.cli.reckon_room:air", "vapour pressure deficit and dew point"),
    "dilute": ("logbook.cli.reckon_room:dilute", "stock and water for a wanted strength"),
    "seed": ("logbook.cli.reckon_room:seed", "seeds and grams for a wanted density"),
    "compare": ("logbook.cli.reckon_trials:compare", "arms of a trial, from a CSV file"),
    "replicates": ("logbook.cli.reckon_trials:replicates", "trays per arm to detect a difference"),
    "triangle": ("logbook.cli.reckon_trials:triangle", "can anyone tell them apart?"),
    "ranks": ("logbook.cli.reckon_trials:ranks", "tasters' ranks, from a CSV file"),
}


@click.group(
    cls=LazyGroup,
    table=TABLE,
    above="reckon",
    context_settings={"help_option_names": ["-h", "--help"]},
)
def reckon() -> None:
    """Calculators: light, power, air, dilution, seed, trials. Nothing is written."""
