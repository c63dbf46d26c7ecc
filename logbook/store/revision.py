"""Which revision of the tables this program writes, and how a book says which it has."""

import sqlite3

HEAD = "0025"
APPLICATION_ID = 0x6C6F6762
"""The number in a book's file header that marks it as one ("logb")."""
RENAMED = {"placing": "tray_place"}
"""Tables of older revisions that have another name since."""
PARTED = {"batch_lot": ("batch_id", "batch")}
"""Tables that hold what was a column of another: the key by which they name its rows."""


def revision_of(connection: sqlite3.Connection) -> str | None:
    """The revision that a book's tables have; None where there are none."""
    try:
        row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    except sqlite3.OperationalError as fault:
        if "no such table" in str(fault):
            return None
        raise
    return str(row[0]) if row else None
