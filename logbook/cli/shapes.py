"""Shapes of answers that no types say.

A crop template has the keys of its file; what is measured in a trial has keys that end in its unit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from logbook.growing.crops.template_fields import Part, Record, Told
from logbook.growing.crops.templates import CropTemplate

if TYPE_CHECKING:
    from logbook.growing.measures import Units
    from logbook.growing.trials.measured import Measured
    from logbook.growing.trials.view import MeasuredBesides

Json = dict[str, Any]


@dataclass(frozen=True, slots=True)
class ByHand:
    """A shape that no types say: how it is written, and its schema."""

    write: Callable[[Any], Json]
    schema: Json


def _text(words: str = "") -> Json:
    return {"type": "string"} | ({"description": words} if words else {})


def _number(words: str = "") -> Json:
    return {"type": "number"} | ({"description": words} if words else {})


def _object(optional: str = "", **keys: Json) -> Json:
    named = {key.rstrip("_"): schema for key, schema in keys.items()}
    needed = [key for key in named if key not in optional.split()]
    return {"type": "object", "properties": named, "required": needed}


def _shape(record: type[Record]) -> Json:
    """Write the schema of a class of fields; what may be empty may be left out."""
    optional = [each.key for each in record.fields if each.may_be_empty]
    return _object(" ".join(optional), **{each.key: _field(each) for each in record.fields})


def _field(told: Told) -> Json:
    said = {"description": told.meaning} if told.meaning else {}
    if isinstance(told.kind, Part) and told.kind.many:
        return {"type": "array", "items": _shape(told.kind.record)} | said
    if isinstance(told.kind, Part):
        return _shape(told.kind.record) | said
    return dict(told.kind.schema) | said


TEMPLATE = _shape(CropTemplate)
TEMPLATE["properties"]["version"] = {"type": "integer"}
TEMPLATE["required"].append("version")


def _template(template: CropTemplate) -> dict[str, Any]:
    from logbook.growing.crops.template_fields import mapping_of

    return {**mapping_of(template), "version": template.version}


def _measured(measured: Measured, units: Units) -> dict[str, Any]:
    unit, judged = measured.quantity.unit, measured.judged
    figures = ("design", "f", "df_arm", "df_error", "p")
    return {
        **{name: getattr(judged, name, None) for name in figures},
        "arms": [
            {"arm": arm.name, "n": arm.n, f"mean_{unit}": arm.mean, f"sd_{unit}": arm.sd}
            for arm in measured.arms
        ],
        "pairs": [
            {
                "a": pair.a,
                "b": pair.b,
                f"gap_{unit}": pair.gap_grams,
                f"low_{unit}": pair.low,
                f"high_{unit}": pair.high,
                "p": pair.p,
            }
            for pair in (() if judged is None else judged.pairs)
        ],
        "words": measured.words(units),
    }


def _measured_shape(unit: str, words: str) -> Json:
    maybe = {"type": ["number", "null"]}
    arm = {"arm": _text(), "n": {"type": "integer"}, f"mean_{unit}": maybe, f"sd_{unit}": maybe}
    pair = {"a": _text(), "b": _text(), "p": _number()}
    pair |= {f"{name}_{unit}": _number() for name in ("gap", "low", "high")}
    shape = _object(
        design={"type": ["string", "null"]}, f=maybe, df_arm=maybe, df_error=maybe, p=maybe,
        arms={"type": "array", "items": _object("", **arm)},
        pairs={"type": "array", "items": _object("", **pair)}, words=_text(),
    )  # fmt: skip
    return {"description": words} | shape


MEASURED = _object(
    "height days",
    height=_measured_shape("mm", "Height at the last look."),
    days=_measured_shape("days", "Days from sowing to the cut."),
)


def _besides(besides: MeasuredBesides) -> dict[str, Any]:
    return {each.quantity.name: _measured(each, besides.units) for each in besides.each}


BY_HAND = {
    "logbook.growing.crops.templates:CropTemplate": ByHand(_template, TEMPLATE),
    "logbook.growing.trials.view:MeasuredBesides": ByHand(_besides, MEASURED),
}
"""By "module:Class" of what is written."""
