"""Looks and jots: what was seen, and what somebody wants remembered."""

from dataclasses import asdict, replace
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.trays import done
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.looks import (
    MOULD_CAUTION,
    Look,
    checked_look,
    look_words,
    mouldy_of,
    sees_sign,
)
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import Refused, clean_note


def look(
    book: Book, numbers: done.Numbers, seen: Look, note: str = "", at: datetime | None = None, *,
    mouldy: done.Numbers = (),
) -> done.Done:  # fmt: skip
    """Write what was seen on trays. Only what is filled is kept.

    Mould brings the caution and marks only the trays that it was seen on, `mouldy`, which several
    trays need; a ready sign makes the cut due.
    """
    seen = checked_look(seen)
    note = clean_note(note)
    clean = replace(seen, mould="", mould_where="")
    with book.writing() as act:
        when = act.moment(at, "A look")
        trays = act.reading.trays(numbers, at=when)
        numbers = done.numbers_of(trays)
        done.refuse_unsown(act, trays, when, "a look")
        spotted = done.numbers_of(act.reading.trays(mouldy, at=when)) if mouldy else ()
        mouldy = mouldy_of(numbers, seen, spotted)
        groups: dict[tuple[bool, Look], list[TrayNow]] = {}
        for known in trays:
            mine = clean if mouldy and known.number not in mouldy else seen
            sign = sees_sign(seen, known.template.sign_to_cut)
            groups.setdefault((sign, mine), []).append(known)
        for (sign, mine), group in groups.items():
            entry = done.entry_on(act, "look", group, when, chore="look", note=note)
            if not mine.empty:
                act.put("look", entry, sign_seen=sign, **asdict(mine))
        words = look_words(seen, book.units) or note or "nothing to note"
        if mouldy and len(mouldy) < len(numbers):
            words += f"; mould on {numbers_words(mouldy)} only"
        notices = [MOULD_CAUTION] if mouldy else []
        saw = any(sign for sign, _ in groups)
        signed = [known for (sign, _), group in groups.items() if sign for known in group]
        if ready := [known for known in signed if known.state.status == "growing"]:
            numbers_ready = numbers_words(done.numbers_of(ready))
            notices.append(f"Ready sign seen: {numbers_ready} can be cut now.")
        written = done.done_of(act, f"look: {numbers_words(numbers)}: {words}", numbers, notices)
        growing = {each.number for each in trays if each.state.live}
        return replace(written, mouldy=tuple(filter(growing.__contains__, mouldy)), sign=saw)


def jot(book: Book, numbers: done.Numbers, text: str, place: str = "") -> done.Done:
    """Write a free note on trays (cut ones too) or on a place, or on the room as a whole."""
    note = clean_note(text)
    if not note:
        raise Refused("There is nothing to jot: the note is empty.")
    with book.writing() as act:
        trays = act.reading.trays(numbers, live=False) if numbers else []
        when = act.done_now
        done.refuse_before_sowing(act, trays, when, "a jot", planned=True)
        numbers = done.numbers_of(trays)
        spot = act.reading.places.find(place) if place else None
        act.entry(
            "jot", done.ids_of(trays), when, note=note, batch=done.batch_of(trays),
            place=spot.id if spot else None,
        )  # fmt: skip
        where = numbers_words(numbers) or (spot.path if spot else "the room")
        return done.done_of(act, f"jotted on {where}", numbers)
