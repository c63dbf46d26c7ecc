"""Sentences of the lower layers name what to do by a `Way`: a command in the shell, a key on screens."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

import logbook
from logbook.cli.app import logbook as program
from logbook.cli.names import OPTIONS
from logbook.ui.commands import COMMANDS, EVERYWHERE, keyed
from logbook.ways import Way, in_shell, on_screens

SOURCE = Path(logbook.__file__).parent
KNOW_NO_SHELL = ("growing", "store", "actions", "exchange", "ui")
OF_THE_SHELL = re.compile(r"`logbook|(?<![\w-])--[a-z]")


def _sentences(path: Path) -> Iterator[tuple[int, str]]:
    """Every piece of text that is said, none that only explains the code."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    told = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.lineno, node.value


@pytest.mark.parametrize("layer", KNOW_NO_SHELL)
def test_no_sentence_below_the_command_line_names_a_command_or_an_option(layer: str) -> None:
    bare = [
        f"{path.relative_to(SOURCE)}:{line}: {text}"
        for path in sorted((SOURCE / layer).rglob("*.py"))
        for line, text in _sentences(path)
        if OF_THE_SHELL.search(text)
    ]
    assert not bare, "\n".join(bare)


def test_every_way_is_named_somewhere() -> None:
    code = "\n".join(path.read_text(encoding="utf-8") for path in SOURCE.rglob("*.py"))
    assert not [way.name for way in Way if f"Way.{way.name}" not in code]


def _command(words: list[str]) -> click.Command:
    """The command that words lead to, subcommands included."""
    found: click.Command = program
    for word in words:
        if not isinstance(found, click.Group) or not re.fullmatch("[a-z]+", word):
            break
        deeper = found.get_command(click.Context(found), word)
        assert deeper is not None, words
        assert deeper.name == word, f"{word} is an earlier name of {deeper.name}"
        found = deeper
    return found


@pytest.mark.parametrize("way", [way for way in Way if not way.command.startswith("-")])
def test_each_command_is_there_under_its_present_name(way: Way) -> None:
    words = way.command.split()
    command = _command(words)
    names = {option for param in command.params for option in param.opts}
    assert {word for word in words if word.startswith("--")} <= names
    assert words[0] in program.list_commands(click.Context(program))


@pytest.mark.parametrize("way", [way for way in Way if way.command.startswith("-")])
def test_each_option_is_there_under_its_present_name(way: Way) -> None:
    option = way.command.split()[0]
    every = {each for command in _all(program) for param in command.params for each in param.opts}
    assert option in every
    assert not [earlier for each in OPTIONS.values() for earlier in each if earlier == option]


def _all(command: click.Command) -> Iterator[click.Command]:
    yield command
    if isinstance(command, click.Group):
        for name in command.list_commands(click.Context(command)):
            below = command.get_command(click.Context(command), name)
            if below is not None:
                yield from _all(below)


def test_the_screens_name_keys_that_there_are() -> None:
    for way in Way:
        assert set(re.findall(r"\{(\w+)\}", way.screens)) <= set(COMMANDS), way


def test_a_key_that_not_every_screen_has_is_named_with_its_screen() -> None:
    bare = {key for way in Way for key in re.findall(r"\{(\w+)\}(?! on )", way.screens)}
    assert bare <= set(EVERYWHERE)


def test_a_sentence_names_the_command_in_the_shell_and_the_key_on_the_screens() -> None:
    def shown(text: str) -> str:
        return on_screens(text, lambda words: keyed(words, COMMANDS))

    sentence = f"There is no trial yet; {Way.TRIAL_NEW} sets one up, {Way.SOW} sows it."
    assert in_shell(sentence) == (
        "There is no trial yet; `logbook trial new` sets one up, `logbook sow` sows it."
    )
    assert shown(sentence) == "There is no trial yet; + on the trials (y) sets one up, n sows it."
    assert shown(f"Run {Way.CHECK_MEND}.") == "Run `logbook check --mend`."
    path = "/media/{sow} \\1/room.book"
    assert shown(Way.RESTORE_COPY.of(path)) == f"`logbook restore {path}`"
    assert in_shell(f"Give {Way.SOW_AGAIN} or {Way.DAYS.of('dmy')}.") == (
        "Give --again or --date-order dmy."
    )
    assert (
        in_shell("{sow} and {undo} as somebody typed it") == "{sow} and {undo} as somebody typed it"
    )
