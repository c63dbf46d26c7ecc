"""A book that takes half the room: thinner moments, link tables and indexes; the same is in it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None

MOMENTS = {
    "book": ("made_at",), "template_version": ("made_at",), "batch": ("planned_for",),
    "entry": ("at", "written_at"), "tray": ("ended_at",), "air_reading": ("at",),
    "outage": ("until",),
}  # fmt: skip
"""Were texts of 26 letters; from now on seconds since 1970, whole where they can be."""
LINKS = (
    "batch_lot", "circuit_shelf", "entry_tray", "light_spot", "tariff_hours", "tasting_answer",
    "tray_place", "trial_criterion", "trial_tray", "weight",
)  # fmt: skip
"""Tables with a key of several columns, which SQLite kept twice: in a row and in an index."""
PARTIAL = {
    "place_id": "place_id IS NOT NULL", "strikes_id": "strikes_id IS NOT NULL",
    "act_id": "act_id <> id",
}  # fmt: skip
"""Columns of entries that most leave empty, or alike: the others are in the index."""


def upgrade() -> None:
    """Write the tables anew on SQLite; elsewhere only the indexes change."""
    for column in PARTIAL:
        op.drop_index(f"ix_entry_{column}", "entry")
    if op.get_bind().dialect.name == "sqlite":
        for table in dict.fromkeys([*MOMENTS, *LINKS]):
            _rewrite(table)
    for column, where in PARTIAL.items():
        op.create_index(
            f"ix_entry_{column}", "entry", [column],
            sqlite_where=sa.text(where), postgresql_where=sa.text(where),
        )  # fmt: skip


def _rewrite(table: str) -> None:
    """Make the table anew beside the old one, row by row in the order of its key."""
    connection, new = op.get_bind(), f"{table}_anew"
    made, *indexes = [
        sql
        for (sql,) in connection.exec_driver_sql(
            "SELECT sql FROM sqlite_schema WHERE tbl_name = ? AND sql IS NOT NULL "
            "ORDER BY type = 'index', name",
            (table,),
        )
    ]
    head, _, body = made.partition("(")
    info = connection.exec_driver_sql(f'PRAGMA table_info("{table}")').fetchall()
    names = [f'"{row[1]}"' for row in info]
    keys = [f'"{row[1]}"' for row in sorted(info, key=lambda row: int(row[5])) if row[5]]
    moments = {f'"{column}"' for column in MOMENTS.get(table, ())}
    values = [_seconds(name) if name in moments else name for name in names]
    end = " WITHOUT ROWID" if table in LINKS else ""
    connection.exec_driver_sql(f"{head.replace(table, new, 1)}({body}{end}")
    connection.exec_driver_sql(
        f'INSERT INTO "{new}" ({", ".join(names)}) SELECT {", ".join(values)} '  # noqa: S608
        f'FROM "{table}" ORDER BY {", ".join(keys)}'
    )
    connection.exec_driver_sql(f'DROP TABLE "{table}"')
    connection.exec_driver_sql(f'ALTER TABLE "{new}" RENAME TO "{table}"')
    for sql in indexes:
        connection.exec_driver_sql(sql)


def _seconds(column: str) -> str:
    whole = f"CAST(strftime('%s', substr({column}, 1, 19)) AS INTEGER)"
    part = f"CAST('0' || substr({column}, 20) AS REAL)"
    return (
        f"CASE WHEN typeof({column}) <> 'text' THEN {column} "
        f"WHEN {part} = 0 THEN {whole} ELSE {whole} + {part} END"
    )
