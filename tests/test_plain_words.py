"""What a person reads is plain English: turns of phrase that sound translated are not in it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

import logbook
from logbook.cli.app import top_context
from logbook.cli.listing import every_command, words_of
from logbook.cli.schemas import names, schema_of

PACKAGE = Path(logbook.__file__).parent
STRANGE = re.compile(
    r"(?<!there )\b(?:is|are|was) no (?!longer|more|one)|\banew\b|\bto the light\b|sign to cut"
    r"|(?<!ready )sign seen|\bwalk (?:earlier|later)|\bthrown? out\b|\bon end\b|is said with"
    r"|\b(?:takes?|took|taken) back\b|the middle\b|\brests? on\b|\bbut for\b|\bcomes to\b"
    r"|that grow\b|\bstands? (?:on|in|at|below|above|beside|there|nowhere|still)\b|\blies? (?:in|on|at|ahead|outside|between)\b"
    r"|\bmol/m² a day\b|\bwho looks at\b|\bplaced by chance\b|\bNobody has said\b|\bstrike (?:the|an?|one)\b"
    r"|\b(?:kWh|g|ml|seed|water|grams|hours) a (?:tray|day|kWh)\b|price of a kWh"
    r"|takes? (?:it|them) back|order in which|standing line|so many weeks|\bis so already|a word is enough"
    r"|(?<!your )(?<!their )\bown words|since when\?|\bfits (?:several|\d)|\bheld against|a part of (?:a|its) name"
    r"|\b(?:cleaning|folder) of yours|Nothing comes (?:ready|round)|nobody said that|What is to come|is not as wanted",
    re.IGNORECASE,
)
FORMER = {
    "growing/page_filter.py": "thrown out",
    "growing/trays/chores.py": "to the light",
    "ui/commands.py": "throw out",
}
"""What somebody may still type, by the file that takes it."""


def said_in(source: str) -> Iterator[tuple[int, str]]:
    """The texts of a module with their lines; those that only describe code left out."""
    tree = ast.parse(source)
    bodies = [getattr(node, "body", None) for node in ast.walk(tree)]
    told = {
        id(part.value)
        for body in bodies
        if isinstance(body, list)
        for part in body
        if isinstance(part, ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.lineno, node.value


def strange_in(path: Path) -> list[str]:
    name = path.relative_to(PACKAGE).as_posix()
    taken = FORMER.get(name)
    return [
        f"{name}:{line}: {text}"
        for line, text in said_in(path.read_text(encoding="utf-8"))
        if STRANGE.search(text) and not (taken and taken in text)
    ]


def test_texts_of_the_program_are_plain() -> None:
    modules = [path for path in PACKAGE.rglob("*.py") if "migrations" not in path.parts]
    assert len(modules) > 300
    assert [words for path in modules for words in strange_in(path)] == []


@pytest.mark.parametrize(
    "path",
    [path for path in (PACKAGE / "handbook").glob("*.md") if path.stem != "tables"],
    ids=lambda path: path.stem,
)
def test_the_handbook_is_plain(path: Path) -> None:
    """The chapter of tables is made from the models, for who reads the file without the program."""
    lines = path.read_text(encoding="utf-8").splitlines()
    assert [line for line in lines if STRANGE.search(line)] == []


@pytest.mark.parametrize(
    "words", ["This is no tray.", "Sow it anew.", "28 g a tray", "Strike the entry.", "but for one"]
)
def test_what_sounds_translated_is_found(words: str) -> None:
    assert STRANGE.search(words)
    assert not STRANGE.search(
        "There is no tray 9. It is no longer due; strike out the entry, 28 g per tray."
    )


def test_what_is_said_of_json_keys_is_plain() -> None:
    """Their descriptions are the sentences under fields, which are not texts of a module."""
    told = {words for name in names() for words in described(schema_of(name))}
    assert len(told) > 300
    assert sorted(words for words in told if STRANGE.search(words)) == []


def described(schema: object) -> Iterator[str]:
    """All descriptions in a schema."""
    if isinstance(schema, Mapping):
        if isinstance(schema.get("description"), str):
            yield schema["description"]
        schema = tuple(schema.values())
    for part in schema if isinstance(schema, (list, tuple)) else ():
        yield from described(part)


def test_the_help_of_commands_is_plain() -> None:
    """It is the first docstring of a command, which is not a text of a module."""
    told = {words_of(ctx): command.help or "" for ctx, command in every_command(top_context())}
    assert len(told) > 80
    assert [each for each in told.items() if STRANGE.search(each[1])] == []
