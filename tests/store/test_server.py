"""A book on a server, where LOGBOOK_TEST_POSTGRES names one: the same book as in a file."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.checking import check_server, look_after, mend_beside
from logbook.actions.care.keeping import copy_book, daily_copy
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import search
from logbook.clock import FixedClock
from logbook.exchange.exporting import export_book
from logbook.exchange.moving import move
from logbook.store.file.book_file import Patience
from logbook.store.file.faults import CannotWrite, Newer, NoBook, NotABook
from logbook.store.server import server_book
from logbook.store.server.address import Address, address_of, connect
from logbook.store.server.server_book import LOCK, ServerBook
from logbook.text import Refused
from tests.conftest import NOW, CommandLine, SampleMaker
from tests.on_server import SERVER, Databases, closed

pytestmark = pytest.mark.skipif(not SERVER, reason="LOGBOOK_TEST_POSTGRES names no server")
SAID = (
    ["round"], ["due"], ["racks"], ["page"], ["deliveries"], ["plan", "--weeks", "2"], ["orders"], ["seed"],
    ["cold"], ["yields"], ["costs"], ["air", "Rack 1"], ["light"], ["trial"], ["templates"], ["upkeep"],
    ["search", "mould"], ["search", "100%"], ["batch"], ["tray"], ["lot"], ["month"], ["bills"], ["shopping"],
    ["trace", "cress"], ["calendar"], ["export", "--harvests", "-"],
)  # fmt: skip
"""Commands that read the sample in every noun; what one refuses, it refuses on both."""


@pytest.fixture
def empty(databases: Databases) -> Iterator[Address]:
    """An empty database."""
    yield databases.new()
    databases.drop()


@pytest.fixture
def there(book: Book, empty: Address) -> Iterator[Book]:
    """A book on the server, moved there from a file."""
    made, _ = move(book, empty, book.clock, "tester")
    yield made
    closed(made)


def test_the_sample_says_the_same_on_a_server_and_comes_back_byte_for_byte(
    sample_book: SampleMaker, empty: Address, tmp_path: Path, cli: CommandLine
) -> None:
    here = sample_book(tmp_path / "here.book", NOW, "Europe/London")
    made, manifest = move(here, empty, here.clock, here.by)
    assert manifest.rows > 10_000
    for words in SAID:
        ran = [
            cli.bare("--book", where, "--now", cli.now, *words)
            for where in (str(here.file.path), empty.given)
        ]
        assert ran[1] == ran[0], words
        assert "Something went wrong" not in ran[0].err
    back, _ = move(made, tmp_path / "back.book", here.clock, here.by)
    for each, name in ((here, "a.zip"), (back, "b.zip")):
        export_book(each, tmp_path / name)
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    closed(made)


def test_new_rows_are_numbered_after_those_that_were_moved(there: Book) -> None:
    jot(there, [], "wet floor")
    jot(there, [], "dry floor")
    (first,), (second,) = search(there, "FLOOR wet"), search(there, "floor dr")
    assert second.id == first.id + 1
    assert all(each.severity == "good" for each in check_server(there))
    assert mend_beside(there) == []
    assert look_after(there) == []
    for make in (copy_book, daily_copy):
        with pytest.raises(Refused, match="is on a server"):
            make(there)


def test_what_stands_in_the_way_is_a_sentence(
    there: Book, empty: Address, databases: Databases
) -> None:
    with pytest.raises(NotABook, match="already; it was not touched"):
        move(there, empty, there.clock, "tester")
    with pytest.raises(NoBook, match="There is no book at"):
        open_book(databases.new())
    nobody = address_of(empty.given.replace("//grower:", "//grower:x"))
    with pytest.raises(NotABook, match="doesn't take this name or password"):
        open_book(nobody)
    with pytest.raises(NoBook, match="no such database or user"):
        open_book(address_of(f"{empty.given}x"))
    with pytest.raises(NotABook, match="agree on encryption"):
        open_book(address_of(f"{empty.given}?sslmode=require"))
    with connect(empty, 5) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(Newer, match="written by a newer logbook"):
        open_book(empty)
    stranger = databases.new()
    with connect(stranger, 5) as connection:
        connection.execute("CREATE TABLE entry (id integer)")
    with pytest.raises(NotABook, match="no book of this program"):
        open_book(stranger)


def test_one_writes_at_a_time_and_who_waits_is_told(
    there: Book, empty: Address, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(server_book, "TOLD_SECONDS", 0.05)
    monkeypatch.setattr(server_book, "PATIENCE_SECONDS", 0.1)
    told: list[str] = []
    there.file.patience = Patience(say=told.append)
    with connect(empty, 5) as other, other.transaction():
        other.execute(LOCK)
        with pytest.raises(CannotWrite, match="still writing to the book: nothing was written"):
            jot(there, [], "lost")
    assert told == ["Another program is writing to the book; waiting for it."]
    jot(there, [], "kept")
    assert not search(there, "lost")


def test_an_act_whose_answer_is_lost_is_looked_up(there: Book, empty: Address) -> None:
    """The connection breaks at COMMIT, once after the server did it and once before."""
    assert isinstance(there.file, ServerBook)
    for before, kept in ((False, True), (True, False)):
        words = f"before {before}"
        lose_answer(there.file, empty, before=before)
        if kept:
            jot(there, [], words)
        else:
            with pytest.raises(Refused, match="Nothing was written"):
                jot(there, [], words)
        del there.file._keep
        there.folds.clear()
        assert len(search(there, words)) == kept


def lose_answer(file: ServerBook, address: Address, *, before: bool) -> None:
    """Let the server end the connection at the next COMMIT."""
    keep = file._keep

    class Broken:
        def __init__(self, connection: object) -> None:
            self.connection = connection

        def execute(self, sql: str, *values: object) -> object:
            if sql == "COMMIT":
                (own,) = self.connection.execute("SELECT pg_backend_pid()").fetchone()  # type: ignore[attr-defined]
                if not before:
                    self.connection.execute("COMMIT")  # type: ignore[attr-defined]
                with connect(address, 5) as other:
                    other.execute("SELECT pg_terminate_backend(%s, 5000)", (own,))
            return self.connection.execute(sql, *values)  # type: ignore[attr-defined]

    file._keep = lambda connection: keep(Broken(connection))  # type: ignore[method-assign]


def test_a_server_that_was_gone_is_used_again_once_it_is_back(there: Book, empty: Address) -> None:
    jot(there, [], "one")
    with connect(empty, 5) as other:
        other.execute(
            "SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity "
            "WHERE datname = current_database() AND pid <> pg_backend_pid()"
        )
    jot(there, [], "two")
    assert len(search(there, "two")) == 1


def test_what_another_writes_is_heard_of(there: Book, empty: Address) -> None:
    assert isinstance(there.file, ServerBook)
    there.file.stamp()
    assert there.file.told.wait(10)
    there.file.told.clear()
    before = there.file.stamp()
    jot(there, [], "my own")
    other = open_book(empty, FixedClock(NOW), "other")
    jot(other, [], "seen")
    closed(other)
    assert there.file.told.wait(10)
    assert there.file.stamp() == (before or 0) + 1


def test_writers_at_once_lose_nothing(there: Book, empty: Address) -> None:
    def write(name: str) -> None:
        mine = open_book(empty, FixedClock(NOW), name)
        for count in range(10):
            jot(mine, [], f"crowd {count}")
        closed(mine)

    each = [threading.Thread(target=write, args=(f"w{count}",)) for count in range(4)]
    for one in each:
        one.start()
    for one in each:
        one.join()
    with there.reading() as reading:
        ids = [
            row[0]
            for row in reading.rows("SELECT id FROM entry WHERE note LIKE 'crowd%' ORDER BY id")
        ]
    assert len(ids) == 40
    assert ids == list(range(ids[0], ids[0] + 40))
