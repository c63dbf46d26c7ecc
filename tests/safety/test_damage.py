"""A damaged file: a sentence with the way back, and what can still be read is shown."""

from __future__ import annotations

import contextlib
import random
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.checking import check
from logbook.actions.care.keeping import copy_book
from logbook.actions.copies import copies_folder
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page, search
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.tray_page import tray_page
from logbook.text import HARMFUL, Refused
from logbook.ways import in_shell
from tests.safety.conftest import Run, overwrite

PAGE = 4096


def root_page(book: Book, name: str) -> int:
    with closing(sqlite3.connect(book.file.path)) as connection:
        row = connection.execute("SELECT rootpage FROM sqlite_schema WHERE name = ?", (name,))
        return int(row.fetchone()[0])


def spoil(book: Book, number: int) -> None:
    overwrite(book.file.path, (number - 1) * PAGE, b"\xff" * PAGE)


@pytest.mark.parametrize("data", [b"", b"\x00" * 4096, b"hello, this is no book\n" * 300])
def test_a_book_that_cannot_be_opened_names_the_newest_good_copy(data: bytes, book: Book) -> None:
    copy = copy_book(book)
    book.file.path.write_bytes(data)

    with pytest.raises(Refused) as refused:
        open_book(book.file.path)

    assert f"The newest good copy is {copy.path}" in in_shell(str(refused.value))
    assert f"logbook restore {copy.path}" in in_shell(str(refused.value))


def test_a_damaged_copy_is_passed_over_for_an_older_good_one(book: Book) -> None:
    copies_folder(book.file.path).mkdir(mode=0o700)
    older = copy_book(book, book.file.path.parent / "copies" / "room-2026-04-01.book")
    newer = copy_book(book)
    overwrite(newer.path, newer.size // 2, b"\xff" * 512)
    spoil(book, 1)

    with pytest.raises(Refused) as refused:
        open_book(book.file.path)

    assert str(older.path) in in_shell(str(refused.value))


def test_without_a_copy_the_sentence_says_so(book: Book) -> None:
    spoil(book, 2)
    spoil(book, root_page(book, "book"))

    with pytest.raises(Refused, match=r"damaged.*no good copy beside it"):
        open_book(book.file.path)


def test_another_program_s_file_is_not_called_a_damaged_book(book: Book) -> None:
    other = book.file.path.with_name("letter.txt")
    other.write_text("dear")

    with pytest.raises(Refused, match=r"isn't a book: it is not a database of this program\.$"):
        open_book(other)


def test_where_pages_allow_a_damaged_book_is_read(
    run: Run, book: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    """The weights are gone; the racks and the round need them only for trays that were weighed."""
    spoil(book, root_page(book, "ix_entry_at"))

    assert run("round") == 0
    assert run("racks") == 0
    capsys.readouterr()
    assert run("page") == 1
    assert "damaged" in capsys.readouterr().err


def test_a_damaged_page_met_while_reading_names_the_way_back(book: Book) -> None:
    copy = copy_book(book)
    spoil(book, root_page(book, "entry"))

    with pytest.raises(Refused) as refused:
        page(book)

    assert str(copy.path) in in_shell(str(refused.value))


def test_a_damaged_page_met_while_writing_leaves_all_as_it_was(book: Book) -> None:
    spoil(book, root_page(book, "ix_entry_at"))
    before = book.file.path.read_bytes()

    with pytest.raises(Refused, match="damaged"):
        jot(book, (), "more")

    assert book.file.path.read_bytes() == before


VIEWS: tuple[Callable[[Book], object], ...] = (
    the_round,
    page,
    racks,
    lambda book: tray_page(book, 101),
    lambda book: search(book, "paler"),
    lambda book: jot(book, (102,), "more"),
    lambda book: check(book.file.path, book.clock),
)


def test_whatever_the_damage_the_answer_is_a_sentence(book: Book) -> None:
    """Pages of noise, pages of zeros, stray bytes, a file cut short: a view or a Refused."""
    good = book.file.path.read_bytes()
    chance = random.Random(2)
    for _ in range(80):
        data = bytearray(good)
        at = chance.randrange(len(data) // PAGE) * PAGE
        match chance.choice(["noise", "zeros", "bytes", "short"]):
            case "noise":
                data[at : at + PAGE] = chance.randbytes(PAGE)
            case "zeros":
                data[at : at + PAGE] = bytes(PAGE)
            case "bytes":
                for _ in range(chance.randint(1, 200)):
                    data[chance.randrange(len(data))] = chance.randrange(256)
            case _:
                del data[chance.randrange(len(data)) :]
        book.file.path.write_bytes(data)
        for view in VIEWS:
            with contextlib.suppress(Refused):
                view(open_book(book.file.path, book.clock))


def test_what_the_check_command_finds_damaged_is_not_written_to(run: Run, book: Book) -> None:
    """An index that leads to other entries: what is counted by it would be wrong."""
    jot(book, (), "before")
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as connection:
        connection.execute("PRAGMA writable_schema=ON")
        connection.execute(
            "UPDATE sqlite_schema SET sql = replace(sql, '(at)', '(written_at)') "
            "WHERE name = 'ix_entry_at'"
        )
    named = ("--book", str(book.file.path))
    assert run(*named, "check") == 1

    assert run(*named, "check", "--quick") == 1
    assert run(*named, "jot", "room", "after") == 1

    book = open_book(book.file.path)
    with pytest.raises(Refused, match="was found damaged"):
        jot(book, (), "after")


def test_what_another_program_wrote_into_the_book_harms_no_terminal(
    run: Run, book: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    """Control codes and marks that turn the direction of text, in whatever people name or note."""
    harm = "\x1b]0;x\x07\u202e\u2066\x9b"
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as connection:
        connection.create_function("harmed", 1, lambda text: f"{harm}{text}\x00{harm}")
        for table, column in (
            ("entry", "note"), ("entry", '"by"'), ("book", "name"), ("place", "name"),
            ("template_version", "crop"), ("template_version", "variety"), ("stage", "name"),
            ("batch_lot", "lot"),
        ):  # fmt: skip
            connection.execute(f"UPDATE {table} SET {column} = harmed({column})")

    for words in (
        "round",
        "page",
        "tray 101",
        "batch 1",
        "racks",
        "search paler",
        "places",
        "room",
    ):
        for asked in ((), ("--json",)):
            assert run(*words.split(), *asked) == 0, words
            told = capsys.readouterr()
            assert not HARMFUL.search(told.out + told.err), words
            assert not re.search(r"\\u00[01]|\\u20[26]", told.out), words
    assert "paler corner" in page(book)[-1].note
