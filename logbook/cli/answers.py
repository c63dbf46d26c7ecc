"""Answers as JSON: one declaration, the view's own types, says the keys, the values and the schema."""

import ast
import inspect
import types
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from datetime import date, datetime, tzinfo
from decimal import Decimal
from enum import StrEnum
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from logbook.cli.shapes import BY_HAND, ByHand, Json
from logbook.growing.keys import AS_TEXT, AS_TRAY, LEFT_OUT, WALL
from logbook.growing.numbers import name_words
from logbook.growing.wall_hours import wall_words
from logbook.ways import in_shell

FIGURES = 6
"""Significant figures of a number whose key ends in no quantity's, and of STATISTICS."""
DECIMALS = 9
"""Decimals of a cost; a price keeps all that were typed."""
STATISTICS = ("mean_grams", "sd_grams", "gap_grams")


@dataclass(frozen=True, slots=True)
class KeyPath:
    """What a view says under one key; under several, those of what is there, where `key` is ''."""

    key: str
    path: tuple[str, ...]
    hint: Any

    def of(self, value: Any) -> Any:
        """What stands at the path; of several, a list of what stands there in each."""
        for place, name in enumerate(self.path):
            if value is None:
                return None
            if isinstance(value, tuple | list):
                rest = KeyPath(self.key, self.path[place:], None)
                return [rest.of(each) for each in value]
            value = getattr(value, name)
            value = value() if inspect.ismethod(value) else value
        return value


@cache
def parts_of(view: type) -> tuple[KeyPath, ...]:
    """What JSON says of a view, in order."""
    written = getattr(view, "keys", None) or " ".join(field.name for field in fields(view))
    parts = []
    for word in written.split():
        spread = word.startswith("*")
        key, _, path = word.lstrip("*").partition("=")
        steps = tuple((path or key).split("."))
        parts.append(KeyPath("" if spread else key, steps, hint_at(view, steps)))
    return tuple(parts)


def hint_at(hint: Any, path: tuple[str, ...]) -> Any:
    """The type of what stands at a path: optional where a step is, several behind several."""
    if not path:
        return hint
    bare, optional, _ = stripped(hint)
    item = item_of(bare)
    found: Any
    if item is not None:
        found = tuple[hint_at(item, path), ...]  # type: ignore[misc]
    else:
        found = hint_at(_attribute(bare, path[0]), path[1:])
    return Union[found, None] if optional else found  # noqa: UP007 - it is put together at run time


@cache
def _attribute(owner: Any, name: str) -> Any:
    hints = get_type_hints(owner, include_extras=True)
    if name in hints:
        return hints[name]
    member = inspect.getattr_static(owner, name)
    return get_type_hints(getattr(member, "fget", member), include_extras=True)["return"]


def stripped(hint: Any) -> tuple[Any, bool, tuple[Any, ...]]:
    """A type without None and marks, whether it had None, and the marks."""
    optional, marks = False, ()
    while True:
        if get_origin(hint) is Annotated:
            marks += hint.__metadata__
            hint = hint.__origin__
        elif get_origin(hint) in (Union, types.UnionType) and type(None) in get_args(hint):
            optional = True
            hint = Union[tuple(each for each in get_args(hint) if each is not type(None))]  # noqa: UP007
        else:
            return hint, optional, marks


def item_of(hint: Any) -> Any:
    """The type of each, where a type is of several; else None."""
    several = isinstance(get_origin(hint), type) and not issubclass(get_origin(hint), Mapping)
    return get_args(hint)[0] if several and get_origin(hint) is not Literal else None


def by_hand(hint: Any) -> ByHand | None:
    """How a type is written that the types do not say."""
    name = f"{hint.__module__}:{hint.__qualname__}" if isinstance(hint, type) else ""
    return BY_HAND.get(name)


def written(value: Any, hint: Any, zone: tzinfo, key: str = "") -> Any:
    """A value as JSON: moments with their room's offset, numbers rounded by the unit of their key.

    `zone` is the first room's, for what says of no room that it is in it.
    """
    bare, _, marks = stripped(hint)
    if value is None:
        return None
    if AS_TEXT in marks:
        return str(value)
    if AS_TRAY in marks:
        return name_words(value)
    if WALL in marks:
        return wall_words(value)
    if (hand := by_hand(bare)) is not None:
        return hand.write(value)
    if is_dataclass(value):
        return _object(value, type(value), zone)
    if isinstance(value, Mapping):
        of = get_args(bare)[1] if get_args(bare) else None
        return {str(name): written(each, of, zone, key) for name, each in value.items()}
    if isinstance(value, tuple | list | frozenset):
        of = item_of(bare)
        return [written(each, of or type(each), zone, key) for each in value]
    if isinstance(value, datetime):
        return value.astimezone(zone).isoformat(timespec="seconds")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return float(value if "price" in key else round(value, DECIMALS))
    if isinstance(value, float):
        digits = digits_of(key)
        return float(f"{value:.{FIGURES}g}") if digits is None else round(value, digits) + 0.0
    return in_shell(str(value)) if isinstance(value, Path | str) else value


def _object(value: Any, view: type, zone: tzinfo) -> Json:
    made: Json = {}
    own = getattr(getattr(value, "hours", value), "zone", None)
    zone = own if isinstance(own, tzinfo) else zone
    for part in parts_of(view):
        found = part.of(value)
        if not part.key:
            made |= written(found, part.hint, zone) or dict.fromkeys(properties(part.hint))
        elif found or LEFT_OUT not in stripped(part.hint)[2]:
            key = "" if getattr(view, "reckoned", False) else part.key
            made[part.key] = written(found, part.hint, zone, key)
    return made


@cache
def digits_of(key: str) -> int | None:
    """How many decimals a number under this key keeps: as many as its quantity is measured to."""
    from logbook.growing import quantities

    if key in STATISTICS:
        return None

    known = {
        each.key: each.digits
        for each in vars(quantities).values()
        if isinstance(each, quantities.Quantity)
    }
    ends = [unit for unit in known if f"_{key}".endswith(f"_{unit}")]
    return known[max(ends, key=len)] if ends else None


def named_view(name: str) -> Json:
    """The schema of a view, "module:Class", or of several of it under a key, "key=module:Class"."""
    key, _, place = name.rpartition("=")
    module, _, attribute = place.partition(":")
    made = schema_of(getattr(import_module(module), attribute))
    several = {key: {"type": "array", "items": made}}
    return {"type": "object", "properties": several, "required": [key]} if key else made


def schema_of_views(title: str, names: Iterable[str]) -> Json:
    """The JSON schema (draft 2020-12) of an answer that has one of these shapes."""
    shapes = list(map(named_view, names))
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title}
    return head | (shapes[0] if len(shapes) == 1 else {"anyOf": shapes})


SIMPLE: dict[Any, Json] = {
    type(None): {"type": "null"},
    str: {"type": "string"},
    Path: {"type": "string"},
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: {"type": "number"},
    Decimal: {"type": "number"},
    date: {"type": "string", "format": "date", "pattern": r"^\d{4}-\d\d-\d\d$"},
    datetime: {
        "type": "string",
        "format": "date-time",
        "pattern": r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$",
    },
}


def schema_of(hint: Any, words: str = "") -> Json:
    """The JSON schema of a type; `words` say what it is."""
    bare, optional, marks = stripped(hint)
    words = words or next((mark for mark in marks if str(mark).endswith(".")), "")
    made = _schema_of(bare, marks)
    if optional and "enum" in made:
        made = made | {"enum": [*made["enum"], None]}
    elif optional:
        made = made | {"type": [made["type"], "null"]}
    return ({"description": words} if words else {}) | made


def _schema_of(bare: Any, marks: tuple[Any, ...]) -> Json:
    if AS_TEXT in marks:
        return {"type": "string", "pattern": r"^\d+$"}
    if AS_TRAY in marks:
        return {"type": "string", "pattern": r"^(\d+(@\d{4}-\d\d-\d\d)?|b\d+)$"}
    if WALL in marks:
        return {"type": "string", "pattern": r"^\d\d:\d\d$"}
    values = next((mark for mark in marks if isinstance(mark, tuple)), None)
    if get_origin(bare) is Literal:
        values = get_args(bare)
    elif isinstance(bare, type) and issubclass(bare, StrEnum):
        values = tuple(map(str, bare))
    if values is not None:
        return {"enum": list(values)}
    if bare in SIMPLE:
        return SIMPLE[bare]
    if (hand := by_hand(bare)) is not None:
        return hand.schema
    if (item := item_of(bare)) is not None:
        return {"type": "array", "items": schema_of(item)}
    if is_dataclass(bare):
        return _object_schema(bare)  # type: ignore[arg-type]
    if get_origin(bare) is Union:
        return {"anyOf": [schema_of(each) for each in get_args(bare)]}
    return {"type": "object", "additionalProperties": schema_of(get_args(bare)[1])}


def _object_schema(view: type) -> Json:
    named: Json = {}
    needed: list[str] = []
    for part in parts_of(view):
        if part.key:
            named[part.key] = schema_of(part.hint, _words_at(view, part.path))
            needed += [] if LEFT_OUT in stripped(part.hint)[2] else [part.key]
        else:
            inner = schema_of(part.hint)
            named |= properties(part.hint)
            needed += inner["required"]
    words = (view.__doc__ or "").partition("\n\n")[0]
    head = {} if words.startswith(f"{view.__name__}(") else {"description": " ".join(words.split())}
    return head | {"type": "object", "properties": named, "required": needed}


def properties(hint: Any) -> Json:
    """The schemas of an object's keys, each or null where the object itself may be missing."""
    bare, optional, marks = stripped(hint)
    inner: Json = _schema_of(bare, marks)["properties"]
    if not optional:
        return inner
    return {
        key: schema
        if "null" in schema.get("type", ())
        else schema | {"type": [schema["type"], "null"]}
        for key, schema in inner.items()
    }


def _words_at(view: Any, path: tuple[str, ...]) -> str:
    owner = hint_at(view, path[:-1]) if path[1:] else view
    bare, _, _ = stripped(owner)
    while (item := item_of(bare)) is not None:
        bare, _, _ = stripped(item)
    return _words_of(bare).get(path[-1], "") if isinstance(bare, type) else ""


@cache
def _words_of(view: type) -> dict[str, str]:
    """What stands under the fields of a class, and in the first paragraph of its properties."""
    (owner,) = ast.parse(inspect.getsource(view)).body
    assert isinstance(owner, ast.ClassDef)  # noqa: S101 - a view is a class
    found = dict(_words_of(view.__base__)) if is_dataclass(view.__base__) else {}
    for line, after in zip(owner.body, [*owner.body[1:], None], strict=True):
        if isinstance(line, ast.FunctionDef):
            found[line.name] = (ast.get_docstring(line) or "").partition("\n\n")[0]
        elif isinstance(line, ast.AnnAssign) and isinstance(after, ast.Expr):
            found[ast.unparse(line.target)] = str(ast.literal_eval(after.value))
    return {name: " ".join(words.split()) for name, words in found.items()}
