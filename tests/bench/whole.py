"""Is every acknowledged act in the book, and no act half in it?"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from logbook.actions.book import open_book
from logbook.actions.care.checking import wrong_summaries
from logbook.store.file.health import dangling_rows, integrity_faults

Ack = dict[str, Any]

HALVES = {
    "an entry on fewer or more trays than its note says": """
        SELECT e.id FROM entry e WHERE e.note GLOB '*-*/*' AND e.strikes_id IS NULL
        AND (SELECT count(*) FROM entry_tray et WHERE et.entry_id = e.id)
            <> CAST(substr(e.note, instr(e.note, '/') + 1) AS INTEGER)""",
    "a batch whose sowing does not name each of its trays": """
        SELECT b.id FROM batch b WHERE (SELECT count(*) FROM tray t WHERE t.batch_id = b.id)
        <> coalesce((SELECT count(*) FROM entry e JOIN entry_tray et ON et.entry_id = e.id
            WHERE e.batch_id = b.id AND e.kind = 'sow'), 0)""",
    "a soak on other trays than its sowing": """
        SELECT s.id FROM entry s JOIN entry e ON e.act_id = s.act_id AND e.batch_id = s.batch_id
        AND e.kind = 'sow'
        WHERE s.kind = 'soak'
        AND (SELECT count(*) FROM entry_tray st WHERE st.entry_id = s.id AND st.tray_id IN
                (SELECT et.tray_id FROM entry_tray et WHERE et.entry_id = e.id))
            <> (SELECT count(*) FROM entry_tray et WHERE et.entry_id = e.id)""",
    "a sowing or a move that does not place its trays": """
        SELECT e.id FROM entry e WHERE e.kind IN ('sow', 'move')
        AND (SELECT count(*) FROM tray_place p WHERE p.entry_id = e.id)
            <> (SELECT count(*) FROM entry_tray et WHERE et.entry_id = e.id)""",
    "a weigh-in without a weight of each tray": """
        SELECT e.id FROM entry e WHERE e.kind = 'weigh'
        AND (SELECT count(*) FROM weight w WHERE w.entry_id = e.id)
            <> (SELECT count(*) FROM entry_tray et WHERE et.entry_id = e.id)""",
    "a watering without its amount": """
        SELECT e.id FROM entry e WHERE e.kind = 'water'
        AND NOT EXISTS (SELECT 1 FROM watering w WHERE w.entry_id = e.id)""",
    "a look without what it saw": """
        SELECT e.id FROM entry e WHERE e.kind = 'look'
        AND NOT EXISTS (SELECT 1 FROM look l WHERE l.entry_id = e.id)""",
    "an act that is struck in part": """
        SELECT e.act_id FROM entry e LEFT JOIN entry s ON s.strikes_id = e.id
        WHERE e.kind <> 'strike' GROUP BY e.act_id HAVING count(s.id) NOT IN (0, count(e.id))""",
}


def acks_in(text: str) -> list[Ack]:
    """Read the acknowledgements that a writer printed; a line cut off by a kill counts not."""
    lines = text.split("\n")[:-1]
    said = [json.loads(line) for line in lines]
    return [each for each in said if each["said"] == "ack"]


def missing(connection: sqlite3.Connection, acks: Iterable[Ack]) -> list[Ack]:
    """Give the acknowledged acts that are not in the book as they were acknowledged."""
    column = {True: "batch_id", False: "act_id"}
    gone = []
    for ack in acks:
        row = connection.execute(
            f"SELECT 1 FROM entry WHERE {column[ack['kind'] == 'sow']} = ? AND note = ? "
            'AND "by" = ?'
            if ack["note"]
            else "SELECT 1 FROM entry WHERE act_id = ? AND ? = '' AND \"by\" = ?",
            (ack["act"], ack["note"], ack["by"]),
        ).fetchone()
        if row is None:
            gone.append(ack)
    return gone


def halves(connection: sqlite3.Connection) -> list[str]:
    """Give what is half in the book."""
    found = []
    for words, query in HALVES.items():
        rows = connection.execute(query).fetchall()
        if rows:
            found.append(f"{words}: {[row[0] for row in rows[:5]]}")
    return found


def assert_whole(path: Path, acks: Iterable[Ack], *, summaries: bool = True) -> None:
    """Reopen the book as the program does and look at all of it."""
    book = open_book(path)
    with book.reading() as reading:
        gone, half = missing(reading.connection, acks), halves(reading.connection)
        dangling = dangling_rows(reading.connection)
    assert not gone, f"acknowledged and not in the book: {gone[:5]}"
    assert not half, half
    assert not dangling, dangling
    assert integrity_faults(path, alone=True) == []
    assert not summaries or wrong_summaries(book) == []
