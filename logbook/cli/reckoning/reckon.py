"""`logbook reckon`: the calculators. Nothing is written and no book is needed."""

import click

from logbook.cli.lazy import LazyGroup

TABLE = {
    "light": ("reckoning.room:light", "evenness and daily light (DLI) of a shelf"),
    "power": ("reckoning.room:power", "watts, kWh and daily cost of lamps"),
    "circuit": ("reckoning.room:circuit", "a circuit's load against its breaker"),
    "air": ("reckoning.room:air", "vapour pressure deficit (VPD) and dew point"),
    "dilute": ("reckoning.room:dilute", "stock and water for the strength you want"),
    "seed": ("reckoning.room:seed", "seeds and grams for the density you want"),
    "trays": ("reckoning.orders:trays", "how many trays are enough for an order"),
    "luck": ("reckoning.luck:luck", "spread of batches and of trays, from a CSV file"),
    "compare": ("reckoning.trials:compare", "arms of a trial, from a CSV file"),
    "replicates": ("reckoning.trials:replicates", "trays per arm to detect a difference"),
    "triangle": ("reckoning.trials:triangle", "can anyone tell them apart?"),
    "ranks": ("reckoning.trials:ranks", "tasters' ranks, from a CSV file"),
}


@click.group(cls=LazyGroup, table=TABLE, above="reckon")
def reckon() -> None:
    """Calculators: light, power, air, dilution, seed, trays, luck, trials. Nothing is written."""
