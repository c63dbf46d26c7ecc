"""A crop template as a mapping: what a TOML file, a form and JSON hold."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from logbook.growing.measures import (
    Units,
    grams,
    grams_words,
    length_words,
    number,
    seconds,
    span_words,
)
from logbook.growing.quantities import tray_size
from logbook.growing.starters import GUESS_NOTE
from logbook.growing.target_text import targets_from, targets_mapping
from logbook.growing.templates import TRAY_MM, CropTemplate, CutWindow, Stage, checked
from logbook.growing.yields import Expected
from logbook.text import Refused, clean_name, clean_note, fold, nearest

KEYS = (
    "name", "crop", "variety", "seed_grams", "seed", "tray", "soak", "soak_ph", "medium", "stages",
    "cut", "sign_to_cut", "expected_grams", "expected", "spread_percent", "mucilage", "guess",
    "notes", "targets",
)  # fmt: skip
STAGE_KEYS = ("name", "length", "cover", "light", "water", "water_per_day", "looks_per_day")
CUT_KEYS = ("from", "best", "by")


def _known(given: Mapping[str, Any], keys: tuple[str, ...], where: str) -> None:
    for key in given:
        if key not in keys:
            raise Refused(f'{where} has no "{str(key)[:40]}".{nearest(str(key), list(keys))}')


def _text(value: Any, what: str) -> str:
    if not isinstance(value, str):
        raise Refused(f"The {what} must be text in quotes.")
    return value


def _number(value: Any, what: str) -> float | None:
    if value is None or value == "":
        return None
    if isinstance(value, str):
        value = number(value.replace("%", ""), what)
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise Refused(f"The {what} must be a number.")
    if not math.isfinite(value):
        raise Refused(f"The {what} must be a real number.")
    return float(value)


def _weight(
    given: Mapping[str, Any], plain: str, words: str, what: str, units: Units
) -> float | None:
    if given.get(words) not in (None, ""):
        return grams(_text(given[words], what), what, units)
    return _number(given.get(plain), what)


def _choice(value: Any, what: str) -> Any:
    return _text(value, what).strip().casefold()


def stage_from(given: Mapping[str, Any]) -> Stage:
    """Read one stage; raise Refused."""
    _known(given, STAGE_KEYS, "A stage")
    name = clean_name(_text(given.get("name", ""), "stage name"), "stage name")
    length = given.get("length")
    water = _choice(given.get("water", "none"), "watering")
    per_day = _number(given.get("water_per_day"), f'watering of stage "{name}"')
    return Stage(
        name=name,
        seconds=None
        if length in (None, "")
        else seconds(_text(length, "length"), f'length of stage "{name}"'),
        cover=_choice(given.get("cover", "none"), "cover"),
        light=_choice(given.get("light", "dark"), "light"),
        water=water,
        water_per_day=per_day if per_day is not None else float(water != "none"),
        looks_per_day=_number(given.get("looks_per_day"), f'looks of stage "{name}"') or 0.0,
    )


def template_from(given: Mapping[str, Any], units: Units = "metric") -> CropTemplate:
    """Read a whole template and check it; raise Refused with the first thing that is wrong.

    The name is the crop (and variety) unless one is given. Without a cut window the last
    stage's length is the best moment, with a day on either side.
    """
    _known(given, KEYS, "A template")
    crop = clean_name(_text(given.get("crop", ""), "crop"), "crop")
    variety = given.get("variety") or ""
    variety = clean_name(_text(variety, "variety"), "variety") if variety else ""
    named = given.get("name") or (f"{crop}, {variety}" if variety else crop)
    stages_given = given.get("stages") or ()
    if not isinstance(stages_given, (list, tuple)) or not all(
        isinstance(stage, Mapping) for stage in stages_given
    ):
        raise Refused("The stages must be a list of [[stages]].")
    stages = tuple(stage_from(stage) for stage in stages_given)
    if not stages:
        raise Refused("A template needs at least one stage.")
    size = tray_size(_text(given["tray"], "tray size"), units) if given.get("tray") else TRAY_MM
    soak = given.get("soak") or "0h"
    spread = _number(given.get("spread_percent"), "spread")
    for key in ("mucilage", "guess"):
        if not isinstance(given.get(key, False), bool):
            raise Refused(f'"{key}" must be true or false.')
    return checked(
        CropTemplate(
            name=clean_name(_text(named, "name")),
            crop=crop,
            variety=variety,
            stages=stages,
            cut=_cut(given.get("cut"), stages[-1]),
            seed_grams=_weight(given, "seed_grams", "seed", "seed per tray", units),
            tray_length_mm=size[0],
            tray_width_mm=size[1],
            soak_seconds=seconds(_text(soak, "soak"), "soak"),
            soak_ph=_number(given.get("soak_ph"), "pH of the soak water"),
            medium=_line(given, "medium"),
            sign_to_cut=_line(given, "sign_to_cut"),
            expected_grams=_weight(
                given, "expected_grams", "expected", "expected weight per tray", units
            ),
            spread_percent=20.0 if spread is None else spread,
            mucilage=bool(given.get("mucilage", False)),
            guess=bool(given.get("guess", False)),
            notes=clean_note(_text(given.get("notes") or "", "notes")),
            targets=targets_from(given.get("targets"), units),
        )
    )


def _line(given: Mapping[str, Any], key: str) -> str:
    value = _text(given.get(key) or "", key.replace("_", " "))
    return clean_name(value, key.replace("_", " ")) if value.strip() else ""


def _cut(given: Any, last: Stage) -> CutWindow:
    if given is None:
        if last.seconds is None:
            raise Refused("Give the cut window: [cut] with from, best and by.")
        return CutWindow(max(0, last.seconds - 86_400), last.seconds, last.seconds + 86_400)
    if not isinstance(given, Mapping):
        raise Refused("The cut window must be [cut] with from, best and by.")
    _known(given, CUT_KEYS, "The cut window")
    ends = {}
    for key in CUT_KEYS:
        value = given.get(key)
        ends[key] = None if value in (None, "") else seconds(_text(value, key), f'cut "{key}"')
    best = ends["best"]
    if best is None:
        raise Refused('The cut window needs at least "best", like best = "60h".')
    return CutWindow(
        ends["from"] if ends["from"] is not None else max(0, best - 86_400),
        best,
        ends["by"] if ends["by"] is not None else best + 86_400,
    )


def template_mapping(template: CropTemplate) -> dict[str, Any]:
    """Give the template as the mapping that template_from reads (SI numbers, no empty keys)."""
    stages = []
    for stage in template.stages:
        row: dict[str, Any] = {"name": stage.name}
        if stage.seconds is not None:
            row["length"] = span_words(stage.seconds)
        row |= {"cover": stage.cover, "light": stage.light, "water": stage.water}
        row |= {"water_per_day": _tidy(stage.water_per_day)} if stage.water != "none" else {}
        row["looks_per_day"] = _tidy(stage.looks_per_day)
        stages.append(row)
    whole: dict[str, Any] = {
        "name": template.name,
        "crop": template.crop,
        "variety": template.variety,
        "seed_grams": None if template.seed_grams is None else _tidy(template.seed_grams),
        "tray": f"{_tidy(template.tray_length_mm)}x{_tidy(template.tray_width_mm)}mm",
        "soak": span_words(template.soak_seconds),
        "soak_ph": None if template.soak_ph is None else _tidy(template.soak_ph),
        "medium": template.medium,
        "sign_to_cut": template.sign_to_cut,
        "expected_grams": None
        if template.expected_grams is None
        else _tidy(template.expected_grams),
        "spread_percent": _tidy(template.spread_percent),
        "mucilage": template.mucilage,
        "guess": template.guess,
        "notes": template.notes,
        "stages": stages,
        "cut": {
            "from": span_words(template.cut.from_seconds),
            "best": span_words(template.cut.best_seconds),
            "by": span_words(template.cut.by_seconds),
        },
    }
    whole["targets"] = targets_mapping(template.targets)
    return {key: value for key, value in whole.items() if value not in (None, "", {})}


def _tidy(value: float) -> float | int:
    return int(value) if value == int(value) else value


def stage_words(stage: Stage) -> str:
    """Write a stage in one line: "4d, weight on, dark, mist 1× a day, look 1×"."""
    parts = [span_words(stage.seconds) if stage.seconds is not None else "until the cut"]
    parts.append({"none": "open", "lid": "lid on", "weight": "weight on"}[stage.cover])
    parts.append(stage.light)
    if stage.water != "none":
        parts.append(f"{stage.water} {stage.water_per_day:g}× a day")
    if stage.looks_per_day:
        parts.append(f"look {stage.looks_per_day:g}×")
    return ", ".join(parts)


def template_words(
    template: CropTemplate, units: Units = "metric", expected: Expected | None = None
) -> list[str]:
    """Write a template as plain lines for reading.

    That it is a guess to be replaced is left out when what is expected rests on the room's trays.
    """
    own = expected is not None and expected.trays > 0
    lines = [f"{template.name} (version {template.version})" if template.version else template.name]
    if template.guess and not own:
        lines.append("starting guess: your own trays will replace it")
    if fold(template.label()) != fold(template.name):
        lines.append(f"crop: {template.label()}")
    if template.seed_grams is not None:
        lines.append(f"seed: {grams_words(template.seed_grams, units)} dry a tray")
    lines.append(
        "tray: "
        f"{length_words(template.tray_length_mm, units)} × {length_words(template.tray_width_mm, units)}"
    )
    if template.mucilage:
        lines.append("soak: never (mucilage)")
    elif template.soak_seconds:
        ph = f", pH {template.soak_ph:g}" if template.soak_ph is not None else ""
        lines.append(f"soak: {span_words(template.soak_seconds)}{ph}")
    if template.medium:
        lines.append(f"medium: {template.medium}")
    for place, stage in enumerate(template.stages, 1):
        lines.append(f"stage {place}: {stage.name}: {stage_words(stage)}")
    cut = template.cut
    lines.append(
        f"cut: from {span_words(cut.from_seconds)}, best {span_words(cut.best_seconds)}, "
        f"by {span_words(cut.by_seconds)} after the last stage began"
    )
    if template.sign_to_cut:
        lines.append(f"sign to cut: {template.sign_to_cut}")
    if template.expected_grams is not None:
        lines.append(
            f"expected: {grams_words(template.expected_grams, units)} a tray "
            f"± {template.spread_percent:g} %"
        )
    lines += [f"wants {line}" for line in template.targets.lines(units)]
    notes = template.notes.replace(GUESS_NOTE, "").strip() if own else template.notes
    if notes:
        lines.append(f"notes: {notes}")
    return lines
