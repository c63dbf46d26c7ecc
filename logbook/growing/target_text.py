"""Targets as a mapping: the [targets] table of a template's TOML file, and JSON."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from logbook.growing.bands import Band
from logbook.growing.measures import (
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


def targets_mapping(targets: Targets) -> dict[str, Any]:
    """Give targets as the mapping that targets_from reads, no empty keys."""
    light = Band(targets.light.low, targets.light.high) if targets.light else None
    lit = targets.lit_hours
    whole = {
        "light": _band_text(light),
        "lit_hours": "" if lit is None else f"{number_words(lit, 4)} h",
        "temperature": _band_text(targets.celsius, " C"),
        "humidity": _band_text(targets.humidity, " %"),
        "ph": _band_text(targets.water.ph),
        "ec": _band_text(targets.water.ec),
        "water": _band_text(targets.water.millilitres, " ml"),
    }
    return {key: value for key, value in whole.items() if value}


def _band_text(band: Band | None, unit: str = "") -> str:
    if band is None or (band.low is None and band.high is None):
        return ""
    low, high = (None if end is None else number_words(end, 4) for end in (band.low, band.high))
    if low is None:
        return f"at most {high}{unit}"
    return f"at least {low}{unit}" if high is None else f"{low} to {high}{unit}"


def targets_line(targets: Targets) -> str:
    """Write targets on one line, as targets_from_line reads them: "light 8 to 12; ph 5.5 to 6.5"."""
    return "; ".join(
        f"{key.replace('_', ' ')} {value}" for key, value in targets_mapping(targets).items()
    )


def targets_from_line(text: str, units: Units = "metric") -> Targets:
    """Read targets from one line, "light 8-12; temperature 18-24 C"; empty wishes nothing.

    Raises:
        Refused: a part does not begin with what is wanted, or its band cannot be read.
    """
    given: dict[str, str] = {}
    for part in filter(None, (each.strip() for each in clean(text, lines=False).split(";"))):
        words = part.casefold().replace("_", " ")
        key = next((each for each in KEYS if words.startswith(each.replace("_", " ") + " ")), None)
        if key is None:
            names = ", ".join(each.replace("_", " ") for each in KEYS)
            raise Refused(f'"{part[:40]}" must begin with what is wanted: {names}.')
        given[key] = part[len(key) :].strip()
    return targets_from(given, units)
