"""Striking: an entry, or a whole act, is struck with a reason and stays in the record."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.actions.book import Book
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.entry_words import UNDO, entry_noun
from logbook.actions.writing import Act
from logbook.growing.days import moment_words
from logbook.growing.numbers import numbers_words
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.entries import StoredEntry, last_standing_act, read_act, read_entry
from logbook.store.reads.trays import read_trays
from logbook.store.rows import LARGEST_ID
from logbook.text import Refused, clean_note, listed
from logbook.ways import Way


def undo(book: Book) -> Done:
    """Strike what this person wrote last, all of that act; views are as they were before.

    What that act struck stands again.
    """
    with book.reading() as reading:
        act_id = last_standing_act(reading, book.by)
    if act_id is None:
        raise Refused(f"There is nothing of {book.by}'s to undo.")
    return strike_act(book, act_id, "undone")


def strike_act(book: Book, act_id: int, why: str) -> Done:
    """Strike every standing entry of an act, its strikes too, so that what they struck stands.

    A strike stays whose replacement somebody has struck or replaced since. Raises Refused where it
    is struck already, is itself an undoing, or a tray would come back whose number is on another.
    """
    with book.writing() as act:
        entries = read_act(act.reading, act_id)
        written = [entry for entry in entries if entry.kind != "strike"]
        standing = [entry for entry in written if entry.struck_by is None]
        gone = {entry.replaces for entry in written if entry.struck_by is not None}
        standing += [
            entry
            for entry in entries
            if entry.kind == "strike"
            and entry.chore != UNDO
            and entry.struck_by is None
            and entry.strikes_id not in gone
        ]
        if not standing:
            raise Refused("That is struck already.")
        numbers: dict[int, None] = {}
        for entry in standing:
            write_strike(act, entry, why, chore=UNDO)
            numbers.update(dict.fromkeys(entry.trays))
        check_off_rack(act, standing)
        words = listed([entry_noun(act.reading, entry) for entry in standing])
        return done_of(act, f"{why}: {words} {numbers_words(numbers)}".strip(), tuple(numbers))


def struck_words(book: Book, act_id: int) -> str:
    """Say which entries an act has struck and when they were written: an undo may reach far back."""
    with book.reading() as reading:
        strikes = [entry.strikes_id for entry in read_act(reading, act_id)]
        struck = [read_entry(reading, each) for each in strikes if each is not None]
    found = [entry for entry in struck if entry is not None]
    head = "Entry" if len(found) == 1 else "Entries"
    names = listed([str(entry.id) for entry in found])
    oldest = min(entry.written_at for entry in found)
    return f"{head} {names}, written {moment_words(oldest, book.now(), book.zone)}."


def strike(book: Book, entry_id: int, why: str) -> Done:
    """Strike one entry with a reason; it stays in the record."""
    reason = checked_reason(why)
    with book.writing() as act:
        entry = entry_to_strike(act, entry_id)
        write_strike(act, entry, reason)
        check_off_rack(act, [entry])
        words = f"struck {entry_noun(act.reading, entry)} {numbers_words(entry.trays)}"
        return done_of(act, words.strip(), entry.trays)


def checked_reason(why: str) -> str:
    """The reason of a strike, cleaned; raises Refused when there is none."""
    reason = clean_note(why)
    if not reason:
        raise Refused("Say why it is struck; a word is enough.")
    return reason


def entry_to_strike(act: Act, entry_id: int) -> StoredEntry:
    """A standing entry; raises Refused when there is none, or it is or was a strike."""
    entry = read_entry(act.reading, entry_id) if 0 < entry_id < LARGEST_ID else None
    if entry is None:
        raise Refused(f"There is no entry {str(entry_id)[:20]}; {Way.PAGE} lists them.")
    if entry.kind == "strike":
        raise Refused(
            f"Entry {entry_id} is itself a strike. {Way.UNDO} takes back what you wrote last; "
            "else write the entry anew."
        )
    if entry.struck_by is not None:
        instead = f"; entry {entry.replaced_by} stands in its place" if entry.replaced_by else ""
        raise Refused(f"Entry {entry_id} is struck already{instead}.")
    return entry


def check_off_rack(act: Act, struck: Sequence[StoredEntry]) -> None:
    """Raise Refused where a struck sowing leaves an end of its trays hanging in the air."""
    trays = {tray for entry in struck if entry.kind in ("plan", "sow") for tray in entry.tray_ids}
    hanging = []
    for tray, deeds in read_deeds(act.reading, trays).items():
        kinds = {deed.kind for deed in deeds}
        ends = {"weigh", "cut"} if "plan" in kinds else {"weigh", "cut", "discard"}
        if "sow" not in kinds and kinds & ends:
            hanging.append(tray)
    if hanging:
        numbers = numbers_words(tray.number for tray in read_trays(act.reading, hanging))
        raise Refused(f"Off the rack already: {numbers}; strike its cut or its discard first.")


def write_strike(act: Act, entry: StoredEntry, why: str, chore: str = "") -> None:
    """Write the strike of an entry, on the trays of that entry."""
    act.entry(
        "strike", entry.tray_ids, note=why, strikes=entry.id, batch=entry.batch_id, chore=chore
    )
