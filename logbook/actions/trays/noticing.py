"""Looks and jots: what was seen, and what somebody wants remembered."""

from __future__ import annotations

from dataclasses import asdict, replace
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.trays.done import (
    Done,
    Numbers,
    batch_of,
    done_of,
    entry_on,
    ids_of,
    numbers_of,
    refuse_unsown,
)
from logbook.actions.trays.known import Known
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.looks import (
    MOULD_CAUTION,
    Look,
    checked_look,
    has_mould,
    look_words,
    sees_sign,
)
from logbook.store.tables import LookRow
from logbook.text import Refused, clean_note


def look(
    book: Book, numbers: Numbers, seen: Look, note: str = "", at: datetime | None = None
) -> Done:
    """Write what was seen on trays. Only what is filled is kept.

    Mould brings the caution; a sign to cut makes the cut due.
    """
    seen = checked_look(seen)
    note = clean_note(note)
    with book.writing() as act:
        when = act.moment(at, "A look")
        trays = act.reading.trays(numbers)
        numbers = numbers_of(trays)
        refuse_unsown(act, trays, when, "a look")
        signs: dict[bool, list[Known]] = {}
        for known in trays:
            signs.setdefault(sees_sign(seen, known.template.sign_to_cut), []).append(known)
        for sign, group in signs.items():
            entry = entry_on(act, "look", group, when, chore="look", note=note)
            if not seen.empty:
                act.session.add(LookRow(entry_id=entry, sign_seen=sign, **asdict(seen)))
        words = look_words(seen, book.units) or note or "looked at"
        notices = [MOULD_CAUTION] if has_mould(seen) else []
        saw = any(signs.get(True, ()))
        if saw:
            notices.append(f"The sign to cut was seen: {numbers_words(numbers)} can be cut now.")
        done = done_of(act, f"look: {numbers_words(numbers)}: {words}", numbers, notices)
        return replace(done, mould=has_mould(seen), sign=saw)


def jot(book: Book, numbers: Numbers, text: str, place: str = "") -> Done:
    """Write a free note on trays (cut ones too) or on a place, or on the room as a whole."""
    note = clean_note(text)
    if not note:
        raise Refused("There is nothing to jot: the note is empty.")
    with book.writing() as act:
        trays = act.reading.trays(numbers, live=False) if numbers else []
        numbers = numbers_of(trays)
        spot = act.reading.places.find(place) if place else None
        act.entry(
            "jot", ids_of(trays), act.done_now, note=note, batch=batch_of(trays),
            place=spot.id if spot else None,
        )  # fmt: skip
        where = numbers_words(numbers) or (spot.path if spot else "the room")
        return done_of(act, f"jotted on {where}", numbers)
