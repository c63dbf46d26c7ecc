"""The table of kinds of entries is whole, and what depends on a kind derives from it."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

import click
import pytest

import logbook
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.entry_says import SAY
from logbook.actions.trays.page import page
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.cli.reader import chapter_words
from logbook.cli.schemas import schema_of
from logbook.cli.trays.page import page as page_command
from logbook.clock import FixedClock
from logbook.growing.kinds import KINDS, Kind, groups, kind_of, purposes
from logbook.growing.page_filter import KINDS as FILTERS
from logbook.growing.room.water import WaterReading
from logbook.growing.trays.chores import CHORES, NOUNS, WORDS
from logbook.store.entry_details import READERS

NOW = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)

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


def test_every_kind_is_in_the_schema_and_every_filter_is_completed() -> None:
    entry = schema_of("page")["properties"]["entries"]["items"]
    assert entry["properties"]["kind"]["enum"] == list(KINDS)
    option = next(each for each in page_command.params if each.name == "kind")
    every = option.shell_complete(click.Context(page_command), "")
    assert [each.value for each in every] == list(FILTERS)


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


def test_all_that_a_kind_carries_can_be_read_and_said() -> None:
    carried = {each for kind in KINDS.values() for each in kind.carries} - {"lot"}
    assert carried == set(READERS) == set(SAY)


def test_a_new_kind_shows_once_it_is_declared(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    # given a kind that nobody has written code for
    fed = Kind("feed", "fed", "feeding", "feed mixed into the water", ("watering",))
    monkeypatch.setitem(KINDS, "feed", fed)
    book = begin_book(tmp_path / "room.book", BeginDraft(), FixedClock(NOW))
    # when it is written with what it carries
    with book.writing() as act:
        entry = act.entry("feed", [], note="kelp")
        act.put("watering", entry, ph=6.2)
    # then a page says it and its numbers, and it is put right and struck as any other
    (line,) = page(book)
    assert (line.words, line.said.water) == ("fed: pH 6.2", WaterReading(ph=6.2))
    assert groups()["feed"] == ("feed",)
    assert "feed mixed into the water" in purposes()["feed"]
    put_right = replace_entry(book, entry, "misread", Changes(note="seaweed"))
    assert put_right.words.startswith("struck out feeding; entry ")
    assert [each.words for each in page(book) if not each.struck][-1] == "fed: pH 6.2"
