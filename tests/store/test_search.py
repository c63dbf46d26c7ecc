"""Searching: every word in any order, parts of words too, with an index and without one."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Iterator
from contextlib import closing

import pytest

from logbook.actions.book import Book
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import search
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.growing.trays.looks import Look
from logbook.store import search as searching
from logbook.store.search import INDEX, held_by, index_is_true, rebuild
from logbook.text import clean_note, fold

NOTES = (
    "Großer Ärger, ph 5.8",
    'said "dry" at the edge',
    "ÉCKE links: ß",
    "a 🌱 🌱🌱 b",
    "edge, x-y * OR",
)


@pytest.fixture(params=["indexed", "SQLite without FTS5", "SQLite without trigrams"])
def filled(request: pytest.FixtureRequest, book: Book, monkeypatch: pytest.MonkeyPatch) -> Book:
    """A book with words of every kind, written with an index or without one."""
    if request.param == "SQLite without FTS5":
        monkeypatch.setattr(searching, "MODULE", "fts0")
    elif request.param == "SQLite without trigrams":
        monkeypatch.setattr(searching, "TRIGRAMS", (999, 0, 0))
    sow(book, SowDraft("radish", trays=2, lot="RA 12 Ökosaat", note="dense"))
    look(book, (101,), Look(mould="spot", mould_where="front EDGE", stem_colour="weiß"))
    for note in NOTES:
        jot(book, (102,), note)
    return book


def found(book: Book, words: str) -> list[str]:
    return [line.note or line.kind for line in search(book, words)]


FOUND = {
    "mould spot": ["look"], "front spot mou": ["look"], "edge mould": ["look"], "WEISS": ["look"],
    "ökosaat": ["dense"], "12 dense RA": ["dense"], "ger ph": [NOTES[0]], "5.8 gross": [NOTES[0]],
    "Ärg": [NOTES[0]], "ß": ["look", NOTES[0], NOTES[2]], "🌱": [NOTES[3]], "🌱🌱": [NOTES[3]],
    '"dry"': [NOTES[1]], "edge dry": [NOTES[1]], "* x-y": [NOTES[4]], "OR": [NOTES[4]],
    "edge": ["look", NOTES[1], NOTES[4]], "nowhere": [], "mould nowhere": [], "zq": [],
    "mould dense": [], "%": [], "a_b": [],
}  # fmt: skip


def test_every_word_is_found_in_any_order(filled: Book) -> None:
    assert {words: found(filled, words) for words in FOUND} == FOUND


def test_what_is_undone_is_still_found(filled: Book) -> None:
    jot(filled, (102,), "a slip of the pen")
    undo(filled)
    assert [line.struck for line in search(filled, "pen slip")] == [True]


def test_many_are_met_on_a_walk_and_few_are_gathered(
    filled: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    gathered = found(filled, "edge")
    monkeypatch.setattr(searching, "MANY", 1)
    assert found(filled, "edge") == gathered
    with filled.reading() as reading:
        assert not held_by(reading, "edge")[2]
        assert held_by(reading, "dry edge")[2]


@pytest.mark.file
def test_an_index_left_behind_is_not_trusted_and_catches_up(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    jot(book, (), "before")
    with monkeypatch.context() as without:
        without.setattr(searching, "MODULE", "fts0")
        jot(book, (), "meanwhile")
        assert index_is_true(book.file.path)
    assert not index_is_true(book.file.path)
    assert found(book, "meanwhile") == ["meanwhile"]
    jot(book, (), "after")
    assert index_is_true(book.file.path)
    assert found(book, "mean") == ["meanwhile"]


def _texts(chance: random.Random) -> Iterator[str]:
    letters = "ab ﬁßſİ'\"é🌱\u0301-*"
    for _ in range(40):
        yield "".join(chance.choice(letters) for _ in range(chance.randrange(1, 12)))


def test_any_words_are_found_by_what_holds_them(book: Book) -> None:
    """Held against a search of every text by Python's own `in`."""
    chance = random.Random(11)
    texts = list(_texts(chance))
    with book.writing() as act:
        for text in texts:
            act.entry("jot", (), note=f"={text}")
    for text in _texts(chance):
        words = fold(text).split()
        if words:
            held = [each for each in texts if all(word in fold(f"={each}") for word in words)]
            assert sorted(found(book, text)) == sorted(clean_note(f"={each}") for each in held), (
                text
            )


@pytest.mark.file
def test_the_index_is_compared_and_made_again(book: Book) -> None:
    jot(book, (), "an edge")
    with closing(sqlite3.connect(book.file.path)) as connection, connection:
        connection.execute(f"INSERT INTO {INDEX} (rowid, words) VALUES (1000, 'astray')")
        connection.execute(f"DELETE FROM {INDEX}_docsize WHERE id = 1000")
    assert not index_is_true(book.file.path)
    with book.writing() as act:
        rebuild(act.writer)
    assert index_is_true(book.file.path)
    assert found(book, "edge") == ["an edge"]
