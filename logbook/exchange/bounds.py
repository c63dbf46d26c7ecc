"""What columns of a book may hold: values that no person could mean are no book's."""

from datetime import datetime

from logbook.exchange.column import Column, Value
from logbook.growing import quantities as of
from logbook.growing.when import EARLIEST, LATEST
from logbook.store.rows import moment
from logbook.text import Refused

_BOUNDS: dict[str, dict[str, of.Quantity | of.Count]] = {
    "air_reading": {"celsius": of.TEMPERATURE, "humidity": of.HUMIDITY},
    "watering": {"amount_ml": of.WATER, "ph": of.PH, "ec": of.EC},
    "look": {"emerged_percent": of.EMERGED, "height_mm": of.HEIGHT},
    "lamp_set": {"watts": of.WATTS, "amps": of.AMPS, "volts": of.VOLTS},
    "circuit": {
        "breaker_amps": of.BREAKER, "volts": of.VOLTS, "share_percent": of.SHARE,
        "other_amps": of.LOAD,
    },
    "light_spot": {"ppfd": of.PPFD, "lux": of.LUX},
    "solution_use": {
        "stock_percent": of.STOCK, "want_percent": of.WANTED, "volume_ml": of.VOLUME,
    },
    "upkeep": {"known_grams": of.KNOWN},
    "upkeep_done": {"known_grams": of.KNOWN},
    "weight": {"grams": of.CUT},
    "batch": {"grams_per_tray": of.SEED},
    "batch_lot": {"grams": of.BAG},
    "seed_bag": {"grams": of.BAG, "germination_percent": of.GERMINATION},
    "seed_test": {"sown": of.SEEDS_SOWN, "up": of.SEEDS_UP},
    "seed_weight": {"grams": of.LEFT},
}  # fmt: skip


def refuse_impossible(table: str, column: Column, value: Value) -> None:
    """Raise Refused for a value out of its quantity's range, or a year that nobody lives in.

    The message completes "… of line 7". The lower end is taken too: 0 W where no lamp hangs.
    """
    if value is None or isinstance(value, str):
        return
    if column.kind == "moment":
        at: datetime = moment(value)
        if not EARLIEST <= at.year <= LATEST:
            raise Refused(f"is not between the years {EARLIEST} and {LATEST}")
        return
    bound = _BOUNDS.get(table, {}).get(column.name)
    if isinstance(bound, of.Count):
        low, high = float(bound.least), float(bound.most)
    elif bound is not None:
        low, high = bound.low, bound.high
    else:
        return
    if not low <= value <= high:
        raise Refused(f"is out of range ({bound.name}: {low:g} to {high:g})")
