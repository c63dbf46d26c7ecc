"""What an entry is found by: its folded words, kept in its own transaction, and an index over them.

`entry_words` holds the words of each entry that has any: its note, what a look says, the seed lot
of a sowing, a bag's lot and supplier, the pack lots of a cut. `entry_index` is SQLite's full-text index of their trigrams (FTS5); it holds no text of
its own, and SQLite's changes keep it in the same transaction. A SQLite that lacks FTS5 or trigrams
leaves it as it is and reads the words themselves; the next act with words on one that has them
catches up.
"""

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from itertools import chain
from pathlib import Path

from logbook.growing.kinds import that_carry
from logbook.store.file.book_file import connect_file
from logbook.store.reads.trays import LOTS
from logbook.store.rows import Rows, quoted
from logbook.text import fold

INDEX = "entry_index"
MODULE = "fts5"
TRIGRAMS = (3, 34, 0)
"""The first SQLite whose FTS5 splits text into trigrams (sqlite.org/fts5.html, 4.3.4)."""
MANY = 20_000
"""More entries than that are not gathered: the newest of them are soon met on a walk by time."""
MOST_GRAMS = 30
"""So many trigrams are asked of the index; what they let through is compared word by word."""

_SAID = """
CASE l.mould WHEN 'spot' THEN 'a spot of mould ' WHEN 'spread' THEN 'mould spread ' ELSE '' END ||
CASE l.wilting WHEN 1 THEN 'wilting ' ELSE '' END ||
l.mould_where || ' ' || l.stem_colour || ' ' || l.uneven || ' ' || l.sign
"""
_TOLD = f"""
SELECT e.id AS id, trim(e.note || ' ' || coalesce({_SAID}, '') || ' ' ||
  CASE WHEN e.kind IN ({quoted(that_carry("lot"))}) THEN {LOTS} ELSE '' END ||
  coalesce(bag.lot || ' ' || bag.supplier, '') ||
  CASE e.kind WHEN 'weigh' THEN coalesce((
    SELECT group_concat(DISTINCT p.code) FROM weight w JOIN pack_lot p ON p.entry_id = w.lot_id
    WHERE w.entry_id = e.id), '') ELSE '' END) AS told
FROM entry e LEFT JOIN look l ON l.entry_id = e.id LEFT JOIN batch b ON b.id = e.batch_id
LEFT JOIN seed_bag bag ON bag.entry_id = e.id
"""
_WORDS = (
    f"SELECT id, told FROM ({_TOLD} WHERE e.id >= ? AND e.id < ?) said WHERE told <> '' ORDER BY id"
)
_AFTER_ALL = 2**63 - 1
_LIKE = re.compile("[%_!]")


def keep_words(rows: Rows, first: int = 0) -> None:
    """Write the words of the entries from an id on, which have none yet, in the caller's transaction."""
    sql = "INSERT INTO entry_words (entry_id, words) VALUES (?, ?)"
    said = _said(rows, first, _AFTER_ALL)
    if (newest := next(said, None)) is not None:
        rows.connection.executemany(sql, chain([newest], said))
        if rows.dialect == "sqlite":
            _catch_up(rows.connection)


def _said(rows: Rows, first: int, end: int) -> Iterator[tuple[int, str]]:
    return ((entry, fold(told)) for entry, told in rows.connection.execute(_WORDS, (first, end)))


def rebuild(rows: Rows) -> None:
    """Make the words and their index anew from the entries, in the caller's transaction."""
    rows.connection.execute("DELETE FROM entry_words")
    if rows.dialect == "sqlite" and _can_index(rows.connection):
        rows.connection.execute(f"DROP TABLE IF EXISTS {INDEX}")
    keep_words(rows)


def _can_index(connection: sqlite3.Connection) -> bool:
    return sqlite3.sqlite_version_info >= TRIGRAMS and bool(
        connection.execute("SELECT 1 FROM pragma_module_list WHERE name = ?", (MODULE,)).fetchone()
    )


def _catch_up(connection: sqlite3.Connection) -> None:
    if not _can_index(connection):
        return
    connection.execute(
        f"CREATE VIRTUAL TABLE IF NOT EXISTS {INDEX} USING fts5(words, content='entry_words', "
        "content_rowid='entry_id', detail=none, tokenize='trigram case_sensitive 1')"
    )
    connection.execute(
        f"INSERT INTO {INDEX} (rowid, words) SELECT entry_id, words FROM entry_words "
        f"WHERE entry_id > (SELECT coalesce(max(id), 0) FROM {INDEX}_docsize)"
    )


def _is_current(connection: sqlite3.Connection) -> bool:
    """Whether there is an index that this SQLite can use and that no entry is missing from."""
    if not _can_index(connection):
        return False
    try:
        (current,) = connection.execute(
            f"SELECT (SELECT max(id) FROM {INDEX}_docsize) IS (SELECT max(entry_id) FROM entry_words)"
        ).fetchone()
    except sqlite3.OperationalError as fault:
        if "no such table" in str(fault):
            return False
        raise
    return bool(current)


def held_by(reading: Rows, words: str) -> tuple[str, list[object], bool]:
    """The test, on `e.id`, for entries that hold every one of some folded words, and its values.

    The third tells whether so few hold them that they are best found first and then put in order.
    """
    each = list(dict.fromkeys(words.split()))
    grams = dict.fromkeys(word[at : at + 3] for word in each for at in range(len(word) - 2))
    test, values = "instr(w.words, ?) > 0", list[object](each)
    if reading.dialect == "postgresql":  # whose index of trigrams serves LIKE
        test, values = (
            "w.words LIKE ? ESCAPE '!'",
            ["%" + _LIKE.sub(r"!\g<0>", word) + "%" for word in each],
        )
    tests = " AND ".join(test for _ in each)
    source, walked_by = f"entry_words w WHERE {tests}", list(values)
    if grams and reading.dialect == "sqlite" and _is_current(reading.connection):
        quoted = ['"' + gram.replace('"', '""') + '"' for gram in grams]
        source = (
            f"{INDEX} i CROSS JOIN entry_words w ON w.entry_id = i.rowid "
            f"WHERE i.{INDEX} MATCH ? AND {tests}"
        )
        values.insert(0, " AND ".join(quoted[:MOST_GRAMS]))
    found = f"SELECT w.entry_id FROM {source}"
    count = reading.value(f"SELECT count(*) FROM ({found} LIMIT ?) held", [*values, MANY + 1])
    if count <= MANY:
        return f"e.id IN ({found})", values, True
    walked = f"EXISTS (SELECT 1 FROM entry_words w WHERE w.entry_id = e.id AND {tests})"
    return walked, walked_by, False


def wrong_words(reading: Rows, first: int, end: int) -> int:
    """How many entries from an id up to another are kept with other words than they say."""
    true = dict(_said(reading, first, end))
    sql = "SELECT entry_id, words FROM entry_words WHERE entry_id >= ? AND entry_id < ?"
    kept: dict[int, str] = dict(reading.rows(sql, (first, end)))
    return sum(true.get(entry) != kept.get(entry) for entry in true.keys() | kept.keys())


def index_is_true(path: Path) -> bool:
    """Whether the index says what the words say; one that this SQLite or user cannot use is not asked.

    SQLite's own comparison is spelled as writing: it is done under its lock, and taken back.
    """
    with closing(connect_file(path)) as connection:
        if not _is_current(connection):
            return not _can_index(connection)
        connection.execute("BEGIN")
        try:
            connection.execute(f"INSERT INTO {INDEX} ({INDEX}, rank) VALUES ('integrity-check', 1)")
        except sqlite3.OperationalError:  # read-only, or another program writes
            return True
        except sqlite3.DatabaseError:
            return False
        finally:
            connection.execute("ROLLBACK")
    return True
