"""A crop template as a mapping, which a TOML file and JSON hold, and as lines for reading."""

from collections.abc import Mapping
from typing import Any

from logbook.growing.crops.allergens import law_words
from logbook.growing.crops.stage_line import stage_words
from logbook.growing.crops.starters import GUESS_NOTE
from logbook.growing.crops.template_fields import record_from
from logbook.growing.crops.templates import CropTemplate, CutWindow, checked
from logbook.growing.crops.yields import Expected
from logbook.growing.measures import Units, grams_words, span_words
from logbook.text import fold

_ELSEWHERE = ("name", "crop", "variety", "soak_ph", "mucilage", "spread_percent", "guess")
"""Fields that are said in the line of another one."""


def template_from(given: Mapping[str, Any], units: Units = "metric") -> CropTemplate:
    """Read a whole template and check it; raise Refused with the first thing that is wrong.

    The name is the crop (and variety) unless one is given. Without a cut window the last
    stage's length is the best moment, with a day on either side.
    """
    return checked(record_from(CropTemplate, given, "A template", units))


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
    joined = _joined(template, units)
    if own:
        joined["notes"] = _line("notes", template.notes.replace(GUESS_NOTE, "").strip())
    for each in CropTemplate.fields:
        value = getattr(template, each.attribute)
        if each.attribute in joined:
            lines += joined[each.attribute]
        elif value not in (None, ""):
            lines.append(each.said(value, units))
    return lines


def _joined(template: CropTemplate, units: Units) -> dict[str, list[str]]:
    """Write the lines that are not of one field alone, by the attribute in whose place they are."""
    soak = span_words(template.soak_seconds) if template.soak_seconds else ""
    if soak and template.soak_ph is not None:
        soak += f", pH {template.soak_ph:g}"
    ends = [
        f"{each.key} {span_words(getattr(template.cut, each.attribute))}"
        for each in CutWindow.fields
    ]
    grams = template.expected_grams
    return {
        **{each: [] for each in _ELSEWHERE},
        "soak_seconds": _line("soak", "never (mucilage)" if template.mucilage else soak),
        "stages": [
            f"stage {place}: {stage.name}: {stage_words(stage)}"
            for place, stage in enumerate(template.stages, 1)
        ],
        "cut": [f"cut: {', '.join(ends)} after the last stage began"],
        "expected_grams": []
        if grams is None
        else [f"expected: {grams_words(grams, units)} per tray ± {template.spread_percent:g} %"],
        "allergens": [
            *_line(
                "allergens", "" if (told := template.allergens_known) is None else law_words(told)
            ),
            *filter(None, [template.allergens_doubt]),
        ],
        "targets": [f"wants {line}" for line in template.targets.lines(units)],
    }


def _line(name: str, words: str) -> list[str]:
    return [f"{name}: {words}"] if words else []
