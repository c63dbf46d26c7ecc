"""Entries that lie ahead of now, as a clock that ran ahead leaves them: named, struck or re-dated."""

from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.clocking import AHEAD
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_within
from logbook.actions.trays.striking import check_off_rack, write_strike
from logbook.growing.kinds import kind_of
from logbook.growing.numbers import numbers_words
from logbook.store.reads.entries import read_ahead
from logbook.text import Refused, plural

WHY = "dated ahead"


def put_right_ahead(book: Book, at: datetime | None) -> Done:
    """Strike all entries that lie ahead, or write them anew `at` that time; Refused for none."""
    with book.writing() as act:
        ahead = read_ahead(act.reading, act.now + AHEAD)
        if not ahead:
            raise Refused("No entry is dated in the future.")
        for entry in ahead:
            if at is not None and kind_of(entry.kind).replaced:
                replace_within(act, entry.id, WHY, Changes(at=act.moment(at)))
            else:
                write_strike(act, entry, WHY)
        check_off_rack(act, ahead)
        numbers = dict.fromkeys(tray for entry in ahead for tray in entry.trays)
        done = "struck out" if at is None else "re-dated"
        many = plural(len(ahead), "entry", "entries")
        words = f"{done}: {many} dated in the future, {numbers_words(numbers)}".removesuffix(", ")
        return done_of(act, words, list(numbers))
