"""Names that commands and options once had still work, and nothing shows them."""

from __future__ import annotations

import click
import pytest

from logbook.cli.app import top_context
from logbook.cli.listing import every_command, words_of
from logbook.cli.manual import manual_page
from logbook.cli.names import COMMANDS, GUESSES, OPTIONS
from logbook.tried import TRIED, meant_by
from tests.conftest import CommandLine


@pytest.mark.parametrize("old", [*COMMANDS, *GUESSES])
def test_an_earlier_name_is_the_command(cli: CommandLine, old: str) -> None:
    shown = cli.done(*old.split(), "--help").out
    assert shown.startswith(f"Usage: logbook {COMMANDS.get(old) or GUESSES[old]}")


def test_earlier_options_do_the_same(cli: CommandLine) -> None:
    cli.done("sow", "kale", "--numbers", "101", "--colour=red")
    cli.done("look", "101", "--sign", "true leaves")
    new = ("trial", "new", "x", "--crop", "kale", "--arm", "a=30g", "--arm", "b=40g", "--dry-run")
    old = ("--thing", "density", "--repeats=2", "--seed", "7", "--weight", "yield=2")
    now = ("--factor", "density", "--replicates=2", "--draw", "7", "--priority", "yield=2")
    assert cli.done(*new, *old).out == cli.done(*new, *now).out
    gap = cli.done("reckon", "repeats", "--spread", "8%", "--gap", "10%").out
    assert gap == cli.done("reckon", "replicates", "--spread", "8%", "--difference", "10%").out
    cli.done("places", "change", "Rack 2", "--earlier")
    assert cli.done("places").out.index("Rack 2") < cli.done("places").out.index("Rack 1")
    assert cli.done("schema", "give-out").out == cli.done("schema", "export").out


def test_a_note_keeps_its_words(cli: CommandLine) -> None:
    cli.done("sow", "kale", "--numbers", "101")
    cli.done("jot", "101", "take-in")
    assert cli.done("search", "take-in", "--json").json["entries"][0]["note"] == "take-in"


def test_nothing_lists_an_earlier_name() -> None:
    found = {words_of(ctx): command for ctx, command in every_command(top_context())}
    assert not set(found) & {*COMMANDS, *GUESSES, *TRIED}
    for words, renamed in OPTIONS.items():
        names = {name for option in found[words].params for name in option.opts}
        assert names >= set(renamed.values())
        assert not names & set(renamed)
    page = manual_page()
    names = {line.split()[1].strip('"') for line in page.splitlines() if line.startswith(".SS ")}
    assert "trace" in names
    assert not names & {old.replace("-", r"\-") for old in COMMANDS}


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("note", "jot"), ("backup", "copy"), ("harvest", "weigh"), ("cut", "weigh"), ("help", "--help"),
        ("calc", "reckon"), ("inspect", "look"), ("user", "me"), ("rm", "strike"), ("Recipes", "templates"),
        ("allergens", "templates allergens"),
    ],
)  # fmt: skip
def test_what_is_tried_first_is_answered_with_the_command(
    cli: CommandLine, word: str, meant: str
) -> None:
    assert f"Use `logbook {meant}`." in cli(word).err


def test_every_word_that_is_tried_leads_to_a_command() -> None:
    found = {words_of(ctx): command for ctx, command in every_command(top_context())}
    for word in TRIED:
        name = meant_by(word).partition("--")[0].strip()
        name = name.removesuffix(" first-day")
        assert not name or isinstance(found.get(name), click.Command), word
