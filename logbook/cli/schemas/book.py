"""Schemas of what looks after the book: copy, restore, check, export, import, me."""

from __future__ import annotations

from logbook.cli.schemas.shapes import (
    Schema,
    either,
    many,
    moment,
    number,
    one_of,
    or_null,
    text,
    thing,
    truth,
    whole,
)

_COPY = thing(
    "A copy of the book.",
    copy=text("Its file."),
    made_at=moment("In UTC."),
    bytes=whole(),
    daily=truth("Whether it is a daily copy, which the rotation may remove."),
)
COPY = either(
    "The copy that was made; null when today's was there.",
    _COPY,
    thing("", copy={"type": "null"}),
)
RESTORE = either(
    "The copies, newest first; or what going back to one loses.",
    thing("", copies=many(_COPY)),
    thing(
        "",
        copy=text(),
        entries=whole("Entries in the copy."),
        newest_entry_at=or_null(moment()),
        lost_entries=or_null(whole("Null when the present book cannot be read.")),
        lost_from=or_null(moment()),
        lost_to=or_null(moment()),
        lost_rows={"type": ["object", "null"], "additionalProperties": {"type": "integer"}},
        restored=truth("False with --dry-run."),
        aside=or_null(text("Where the book is that was there before.")),
    ),
)
CHECK = thing(
    "What was mended and what was found.",
    mended=many(text()),
    findings=many(
        thing(
            "",
            about=text("integrity, revision, clock, copies …"),
            severity=one_of("good", "note", "warning", "bad"),
            words=text(),
            todo=text("What to do about it; empty when nothing is to be done."),
        )
    ),
)
_GIVEN: Schema = thing(
    "How much was exported or imported.",
    rows=whole(),
    revision=text("The revision of the book's tables."),
    tables={
        "type": "object",
        "additionalProperties": {"type": "integer", "minimum": 0},
        "description": "Rows by table.",
    },
)
GIVE_OUT = _GIVEN
TAKE_IN = either(
    "A book, or past harvests (--harvests).",
    _GIVEN,
    thing(
        "",
        written=truth("False with --dry-run or when a line is wrong."),
        harvests=whole(),
        trays=whole(),
        grams=number(least=0),
        templates_made=many(text()),
        columns_left_out=many(text()),
        faults=many(thing("", line=whole("Line of the file.", least=1), words=text())),
        odd=many(thing("Taken in, but hard to believe.", line=whole(least=1), words=text())),
    ),
)
ME = thing(
    "Who writes at this terminal.",
    by=text("The initials."),
    said_by=text("What says so: this terminal, the settings, LOGBOOK_BY, the login name …"),
)
