"""When it happened is said with --at by every command that writes what happened, and is repeated."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from inspect import unwrap
from types import CodeType, FunctionType, ModuleType
from typing import Any

import click
import pytest

from logbook.cli.app import logbook, top_context
from tests.conftest import CommandLine

WRITES = (
    ("jot", "101", "-hulls"),
    ("skip", "water", "101", "--why", "wet"),
    ("circuit", "north", "--breaker", "16", "--volts", "230"),
    ("did", "water", "101"),
    ("look", "101", "--height", "4cm"),
    ("move", "101", "Rack 2/Shelf 1"),
    ("hold", "101", "--why", "mould"),
    ("discard", "101", "--why", "mould"),
    ("weigh", "101", "283", "--sure"),
    ("air", "21.4", "63"),
    ("water", "--ph", "6.1"),
    ("cleaning", "trays", "--method", "scrub"),
    ("seed", "add", "radish", "RA 12", "1kg"),
    ("lamps", "--place", "Rack 1/Shelf 1", "--lamps", "2", "--watts", "18"),
    ("trial", "new", "soak", "--crop", "field test", "--factor", "seed", "--arm", "a=100", "--arm",
     "b=120", "--replicates", "2"),
    ("places", "add", "Shelf 9", "--under", "Rack 1"),
    ("places", "change", "Rack 2/Shelf 4", "--name", "Top"),
    ("places", "retire", "Rack 2/Shelf 3"),
    ("room", "--stack", "3"),
    ("templates", "copy", "radish", "radish, north"),
    ("templates", "retire", "kale"),
)  # fmt: skip


@pytest.fixture
def room(cli: CommandLine) -> CommandLine:
    """Two trays in the light."""
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--trays", "2", "--dry")
    cli.now = "2026-04-08T08:00"
    cli.done("did", "light_on", "101-102")
    cli.now = "2026-04-14T07:42"
    return cli


@pytest.mark.parametrize("words", WRITES, ids=lambda words: " ".join(words[:2]))
def test_a_command_that_writes_takes_the_time(room: CommandLine, words: tuple[str, ...]) -> None:
    assert "at what hour" in room(*words, "--at", "yesterday").refusal
    assert "at what hour" in room(*words, "--at", "2026-04-13").refusal
    assert "--at is empty" in room(*words, "--at", "").refusal
    assert "is still to come" in room(*words, "--at", "tomorrow 7").refusal
    room.done(*words, "--at", "Mon 18:00")
    (entry,) = room.done("page", "--day", "2026-04-13", "--json").json["entries"]
    assert entry["at"] == "2026-04-13T18:00:00+01:00"
    assert entry["written_at"] == "2026-04-14T07:42:00+01:00"


NO_MOMENT = {
    "begin": "it makes the book",
    "copy": "the days that it closes are over",
    "restore": "it goes back to a copy",
    "seed change": "the right entry keeps the time of the wrong one",
    "undo": "it is written when it is given",
    "redo": "it is written when it is given",
    "tariff": "--from says from which day on",
    "costs set": "--from says from which day on",
    "outage": "--from and --to say when",
    "move-book": "each entry keeps its time",
    "import": "each line of the file has its own day",
    "sheet": "it is of days to come",
    "sheet enter": "each line of the paper has its time",
    "label": "it asks once, at a terminal, who makes what is sold",
    "recall": "it is timed, or --took says how long it took",
    "promise": "it is of days to come",
    "plan": "it is of days to come",
    "records review": "it is written when it is signed",
    "records assurance": "--on says when it was signed",
    "records sold": "it is of a year",
    "check": "--ahead has a time of its own",
}
"""The commands that write entries and take no --at, with the reason."""


def acts(command: Callable[..., Any]) -> bool:
    """Whether a function writes an act, itself or by way of another of the package."""
    ways: list[Any] = [unwrap(command)]
    for function in ways:
        codes = [function.__code__]
        for code in codes:
            codes += [each for each in code.co_consts if isinstance(each, CodeType)]
        names = {name for code in codes for name in code.co_names}
        if "writing" in names:
            return True
        known = dict(function.__globals__)
        for name in names:
            if name.startswith("logbook."):
                known |= vars(import_module(name))
            elif isinstance(known.get(name), ModuleType):
                known |= vars(known[name])
        found = (unwrap(known[name]) for name in names if isinstance(known.get(name), FunctionType))
        ways += [each for each in found if each not in ways and "logbook" in each.__module__]
    return False


def _commands(group: click.Group, context: click.Context) -> Iterator[tuple[str, click.Command]]:
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        assert command is not None
        yield name, command
        if isinstance(command, click.Group):
            yield from ((f"{name} {below}", each) for below, each in _commands(command, context))


def test_every_command_that_writes_takes_the_time_or_says_why_not() -> None:
    writing = {
        name: command
        for name, command in _commands(logbook, top_context())
        if command.callback and acts(command.callback)
    }
    assert {words[0] for words in WRITES} <= {name.split()[0] for name in writing}
    without = {
        name
        for name, command in writing.items()
        if not any("--at" in option.opts for option in command.params)
    }
    assert without == set(NO_MOMENT)


def test_what_was_stored_is_repeated(room: CommandLine) -> None:
    for words, said in {
        ("jot", "101", "slow"): "jotted on 101, Mon 13 Apr 18:00\n",
        ("air", "21.4", "63"): "dew point 14.1 °C, Mon 13 Apr 18:00\n",
        ("weigh", "102", "500", "--sure"): ", cut Mon 13 Apr 18:00\n",
    }.items():
        assert room.done(*words, "--at", "Mon 18:00").out.endswith(said)
    given = ("--amount", "300ml", "--ph", "6.1", "--ec", "1.2", "--at", "0715")
    assert room.done("did", "water", "101", *given).out == (
        "water: 101, 07:15, 300 ml each, pH 6.1, EC 1.2 mS/cm\n"
    )
