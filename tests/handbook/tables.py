"""Writes the handbook's chapter of the book's tables from the models: python -m tests.handbook.tables."""

from __future__ import annotations

import inspect
import re
import textwrap
from collections.abc import Iterator

from sqlalchemy import Column
from sqlmodel import SQLModel

from logbook.handbook import FOLDER
from logbook.store import tables
from logbook.store.tables import Table, base

PATH = FOLDER / "tables.md"
HEAD = """\
# The tables in the file

The book is one SQLite file. Any program that reads SQLite can open it, today or in twenty years,
without this one. Read a copy, and change nothing: the check would find it, the program might not.
What this chapter says is in the file too, in the table `about`.

Moments are seconds since the beginning of 1970 in UTC, most of them whole numbers: SQLite's
`datetime(at, 'unixepoch')` writes one out. The time zone of a room is in `place.zone`, by its IANA
name. Days are text (`2026-04-14`). Minutes count from midnight by the clock on the wall
of the room. Truths are 0 or 1. Weights are in grams, lengths in millimetres, whatever the screens
show. An arrow points to a row of another table.

Entries are written once. What was struck stays in the file: an entry of kind `strike` names it in
`strikes_id`. A strike that was struck itself does not count. The chapter `entries` has all kinds.
"""

UNITS: tuple[tuple[str, str], ...] = (
    (r"(.*_)?grams(_.*)?", "grams"), (r".*_ml|water_(low|high)_ml", "millilitres"),
    (r".*_mm", "millimetres"), (r"(.*_)?seconds", "seconds"), (r".*_percent", "%"),
    (r"celsius.*", "°C"), (r"humidity.*", "% relative humidity"), (r"(.*_)?ph(_.*)?", "pH"),
    (r"ec(_.*)?", "mS/cm"), (r"ppfd", "µmol/m²/s"), (r"lux", "lux"), (r"watts", "watts"),
    (r"volts", "volts"), (r"(.*_)?amps", "amperes"),
    (r"light_(low|high)", "mol/m²/d"), (r"lit_hours", "hours a day"),
    (r".*_per_day", "times a day"), (r"(keeping|every)_days", "days"), (r"value", "°C, count in 100 ml, or grams"), (r"work_hours", "hours a day"),
    (r"lamp_(on|off)|was_(on|off)|day_(start|end)|evening|starts|ends|minute", "minutes after midnight"),
    (r"weight", "a share; all of a trial are taken together"), (r"score", "1 to 9, or a rank"),
)  # fmt: skip
"""What a column of numbers is measured in, by its name."""
PLAIN = {
    "DATETIME": "a moment, seconds since 1970 in UTC",
    "DATE": "a day",
    "BOOLEAN": "0 or 1",
    "VARCHAR": "text",
}
"""What a column is by its type."""
SAID = {
    "price": "a decimal number, in the book's currency",
    "per_kwh": "a decimal number, in the book's currency",
    **dict.fromkeys(
        ("sold", "to_end_users", "produce"), "a decimal number, in the book's currency"
    ),
    "zone": "a time zone by its IANA name; days and hours of the room are in it",
    "sha256": "a SHA-256 in hexadecimal",
}
"""What some columns of text hold."""
COUNTED = re.compile(
    r"id|number|year|position|slots?|lamps|run|repeats|per_arm|weeks|seed|tasters|found|stage|first_day"
    r"|spot_(row|column)s?|(first|last)_id|stack_height|packs|parts|customers|lots|sown|up|pool_(first|last)"
)
"""Columns of numbers that count or name and have no unit."""


def models() -> list[type[SQLModel]]:
    """The models, in the order of their files, and of their names in each."""
    files = [file for _, file in inspect.getmembers(tables, inspect.ismodule) if file is not base]
    return [
        each
        for file in files
        for _, each in inspect.getmembers(file, inspect.isclass)
        if each.__module__ == file.__name__ and issubclass(each, Table)
        and hasattr(each, "__table__")
    ]  # fmt: skip


def meaning(column: Column[object]) -> str:
    """What a column holds beyond its name; raises LookupError for numbers of an unknown unit."""
    for key in column.foreign_keys:
        return f"→ `{key.target_fullname}`"
    if column.name in SAID:
        return SAID[column.name]
    if plain := PLAIN.get(str(column.type)):
        return plain
    for pattern, unit in UNITS:
        if re.fullmatch(pattern, column.name):
            return unit
    if not COUNTED.fullmatch(column.name):
        msg = f"{column.table.name}.{column.name} has no unit; add it to UNITS"
        raise LookupError(msg)
    return "a number"


def chapter() -> str:
    """The chapter as its file has it."""
    return HEAD + "".join(f"{line}\n" for model in models() for line in _of(model))


def _of(model: type[SQLModel]) -> Iterator[str]:
    yield from ("", f"## {model.__tablename__}")
    for part in inspect.cleandoc(model.__doc__ or "").split("\n\n"):
        yield ""
        yield textwrap.fill(" ".join(part.split()), 98, break_on_hyphens=False)
    yield ""
    for column in model.__table__.columns:  # type: ignore[attr-defined]
        empty = ", or empty" if column.nullable else ""
        yield f"- `{column.name}` — {meaning(column)}{empty}"


if __name__ == "__main__":
    PATH.write_text(chapter(), encoding="utf-8")
