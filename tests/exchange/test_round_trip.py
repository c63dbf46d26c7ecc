"""Giving out and taking in: byte for byte the same again, or nothing at all."""

from __future__ import annotations

import csv
import hashlib
import json
import sqlite3
import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import cast

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book, open_book
from logbook.clock import FixedClock
from logbook.exchange.exporting import export_book
from logbook.exchange.importing import import_book
from logbook.store.file.book_file import BookFile
from logbook.store.file.leftovers import unfinished_of
from logbook.store.revision import HEAD
from logbook.store.search import index_is_true, wrong_words
from logbook.text import LONGEST_NAME, Refused, clean
from logbook.ways import Way

CLOCK = FixedClock(datetime(2026, 4, 14, 12, tzinfo=UTC))
ASSETS = Path(__file__).parents[1] / "assets"


def contents(folder: Path) -> dict[str, bytes]:
    """Give the files of a folder."""
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def test_a_book_comes_back_byte_for_byte(book: Book, tmp_path: Path) -> None:
    given = export_book(book, tmp_path / "one")
    taken, manifest = import_book(tmp_path / "one", tmp_path / "new.book", CLOCK)
    export_book(taken, tmp_path / "two")
    assert contents(tmp_path / "one") == contents(tmp_path / "two")
    assert manifest == given
    assert len(contents(tmp_path / "one")) == len(given.files) + 1


def test_giving_out_twice_gives_the_same_bytes_zipped_too(book: Book, tmp_path: Path) -> None:
    export_book(book, tmp_path / "one.zip")
    with sqlite3.connect(book.file.path) as connection:  # wherever its rows lie in the file
        connection.execute("CREATE TEMP TABLE rows AS SELECT * FROM entry_tray")
        connection.execute("DELETE FROM entry_tray")
        connection.execute("INSERT INTO entry_tray SELECT * FROM rows ORDER BY rowid DESC")
    connection.close()
    export_book(book, tmp_path / "two.ZIP")
    export_book(book, tmp_path / "folder")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.ZIP").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as archive:
        inside = {name: archive.read(name) for name in archive.namelist()}
    assert inside == contents(tmp_path / "folder")
    taken, _ = import_book(tmp_path / "one.zip", tmp_path / "new.book", CLOCK)
    export_book(taken, tmp_path / "again")
    assert contents(tmp_path / "again") == inside


@pytest.mark.parametrize("revision", ["0001", "0005", "0012"])
def test_what_an_older_logbook_exported_is_found_by_its_words(
    revision: str, tmp_path: Path
) -> None:
    """Exports hold no words of entries, and only the script of 0005 gathers them."""
    old = tmp_path / "old.book"
    with sqlite3.connect(old) as connection:
        connection.executescript((ASSETS / f"book-{revision}.sql").read_text(encoding="utf-8"))
    connection.close()
    export_book(cast("Book", BookFile(old)), tmp_path / "one")  # as that program did
    taken, manifest = import_book(tmp_path / "one", tmp_path / "new.book", CLOCK)
    assert manifest.revision == revision
    with taken.reading() as reading:
        assert wrong_words(reading, 0, 2**62) == 0
    assert index_is_true(taken.file.path)


NASTY = st.text(max_size=40).map(clean) | st.builds(
    lambda head, rest: clean(head + rest),
    st.sampled_from(["=", "+", "-", "@", "'", '"', ";", ",", "\n", "a\nb", "[/]", "NULL", "0x1"]),
    st.text(max_size=20),
)


@settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    texts=st.lists(NASTY, min_size=8, max_size=8),
    numbers=st.lists(st.floats(0.01, 2_000), min_size=3, max_size=3),
)
def test_any_text_and_number_comes_back(
    written: Path, begun: Path, texts: list[str], numbers: list[float]
) -> None:
    with TemporaryDirectory() as folder:
        # given a book with such texts and numbers in it
        one, two = Path(folder, "one.book"), Path(folder, "two.book")
        one.write_bytes(written.read_bytes())
        two.write_bytes(begun.read_bytes())
        with sqlite3.connect(one) as connection:
            for entry, text in enumerate(texts, 1):
                connection.execute(
                    "UPDATE entry SET note = ?, by = ? WHERE id = ?",
                    (text, text[:LONGEST_NAME], entry),
                )
            connection.execute("UPDATE batch SET grams_per_tray = ?", (numbers[0],))
            connection.execute("UPDATE batch_lot SET lot = ?, grams = ?", (texts[0], numbers[0]))
            connection.execute("UPDATE tray SET colour = ?", (texts[1],))
            connection.execute("UPDATE place SET name = ? || id", (texts[2],))
            connection.execute("UPDATE watering SET amount_ml = ?", (numbers[1],))
            connection.execute("UPDATE look SET height_mm = ?, uneven = ?", (numbers[2], texts[3]))
            connection.execute("UPDATE template_version SET notes = ?", (texts[4],))
        connection.close()
        # when it is given out and taken in
        export_book(open_book(one, CLOCK), Path(folder, "one"))
        taken, _ = import_book(Path(folder, "one"), two, CLOCK)
        with taken.reading() as reading:
            assert wrong_words(reading, 0, 2**62) == 0
        assert index_is_true(two)
        export_book(taken, Path(folder, "two"))
        # then it is the same, and no cell of text begins a formula
        assert contents(Path(folder, "one")) == contents(Path(folder, "two"))
        for data in contents(Path(folder, "one")).items():
            if data[0].endswith(".csv"):
                for row in csv.reader(data[1].decode().splitlines(keepends=True)):
                    assert all(
                        not cell.startswith(("=", "+", "@", "\t", "\r"))
                        and (not cell.startswith("-") or float(cell) < 0)
                        for cell in row
                    )


def test_files_and_folders_are_closed_to_others(book: Book, tmp_path: Path) -> None:
    export_book(book, tmp_path / "very" / "deep" / "one")
    export_book(book, tmp_path / "one.zip")
    folder = tmp_path / "very" / "deep" / "one"
    made = (folder, folder.parent, folder.parent.parent)
    assert {path.stat().st_mode & 0o777 for path in made} == {0o700}
    assert {path.stat().st_mode & 0o777 for path in folder.iterdir()} == {0o600}
    assert (tmp_path / "one.zip").stat().st_mode & 0o777 == 0o600
    taken, _ = import_book(folder, tmp_path / "new.book", CLOCK)
    assert taken.file.path.stat().st_mode & 0o777 == 0o600


def test_the_files_are_rfc_4180_with_units_and_no_time_of_writing(
    book: Book, tmp_path: Path
) -> None:
    """RFC 4180, section 2: lines end with CRLF; cells with breaks or quotes are quoted."""
    export_book(book, tmp_path / "one")
    water = (tmp_path / "one" / "entry.csv").read_bytes()
    assert b'"with ""care"", then\nleft alone"' in water
    manifest = json.loads((tmp_path / "one" / "manifest.json").read_text(encoding="utf-8"))
    (rows,) = (each["rows"] for each in manifest["tables"] if each["table"] == "entry")
    assert water.count(b"\r\n") == rows + 1
    heads = {
        path.name: path.read_bytes().split(b"\r\n")[0].decode()
        for path in (tmp_path / "one").glob("*.csv")
    }
    assert heads["weight.csv"] == "entry_id,tray_id,grams,part,shared,keep,lot_id"
    assert "lamp_on_minutes" in heads["place.csv"]
    assert "at_utc" in heads["entry.csv"]
    assert "key" not in heads["entry.csv"]
    assert str(CLOCK.now().date()) not in (tmp_path / "one" / "manifest.json").read_text()


def test_taking_in_keeps_the_begun_book_aside(book: Book, empty: Path, tmp_path: Path) -> None:
    export_book(book, tmp_path / "one")
    before = empty.read_bytes()
    import_book(tmp_path / "one", empty, CLOCK)
    aside = open_book(empty.with_name("empty.book.before-import"), CLOCK)
    assert aside.about.name == open_book(empty, CLOCK).about.name
    assert empty.read_bytes() != before


def test_a_book_in_use_is_not_touched(book: Book, tmp_path: Path) -> None:
    export_book(book, tmp_path / "one")
    before = book.file.path.read_bytes()
    with pytest.raises(Refused, match="is in use; an import fills a new one"):
        import_book(tmp_path / "one", book.file.path, CLOCK)
    assert book.file.path.read_bytes() == before


def test_what_is_there_is_not_written_over(book: Book, tmp_path: Path) -> None:
    (tmp_path / "one").mkdir()
    (tmp_path / "one" / "mine.txt").write_text("mine")
    (tmp_path / "one.zip").write_text("mine")
    for target in (tmp_path / "one", tmp_path / "one.zip"):
        with pytest.raises(Refused, match="it was not touched"):
            export_book(book, target)
    assert (tmp_path / "one.zip").read_text() == "mine"
    assert [path.name for path in (tmp_path / "one").iterdir()] == ["mine.txt"]
    (tmp_path / "none").mkdir()
    assert export_book(book, tmp_path / "none").rows


@pytest.mark.parametrize("name", ["one", "one.zip"])
def test_what_a_killed_export_left_under_this_process_s_number_is_in_nobodys_way(
    book: Book, tmp_path: Path, name: str
) -> None:
    """The only process of a container has the same number at every start."""
    left = unfinished_of(tmp_path / name)
    if name == "one":
        left.mkdir()
        left = left / "entry.csv"
    left.write_text("half")
    assert export_book(book, tmp_path / name).rows


def _edit(folder: Path, table: str, change: Callable[[list[list[str]]], object]) -> None:
    """Change a table's rows and let the manifest agree with them."""
    path = folder / f"{table}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    change(rows)
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\r\n").writerows(rows)
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    for each in manifest["tables"]:
        if each["table"] == table:
            each["sha256"] = hashlib.sha256(path.read_bytes()).hexdigest()
            each["rows"] = len(rows) - 1
    (folder / "manifest.json").write_text(json.dumps(manifest), encoding="utf-8")


def _put(row: int, column: str, cell: str) -> Callable[[list[list[str]]], object]:
    def change(rows: list[list[str]]) -> None:
        rows[row][rows[0].index(column)] = cell

    return change


@pytest.mark.parametrize(
    ("table", "change", "words"),
    [
        ("weight", _put(1, "tray_id", "999"), "weight.csv points to one of tray.csv"),
        ("weight", _put(-1, "grams", "300.0"), "tray 101 does not follow from its entries"),
        ("tray", _put(1, "live", "true"), "does not follow from its entries"),
        (
            "weight",
            _put(1, "grams", "nan"),
            'grams of line 2 in weight.csv, "nan", isn\'t a number',
        ),
        ("entry", _put(1, "note", "\x1b[31mred"), "holds control codes"),
        ("entry", lambda rows: rows.append(rows[1]), "do not make a book: UNIQUE"),
        ("book", lambda rows: rows.pop(), "exactly one row"),
        ("place", _put(1, "zone", "Nowhere/Land"), "no time zone"),
        ("place", _put(1, "zone", ""), "a room with a time zone"),
        ("book", lambda rows: rows[0].append("more"), "header of book.csv"),
        ("book", lambda rows: rows[1].append("more"), "Line 2 of book.csv has"),
        ("stage", _put(1, "cover", "blanket"), "Stage"),
        ("weight", _put(1, "grams", "-3.0"), r"cut weight per tray: 0 to 100000"),
        ("entry", _put(1, "at_utc", "9999-01-01T00:00:00Z"), "not between the years 1990 and 2100"),
    ],
)
def test_what_does_not_hold_together_leaves_no_book(
    book: Book, empty: Path, tmp_path: Path, table: str,
    change: Callable[[list[list[str]]], object], words: str,
) -> None:  # fmt: skip
    export_book(book, tmp_path / "one")
    _edit(tmp_path / "one", table, change)
    before = empty.read_bytes()
    with pytest.raises(Refused, match=words):
        import_book(tmp_path / "one", empty, CLOCK)
    assert empty.read_bytes() == before


def _spoil_hash(folder: Path) -> None:
    with (folder / "entry.csv").open("ab") as file:
        file.write(b"1\r\n")


def _spoil_manifest(text: str) -> Callable[[Path], object]:
    return lambda folder: (folder / "manifest.json").write_text(text, encoding="utf-8")


def _manifest_with(key: str, value: object) -> Callable[[Path], object]:
    def spoil(folder: Path) -> None:
        given = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        (folder / "manifest.json").write_text(json.dumps(given | {key: value}), encoding="utf-8")

    return spoil


def _short_rows(folder: Path) -> None:
    given = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    given["tables"][0]["rows"] += 1
    (folder / "manifest.json").write_text(json.dumps(given), encoding="utf-8")


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (_spoil_hash, "entry.csv is not as it was exported"),
        (lambda folder: (folder / "look.csv").unlink(), "There is no .*look.csv"),
        (lambda folder: (folder / "manifest.json").unlink(), "There is no .*manifest.json"),
        (_spoil_manifest("{"), f"is not as {Way.EXPORT} writes it"),
        (_spoil_manifest("[" * 100_000), f"is not as {Way.EXPORT} writes it"),
        (_spoil_manifest('{"layout": 1, "tables": 4}'), f"is not as {Way.EXPORT}"),
        (_manifest_with("layout", 99), "newer logbook"),
        (_manifest_with("revision", "9999"), f"knows up to {HEAD}"),
        (_manifest_with("tables", []), "does not name the tables"),
        (_short_rows, "the manifest says"),
    ],
)
def test_an_export_that_is_not_whole_is_refused(
    book: Book, empty: Path, tmp_path: Path, spoil: Callable[[Path], object], words: str
) -> None:
    export_book(book, tmp_path / "one")
    spoil(tmp_path / "one")
    before = empty.read_bytes()
    with pytest.raises(Refused, match=words):
        import_book(tmp_path / "one", empty, CLOCK)
    assert empty.read_bytes() == before


def test_a_refused_take_in_leaves_no_new_file(book: Book, tmp_path: Path) -> None:
    export_book(book, tmp_path / "one")
    _edit(tmp_path / "one", "weight", _put(1, "tray_id", "999"))
    with pytest.raises(Refused, match="points to"):
        import_book(tmp_path / "one", tmp_path / "new" / "new.book", CLOCK)
    assert list((tmp_path / "new").iterdir()) == []


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04 not a zip", b"crop,sown\r\n"])
def test_a_file_that_is_no_zip_is_refused(empty: Path, tmp_path: Path, data: bytes) -> None:
    (tmp_path / "one.zip").write_bytes(data)
    with pytest.raises(Refused, match="not an export"):
        import_book(tmp_path / "one.zip", empty, CLOCK)


def test_a_zip_damaged_anywhere_is_refused_with_a_sentence(
    book: Book, empty: Path, tmp_path: Path
) -> None:
    export_book(book, tmp_path / "one.zip")
    whole = (tmp_path / "one.zip").read_bytes()
    before = empty.read_bytes()
    for place in range(0, len(whole), len(whole) // 40):
        (tmp_path / "bad.zip").write_bytes(
            whole[:place] + bytes([whole[place] ^ 0xFF]) + whole[place + 1 :]
        )
        try:
            import_book(tmp_path / "bad.zip", empty, CLOCK)
        except Refused:
            assert empty.read_bytes() == before
            continue
        empty.write_bytes(before)


def test_progress_is_told_up_to_the_whole(book: Book, empty: Path, tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    manifest = export_book(book, tmp_path / "one", lambda done, whole: told.append((done, whole)))
    assert told[-1] == (manifest.rows, manifest.rows)
    told.clear()
    import_book(tmp_path / "one", empty, CLOCK, tell=lambda done, whole: told.append((done, whole)))
    assert told[-1] == (manifest.rows, manifest.rows)
    assert told == sorted(told)
