"""Products for cleaning and soaking, and what to mind with each."""

import re
from typing import Literal

from logbook.growing.cautions import words_of
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

_ABOUT: dict[ProductKind, str] = {
    "chlorine": "chlorine", "peroxide": "peroxide", "peroxyacetic": "peroxyacetic acid", "acid": "acids",
    "alcohol": "alcohol", "quat": "quats", "other": "other products",
}  # fmt: skip
"""What the cautions about a kind are called."""


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
    label, never_mix, *careful = words_of("disinfectants and mixtures")
    return (*first, label, never_mix, *words_of(_ABOUT[kind]), *careful)
