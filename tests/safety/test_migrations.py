"""Bringing a book up to date: whole or not at all."""

from __future__ import annotations

import re
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.checking import wrong_summaries
from logbook.actions.care.closing import days_not_as_closed
from logbook.actions.packs.trace import trace
from logbook.actions.trays.round import the_round
from logbook.store.file import opening as upgrading
from logbook.store.file.book_file import BookFile
from logbook.store.file.copies import copy_file
from logbook.store.file.health import integrity_faults, table_names
from logbook.store.file.opening import opened
from logbook.store.file.restoring import loss_of
from logbook.store.revision import HEAD, RENAMED
from logbook.store.rows import moment, stored
from logbook.store.search import INDEX
from logbook.text import Refused
from tests.bench.processes import ROOT
from tests.safety.conftest import notes

ASSETS = sorted((ROOT / "tests" / "assets").glob("book-*.sql"))
NEXT = "next"
MOMENT = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d\.\d{6}")
DROPPED = ("note_key", "zone", "day_start", "day_end", "lot")
"""Columns that a script has dropped since; none but those whose content went elsewhere."""

SCRIPT = '''"""A script for a test."""
import sqlalchemy as sa
from alembic import op

revision = "{next}"
down_revision = "{head}"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("entry", sa.Column("mood", sa.String(), server_default="fine", nullable=False))
    {then}
'''

REBUILD = """with op.batch_alter_table("template_version") as table:
        table.alter_column("variety", new_column_name="sort")"""

Rows = dict[str, list[dict[str, Any]]]
Script = Callable[[str], None]


@pytest.fixture
def script(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Script:
    """Add a script after the newest one, for this test."""
    folder = tmp_path / "migrations"
    shutil.copytree(upgrading.MIGRATIONS, folder)

    def add(then: str) -> None:
        text = SCRIPT.format(next=NEXT, head=HEAD, then=then)
        (folder / "versions" / "next.py").write_text(text)
        monkeypatch.setattr(upgrading, "MIGRATIONS", folder)
        monkeypatch.setattr(upgrading, "HEAD", NEXT)

    return add


def rows_of(path: Path) -> Rows:
    """Give all rows of all tables by column name."""
    with closing(sqlite3.connect(path)) as connection:
        connection.row_factory = sqlite3.Row
        return {
            table: [
                {name: _same(value) for name, value in dict(row).items()}
                for row in connection.execute(f'SELECT * FROM "{table}"')
            ]
            for table in table_names(connection)
        }


def _same(value: Any) -> Any:
    """A moment that is a text, as books before 0015 kept it, like one that is seconds."""
    told = isinstance(value, str) and MOMENT.fullmatch(value)
    return stored(moment(value)) if told else value


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def test_a_good_script_changes_the_tables_and_keeps_every_row(book: Book, script: Script) -> None:
    script(REBUILD)
    before, path = rows_of(book.file.path), book.file.path

    opened(path)

    after = rows_of(path)
    assert {table: len(rows) for table, rows in after.items()} == {
        table: len(rows) for table, rows in before.items()
    }
    assert after["stage"] == before["stage"]
    assert {row["mood"] for row in after["entry"]} == {"fine"}
    assert integrity_faults(path) == []


def test_a_copy_from_before_lies_beside_the_book(book: Book, script: Script) -> None:
    script("pass")
    path, before = book.file.path, dump(book.file.path)

    opened(path)

    copy = path.with_name(f"room.book.before-{NEXT}")
    assert dump(copy) == before
    assert copy.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize(
    ("then", "words"),
    [
        ("raise ValueError('the script is wrong')", "ValueError"),
        ("op.execute('SELECT * FROM nowhere')", "no such table: nowhere"),
        ("op.execute('DELETE FROM look')\n    op.execute('DELETE FROM watering')", "from watering"),
        ("op.drop_table('watering')", "from watering"),
        ("op.execute('DELETE FROM weight')\n    op.execute('DELETE FROM tray WHERE number = 105')",
         "point to nothing"),
    ],
)  # fmt: skip
def test_a_failing_script_leaves_no_trace(
    then: str, words: str, book: Book, script: Script
) -> None:
    script(then)
    before = book.file.path.read_bytes()

    with pytest.raises(Refused, match=f"is as it was.*{words}"):
        opened(book.file.path)

    assert book.file.path.read_bytes() == before
    assert not book.file.path.with_name("room.book-journal").exists()


def test_the_book_is_locked_against_other_writers_from_the_copy_on(
    book: Book, script: Script, monkeypatch: pytest.MonkeyPatch
) -> None:
    script("pass")
    refused: list[str] = []

    def copying(source: Path, target: Path) -> None:
        with closing(sqlite3.connect(source, timeout=0, isolation_level=None)) as other:
            try:
                other.execute("UPDATE entry SET note = 'between'")
            except sqlite3.OperationalError as fault:
                refused.append(str(fault))
        copy_file(source, target)

    monkeypatch.setattr(upgrading, "copy_file", copying)

    opened(book.file.path)

    assert refused == ["database is locked"]


def test_a_second_program_that_comes_late_neither_copies_nor_upgrades(
    book: Book, script: Script
) -> None:
    script("pass")
    path = book.file.path
    opened(path)
    copy = path.with_name(f"room.book.before-{NEXT}")
    first = copy.read_bytes()

    upgrading.upgrade(BookFile(path), HEAD)

    assert copy.read_bytes() == first


def test_without_room_for_the_copy_nothing_is_upgraded(
    book: Book, script: Script, monkeypatch: pytest.MonkeyPatch
) -> None:
    script("pass")
    monkeypatch.setattr("logbook.store.file.rooms.free_bytes", lambda _folder: 0)
    before = book.file.path.read_bytes()

    with pytest.raises(Refused, match="no room"):
        opened(book.file.path)

    assert book.file.path.read_bytes() == before


def test_a_book_of_a_newer_program_is_refused_and_not_touched(book: Book) -> None:
    with closing(sqlite3.connect(book.file.path)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    before = book.file.path.read_bytes()

    with pytest.raises(Refused, match=r"newer logbook \(revision 9999.*Update the program"):
        open_book(book.file.path)

    assert book.file.path.read_bytes() == before


def test_a_book_without_a_revision_is_called_damaged(book: Book) -> None:
    with closing(sqlite3.connect(book.file.path)) as connection, connection:
        connection.execute("DELETE FROM alembic_version")

    with pytest.raises(Refused, match="damaged"):
        open_book(book.file.path)


def test_the_constant_names_the_newest_script() -> None:
    assert upgrading.known_revisions()[-1] == HEAD


def test_every_revision_has_a_filled_book_among_the_assets() -> None:
    assert [path.stem.removeprefix("book-") for path in ASSETS] == upgrading.known_revisions()


@pytest.mark.parametrize("asset", ASSETS, ids=lambda path: path.stem)
def test_a_filled_book_of_every_revision_opens_with_each_row_intact(
    asset: Path, tmp_path: Path
) -> None:
    path = tmp_path / "old.book"
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(asset.read_text(encoding="utf-8"))
        table = "book" if asset.stem < "book-0006" else "place"
        with connection:
            connection.execute(f"UPDATE {table} SET day_start = 400 WHERE id = 1")
    before = rows_of(path)
    assert all(rows for rows in before.values()), "a table without a row proves nothing"

    book = open_book(path)

    after = rows_of(path)
    for table, rows in before.items():
        kept = after[table if table in after else RENAMED[table]]
        assert len(kept) >= len(rows)
        for row in rows:
            said = {name: value for name, value in row.items() if name not in DROPPED}
            if "per_kwh" in said:  # a decimal since 0014
                said["per_kwh"] = str(said["per_kwh"])
            assert any(said.items() <= each.items() for each in kept), (table, row)
    with book.reading() as reading:
        assert reading.places.by_id[book.about.room].kind == "room"
    assert (book.about.zone, book.about.day_start, book.about.day_end) == (
        "Europe/London", 400, 1140,
    )  # fmt: skip
    lots = {each["lot"] for each in (before.get("batch_lot") or before["batch"]) if each["lot"]}
    assert lots
    assert {
        each.lot for lot in lots for batch in trace(book, lot).batches for each in batch.lots
    } == lots
    assert wrong_summaries(book) == []
    assert days_not_as_closed(BookFile(path), book.today()) == []
    assert the_round(book)
    assert integrity_faults(path) == []
    copy = upgrading.before_update(path, HEAD)
    if copy.exists():
        lost = loss_of(path, copy)
        assert lost is not None
        assert (lost.entries, lost.rows) == (0, {})


@pytest.mark.parametrize("asset", ASSETS, ids=lambda path: path.stem)
def test_an_asset_has_the_tables_that_its_revision_makes(asset: Path, tmp_path: Path) -> None:
    """A released script makes the same bytes for ever; the newest asset is made while unreleased."""
    old, new = BookFile(tmp_path / "old.book"), BookFile(tmp_path / "new.book")
    with closing(sqlite3.connect(old.path)) as connection:
        connection.executescript(asset.read_text(encoding="utf-8"))
    new.path.touch()
    upgrading.migrate(new, asset.stem.removeprefix("book-"))

    def tables(path: Path) -> dict[str, str]:
        with closing(sqlite3.connect(path)) as connection:
            return {
                name: sql
                for name, sql in connection.execute("SELECT name, sql FROM sqlite_schema")
                if not name.startswith(INDEX)
            }

    assert tables(old.path) == tables(new.path)


def test_alembic_is_not_loaded_for_a_book_that_is_current(book: Book) -> None:
    code = (
        "import sys; from pathlib import Path; from logbook.actions.book import open_book; "
        "open_book(Path(sys.argv[1])); print('alembic' in sys.modules)"
    )

    told = subprocess.run(
        [sys.executable, "-c", code, str(book.file.path)],
        capture_output=True, text=True, check=True, cwd=ROOT,
    )  # fmt: skip

    assert told.stdout == "False\n"
    assert notes(book)
