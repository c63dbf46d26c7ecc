"""The handbook says what is true: every command in it parses, every command there is stands in it."""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import click
import pytest

import logbook as package
from logbook.cli.app import TABLE, logbook, top_context
from logbook.cli.examples import examples
from logbook.cli.listing import every_command, words_of
from logbook.cli.reader import chapter_words
from logbook.handbook import (
    CARE,
    CHAPTERS,
    ENTRIES,
    FOLDER,
    KEYS,
    WRITTEN,
    chapter_text,
    named_chapter,
    title_of,
)
from logbook.settings import read_settings
from logbook.text import Refused
from logbook.ui.commands import COMMANDS, with_keys
from logbook.ui.reading import blocks_of, lines_of
from logbook.ui.screens import own_commands
from tests.conftest import CommandLine
from tests.handbook import tables

README = Path(package.__file__).parents[1] / "README.md"
FENCE = re.compile(r"^```(\w*)\n(.*?)^```", re.MULTILINE | re.DOTALL)


@pytest.mark.skipif(not shutil.which("systemd-analyze"), reason="no systemd here")
def test_the_units_of_the_handbook_are_good(tmp_path: Path) -> None:
    """Each is checked as it stands, but for its program, which need not be here."""
    text = (FOLDER / "pi.md").read_text(encoding="utf-8")
    named = re.findall(
        r"`(logbook-\w+\.(?:service|timer))`.*?^```ini\n(.*?)^```", text, re.MULTILINE | re.DOTALL
    )
    assert len(named) == 4
    for name, unit in named:
        (tmp_path / name).write_text(
            re.sub(r"^ExecStart=\S+", "ExecStart=/bin/true", unit, flags=re.MULTILINE)
        )

    told = subprocess.run(
        ["systemd-analyze", "verify", *(tmp_path / name for name, _unit in named)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip

    mine = [
        line for line in told.stderr.splitlines() if str(tmp_path) in line or "logbook-" in line
    ]
    assert mine == []
    assert told.returncode == 0


def test_the_chapter_of_the_tables_is_as_the_models_are() -> None:
    """`python -m tests.handbook.tables` writes it; a column of numbers without a unit stops it."""
    assert chapter_text("tables") == tables.chapter()


def code_of(markdown: str, *languages: str) -> Iterator[str]:
    for language, code in FENCE.findall(markdown):
        if language in languages:
            yield from code.replace("\\\n ", "").splitlines()


def calls_in(line: str) -> list[list[str]]:
    """Give the arguments of each `logbook` that a line of shell, or of a unit, calls."""
    reader = shlex.shlex(line, posix=True, punctuation_chars="|>;&()")
    reader.whitespace_split = True
    found: list[list[str]] = []
    current: list[str] = []
    for token in [*reader, ";"]:
        inside = re.fullmatch(r"[$#]\((.*)\)", token)
        if inside:
            found += calls_in(inside[1])
        elif token.strip("|>;&()"):
            current.append(token)
        else:
            if current and re.fullmatch(r"(\w+=)?(.*/bin/)?logbook", current[0]):
                found.append(current[1:])
            current = []
    return found


def _calls(chapter: str) -> list[list[str]]:
    lines = code_of(chapter_text(chapter), "sh")
    return [call for line in lines for call in calls_in(line) if call]


def parse(arguments: list[str]) -> None:
    """Parse a command line with click as running it would, and run nothing."""
    ctx = logbook.make_context("logbook", list(arguments))
    command: click.Command = logbook
    while isinstance(command, click.Group):
        rest = [*ctx._protected_args, *ctx.args]
        if not rest:
            assert command.invoke_without_command
            return
        name, below, after = command.resolve_command(ctx, rest)
        assert below is not None
        ctx = below.make_context(name, list(after), parent=ctx)
        command = below


WRITTEN_CALLS = [
    pytest.param(arguments, id=f"{name}: {' '.join(arguments)}")
    for name, text, languages in (
        *((name, chapter_text(name), ("sh", "ini", "")) for name in WRITTEN),
        ("README", README.read_text(encoding="utf-8"), ("sh",)),
    )
    for line in code_of(text, *languages)
    for arguments in calls_in(line)
]
EXAMPLE_CALLS = [
    pytest.param(arguments, id=f"help of {name}: {' '.join(arguments)}")
    for name, lines in examples().items()
    for line in lines
    for arguments in calls_in(line)
]


def test_the_reader_of_shell_lines_finds_calls() -> None:
    assert calls_in('logbook jot 101 "a b"  # why') == [["jot", "101", "a b"]]
    assert calls_in("~/logbook/bin/logbook round --json | head") == [["round", "--json"]]
    assert calls_in('eval "$(logbook completion bash)"') == [["completion", "bash"]]
    assert calls_in("ExecStart=%h/logbook/bin/logbook copy --daily") == [["copy", "--daily"]]
    assert calls_in('set -g status-right "#(/home/pi/logbook/bin/logbook round)"') == [["round"]]
    assert calls_in('x=$("$HOME/logbook/bin/logbook" round --brief); y') == [["round", "--brief"]]
    assert calls_in("python3 -m venv ~/logbook") == []
    assert len(WRITTEN_CALLS) > 90


@pytest.mark.parametrize("arguments", [*WRITTEN_CALLS, *EXAMPLE_CALLS])
def test_every_command_line_that_is_shown_parses(arguments: list[str]) -> None:
    with suppress(click.exceptions.Exit):  # --help ends the parsing
        parse(arguments)


def test_cleaning_and_a_trial_go_as_they_are_shown_in_the_room_of_the_first_day(
    empty_cli: CommandLine,
) -> None:
    # given the room that the first chapter makes
    cli = empty_cli
    (begin,) = (call for call in _calls("first-day") if call[0] == "begin")
    cli.done(*begin)
    # when the lines are typed as they stand there
    for call in (*_calls("week"), *_calls("readings")):
        if call[0] == "cleaning":
            cli.done(*call)
    for call in _calls("trial"):
        if call[:2] in (
            ["trial", "new"],
            ["trial", "sow"],
            ["trial", "criteria"],
            ["trial", "show"],
        ):
            cli.done(*call)
    # then both trials are sown
    assert cli.done("round", "--day", "2026-04-15").out.count("radish") >= 2
    assert len(cli.done("lot", "RA 12", "--json").json["batches"]) == 4


def test_examples_that_need_no_trays_run_as_they_are_shown(empty_cli: CommandLine) -> None:
    (begin, *_) = (call for line in examples()["begin"] for call in calls_in(line))
    empty_cli.done(*begin)
    for name in ("cleaning", "room", "lamps", "light", "tariff", "circuit", "outage", "reckon air"):
        for line in examples()[name]:
            for call in calls_in(line):
                empty_cli.done(*call)


@pytest.mark.parametrize("wrong", [["rond"], ["round", "--nonsense"], ["weigh"], ["reckon", "x"]])
def test_a_wrong_line_would_be_noticed(wrong: list[str]) -> None:
    with pytest.raises(click.UsageError):
        parse(wrong)


def test_every_option_of_the_synopsis_is_there() -> None:
    synopsis = chapter_text("scripts").partition("## Every command")[2]
    every = {words_of(ctx): command for ctx, command in every_command(top_context())}
    for line in next(FENCE.finditer(synopsis))[2].splitlines():
        for call in re.findall(r"logbook ([^`]*?)(?=\s{2,}|$)", line):
            words = call.split()
            command = every.get(" ".join(words[:2])) or every[words[0]]
            there = {option for each in command.params for option in each.opts}
            assert set(re.findall(r"--[\w-]+", call)) <= there, call


# what is there stands in it


def test_the_files_are_the_chapters() -> None:
    assert {path.stem for path in FOLDER.glob("*.md")} == set(WRITTEN)
    assert (*WRITTEN, CARE, ENTRIES, KEYS) == CHAPTERS
    assert all(chapter_text(name).startswith(f"# {title_of(name)}\n") for name in WRITTEN)


def test_every_key_and_every_plain_command_stands_in_the_chapter_of_keys() -> None:
    text = chapter_words(KEYS)
    for command in COMMANDS.values():
        assert f"`{command.key_words}" in text
        assert command.tip in text
    for ctx, _ in every_command(top_context()):
        assert f"`logbook {words_of(ctx)}" in text


@pytest.mark.parametrize("name", TABLE)
def test_every_command_is_told_of_in_a_written_chapter(name: str) -> None:
    told = "\n".join(chapter_text(each) for each in WRITTEN)
    assert re.search(rf"\blogbook {name}\b|book \S+ {name}\b", told), name


def test_every_command_has_examples_and_no_other() -> None:
    assert set(examples()) == {words_of(ctx) for ctx, _ in every_command(top_context())}


def test_keys_named_in_the_handbook_are_keys() -> None:
    """A single letter or F-key between backticks is a key of some command."""
    keys = {key for command in COMMANDS.values() for key in (command.key_words, *command.also)}
    answers = {"y", "n"}
    for name in WRITTEN:
        for key in re.findall(r"`(\w|F\d+)`", FENCE.sub("", chapter_text(name))):
            assert key in keys | answers, (name, key)


def test_the_settings_shown_are_settings(tmp_path: Path) -> None:
    shown = [line for name in ("book", "first-day") for line in code_of(chapter_text(name), "toml")]
    file = tmp_path / "settings.toml"
    file.write_text("\n".join(shown))
    settings = read_settings(file)
    assert (settings.keep_weekly, settings.theme) == (8, "contrast")
    assert set(settings.keys) <= set(with_keys(settings.keys, own_commands()))


# how it is drawn and printed


@pytest.mark.parametrize("width", [36, 76])
@pytest.mark.parametrize("name", CHAPTERS)
def test_a_chapter_fits_its_width_and_loses_no_word(name: str, width: int) -> None:
    lines = lines_of(chapter_words(name), width)
    assert max(line.cell_length for line in lines) <= width
    drawn = "".join("".join(line.plain.split()) for line in lines)
    for block in blocks_of(chapter_words(name)):
        words = "".join(block.text.split())
        if block.kind != "code":
            words = re.sub(r"`([^`]+)`|\*\*([^*]+)\*\*|\*([^*]+)\*", r"\1\2\3", words)
        assert words in drawn


@pytest.mark.parametrize("name", WRITTEN)
def test_a_chapter_uses_only_what_the_reader_draws(name: str) -> None:
    prose = FENCE.sub("", chapter_text(name))
    strange = re.findall(r"^(?:\d+\. |\||>|<|#{3,}| +- |\* ).*$", prose, re.MULTILINE)
    assert strange == []
    assert re.findall(r"(?<!!)\[[^]]*\]\(", prose) == []
    assert all(len(line) <= 100 for line in chapter_text(name).splitlines())


def test_a_chapter_is_printed_without_its_pictures(cli: CommandLine) -> None:
    printed = cli.bare("handbook", "day")
    assert printed.code == 0
    assert printed.out.startswith("# A day\n")
    assert "![" not in printed.out
    assert "## Cut and weigh\n" in printed.out
    assert cli.bare("handbook", "first").out.startswith("# The first day\n")


def test_the_list_the_whole_and_an_unknown_chapter(cli: CommandLine) -> None:
    listed = cli.bare("handbook").out.splitlines()
    assert [line.split()[0] for line in listed] == list(CHAPTERS)
    whole = cli.bare("handbook", "--all").out
    assert all(f"# {title_of(name)}\n" in whole for name in CHAPTERS)
    assert "has no chapter" in cli.bare("handbook", "dey").refusal
    assert "not both" in cli.bare("handbook", "day", "--all").wrong_usage
    with pytest.raises(Refused):
        named_chapter("")


@pytest.mark.parametrize(
    "words",
    ["licensed|electrician", "the product's\nlabel is the law|label", "never taste|Never taste"],
)
def test_the_cautions_are_there(words: str) -> None:
    told = "\n".join(chapter_text(name) for name in WRITTEN)
    assert re.search(words, told)
