"""Short ways to write a JSON schema (draft 2020-12)."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]


def thing(words: str, /, *, optional: tuple[str, ...] = (), **keys: Schema) -> Schema:
    """Give an object with these keys; all of them are there but the optional ones.

    A key that Python keeps for itself is written with a line behind it: from_.
    """
    named = {key.rstrip("_"): value for key, value in keys.items()}
    made: Schema = {"type": "object", "properties": named}
    made["required"] = [key for key in named if key not in optional]
    return ({"description": words} if words else {}) | made


def many(items: Schema, words: str = "") -> Schema:
    """Give a list of these."""
    return {"type": "array", "items": items} | ({"description": words} if words else {})


def text(words: str = "") -> Schema:
    """Give a text."""
    return {"type": "string"} | ({"description": words} if words else {})


def number(words: str = "", *, least: float | None = None) -> Schema:
    """Give a finite number."""
    made: Schema = {"type": "number"}
    if least is not None:
        made["minimum"] = least
    return made | ({"description": words} if words else {})


def whole(words: str = "", *, least: int = 0) -> Schema:
    """Give a whole number."""
    return {"type": "integer", "minimum": least} | ({"description": words} if words else {})


def truth(words: str = "") -> Schema:
    """Give true or false."""
    return {"type": "boolean"} | ({"description": words} if words else {})


def one_of(*values: str | int, words: str = "") -> Schema:
    """Give one of these words or numbers."""
    return {"enum": list(values)} | ({"description": words} if words else {})


def or_null(schema: Schema) -> Schema:
    """Give the same, or null where there is none."""
    if "enum" in schema:
        return schema | {"enum": [*schema["enum"], None]}
    return schema | {"type": [schema["type"], "null"]}


def moment(words: str = "") -> Schema:
    """Give a moment: ISO 8601 with its offset from UTC."""
    return text(words) | {
        "format": "date-time",
        "pattern": r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$",
    }


def day(words: str = "") -> Schema:
    """Give a day: 2026-04-14."""
    return text(words) | {"format": "date", "pattern": r"^\d{4}-\d\d-\d\d$"}


def tray(words: str = "The tray's number.") -> Schema:
    """Give a tray's number, written as a text."""
    return text(words) | {"pattern": r"^\d+$"}


def trays(words: str = "The trays' numbers.") -> Schema:
    """Give a list of tray numbers."""
    return many(tray(""), words)


def either(words: str, *schemas: Schema) -> Schema:
    """Give one of several shapes."""
    return {"description": words, "anyOf": list(schemas)}
