"""Words that entries are found by, with an index of their trigrams; entry.note_key goes into them."""

import sqlite3

import sqlalchemy as sa
from alembic import op

from logbook.text import fold

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Gather the words of all entries; where SQLite has FTS5 with trigrams, index them."""
    op.create_table(
        "entry_words",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("words", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_entry_words_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_entry_words")),
    )
    if op.get_bind().dialect.name == "sqlite":
        _fill()
    op.drop_column("entry", "note_key")


def _fill() -> None:
    raw = op.get_bind().connection.dbapi_connection
    assert isinstance(raw, sqlite3.Connection)  # noqa: S101 - a live connection of this dialect
    raw.create_function("fold", 1, fold, deterministic=True)
    op.execute(
        "INSERT INTO entry_words (entry_id, words) SELECT id, fold(told) FROM ("
        "SELECT e.id AS id, trim(e.note || ' ' || coalesce("
        "CASE l.mould WHEN 'spot' THEN 'a spot of mould ' WHEN 'spread' THEN 'mould spread ' "
        "ELSE '' END || CASE l.wilting WHEN 1 THEN 'wilting ' ELSE '' END || "
        "l.mould_where || ' ' || l.stem_colour || ' ' || l.uneven || ' ' || l.sign, '') || ' ' || "
        "CASE WHEN e.kind IN ('sow', 'plan') THEN coalesce(b.lot, '') ELSE '' END) AS told "
        "FROM entry e LEFT JOIN look l ON l.entry_id = e.id LEFT JOIN batch b ON b.id = e.batch_id"
        ") WHERE told <> '' ORDER BY id"
    )
    try:
        raw.execute(
            "CREATE VIRTUAL TABLE entry_index USING fts5(words, content='entry_words', "
            "content_rowid='entry_id', detail=none, tokenize='trigram case_sensitive 1')"
        )
    except sqlite3.OperationalError as fault:
        if not any(words in str(fault) for words in ("no such module", "no such tokenizer")):
            raise
        return
    raw.execute("INSERT INTO entry_index (entry_index) VALUES ('rebuild')")
