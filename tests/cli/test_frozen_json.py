"""What scripts were once given stays: keys keep their names and types, and what is new is added.

tests/assets/json-2026-04.json holds the shapes of every --json answer (types and keys only) and
what the sample printed at Tuesday 14 April 2026, 07:42, lists cut to two unlike items.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from logbook.cli.names import words_now
from logbook.cli.schemas import schema_of

NULL_NOW = ("cost", "cost_per_day", "kwh", "kwh_per_day", "mol", "mol_m2_per_tray")
"""What bills gave as 0 where nothing is known of it, no price, no lamps or no reading: null says so."""

KEPT = Path(__file__).parents[1] / "assets" / "json-2026-04.json"


@cache
def kept() -> Any:
    return json.loads(KEPT.read_text(encoding="utf-8"))


def types(schema: Any) -> set[str]:
    if "enum" in schema:
        names = {str: "string", int: "integer", type(None): "null"}
        return {names[type(value)] for value in schema["enum"]}
    named = schema.get("type", [])
    return {named} if isinstance(named, str) else set(named)


def shapes(schema: Any) -> list[Any]:
    several: list[Any] = schema.get("anyOf", [schema])
    return several


def lost(old: Any, new: Any, at: str) -> list[str]:
    """What an old shape promised and no shape of the new one does; the fewest of them."""
    return [
        fault
        for one in shapes(old)
        for fault in min((_lost(one, other, at) for other in shapes(new)), key=len)
    ]


def _lost(old: Any, new: Any, at: str) -> list[str]:
    faults = []
    may = types(old) | ({"integer"} if "number" in types(old) else set())
    if at.startswith("bills") and at.rpartition(".")[2] in NULL_NOW:
        may |= {"null"}
    if not types(new) <= may:
        faults.append(f"{at} was {types(old)} and is {types(new)}")
    for key, schema in old.get("properties", {}).items():
        if key not in new.get("properties", {}):
            faults.append(f"{at}.{key} is gone")
            continue
        if key in old["required"] and key not in new["required"]:
            faults.append(f"{at}.{key} is not always there")
        faults += lost(schema, new["properties"][key], f"{at}.{key}")
    if "items" in old:
        faults += lost(old["items"], new.get("items", {}), f"{at}[]")
    return faults


def open_to_less(schema: Any) -> Any:
    """The schema without what must be there, and with no room for keys that it does not name."""
    if isinstance(schema, list):
        return [open_to_less(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    made = {key: open_to_less(value) for key, value in schema.items()}
    if made.pop("required", None) is not None:
        made["additionalProperties"] = False
    return made


@pytest.mark.parametrize("name", kept()["schemas"])
def test_every_key_keeps_its_name_and_type(name: str) -> None:
    assert lost(kept()["schemas"][name], schema_of(words_now(name)), name) == []


@pytest.mark.parametrize("name", kept()["answers"])
def test_what_was_once_answered_still_has_the_shape(name: str) -> None:
    validator = Draft202012Validator(open_to_less(schema_of(words_now(name))))
    faults = [
        f"{fault.json_path}: {fault.message}"
        for answer in kept()["answers"][name]
        for fault in validator.iter_errors(answer)
    ]
    assert faults == []


def test_a_key_that_is_gone_or_of_another_type_would_be_seen() -> None:
    old = kept()["schemas"]["page"]
    new = json.loads(json.dumps(old))
    entry = new["properties"]["entries"]["items"]["properties"]
    entry["id"]["type"] = "string"
    del entry["words"]
    assert lost(old, new, "page") == [
        "page.entries[].id was {'integer'} and is {'string'}",
        "page.entries[].words is gone",
    ]
