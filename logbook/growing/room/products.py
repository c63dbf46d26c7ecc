"""Products for cleaning and soaking, and what to mind with each."""

import re
from typing import Literal

from logbook.text import fold

ProductKind = Literal["chlorine", "peroxide", "peroxyacetic", "acid", "alcohol", "quat", "other"]

_NAMES: tuple[tuple[ProductKind, str], ...] = (
    ("peroxyacetic", "peroxyacetic|peracetic|paa"),
    ("chlorine", "chlorine|bleach|hypochlorite|hypochlorous"),
    ("peroxide", "peroxide|h2o2"),
    ("acid", "acid|vinegar|citric|lemon|ph.?down|descaler"),
    ("alcohol", "alcohol|ethanol|isopropyl|isopropanol"),
    ("quat", "quats?|quaternary|benzalkonium"),
)

LABEL_IS_LAW = "The product's label is the law: its use, strength, time and rinsing come first."

NEVER_MIX = (
    "Never mix bleach with acid, vinegar, ammonia or peroxide, nor use one right after the other "
    "without rinsing: toxic gas."
)

WEAR = "Wear gloves and eye protection, open a window; keep it from children and food."
INTO_WATER = "Pour the stock into the water, not the water into the stock."

_MORE: dict[ProductKind, tuple[str, ...]] = {
    "chlorine": (
        "Mix fresh each day in cool water: light, heat and soil use it up. Use a test strip.",
        "Use unscented bleach only, and only for what its label allows.",
        "On produce 50 to 200 ppm for 1 to 2 minutes is known; a consumer label may allow only 25.",
        "Rinse seed and produce in drinking water; over 200 ppm also rinse what touches food.",
        "Let clean trays drain and dry in air.",
    ),
    "peroxide": (
        "Over about 8 % it burns skin and eyes and feeds fire: dilute such stock with great care.",
        "Use a grade meant for food; keep the bottle dark, cool and vented, never sealed tight.",
        "Rinse seed in drinking water after soaking.",
    ),
    "peroxyacetic": (
        "The stock burns and its vapour stings: fresh air, gloves, goggles.",
        "At most 80 ppm in wash water for produce in the US (21 CFR 173.315).",
        "Rinse or not as the label says.",
    ),
    "acid": (
        "Acid and bleach together give off chlorine: rinse everything that held bleach first.",
        "Add a little, stir, measure the pH again.",
    ),
    "alcohol": (
        "It burns: no flame, no hot lamp, no spraying near plugs; let it dry with the lamps off.",
    ),
    "quat": (
        "Not for seed or produce unless its label says so.",
        "Rinse what touches food unless the label calls it no-rinse at this strength.",
    ),
    "other": ("Rinse what touches food or seed unless the label says otherwise.",),
}


def product_kind(name: str) -> ProductKind:
    """Guess a product's kind from its plain name; "other" when no known word is in it."""
    words = fold(name)
    found = (kind for kind, pattern in _NAMES if re.search(rf"\b(?:{pattern})\b", words))
    return next(found, "other")


def cautions(
    kind: ProductKind = "other",
    stock_percent: float | None = None,
    want_percent: float | None = None,
) -> tuple[str, ...]:
    """What to mind with a product, the gravest first."""
    first: list[str] = []
    if kind == "peroxide" and stock_percent is not None and stock_percent > 8:
        first.append("This peroxide stock burns skin at a touch: goggles, gloves, water at hand.")
    if kind == "peroxyacetic" and want_percent is not None and want_percent > 0.008001:
        first.append("Over 80 ppm: not for washing produce in the US (21 CFR 173.315).")
    if kind == "chlorine" and want_percent is not None and want_percent > 0.020001:
        first.append("Over 200 ppm of chlorine: not for produce; rinse what touches food.")
    return (*first, LABEL_IS_LAW, NEVER_MIX, *_MORE[kind], WEAR, INTO_WATER)
