"""The range of every quantity and how precisely it is measured: what is outside was mistyped."""

from __future__ import annotations

import math

import pytest

from logbook.growing import quantities
from logbook.growing.quantities import Count, Quantity
from logbook.text import Refused

EVERY = {
    name: each for name, each in vars(quantities).items() if isinstance(each, Quantity | Count)
}
RANGES = {
    "SEED": ("[0.01, 20000]", 2),
    "CUT": ("[0, 100000]", 1),
    "EXPECTED": ("[1, 100000]", 1),
    "SPREAD": ("[0, 200]", 1),
    "TRAY_SIDE": ("[20, 5000]", 1),
    "THOUSAND": ("(0, 5000]", 2),
    "DENSITY": ("(0, 100]", 2),
    "PURITY": ("(0, 100]", 2),
    "GERMINATION": ("(0, 100]", 2),
    "EMERGED": ("[0, 100]", 1),
    "HEIGHT": ("[0, 2000]", 1),
    "WATER": ("(0, 50000]", 1),
    "PH": ("[0, 14]", 2),
    "SOAK_PH": ("[0, 14]", 2),
    "EC": ("[0, 20]", 3),
    "STOCK": ("(0, 100]", 6),
    "WANTED": ("(0, 100]", 6),
    "VOLUME": ("(0, ∞]", 1),
    "TEMPERATURE": ("[-20, 60]", 2),
    "AIR": ("[-20, 60]", 2),
    "HUMIDITY": ("[0, 100]", 1),
    "PPFD": ("[0, 5000]", 1),
    "LUX": ("[0, ∞]", 0),
    "LIT_HOURS": ("[0, 25]", 2),
    "DAILY_LIGHT": ("[0, 100]", 2),
    "WATTS": ("(0, 2000]", 2),
    "AMPS": ("(0, ∞]", 3),
    "VOLTS": ("(0, ∞]", 1),
    "BREAKER": ("(0, ∞]", 3),
    "LOAD": ("[0, ∞]", 3),
    "POWER_FACTOR": ("(0, 1]", 2),
    "SHARE": ("(0, 100]", 2),
    "LAMP_HEIGHT": ("[10, 3000]", 1),
    "PRICE": ("[0, 1000]", 4),
    "LAMPS": ("[1, 200]", 0),
    "RACKS": ("[1, 50]", 0),
    "SHELVES": ("[1, 20]", 0),
    "SLOTS": ("[1, 100]", 0),
    "TRAYS": ("[1, 500]", 0),
    "REPLICATES": ("[1, 5000]", 0),
    "WEEKS": ("[0, 52]", 0),
    "LAYOUT_NUMBER": ("[0, 999999]", 0),
}
"""From … to, "(" where the lower end is left out, and digits after the point (no source)."""


def test_every_quantity_has_its_range_and_its_digits() -> None:
    found = {}
    for name, each in EVERY.items():
        low, high = (each.least, each.most) if isinstance(each, Count) else (each.low, each.high)
        opening = "(" if isinstance(each, Quantity) and each.over else "["
        top = "∞" if math.isinf(high) else f"{high:.0f}"
        digits = 0 if isinstance(each, Count) else each.digits
        found[name] = (f"{opening}{low:g}, {top}]", digits)
    assert found == RANGES


def test_the_ends_of_a_range_are_in_it_unless_it_is_more_than_its_low_end() -> None:
    for each in EVERY.values():
        if isinstance(each, Count):
            assert [each.checked(end) for end in (each.least, each.most)] == [each.least, each.most]
            for outside in (each.least - 1, each.most + 1):
                with pytest.raises(Refused, match=each.name):
                    each.checked(outside)
            continue
        assert each.holds(each.low) is not each.over
        assert each.holds(each.low + 1e-6)
        assert each.holds(each.high)
        assert not each.holds(each.low - 1e-6)
        assert not each.holds(math.nan)
        if not math.isinf(each.high):
            with pytest.raises(Refused, match=each.name):
                each.checked(each.high * 1.000001)
