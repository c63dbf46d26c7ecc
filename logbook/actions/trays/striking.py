"""Striking: an entry, or a whole act, is struck with a reason and stays in the record.

Undo strikes one's own newest act, redo strikes such an undo.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta

from logbook.actions.book import Book
from logbook.actions.packs.owing import gone_with, short_lots
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.entry_lines import Line, lines_of
from logbook.actions.trays.entry_words import REDO, UNDO, entry_noun
from logbook.actions.writing import Act
from logbook.growing.kinds import KINDS, kind_of
from logbook.growing.numbers import numbers_words
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.entries import (
    StoredEntry,
    last_standing_act,
    last_undo,
    read_act,
    read_entry,
)
from logbook.store.reads.trays import read_trays
from logbook.store.rows import LARGEST_ID
from logbook.text import Refused, clean_reason, listed
from logbook.ways import Way

YOUNG = timedelta(hours=1)
"""What is older, and of no sitting that still goes on, is not undone unasked."""


@dataclass(frozen=True, slots=True)
class LastAct:
    """What somebody wrote last that undo can take back: its first entry, and whether to ask."""

    id: int
    entries: frozenset[int]
    words: str
    asks: bool


def last_act(book: Book) -> LastAct:
    """What undo would take back; raises Refused where that is nothing, or is not in its reach.

    It asks where the act is neither of this sitting nor younger than an hour, and where its kind
    wants it (see growing/kinds.py).
    """
    with book.reading() as reading:
        act_id = last_standing_act(reading, book.by)
        if act_id is None:
            raise _nothing_of(reading, book.by)
        entries = _within_reach(read_act(reading, act_id))
        lines = lines_of(reading, [each for each in entries if not each.struck], name_lots=True)
        lines.sort(key=lambda line: kind_of(line.kind).undo != "asks")
        here = act_id > book.opened_after
        young = timedelta() <= reading.now - entries[0].written_at < YOUNG
        asks = not (here or young) or kind_of(lines[0].kind).undo == "asks"
        said = [_entry_words(line, reading) for line in lines[:2]]
        more = f" and {len(lines) - 2} more" if len(lines) > 2 else ""
        ids = frozenset(each.id for each in entries)
        return LastAct(act_id, ids, "; ".join(said) + more, asks)


def _entry_words(line: Line, reading: Reading) -> str:
    many = "tray" if len(line.trays) == 1 else "trays"
    trays = read_trays(reading, line.tray_ids) if line.kind in ("sow", "plan") else []
    crops = reading.versions({tray.version_id for tray in trays}).values()
    on = f"{many} {numbers_words(line.trays)}" if line.trays else line.place
    note = f'"{line.note[:40]}"' if line.note and line.kind != "strike" else ""
    when = reading.when(line.at, line.place_id)
    today = "today " if len(when) == len("07:42") else ""
    words = f"{', '.join(each.label() for each in crops)} {line.words}".strip()
    return ", ".join(filter(None, (words, note, on, today + when)))


def _within_reach(entries: Sequence[StoredEntry]) -> Sequence[StoredEntry]:
    for entry in entries:
        if kind_of(entry.kind).undo == "never":
            raise Refused(
                f"Entry {entry.id} can't be undone: {entry.note.rstrip('.')}. Change that back "
                "where it was "
                "changed; nothing was undone."
            )
    return entries


def _nothing_of(reading: Reading, by: str) -> Refused:
    """That somebody wrote nothing that stands, and whose the newest entry is: a paper's are its holder's."""
    other = reading.value('SELECT "by" FROM entry ORDER BY id DESC LIMIT 1')
    whose = f" What was written last is {other}'s." if other and other != by else ""
    return Refused(f"There is nothing of {by}'s to undo.{whose}")


def undo(book: Book, act_id: int | None = None) -> Done:
    """Strike what this person wrote last, all of that act; views are as they were before.

    What that act struck stands again. With `act_id`, which somebody has been shown, only if it is
    still that act. Raises Refused as last_act() does.
    """
    with book.reading() as reading:
        newest = last_standing_act(reading, book.by)
        if newest is None:
            raise _nothing_of(reading, book.by)
    if act_id not in (None, newest):
        raise Refused(f"{book.by} has written something else since; nothing was undone.")
    return strike_act(book, newest, "undone")


def redo(book: Book) -> Done:
    """Bring back what this person's last undo took, as long as nothing was written since."""
    with book.writing() as act:
        reading = act.reading
        act_id = last_undo(reading, book.by)
        if act_id is None:
            raise Refused("There is nothing to redo: something was written since the last undo.")
        strikes = [each for each in read_act(reading, act_id) if not each.struck]
        undone = [read_entry(reading, each.strikes_id or 0) for each in strikes]
        for entry in strikes:
            write_strike(act, entry, "redone", chore=REDO)
        return _struck(act, "redone", strikes, [each for each in undone if each is not None])


def _struck(
    act: Act, why: str, struck: Sequence[StoredEntry], named: Sequence[StoredEntry]
) -> Done:
    numbers = list(dict.fromkeys(tray for entry in struck for tray in entry.trays))
    words = listed([entry_noun(act.reading, entry) for entry in named])
    notices = short_lots(act.reading, [entry.id for entry in named])
    return done_of(act, f"{why}: {words} {numbers_words(numbers)}".strip(), numbers, notices)


def strike_act(book: Book, act_id: int, why: str) -> Done:
    """Strike every standing entry of an act, its strikes too, so that what they struck stands.

    A strike stays whose replacement somebody has struck or replaced since. Raises Refused where it
    is struck out already, is itself an undoing, or a tray would come back whose number is on another.
    """
    with book.writing() as act:
        entries = _within_reach(read_act(act.reading, act_id))
        written = [entry for entry in entries if entry.kind != "strike"]
        standing = [entry for entry in written if not entry.struck]
        gone = {entry.replaces for entry in written if entry.struck}
        standing += [
            entry
            for entry in entries
            if entry.kind == "strike"
            and entry.chore not in (UNDO, REDO)
            and not entry.struck
            and entry.strikes_id not in gone
        ]
        if not standing:
            raise Refused("That is struck out already.")
        for entry in standing:
            write_strike(act, entry, why, chore=UNDO)
        check_off_rack(act, standing)
        return _struck(act, why, standing, standing)


def struck_words(book: Book, act_id: int) -> str:
    """Say which entries an act has struck and when they were written: an undo may reach far back."""
    with book.reading() as reading:
        strikes = [entry.strikes_id for entry in read_act(reading, act_id)]
        struck = [read_entry(reading, each) for each in strikes if each is not None]
    found = [entry for entry in struck if entry is not None]
    head = "Entry" if len(found) == 1 else "Entries"
    names = listed([str(entry.id) for entry in found])
    oldest = min(entry.written_at for entry in found)
    return f"{head} {names}, written {book.when(oldest)}."


def strike(book: Book, entry_id: int, why: str) -> Done:
    """Strike one entry with a reason; it stays in the record."""
    reason = clean_reason(why)
    with book.writing() as act:
        entry = entry_to_strike(act, entry_id)
        struck = [entry, *gone_with(act.reading, entry)]
        for each in struck:
            write_strike(act, each, reason)
        check_off_rack(act, struck)
        notices = short_lots(act.reading, [each.id for each in struck])
        words = f"struck out {entry_noun(act.reading, entry)} {numbers_words(entry.trays)}"
        return done_of(act, words.strip(), entry.trays, notices)


def entry_to_strike(act: Act, entry_id: int) -> StoredEntry:
    """A standing entry; raises Refused when there is none, or it is or was a strike."""
    entry = read_entry(act.reading, entry_id) if 0 < entry_id < LARGEST_ID else None
    if entry is None:
        raise Refused(f"There is no entry {str(entry_id)[:20]}; {Way.PAGE} lists them.")
    if entry.kind == "strike":
        raise Refused(
            f"Entry {entry_id} strikes another one out. {Way.UNDO} undoes what you wrote last; "
            "otherwise write the entry again."
        )
    _within_reach([entry])
    if entry.struck:
        instead = f"; entry {entry.replaced_by} replaces it" if entry.replaced_by else ""
        raise Refused(f"Entry {entry_id} is struck out already{instead}.")
    return entry


def check_off_rack(act: Act, struck: Sequence[StoredEntry]) -> None:
    """Raise Refused where a struck sowing leaves an end of its trays hanging in the air."""
    trays = {tray for entry in struck if entry.kind in ("plan", "sow") for tray in entry.tray_ids}
    hanging = []
    for tray, deeds in read_deeds(act.reading, trays).items():
        kinds = {deed.kind for deed in deeds}
        ends = {name for name, kind in KINDS.items() if kind.answers == "cut"}
        ends |= set() if "plan" in kinds else {"discard"}
        if "sow" not in kinds and kinds & ends:
            hanging.append(tray)
    if hanging:
        numbers = numbers_words(tray.number for tray in read_trays(act.reading, hanging))
        raise Refused(f"Off the rack already: {numbers}; strike out its cut or its discard first.")


def write_strike(act: Act, entry: StoredEntry, why: str, chore: str = "") -> None:
    """Write the strike of an entry, on the trays of that entry."""
    act.entry(
        "strike", entry.tray_ids, note=why, strikes=entry.id, batch=entry.batch_id, chore=chore
    )
