"""Targets as a mapping: the [targets] table of a template's TOML file, and JSON."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from logbook.growing.bands import Band
from logbook.growing.measures import (
    MILLILITRES,
    Units,
    celsius,
    conductivity,
    hours,
    millilitres,
    number,
    number_words,
    percent,
)
from logbook.growing.targets import LightTarget, Targets
from logbook.growing.water import WaterTarget
from logbook.text import Refused, clean, nearest

KEYS = ("light", "lit_hours", "temperature", "humidity", "ph", "ec", "water")
_BETWEEN = re.compile(r"(?<=[^\s(])\s*(?:–|-|\bto\b|\.\.)\s*")
_UNIT = re.compile(r"[^\d\s.,½¼¾⅓⅔⅛+−-].*$")


def band_from(text: str, what: str, read: Callable[[str, str], float]) -> Band:
    """Read "18-24 C", "at least 40 %", "up to 2" or one number for both ends; raise Refused.

    A unit after the second end holds for both.
    """
    cleaned = clean(text, lines=False)
    for opening in ("at least", "from", ">=", "≥"):
        if cleaned.casefold().startswith(opening):
            return Band(read(cleaned[len(opening) :], what), None)
    for opening in ("at most", "up to", "<=", "≤"):
        if cleaned.casefold().startswith(opening):
            return Band(None, read(cleaned[len(opening) :], what))
    parts = _BETWEEN.split(cleaned)
    if len(parts) > 2:
        raise Refused(f'The {what} "{cleaned[:40]}" cannot be read; write it like 18-24.')
    if len(parts) == 2 and not _UNIT.search(parts[0]):
        unit = _UNIT.search(parts[1])
        parts[0] += unit[0] if unit else ""
    ends = [read(part, what) for part in parts]
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

    def band(key: str, what: str, read: Callable[[str, str], float]) -> Band | None:
        value = given.get(key)
        if value in (None, ""):
            return None
        if isinstance(value, bool) or not isinstance(value, (str, int, float)):
            raise Refused(f'The wanted {what} must be like "18-24".')
        return band_from(str(value), f"wanted {what}", read)

    light = band("light", "daily light", lambda text, what: number(text, what, _MOLES))
    lit = band("lit_hours", "lit hours", hours)
    if light is not None and (light.low is None or light.high is None):
        light = Band(light.low or 0.0, 100.0 if light.high is None else light.high)
    return Targets(
        light=LightTarget(light.low or 0.0, light.high or 0.0) if light else None,
        lit_hours=lit.high if lit else None,
        celsius=band("temperature", "temperature", lambda text, what: celsius(text, what, units)),
        humidity=band("humidity", "humidity", percent),
        water=WaterTarget(
            ph=band("ph", "pH", number),
            ec=band("ec", "EC", conductivity),
            millilitres=band(
                "water", "amount of water", lambda text, what: millilitres(text, what, units)
            ),
        ),
    )


_MOLES = ("mol", "mol/m2", "mol/m²")


def targets_mapping(targets: Targets) -> dict[str, str]:
    """Give targets as the mapping that targets_from reads (SI numbers, no empty keys)."""
    return {key: text for key, text in target_texts(targets).items() if text}


def target_texts(targets: Targets, units: Units = "metric") -> dict[str, str]:
    """Give each wish as a text that targets_from reads back, by key; '' where there is none."""
    light = Band(targets.light.low, targets.light.high) if targets.light else None
    lit, water, us = targets.lit_hours, targets.water, units == "us"
    return {
        "light": _band_text(light),
        "lit_hours": "" if lit is None else f"{number_words(lit, 4)} h",
        "temperature": _band_text(targets.celsius, " F", _fahrenheit)
        if us
        else _band_text(targets.celsius, " C"),
        "humidity": _band_text(targets.humidity, " %"),
        "ph": _band_text(water.ph),
        "ec": _band_text(water.ec),
        "water": _band_text(water.millilitres, " floz", _fluid_ounces)
        if us
        else _band_text(water.millilitres, " ml"),
    }


def _fahrenheit(degrees: float) -> float:
    return degrees * 1.8 + 32


def _fluid_ounces(volume: float) -> float:
    return volume / MILLILITRES["floz"]


def _band_text(
    band: Band | None, unit: str = "", scaled: Callable[[float], float] = lambda value: value
) -> str:
    if band is None or (band.low is None and band.high is None):
        return ""
    low, high = (
        None if end is None else number_words(scaled(end), 4) for end in (band.low, band.high)
    )
    if low is None:
        return f"at most {high}{unit}"
    return f"at least {low}{unit}" if high is None else f"{low} to {high}{unit}"


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
