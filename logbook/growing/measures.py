"""Quantities as people write them, kept in SI: grams, metres' millimetres, millilitres, seconds.

Exact factors: 1 oz = 28.349523125 g, 1 lb = 453.59237 g, 1 in = 25.4 mm,
1 US fl oz = 29.5735295625 ml (international yard and pound agreement; NIST Handbook 44, App. C).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Literal

from logbook.text import Refused, clean

Units = Literal["metric", "us"]

GRAMS = {"g": 1.0, "gr": 1.0, "kg": 1000.0, "mg": 0.001, "oz": 28.349523125, "lb": 453.59237}
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4, "″": 25.4, "ft": 304.8}
MILLILITRES = {
    "ml": 1.0,
    "cl": 10.0,
    "dl": 100.0,
    "l": 1000.0,
    "floz": 29.5735295625,
    "cup": 236.5882365,
    "pt": 473.176473,
    "qt": 946.352946,
    "gal": 3785.411784,
}
SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0, "w": 604800.0}
_SECOND_NAMES = {
    "sec": "s", "second": "s", "seconds": "s", "m": "min", "mins": "min", "minute": "min",
    "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "d", "days": "d",
    "week": "w", "weeks": "w",
}  # fmt: skip

_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_NUMBER = re.compile(
    r"^\s*(?P<sign>[-+−]?)\s*(?P<whole>\d[\d  ]*(?:[.,]\d+)?|[.,]\d+)?(?P<fraction>[½¼¾⅓⅔⅛]?)"
    r"\s*(?P<unit>[^\d\s].*)?$"
)


@dataclass(frozen=True, slots=True)
class Amount:
    """A number and the unit written after it ('' when there was none)."""

    value: float
    unit: str


def amount(text: str, what: str) -> Amount:
    """Read "8.25in", "21 cm", "5,25 %", "2½ d"; raise Refused when there is no number.

    A comma is a decimal comma unless it groups thousands ("1,500" and "1,500.5" are refused as
    unclear rather than guessed).
    """
    text = clean(text, lines=False)
    found = _NUMBER.match(text)
    if not found or (not found["whole"] and not found["fraction"]):
        raise Refused(f'The {what} "{text[:40]}" is not a number; write it like 28 or 2.5.')
    whole = re.sub(r"[  ]", "", found["whole"] or "0")
    if re.fullmatch(r"\d{1,3},\d{3}", whole):
        raise Refused(
            f'The {what} "{text[:40]}" can be read in two ways; write it without the comma.'
        )
    value = float(whole.replace(",", ".")) + _FRACTIONS.get(found["fraction"], 0.0)
    if found["sign"] in ("-", "−"):
        value = -value
    if not math.isfinite(value) or abs(value) > 1e12:
        raise Refused(f'The {what} "{text[:40]}" is far too large.')
    return Amount(value, (found["unit"] or "").strip())


def _scaled(text: str, what: str, table: dict[str, float], default: str, example: str) -> float:
    given = amount(text, what)
    unit = re.sub(r"[\s.]", "", given.unit).casefold() or default
    if unit not in table and unit.endswith("s") and unit[:-1] in table:
        unit = unit[:-1]
    if unit not in table:
        raise Refused(
            f'The {what} has an unknown unit "{given.unit[:20]}"; write it like {example}.'
        )
    return given.value * table[unit]


def grams(text: str, what: str = "weight", units: Units = "metric") -> float:
    """Read a weight in grams; a bare number is g, or oz in US units."""
    return _scaled(text, what, GRAMS, "g" if units == "metric" else "oz", "28 g, 1.2 kg or 1 oz")


def millimetres(text: str, what: str = "length", units: Units = "metric") -> float:
    """Read a length in mm; a bare number is cm, or inches in US units."""
    return _scaled(text, what, MILLIMETRES, "cm" if units == "metric" else "in", "4 cm or 1.5 in")


def millilitres(text: str, what: str = "amount", units: Units = "metric") -> float:
    """Read a volume in ml; a bare number is ml, or US fluid ounces in US units."""
    return _scaled(
        text, what, MILLILITRES, "ml" if units == "metric" else "floz", "300 ml, 1.5 L or 10 floz"
    )


def seconds(text: str, what: str = "length of time") -> int:
    """Read a length of time in whole seconds: "36h", "2.5d", "1d 12h", "90 min".

    A number with no unit is refused, because hours and days are both usual.
    """
    cleaned = clean(text, lines=False)
    parts = re.findall(r"([-+−]?[\d.,½¼¾]+)\s*([A-Za-z]*)", cleaned)
    rest = re.sub(r"([-+−]?[\d.,½¼¾]+)\s*([A-Za-z]*)", "", cleaned).strip()
    if not parts or rest:
        raise Refused(f'The {what} "{cleaned[:40]}" cannot be read; write it like 36h or 2.5d.')
    total = 0.0
    for number, unit in parts:
        name = unit.casefold()
        name = _SECOND_NAMES.get(name, name)
        if name not in SECONDS:
            if float(amount(number, what).value) == 0 and not name:
                continue
            raise Refused(
                f'The {what} "{cleaned[:40]}" needs h for hours or d for days, like 36h or 2.5d.'
            )
        total += amount(number, what).value * SECONDS[name]
    if total < 0:
        raise Refused(f'The {what} "{cleaned[:40]}" is negative; it must be 0 or more.')
    if total > 3650 * 86400:
        raise Refused(f'The {what} "{cleaned[:40]}" is longer than ten years.')
    return round(total)


def number_words(value: float, digits: int = 1) -> str:
    """Write a number with at most `digits` decimals and no trailing zeros."""
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def grams_words(value: float, units: Units = "metric") -> str:
    """Write grams for reading: "283 g", "1.25 kg", "9.98 oz", "2.2 lb"."""
    if units == "us":
        ounces = value / GRAMS["oz"]
        if abs(ounces) >= 32:
            return f"{number_words(value / GRAMS['lb'], 2)} lb"
        return f"{number_words(ounces, 2)} oz"
    if abs(value) >= 10_000:
        return f"{number_words(value / 1000, 2)} kg"
    return f"{number_words(value, 0 if abs(value) >= 100 else 1)} g"


def length_words(value: float, units: Units = "metric") -> str:
    """Write millimetres for reading: "4 cm", "1.5 in"."""
    if units == "us":
        return f"{number_words(value / 25.4, 2)} in"
    return f"{number_words(value / 10, 1)} cm"


def volume_words(value: float, units: Units = "metric") -> str:
    """Write millilitres for reading: "300 ml", "1.5 L", "10 floz"."""
    if units == "us":
        return f"{number_words(value / MILLILITRES['floz'], 1)} floz"
    if abs(value) >= 1000:
        return f"{number_words(value / 1000, 2)} L"
    return f"{number_words(value, 0)} ml"


def span_words(total: float) -> str:
    """Write a length of time as it is entered and read back: "36h", "2d", "2d 12h", "90min"."""
    whole = round(total)
    if whole == 0:
        return "0h"
    if whole % 60:
        return f"{whole}s"
    if whole % 3600:
        return f"{whole // 60}min"
    hours = whole // 3600
    if hours % 24 == 0:
        return f"{hours // 24}d"
    if hours < 72:
        return f"{hours}h"
    return f"{hours // 24}d {hours % 24}h"


def ago_words(total: float) -> str:
    """Write how long ago, roughly: "5 min", "13 h", "3 days"."""
    minutes = int(total // 60)
    if minutes < 60:
        return f"{max(minutes, 0)} min"
    hours = minutes // 60
    if hours < 48:
        return f"{hours} h"
    return f"{hours // 24} days"
