"""Importing: an export becomes a book again, all of it or nothing, checked on the way."""

import csv
import io
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from hashlib import file_digest
from itertools import islice
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.care.closing import wrong_words
from logbook.actions.reading import Folds, Reading, true_summaries
from logbook.clock import Clock, SystemClock
from logbook.exchange.bounds import refuse_impossible
from logbook.exchange.bundle import Bundle, old_bundle
from logbook.exchange.column import Value
from logbook.exchange.exporting import Tell, quiet
from logbook.exchange.manifest import LARGEST_BYTES, NAME, FileNote, Manifest, read_manifest
from logbook.exchange.shape import TableShape, read_shape
from logbook.growing.crops.templates import checked
from logbook.store.closed_days import read_closed_days, wrong_days
from logbook.store.file.copies import copy_file
from logbook.store.file.faults import fault_words
from logbook.store.file.opening import known_revisions, migrate, new_book_file
from logbook.store.revision import HEAD
from logbook.store.rows import Connection, Rows
from logbook.store.search import keep_words, rebuild
from logbook.store.server.address import Address
from logbook.text import Refused, fold
from logbook.ways import Way

_PIECE = 500


def import_book(
    source: Path,
    where: Path | Address,
    clock: Clock | None = None,
    by: str = "",
    tell: Tell = quiet,
) -> tuple[Book, Manifest]:
    """Make a book from an export in a file or an empty database, or fill a file's that is unused yet.

    The files must be as the manifest says, every row must point to one that is there, and what
    is kept of each tray must follow from its entries. An export of an older logbook is brought
    up to date. Raises Refused where one of these fails; the book is then as it was.
    """
    clock = clock or SystemClock()
    with old_bundle(source) as bundle:
        manifest = _manifest(bundle)
        if manifest.revision not in known_revisions():
            raise Refused(
                f"These files were exported by a newer logbook (revision {manifest.revision}; "
                f"this one knows up to {HEAD}). Update the program."
            )
        for note in manifest.files:
            _check_file(bundle, note)
        if isinstance(where, Address):
            _fill_server(where, bundle, manifest, tell, clock)
        elif where.exists():
            _fill_empty(open_book(where, clock, by), bundle, manifest, tell)
        else:
            with new_book_file(where, manifest.revision) as file:
                with closing(sqlite3.connect(file.path, isolation_level=None)) as connection:
                    _fill(connection, bundle, manifest, tell)
                if manifest.revision != HEAD:
                    migrate(file, HEAD)
                    with file.writing() as writer:
                        rebuild(writer)
                with file.reading() as rows:
                    _check_whole(rows.connection, clock)
    return open_book(where, clock, by), manifest


def _manifest(bundle: Bundle) -> Manifest:
    with bundle(NAME) as file:
        data = file.read(LARGEST_BYTES + 1)
    if len(data) > LARGEST_BYTES:
        raise Refused(f"{NAME} is larger than any that {Way.EXPORT} writes.")
    return read_manifest(data)


def _check_file(bundle: Bundle, note: FileNote) -> None:
    with bundle(note.file) as file:
        digest = file_digest(file, "sha256").hexdigest()  # type: ignore[arg-type]
    if digest != note.sha256:
        raise Refused(
            f"{note.file} is not as it was exported (its SHA-256 differs from the manifest's). "
            "Export it again; nothing was imported."
        )


def _fill_empty(book: Book, bundle: Bundle, manifest: Manifest, tell: Tell) -> None:
    """Fill a book that has no entry and no template of its own; a copy of it is laid beside."""
    path = book.file.path
    with book.reading() as reading:
        used = reading.value(
            "SELECT (SELECT count(*) FROM entry) + (SELECT count(*) FROM tray) + "
            "(SELECT count(*) FROM template_version WHERE why <> 'starting guess')"
        )
    if used:
        raise Refused(
            f"The book {path} is in use; an import fills a new one. Name another with {Way.BOOK}."
        )
    if manifest.revision != HEAD:
        raise Refused(
            "These files are from an older logbook and make a new book; name a new path with "
            f"{Way.BOOK}."
        )
    copy_file(path, path.with_name(f"{path.name}.before-import"))
    with closing(sqlite3.connect(path, timeout=15, isolation_level=None)) as connection:
        connection.execute("PRAGMA synchronous=EXTRA")
        _fill(connection, bundle, manifest, tell, book)


def _fill(
    connection: sqlite3.Connection, bundle: Bundle, manifest: Manifest, tell: Tell, book: Book | None = None,
) -> None:  # fmt: skip
    path = Path(connection.execute("PRAGMA database_list").fetchone()[2])
    connection.execute("BEGIN IMMEDIATE")
    try:
        connection.execute("PRAGMA defer_foreign_keys=ON")
        _fill_tables(connection, bundle, manifest, tell)
        broken = connection.execute("PRAGMA foreign_key_check").fetchone()
        if broken:
            raise Refused(
                f"A row of {broken[0]}.csv points to one of {broken[2]}.csv that is not there."
            )
        if manifest.revision == HEAD:
            keep_words(Rows(connection))
        if book is not None:
            _check_whole(connection, book.clock)
        connection.execute("COMMIT")
    except sqlite3.IntegrityError as fault:
        raise Refused(f"These files do not make a book: {fault}.") from fault
    except sqlite3.Error as fault:
        raise fault_words(fault, path) from fault
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")


def _fill_server(
    address: Address, bundle: Bundle, manifest: Manifest, tell: Tell, clock: Clock
) -> None:
    from logbook.store.server.making import keyless, new_server_book

    if manifest.revision != HEAD:
        raise Refused(
            f"These files are of an older logbook: import them into a file first, then bring that to "
            f"the server with {Way.MOVE_BOOK}."
        )
    with new_server_book(address) as writer:
        with keyless(writer.connection):
            _fill_tables(writer.connection, bundle, manifest, tell)
        keep_words(writer)
        _check_whole(writer.connection, clock)


def _fill_tables(connection: Connection, bundle: Bundle, manifest: Manifest, tell: Tell) -> None:
    shapes = {shape.name: shape for shape in read_shape(Rows(connection))}
    notes = {note.table: note for note in manifest.files}
    if set(shapes) != set(notes):
        raise Refused(f"{NAME} does not name the tables of revision {manifest.revision}.")
    for name in shapes:
        connection.execute(f'DELETE FROM "{name}"')  # noqa: S608 - the book's own names
    done = 0
    for name, shape in shapes.items():
        for count in _insert(connection, shape, bundle, notes[name]):
            tell(done + count, manifest.rows)
        done += notes[name].rows


def _insert(
    connection: Connection, shape: TableShape, bundle: Bundle, note: FileNote
) -> Iterator[int]:
    names = ", ".join(f'"{column.name}"' for column in shape.columns)
    marks = ", ".join("?" * len(shape.columns))
    sql = f'INSERT INTO "{shape.name}" ({names}) VALUES ({marks})'  # noqa: S608
    rows, source = 0, _rows(bundle, shape, note)
    while piece := list(islice(source, _PIECE)):
        connection.executemany(sql, piece)
        rows += len(piece)
        yield rows
    if rows != note.rows:
        raise Refused(f"{note.file} has {rows:,} rows; the manifest says {note.rows:,}.")


def _rows(bundle: Bundle, shape: TableShape, note: FileNote) -> Iterator[tuple[Value, ...]]:
    given = shape.given
    with bundle(note.file) as file:
        reader = csv.reader(io.TextIOWrapper(file, encoding="utf-8", newline=""), strict=True)
        try:
            if next(reader, None) != shape.header:
                raise Refused(f"The header of {note.file} is not {','.join(shape.header)}.")
            for row in reader:
                if len(row) != len(given):
                    raise Refused(
                        f"Line {reader.line_num} of {note.file} has {len(row)} cells, not "
                        f"{len(given)}."
                    )
                values: dict[str, Value] = {}
                for cell, column in zip(row, given, strict=True):
                    try:
                        values[column.name] = column.read(cell)
                        refuse_impossible(shape.name, column, values[column.name])
                    except Refused as refused:
                        raise Refused(
                            f"{column.header} of line {reader.line_num} in {note.file}, "
                            f'"{cell[:40]}", {refused}.'
                        ) from refused
                yield tuple(
                    fold(str(values[column.folded_from]))
                    if column.folded_from
                    else values[column.name]
                    for column in shape.columns
                )
        except (csv.Error, UnicodeDecodeError) as fault:
            raise Refused(f"{note.file} isn't CSV in UTF-8 from line {reader.line_num}.") from fault


def _check_whole(connection: Connection, clock: Clock) -> None:
    """Check what the tables alone cannot: the book's own row, its templates, its trays."""
    reading = Reading(connection, clock, Folds())
    if reading.value("SELECT count(*) FROM book") != 1:
        raise Refused("book.csv must have exactly one row.")
    if not reading.value("SELECT count(*) FROM place WHERE zone IS NOT NULL"):
        raise Refused("place.csv must have a room with a time zone.")
    if wrong := wrong_days(reading, read_closed_days(reading)):
        raise Refused(f"{wrong_words(wrong)} Nothing was imported.")
    versions = [row[0] for row in reading.rows("SELECT id FROM template_version")]
    try:
        for template in reading.versions(versions).values():
            checked(template)
        trays = [row[0] for row in reading.rows("SELECT id FROM tray")]
        for tray in true_summaries(reading, trays):
            if tray.kept != tray.true:
                raise Refused(
                    f"What tray.csv says of tray {tray.number} does not follow from its entries."
                )
    except (KeyError, IndexError, TypeError, ValueError, OverflowError) as fault:
        raise Refused("These files do not make a book that can be read.") from fault
