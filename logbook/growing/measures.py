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
GRAMS |= {"gram": 1.0, "ounce": GRAMS["oz"], "pound": GRAMS["lb"]}
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4, "″": 25.4, "ft": 304.8}
MILLIMETRES |= {"inch": 25.4, "inches": 25.4, "foot": 304.8, "feet": 304.8}
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
MILLILITRES |= {"litre": 1000.0, "liter": 1000.0, "gallon": MILLILITRES["gal"]}
MILLILITRES |= {"quart": MILLILITRES["qt"], "pint": MILLILITRES["pt"]}
WATTS = {"w": 1.0, "watt": 1.0, "kw": 1000.0}
AMPS = {"a": 1.0, "amp": 1.0, "ampere": 1.0, "ma": 0.001}
VOLTS = {"v": 1.0, "volt": 1.0}
MILLISIEMENS_PER_CM = {
    "ms/cm": 1.0, "ms": 1.0, "ds/m": 1.0, "\u03bcs/cm": 0.001, "us/cm": 0.001,
    "\u03bcs": 0.001, "us": 0.001,
}  # fmt: skip
PERCENT_OF_STRENGTH = {
    "%": 1.0, "percent": 1.0, "pct": 1.0, "%w/v": 1.0, "ppm": 1e-4, "mg/l": 1e-4, "g/l": 0.1,
}  # fmt: skip
SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0, "w": 604800.0}
_SECOND_NAMES = {
    "sec": "s", "second": "s", "seconds": "s", "m": "min", "mins": "min", "minute": "min",
    "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "d", "days": "d",
    "week": "w", "weeks": "w",
}  # fmt: skip

_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_NUMBER = re.compile(
    r"^\s*(?P<sign>[-+−]?)"
    r"\s*(?P<whole>(?:\d{1,3}(?:[ \u00a0\u202f]\d{3})+|\d+)(?:[.,]\d+)?|[.,]\d+)?"
    r"\s*(?P<fraction>[½¼¾⅓⅔⅛]?)\s*(?P<unit>[^\d\s½¼¾⅓⅔⅛].*)?$"
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
    whole = re.sub(r"\s", "", found["whole"] or "0")
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", whole):
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


def celsius(text: str, what: str = "temperature", units: Units = "metric") -> float:
    """Read a temperature in °C: "21C", "70F", "21.4 °C"; a bare number is °C, or °F in US units.

    Refused outside −20 to 60 °C, where no room of trays is: 70 without F is asked about.
    """
    given = amount(text, what)
    unit = re.sub(r"[\s.°˚º]|deg(rees?)?", "", given.unit.casefold())
    unit = unit or ("c" if units == "metric" else "f")
    unit = {"celsius": "c", "fahrenheit": "f"}.get(unit, unit)
    if unit not in ("c", "f"):
        raise Refused(
            f'The {what} has an unknown unit "{given.unit[:20]}"; write it like 21C or 70F.'
        )
    value = given.value if unit == "c" else (given.value - 32) / 1.8
    if not -20 <= value <= 60:
        said = f"{number_words(given.value)} °{unit.upper()}"
        hint = f" Did you mean {number_words(given.value)}F?" if unit == "c" and value > 0 else ""
        raise Refused(f"The {what} of {said} is outside −20 to 60 °C.{hint}")
    return value


def air_celsius(text: str, units: Units = "metric") -> float:
    """Read the temperature of a room's air in °C; see celsius.

    A bare number outside 5 to 45 °C (41 to 113 °F) is refused: its unit may be the other one.
    """
    value = celsius(text, "temperature", units)
    given = amount(text, "temperature")
    if not 5 <= value <= 45 and not re.search("[cf]", given.unit.casefold()):
        number_said = number_words(given.value)
        raise Refused(
            f"{temperature_words(value, units)} would be odd in a room of trays; write the unit "
            f"too, {number_said}C or {number_said}F."
        )
    return value


def percent(text: str, what: str = "share") -> float:
    """Read a share of the whole in percent, 0 to 100: "63", "5.25 %"."""
    value = _scaled(text, what, {"%": 1.0, "percent": 1.0, "pct": 1.0}, "%", "63 %")
    if not 0 <= value <= 100:
        raise Refused(f"The {what} of {number_words(value)} % must lie between 0 and 100 %.")
    return value


def strength(text: str, what: str = "strength") -> float:
    """Read the strength of a solution in percent, weight in volume: "5.25 %", "200ppm", "1 g/L".

    1 % is 10 g in a litre, 1 ppm is 1 mg in a litre. A bare number is refused, because % and ppm
    are both usual.
    """
    if not amount(text, what).unit:
        raise Refused(f'The {what} "{clean(text)[:40]}" needs % or ppm, like 5.25% or 200ppm.')
    value = _scaled(text, what, PERCENT_OF_STRENGTH, "", "5.25% or 200ppm")
    if not 0 <= value <= 100:
        raise Refused(f"The {what} of {number_words(value)} % must lie between 0 and 100 %.")
    return value


def conductivity(text: str, what: str = "EC") -> float:
    """Read an electrical conductivity in mS/cm (the same number in dS/m): "1.2", "1200 µS/cm"."""
    if re.search(r"ppm|tds", text, re.IGNORECASE):
        raise Refused(
            f"The {what} in ppm depends on the meter's scale; write it in mS/cm, like 1.2."
        )
    value = _scaled(text, what, MILLISIEMENS_PER_CM, "ms/cm", "1.2 or 1200 µS/cm")
    if value > 20:
        raise Refused(
            f"The {what} of {number_words(value)} mS/cm is beyond any water for plants; "
            "write µS after the number if the meter shows µS/cm."
        )
    return not_negative(value, what)


def tray_size(text: str, units: Units = "metric") -> tuple[float, float]:
    """Read "10x20in" or "25 × 50 cm" as length and width in mm, the longer first.

    A unit after one side holds for both; bare numbers are cm, or inches in US units.
    """
    parts = re.split(r"[x×*]|\bby\b", clean(text, lines=False).casefold())
    if len(parts) != 2:
        raise Refused(f'The tray size "{clean(text)[:40]}" must be like 10x20in or 25x50cm.')
    written = [amount(part, "tray size").unit for part in parts]
    sides = [
        millimetres(part if written[own] else f"{part} {written[1 - own]}", "tray size", units)
        for own, part in enumerate(parts)
    ]
    if not all(20 <= side <= 5000 for side in sides):
        raise Refused(
            f'The tray size "{clean(text)[:40]}" is unlikely: each side must be 2 cm to 5 m.'
        )
    return max(sides), min(sides)


def watts(text: str, what: str = "power") -> float:
    """Read a power in watts: "18", "18 W", "0.4 kW"."""
    return not_negative(_scaled(text, what, WATTS, "w", "18 W"), what)


def amps(text: str, what: str = "current") -> float:
    """Read a current in amperes: "0.16", "0.16 A", "160 mA"."""
    return not_negative(_scaled(text, what, AMPS, "a", "0.16 A"), what)


def volts(text: str, what: str = "voltage") -> float:
    """Read a voltage: "120", "230 V"."""
    return positive(_scaled(text, what, VOLTS, "v", "120 V"), what)


def money(text: str, what: str = "price") -> float:
    """Read a sum of money, its sign dropped: "0.30", "£0.30", "0,30 €"; 0 or more."""
    bare = re.sub(r"[$€£¥]", "", clean(text, lines=False))
    given = amount(bare, what)
    if given.unit.casefold().replace(" ", "") not in ("", "/kwh", "akwh", "perkwh"):
        raise Refused(f'The {what} has "{given.unit[:20]}" after it; write it like 0.30.')
    return not_negative(given.value, what)


def hours(text: str, what: str = "hours") -> float:
    """Read a length of time in hours; a bare number is hours: "16", "16 h", "15h 30min"."""
    cleaned = clean(text, lines=False)
    if re.search(r"[^\W\d_½¼¾⅓⅔⅛]", cleaned):
        return seconds(cleaned, what) / 3600
    given = amount(cleaned, what)
    if given.unit:
        raise Refused(f'The {what} "{cleaned[:40]}" cannot be read; write it like 16 or 15h 30min.')
    return not_negative(given.value, what)


def number(text: str, what: str, unit_names: tuple[str, ...] = ()) -> float:
    """Read a number; only the units named may follow it."""
    return _scaled(text, what, {"": 1.0} | dict.fromkeys(unit_names, 1.0), "", "28 or 2.5")


def whole(text: str, what: str, most: int = 10_000) -> int:
    """Read a count from 1 to `most`."""
    value = number(text, what)
    if value != round(value) or not 1 <= value <= most:
        raise Refused(f"The {what} must be a whole number from 1 to {most:,}.")
    return round(value)


def not_negative(value: float, what: str) -> float:
    """Give the value back; raise Refused when it is below 0."""
    if value < 0:
        raise Refused(f"The {what} of {number_words(value, 3)} is negative; it must be 0 or more.")
    return value


def positive(value: float, what: str) -> float:
    """Give the value back; raise Refused when it is 0 or less."""
    if value <= 0:
        raise Refused(f"The {what} of {number_words(value, 3)} must be more than 0.")
    return value


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


def spread_words(grams: float, spread_grams: float, units: Units = "metric") -> str:
    """Say a weight with its spread: "275 ± 50 g"; from 10 kg in kg, in oz or lb for the US."""
    if units == "us":
        unit, digits = ("lb", 2) if grams >= 32 * GRAMS["oz"] else ("oz", 1)
    else:
        unit, digits = ("kg", 1) if grams >= 10_000 else ("g", 0)
    size = GRAMS[unit]
    return f"{grams / size:,.{digits}f} ± {spread_grams / size:,.{digits}f} {unit}"


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


def ago_words(total: float, *, brief: bool = False) -> str:
    """Write how long ago, roughly: "5 min", "13 h", "3 days", or where room is short "3 d"."""
    minutes = int(total // 60)
    if minutes < 60:
        return f"{max(minutes, 0)} min"
    hours = minutes // 60
    if hours < 48:
        return f"{hours} h"
    return f"{hours // 24} {'d' if brief else 'days'}"


def temperature_words(value: float, units: Units = "metric") -> str:
    """Write °C for reading: "21.4 °C", "70.5 °F"."""
    if units == "us":
        return f"{number_words(value * 1.8 + 32)} °F"
    return f"{number_words(value)} °C"


def hours_words(value: float) -> str:
    """Write hours for reading, to the minute: "16 h", "16 h 40 min", "25 min"."""
    whole_hours, minutes = divmod(round(value * 60), 60)
    if not whole_hours:
        return f"{minutes} min"
    return f"{whole_hours} h {minutes} min" if minutes else f"{whole_hours} h"
