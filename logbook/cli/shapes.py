"""Shapes of answers that no types say: a crop template, whose keys are those of its file."""

from __future__ import annotations

from typing import Any

from logbook.cli.answers import ByHand, Json
from logbook.growing.templates import COVERS, LIGHTS, WATERS, CropTemplate


def _text(words: str = "") -> Json:
    return {"type": "string"} | ({"description": words} if words else {})


def _number(words: str = "") -> Json:
    return {"type": "number"} | ({"description": words} if words else {})


def _span(words: str = "") -> Json:
    return _text(words) | {"pattern": r"^\d+(s|min|h|d)( \d+h)?$"}


def _object(optional: str = "", **keys: Json) -> Json:
    named = {key.rstrip("_"): schema for key, schema in keys.items()}
    needed = [key for key in named if key not in optional.split()]
    return {"type": "object", "properties": named, "required": needed}


TEMPLATE = _object(
    "variety seed_grams soak_ph medium sign_to_cut expected_grams notes targets",
    name=_text(),
    crop=_text(),
    variety=_text(),
    seed_grams=_number("Dry seed per tray, g."),
    tray=_text("Length x width: 508x254mm."),
    soak=_span("0h for none."),
    soak_ph=_number(),
    medium=_text(),
    sign_to_cut=_text("The sign that says: cut now."),
    expected_grams=_number("The template's own guess, g per tray."),
    spread_percent=_number("Spread from tray to tray."),
    mucilage={"type": "boolean", "description": "Whether the seed gels when soaked; sow it dry."},
    guess={"type": "boolean", "description": "Whether it is a starting guess."},
    notes=_text(),
    targets=_object(
        "light lit_hours temperature humidity ph ec water",
        light=_text("Daily light, mol/m²."),
        lit_hours=_text(),
        temperature=_text(),
        humidity=_text(),
        ph=_text(),
        ec=_text("mS/cm."),
        water=_text("ml per tray."),
    ),
    stages={
        "type": "array",
        "items": _object(
            "length water_per_day",
            name=_text(),
            length=_span("Left out of the last one: until the cut."),
            cover={"enum": list(COVERS)},
            light={"enum": list(LIGHTS)},
            water={"enum": list(WATERS)},
            water_per_day=_number(),
            looks_per_day=_number(),
        ),
    },
    cut=_object(from_=_span(), best=_span(), by=_span())
    | {"description": "From the beginning of the last stage."},
    version={"type": "integer"},
)


def _template(template: CropTemplate) -> dict[str, Any]:
    from logbook.growing.template_text import template_mapping

    return {**template_mapping(template), "version": template.version}


BY_HAND = {"logbook.growing.templates:CropTemplate": ByHand(_template, TEMPLATE)}
"""By "module:Class" of what is written."""
