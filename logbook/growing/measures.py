"""Quantities as people write them, kept in SI: grams, metres' millimetres, millilitres, seconds.

Exact factors: 1 oz = 28.349523125 g, 1 lb = 453.59237 g, 1 in = 25.4 mm,
1 US fl oz = 29.5735295625 ml (international yard and pound agreement; NIST Handbook 44, App. C).
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, NamedTuple

from logbook.text import Refused, clean

Units = Literal["metric", "us"]

GRAMS = {"g": 1.0, "gr": 1.0, "kg": 1000.0, "mg": 0.001, "oz": 28.349523125, "lb": 453.59237}
GRAMS |= {"gram": 1.0, "ounce": GRAMS["oz"], "pound": GRAMS["lb"]}
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4, "″": 25.4, "ft": 304.8}
MILLIMETRES |= {"inch": 25.4, "inches": 25.4, "foot": 304.8, "feet": 304.8}
MILLILITRES = {
    "ml": 1.0, "cl": 10.0, "dl": 100.0, "l": 1000.0, "floz": 29.5735295625, "cup": 236.5882365,
    "pt": 473.176473, "qt": 946.352946, "gal": 3785.411784,
}  # fmt: skip
MILLILITRES |= {"litre": 1000.0, "liter": 1000.0, "gallon": MILLILITRES["gal"]}
MILLILITRES |= {"quart": MILLILITRES["qt"], "pint": MILLILITRES["pt"]}
SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0, "w": 604800.0}
_SECOND_NAMES = {
    "sec": "s", "second": "s", "seconds": "s", "m": "min", "mins": "min", "minute": "min",
    "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "d", "days": "d",
    "week": "w", "weeks": "w",
}  # fmt: skip

MOST = 10**12
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_NUMBER = re.compile(
    r"^\s*(?P<sign>[-+−]?)"
    r"\s*(?P<whole>(?:\d{1,3}(?:[ \u00a0\u202f]\d{3})+|\d+)(?:[.,]\d+)?|[.,]\d+)?"
    r"\s*(?P<fraction>[½¼¾⅓⅔⅛]?)\s*(?P<unit>[^\d\s½¼¾⅓⅔⅛].*)?$"
)


@dataclass(frozen=True, slots=True)
class Amount:
    """A number and the unit written after it ('' when there was none)."""

    exact: Decimal
    unit: str

    @property
    def value(self) -> float:
        """The number as it is computed with."""
        return float(self.exact)


def amount(text: str, what: str, like: str = "28 or 2.5") -> Amount:
    """Read "8.25in", "21 cm", "5,25 %", "2½ d"; raise Refused when there is no number.

    A comma is a decimal comma unless it groups thousands ("1,500" and "1,500.5" are refused as
    unclear rather than guessed).
    """
    text = clean(text, lines=False)
    if not text:
        raise Refused(f"The {what} is missing; write it like {like}.")
    found = _NUMBER.match(text)
    if not found or (not found["whole"] and not found["fraction"]):
        raise Refused(f'The {what} "{text[:40]}" is not a number; write it like {like}.')
    whole = re.sub(r"\s", "", found["whole"] or "0")
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", whole):
        raise Refused(
            f'The {what} "{text[:40]}" can be read in two ways; write it without the comma.'
        )
    value = Decimal(whole.replace(",", ".")) + Decimal(_FRACTIONS.get(found["fraction"], 0))
    if found["sign"] in ("-", "−"):
        value = -value
    if abs(value) > MOST:
        raise Refused(f'The {what} "{text[:40]}" is far too large.')
    return Amount(value, (found["unit"] or "").strip())


@dataclass(frozen=True, slots=True)
class Scale:
    """The units that a kind of quantity is written in, by the size of each in the one that is kept.

    A bare number is in `metric` or `us`; where that is '' and no unit may be missing, it is
    refused. `like` shows how to write it. `zeros` are where a unit's scale begins; `ignored` marks
    are dropped.
    """

    sizes: Mapping[str, float]
    metric: str
    us: str
    like: str
    zeros: Mapping[str, float] = field(default_factory=dict)
    ignored: str = ""

    def __call__(self, text: str, what: str = "amount", units: Units = "metric") -> float:
        """Read a number with or without its unit; raise Refused."""
        for mark in self.ignored:
            text = text.replace(mark, "")
        given = amount(text, what, self.like)
        unit = _plain_unit(given.unit) or _plain_unit(self.bare(units))
        if unit not in self.sizes and unit.endswith("s") and unit[:-1] in self.sizes:
            unit = unit[:-1]
        if unit not in self.sizes:
            fault = f'has an unknown unit "{given.unit[:20]}"' if unit else "needs a unit"
            raise Refused(f"The {what} {fault}; write it like {self.like}.")
        return (given.value - self.zeros.get(unit, 0.0)) * self.sizes[unit]

    def bare(self, units: Units) -> str:
        """The unit that a bare number is in."""
        return self.us if units == "us" else self.metric

    def shown(self, value: float, units: Units) -> float:
        """The number of a value in the unit that a bare number is in."""
        name = _plain_unit(self.bare(units))
        return value / self.sizes.get(name, 1.0) + self.zeros.get(name, 0.0)

    def write(self, value: float, units: Units = "metric", *, grouped: bool = False) -> str:
        """Write a value so that it is read back: "283 g", "69.8 °F"; `grouped` for reading only."""
        unit, said = self.bare(units), self.shown(value, units)
        words = f"{said:,.4f}".rstrip("0").rstrip(".") if grouped else number_words(said, 4)
        return f"{words} {unit}".rstrip()


def _plain_unit(unit: str) -> str:
    return re.sub(r"[\s.°˚º]|deg(rees?)?", "", unit.casefold())


class _Hours(Scale):
    def __call__(self, text: str, what: str = "hours", units: Units = "metric") -> float:
        cleaned = clean(text, lines=False)
        if re.search(r"[^\W\d_½¼¾⅓⅔⅛]", cleaned):
            return seconds(cleaned, what) / 3600
        return super().__call__(cleaned, what, units)


def _plain(*names: str, unit: str = "", like: str = "28 or 2.5") -> Scale:
    return Scale(dict.fromkeys(("", _plain_unit(unit), *names), 1.0), unit, unit, like)


grams = Scale(GRAMS, "g", "oz", "28 g, 1.2 kg or 1 oz")
millimetres = Scale(MILLIMETRES, "cm", "in", "4 cm or 1.5 in")
millilitres = Scale(MILLILITRES, "ml", "floz", "300 ml, 1.5 L or 10 floz")
celsius = Scale({"c": 1.0, "celsius": 1.0, "f": 1 / 1.8, "fahrenheit": 1 / 1.8}, "°C", "°F",
    "21C or 70F", zeros={"f": 32.0, "fahrenheit": 32.0})  # fmt: skip
percent = _plain("percent", "pct", unit="%", like="63 %")
strength = Scale(
    {"%": 1.0, "percent": 1.0, "pct": 1.0, "%w/v": 1.0, "ppm": 1e-4, "mg/l": 1e-4, "g/l": 0.1}, "",
    "", "5.25% or 200ppm")  # fmt: skip
"""Weight in volume: 1 % is 10 g in a litre, 1 ppm is 1 mg in a litre; both are usual."""
conductivity = Scale(
    {"ms/cm": 1.0, "ms": 1.0, "ds/m": 1.0, "μs/cm": 0.001, "us/cm": 0.001, "μs": 0.001, "us": 0.001},
    "mS/cm", "mS/cm", "1.2 or 1200 µS/cm; ppm differ from meter to meter",
)  # fmt: skip
watts = Scale({"w": 1.0, "watt": 1.0, "kw": 1000.0}, "W", "W", "18 W")
amps = Scale({"a": 1.0, "amp": 1.0, "ampere": 1.0, "ma": 0.001}, "A", "A", "0.16 A")
volts = Scale({"v": 1.0, "volt": 1.0}, "V", "V", "120 V")
hours = _Hours({"": 1.0, "h": 1.0}, "h", "h", "16 or 15h 30min")
light = _plain("ppfd", *(f"{u}mol{per}" for u in "uμ" for per in ("", "/m2/s", "/m²/s")),
               unit="µmol/m²/s", like="210")  # fmt: skip
lux = _plain("lx", unit="lux", like="12000")
moles = _plain("mol", "mol/m2", unit="mol/m²", like="10")
per_area = _plain("/cm2", "percm2", "percm²", unit="/cm²", like="2.5")
plain = _plain()


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
        value, name = amount(number, what).value, unit.casefold()
        name = _SECOND_NAMES.get(name, name)
        if name not in SECONDS and (name or value):
            raise Refused(
                f'The {what} "{cleaned[:40]}" needs h for hours or d for days, like 36h or 2.5d.'
            )
        total += value * SECONDS.get(name, 0.0)
    if total < 0:
        raise Refused(f'The {what} "{cleaned[:40]}" is negative; it must be 0 or more.')
    if total > 3650 * 86400:
        raise Refused(f'The {what} "{cleaned[:40]}" is longer than ten years.')
    return round(total)


def number_words(value: float, digits: int = 1) -> str:
    """Write a number with at most `digits` decimals and no trailing zeros."""
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _weighed_in(value: float, units: Units) -> str:
    if units == "us":
        return "lb" if abs(value) >= 32 * GRAMS["oz"] else "oz"
    return "kg" if abs(value) >= 10_000 else "g"


def grams_words(value: float, units: Units = "metric") -> str:
    """Write grams for reading: "283 g", "1.25 kg", "9.98 oz", "2.2 lb"."""
    unit = _weighed_in(value, units)
    digits = 2 if unit != "g" else 0 if abs(value) >= 100 else 1
    return f"{number_words(value / GRAMS[unit], digits)} {unit}"


class Weighing(NamedTuple):
    """How tables write weights: the unit of their heads, and what a price is asked of."""

    unit: str
    priced: str
    """"100 g" or "oz"."""
    share: float
    """What a price per 100 g is multiplied with for one of that."""

    def figure(self, value: float) -> str:
        """Write grams without the unit: whole grams, tenths of an ounce."""
        return number_words(value / GRAMS[self.unit], 0 if self.unit == "g" else 1)


def weighing(units: Units) -> Weighing:
    """Grams and 100 g; ounces for the US."""
    return Weighing("oz", "oz", GRAMS["oz"] / 100) if units == "us" else Weighing("g", "100 g", 1)


def range_words(low: float, high: float, units: Units = "metric") -> str:
    """Write a range of grams: "250–320 g", "1.9–2.6 kg" from 1 kg on, in oz or lb for the US."""
    unit = ("lb" if low >= 32 * GRAMS["oz"] else "oz") if units == "us" else "g"
    unit = "kg" if unit == "g" and low >= 1000 else unit
    ends = (f"{end / GRAMS[unit]:.{0 if unit == 'g' else 1}f}" for end in (low, high))
    return f"{'–'.join(dict.fromkeys(ends))} {unit}"


def length_words(value: float, units: Units = "metric") -> str:
    """Write millimetres for reading: "4 cm", "1.5 in"."""
    if units == "us":
        return f"{number_words(value / 25.4, 2)} in"
    return f"{number_words(value / 10, 1)} cm"


def sides_words(sides: tuple[float, float]) -> str:
    """Write a length and a width, mm, in both units: "50.8 × 25.4 cm (20 × 10 in)"."""
    cm, inches = (" × ".join(number_words(side / size, 1) for side in sides) for size in (10, 25.4))
    return f"{cm} cm ({inches} in)"


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
    if whole % 3600:
        return f"{whole}s" if whole % 60 else f"{whole // 60}min"
    days, hours = divmod(whole // 3600, 24)
    if days and not hours:
        return f"{days}d"
    return f"{days * 24 + hours}h" if days < 3 else f"{days}d {hours}h"


def ago_words(total: float, *, brief: bool = False) -> str:
    """Write how long ago, roughly: "5 min", "13 h", "3 days", or where room is short "3 d"."""
    hours, minutes = divmod(max(int(total // 60), 0), 60)
    if not hours:
        return f"{minutes} min"
    return f"{hours} h" if hours < 48 else f"{hours // 24} {'d' if brief else 'days'}"


def temperature_words(value: float, units: Units = "metric") -> str:
    """Write °C for reading: "21.4 °C", "70.5 °F"."""
    return f"{number_words(celsius.shown(value, units))} {celsius.bare(units)}"


def hours_words(value: float) -> str:
    """Write hours for reading, to the minute: "16 h", "16 h 40 min", "25 min"."""
    whole_hours, minutes = divmod(round(value * 60), 60)
    if not whole_hours:
        return f"{minutes} min"
    return f"{whole_hours} h {minutes} min" if minutes else f"{whole_hours} h"
