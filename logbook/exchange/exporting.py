"""Exporting: the whole book as CSV files and a manifest, the same bytes for the same book."""

import csv
import io
from collections.abc import Callable
from functools import partial
from hashlib import sha256
from pathlib import Path

from logbook import __version__
from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.exchange.bundle import Bundle, new_bundle
from logbook.exchange.manifest import NAME, FileNote, Manifest
from logbook.exchange.shape import TableShape, read_shape
from logbook.store.revision import revision_of

Tell = Callable[[int, int], None]
"""Told of progress: rows done, rows in all."""
_PIECE = 500


def quiet(_done: int, _whole: int) -> None:
    """Tell nobody."""


def export_book(book: Book, target: Path, tell: Tell = quiet) -> Manifest:
    """Write everything in a book to a new folder, or a new .zip file; returns what was written.

    All of it is of one moment, struck entries and old versions too; the files appear whole or
    not at all, readable by their owner alone. Raises Refused where the target cannot be written.
    """
    with book.reading() as reading, new_bundle(target) as bundle:
        shapes = read_shape(reading)
        counts = [
            reading.value(f'SELECT count(*) FROM "{shape.name}"')  # noqa: S608
            for shape in shapes
        ]
        whole, done, notes = sum(counts), 0, []
        for shape, count in zip(shapes, counts, strict=True):
            notes.append(_write(reading, shape, bundle, partial(_told, tell, whole, done)))
            done += count
        manifest = Manifest(__version__, revision_of(reading.connection) or "", tuple(notes))
        with bundle(NAME) as file:
            file.write(manifest.text().encode("utf-8"))
    return manifest


def _told(tell: Tell, whole: int, before: int, rows: int) -> None:
    tell(before + rows, whole)


def _write(
    reading: Reading, shape: TableShape, bundle: Bundle, told: Callable[[int], None]
) -> FileNote:
    columns = shape.given
    names = ", ".join(f'"{column.name}"' for column in columns)
    order = ", ".join(f'"{key}"' for key in shape.keys) or "rowid"
    cursor = reading.connection.execute(
        f'SELECT {names} FROM "{shape.name}" ORDER BY {order}'  # noqa: S608 - the file's own names
    )
    digest, rows = sha256(), 0
    with bundle(shape.file) as file:
        piece = io.StringIO()
        writer = csv.writer(piece, lineterminator="\r\n")
        writer.writerow(shape.header)
        while True:
            data = piece.getvalue().encode("utf-8")
            digest.update(data)
            file.write(data)
            some = cursor.fetchmany(_PIECE)
            if not some:
                break
            piece.seek(0)
            piece.truncate()
            writer.writerows(
                [column.write(value) for value, column in zip(row, columns, strict=True)]
                for row in some
            )
            rows += len(some)
            told(rows)
    return FileNote(shape.name, shape.file, rows, digest.hexdigest(), tuple(shape.header))
