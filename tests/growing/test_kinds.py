"""The table of kinds of entries is whole, and what depends on a kind derives from it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import logbook
from logbook.cli.reader import chapter_words
from logbook.growing.chores import CHORES, NOUNS, WORDS
from logbook.growing.kinds import KINDS, Kind, kind_of
from logbook.growing.page_filter import KINDS as FILTERS

WRITES = re.compile(r"\bact\.entry\(\s*\"(\w+)\"")
"""How an action names the kind that it writes."""


@pytest.mark.parametrize("kind", KINDS.values(), ids=str)
def test_every_kind_has_its_words_and_shows_where_it_is_looked_for(kind: Kind) -> None:
    assert all((kind.name, kind.done, kind.noun, kind.purpose, kind.joint))
    assert ("placing" in kind.carries) == bool(kind.puts)
    for group in kind.filters:
        assert kind.name in FILTERS[group]
        assert f"**{group}**" in chapter_words("entries")
    assert kind.purpose in chapter_words("entries")


def test_every_kind_that_an_action_writes_is_in_the_table() -> None:
    actions = Path(logbook.__file__).parent / "actions"
    written = {name for file in actions.rglob("*.py") for name in WRITES.findall(file.read_text())}
    assert len(written) > 15
    assert written <= set(KINDS)


def test_every_chore_has_a_word_and_a_noun() -> None:
    assert set(CHORES) == set(WORDS) == set(NOUNS)
    assert (WORDS["water"], NOUNS["water"], NOUNS["lid_on"]) == ("water", "watering", "lid on")


def test_what_a_newer_program_wrote_is_named_in_words() -> None:
    assert "newer" in kind_of("levitate").done
    assert not kind_of("levitate").replaced
