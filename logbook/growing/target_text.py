"""Targets as a mapping: the [targets] table of a template's TOML file, and JSON."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from logbook.growing.bands import Band
from logbook.growing.measures import Units
from logbook.growing.quantities import (
    DAILY_LIGHT,
    EC,
    HUMIDITY,
    LIT_HOURS,
    PH,
    TEMPERATURE,
    WATER,
    Quantity,
)
from logbook.growing.targets import LightTarget, Targets
from logbook.growing.water import WaterTarget
from logbook.text import Refused, clean, nearest

WISHES = {
    "light": DAILY_LIGHT, "lit_hours": LIT_HOURS, "temperature": TEMPERATURE,
    "humidity": HUMIDITY, "ph": PH, "ec": EC, "water": WATER,
}  # fmt: skip
KEYS = tuple(WISHES)
_BARE = ("light", "ph", "ec")
_BETWEEN = re.compile(r"(?<=[^\s(])\s*(?:–|-|\bto\b|\.\.)\s*")
_UNIT = re.compile(r"[^\d\s.,½¼¾⅓⅔⅛+−-].*$")


def band_from(text: str, quantity: Quantity, units: Units = "metric") -> Band:
    """Read "18-24 C", "at least 40 %", "up to 2" or one number for both ends; raise Refused.

    A unit after the second end holds for both.
    """
    cleaned = clean(text, lines=False)
    for opening in ("at least", "from", ">=", "≥"):
        if cleaned.casefold().startswith(opening):
            return Band(quantity.read(cleaned[len(opening) :], units), None)
    for opening in ("at most", "up to", "<=", "≤"):
        if cleaned.casefold().startswith(opening):
            return Band(None, quantity.read(cleaned[len(opening) :], units))
    parts = _BETWEEN.split(cleaned)
    if len(parts) > 2:
        raise Refused(f'The {quantity.name} "{cleaned[:40]}" cannot be read; write it like 18-24.')
    if len(parts) == 2 and not _UNIT.search(parts[0]):
        unit = _UNIT.search(parts[1])
        parts[0] += unit[0] if unit else ""
    ends = [quantity.read(part, units) for part in parts]
    return Band(ends[0], ends[-1])


def targets_from(given: Any, units: Units = "metric") -> Targets:
    """Read the targets of a template; an empty or missing table wishes nothing. Raise Refused."""
    if given in (None, {}):
        return Targets()
    if not isinstance(given, Mapping):
        raise Refused('The targets must be a table: [targets] with keys like light = "8-12".')
    for key in given:
        if key not in KEYS:
            raise Refused(f'The targets have no "{str(key)[:40]}".{nearest(str(key), list(KEYS))}')
    bands: dict[str, Band | None] = dict.fromkeys(WISHES)
    for key, quantity in WISHES.items():
        value, wanted = given.get(key), quantity.named(f"wanted {quantity.name}")
        if value in (None, ""):
            continue
        if isinstance(value, bool) or not isinstance(value, (str, int, float)):
            raise Refused(f'The {wanted.name} must be like "18-24".')
        bands[key] = band_from(str(value), wanted, units)
    light, lit = bands["light"], bands["lit_hours"]
    return Targets(
        light=LightTarget(light.low or 0.0, DAILY_LIGHT.high if light.high is None else light.high)
        if light
        else None,
        lit_hours=lit.high if lit else None,
        celsius=bands["temperature"],
        humidity=bands["humidity"],
        water=WaterTarget(bands["ph"], bands["ec"], bands["water"]),
    )


def targets_mapping(targets: Targets) -> dict[str, str]:
    """Give targets as the mapping that targets_from reads (SI numbers, no empty keys)."""
    return {key: text for key, text in target_texts(targets).items() if text}


def target_texts(targets: Targets, units: Units = "metric") -> dict[str, str]:
    """Each wish as a text that targets_from reads back, by key; '' where there is none."""
    light, lit, water = targets.light, targets.lit_hours, targets.water
    bands = {
        "light": Band(light.low, light.high) if light else None,
        "temperature": targets.celsius,
        "humidity": targets.humidity,
        "ph": water.ph,
        "ec": water.ec,
        "water": water.millilitres,
    }
    return {
        key: LIT_HOURS.text(lit) if key == "lit_hours" else _band_text(key, bands[key], units)
        for key in WISHES
    }


def _band_text(key: str, band: Band | None, units: Units) -> str:
    if band is None or (band.low is None and band.high is None):
        return ""
    ends = (WISHES[key].text(end, units).replace("°", "") for end in (band.low, band.high))
    (low, _, unit), (high, _, high_unit) = (end.partition(" ") for end in ends)
    unit = "" if key in _BARE else f" {unit or high_unit}"
    if not low:
        return f"at most {high}{unit}"
    return f"at least {low}{unit}" if not high else f"{low} to {high}{unit}"


def wishes_apart(targets: Targets) -> dict[str, Targets]:
    """Give each wish by itself, by key; wishes_together puts them together again."""
    water = targets.water
    return {
        "light": Targets(light=targets.light),
        "lit_hours": Targets(lit_hours=targets.lit_hours),
        "temperature": Targets(celsius=targets.celsius),
        "humidity": Targets(humidity=targets.humidity),
        "ph": Targets(water=WaterTarget(ph=water.ph)),
        "ec": Targets(water=WaterTarget(ec=water.ec)),
        "water": Targets(water=WaterTarget(millilitres=water.millilitres)),
    }


def wishes_together(wishes: Mapping[str, Targets]) -> Targets:
    """Put wishes together that were read each by itself, by key."""
    none = Targets()

    def of(key: str) -> Targets:
        return wishes.get(key, none)

    return Targets(
        light=of("light").light,
        lit_hours=of("lit_hours").lit_hours,
        celsius=of("temperature").celsius,
        humidity=of("humidity").humidity,
        water=WaterTarget(of("ph").water.ph, of("ec").water.ec, of("water").water.millilitres),
    )
