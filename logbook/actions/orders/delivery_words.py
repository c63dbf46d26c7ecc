"""Deliveries in plain lines, for plain commands and screens alike."""

from collections.abc import Iterator

from logbook.actions.orders.deliveries import CropCover, DeliveryView, PackLine
from logbook.actions.orders.ordering import amount_words
from logbook.growing.measures import Units, grams_words, number_words
from logbook.growing.table import Column
from logbook.text import listed

FULL = 2
"""So many deliveries to come are shown with their packs; of those after them only how they are covered."""


def cover_columns(units: Units) -> list[Column[CropCover]]:
    """How crops of a delivery are covered, in columns."""

    def weight(value: float) -> str:
        return _whole(value, units) if value else "–"

    return [
        Column("crop", lambda each: each.crop, right=False),
        Column("promised", lambda each: weight(each.promised_grams), spare=1),
        Column("ready", lambda each: weight(each.ready_grams), spare=2),
        Column("growing", lambda each: weight(each.growing_grams), spare=2),
        Column("balance", lambda each: balance_words(each, units), right=False),
        Column("chance", lambda each: chance_words(each.chance_of_enough)),
    ]


def _whole(grams: float, units: Units) -> str:
    """Weights that are partly expected, without tenths."""
    return grams_words(round(grams), units)


def balance_words(crop: CropCover, units: Units) -> str:
    """Say whether there is enough: "short 120 g", "over 40 g", "enough"."""
    if crop.short_grams:
        return f"short {_whole(max(1.0, crop.short_grams), units)}"
    over = crop.cover.over
    return f"over {_whole(over, units)}" if over >= 1 else "enough"


def chance_words(chance: float) -> str:
    """Write a chance in percent, never as certain: "<1 %", "83 %", ">99 %"."""
    if chance in (0.0, 1.0):
        return f"{number_words(100 * chance, 0)} %"
    return "<1 %" if chance < 0.01 else ">99 %" if chance > 0.99 else f"{100 * chance:.0f} %"


def cover_facts(crop: CropCover, units: Units) -> list[tuple[str, str]]:
    """What the columns say of a crop, by their heads; what is nothing is left out."""
    _, *columns = cover_columns(units)
    return [(one.head, said) for one in columns if (said := one.what(crop)) != "–"]


def tick_words(line: PackLine) -> str:
    """Whether it is packed."""
    return "packed" if line.packed else "to pack"


def line_words(line: PackLine, units: Units) -> str:
    """Say what is to be packed of a line: "radish 6 × 50 g", with how many are packed."""
    words = f"{line.crop} {amount_words(line.packs, line.pack_grams, units)}"
    done = float(line.wish.packed)
    if not done or line.packed:
        return words
    whole = done.is_integer() or line.pack_grams is None
    return f"{words}, {f'{done:.0f}' if whole else grams_words(done * (line.pack_grams or 0), units)} packed"


def head_words(view: DeliveryView, units: Units) -> str:
    """Say shortly how a delivery stands: "packed", "covered, chance 86 %", "short of radish (120 g)"."""
    if view.done:
        return "packed"
    if not view.crops:
        return "not all ticked"
    if all(each.takes_rest for each in view.customers):
        return "takes what is left"
    short = [f"{each.crop} ({_whole(max(1.0, each.short_grams), units)})" for each in view.short]
    if short:
        return f"short of {listed(short)}"
    least = min((each.chance_of_enough for each in view.crops), default=1.0)
    return "covered" if least > 0.99 else f"covered, chance {chance_words(least)}"


def lines_below(view: DeliveryView, units: Units) -> Iterator[str]:
    """Each customer's packs, ticked as they are packed."""
    for each in view.customers:
        rest = " (takes what is left)" if each.takes_rest else ""
        yield f"  {each.customer}{rest}"
        for line in each.lines:
            yield f"    [{'x' if line.packed else ' '}] {line_words(line, units)}"
