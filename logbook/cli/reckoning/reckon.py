"""`logbook reckon`: the calculators. Nothing is written and no book is needed."""

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    "light": ("reckoning.room:light", "evenness and daily light of a shelf's readings"),
    "power": ("reckoning.room:power", "watts, kWh and daily cost of lamps"),
    "circuit": ("reckoning.room:circuit", "a circuit's load against its breaker"),
    "air": ("reckoning.room:air", "vapour pressure deficit and dew point"),
    "dilute": ("reckoning.room:dilute", "stock and water for a wanted strength"),
    "seed": ("reckoning.room:seed", "seeds and grams for a wanted density"),
    "trays": ("reckoning.orders:trays", "trays that are surely enough for an order"),
    "luck": ("reckoning.luck:luck", "how far batches and trays differ, from a CSV file"),
    "compare": ("reckoning.trials:compare", "arms of a trial, from a CSV file"),
    "replicates": ("reckoning.trials:replicates", "trays per arm to detect a difference"),
    "triangle": ("reckoning.trials:triangle", "can anyone tell them apart?"),
    "ranks": ("reckoning.trials:ranks", "tasters' ranks, from a CSV file"),
}


@click.group(cls=LazyGroup, table=TABLE, above="reckon")
def reckon() -> None:
    """Calculators: light, power, air, dilution, seed, trays, luck, trials. Nothing is written."""
