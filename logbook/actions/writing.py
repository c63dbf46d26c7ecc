"""An act: what one press of a key or one command writes, in one transaction."""

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any

from sqlmodel import Session

from logbook.actions.clocking import AHEAD, clock_doubt, likely_now
from logbook.actions.reading import Fold, Folds, Reading, true_summaries
from logbook.clock import Clock
from logbook.growing.kinds import that_carry
from logbook.growing.numbers import in_batch, numbers_words
from logbook.store.file.book_file import raw_connection
from logbook.store.reads.deeds import read_newest
from logbook.store.reads.lamps import first_hours, last_hours
from logbook.store.reads.trays import numbers_twice
from logbook.store.search import keep_words
from logbook.store.tables import EntryRow, PlaceRow, TrayRow, added, put_rows
from logbook.text import Refused, clean_note

LONGEST_AGO = timedelta(days=366 * 2)


class Act:
    """One transaction. Entries made through it share an act and are undone together."""

    def __init__(
        self, session: Session, clock: Clock, by: str, folds: Folds, at: datetime | None = None
    ) -> None:
        self.session = session
        self.clock = clock
        self.by = by
        self.folds = folds
        self.now = clock.now()
        self.act_id: int | None = None
        self.told: datetime | None = None
        """The last time that was said for something in it; None where all is of now."""
        self._touched: set[int] = set()
        self._kinds: set[str] = set()
        self.clock_in_doubt = bool(clock_doubt(self.reading))
        self.likely = likely_now(self.reading) if self.clock_in_doubt else self.now
        self.done_now = self.likely
        """When that is done of which nobody says when; `at` where that was told for all."""
        self.done_now = self.moment(at)

    @property
    def reading(self) -> Reading:
        """The book as this transaction has it now, with what was added to the session."""
        self.session.flush()
        return Reading(raw_connection(self.session), self.clock, self.folds, self.now)

    def moment(self, at: datetime | None, what: str = "That") -> datetime:
        """When it happened (now by default), or Refused; a clock in doubt lets it be ahead."""
        if at is None:
            return self.done_now
        if at > self.now + (LONGEST_AGO if self.clock_in_doubt else AHEAD):
            raise Refused(f"{self.reading.when(at)} is still to come. Give a time up to now.")
        if at < self.now - LONGEST_AGO:
            when = self.reading.when(at)
            raise Refused(f"{what} at {when} is more than two years ago; check the year.")
        self.told = at
        return at

    def entry(
        self, kind: str, trays: Iterable[int], at: datetime | None = None, *, note: str = "",
        chore: str = "", stage: int | None = None, batch: int | None = None,
        place: int | None = None, strikes: int | None = None,
    ) -> int:  # fmt: skip
        """Write one entry on trays (ids); returns its id."""
        note = clean_note(note)
        self._kinds.add(kind)
        row = EntryRow(
            kind=kind, at=self._told(at), written_at=self.now, by=self.by, note=note,
            chore=chore, stage=stage, batch_id=batch, place_id=place, strikes_id=strikes,
            act_id=self.act_id, clock_in_doubt=self.clock_in_doubt,
        )  # fmt: skip
        entry = added(self.session, row)
        if self.act_id is None:
            self.act_id = row.act_id = entry
        ids = list(dict.fromkeys(trays))
        self.put("entry_tray", entry, ({"tray_id": tray} for tray in ids))
        self._touched.update(ids)
        return entry

    def put(
        self, table: str, entry: int, rows: Iterable[Mapping[str, Any]] = ({},), **each: Any
    ) -> None:
        """Write what an entry says in a narrow table: rows by their columns, `each` with these too."""
        put_rows(self.session, table, ({"entry_id": entry, **each, **row} for row in rows))

    def _told(self, at: datetime | None) -> datetime:
        """When an entry says that it happened: a clock in doubt changes no time, not its own."""
        at = at or self.done_now
        return self.now if at == self.likely else at

    def settings(self, what: str, place: int | None = None) -> None:
        """Write that a template, a place or the room was changed, which undo cannot take back."""
        self.entry("settings", (), note=what, place=place)

    def place(self, place: int) -> PlaceRow:
        """The row of a place (id), to be changed."""
        return self.session.get_one(PlaceRow, place)

    def finish(self) -> None:
        """Write what follows from the entries: trays' summaries, hours of shelves by what stands, words to find."""
        refresh_trays(self, self._touched)
        if self._kinds & {*that_carry("hours"), "strike"}:
            reading = self.reading
            for place, hours in {**first_hours(reading), **last_hours(reading)}.items():
                row = self.place(place)
                if (row.lamp_on, row.lamp_off) != hours:
                    row.lamp_on, row.lamp_off = hours
        self.session.flush()
        if self.act_id is not None:
            keep_words(raw_connection(self.session), self.act_id)


def refresh_trays(act: Act, trays: Iterable[int]) -> None:
    """Fold trays' standing deeds and write what the tray table keeps of the result.

    The book keeps the folds, so that the next view does not make them once more. Raises Refused
    where a tray would come back to life whose number is on another one now.
    """
    ids = list(trays)
    if not ids:
        return
    changed = []
    reading = act.reading
    newest = read_newest(reading, ids)
    for tray in true_summaries(reading, ids):
        batch, version = tray.true[:2]
        hours = reading.hours_of(tray.state.place)
        act.folds[tray.id] = Fold(tray.state, (newest.get(tray.id), batch, version, hours))
        if tray.kept == tray.true:
            continue
        row = act.session.get_one(TrayRow, tray.id)
        row.batch_id, row.version_id, live, row.ended_at, row.cut_grams = tray.true
        row.number = in_batch(row.number, row.batch_id)
        row.live = row.live and live
        act.session.add(row)
        if live:
            changed.append(row)
    twice = numbers_twice(act.reading, [row.id for row in changed if row.id is not None])
    numbers = [row.number for row in changed]
    twice += [number for number in dict.fromkeys(numbers) if numbers.count(number) > 1]
    if twice:
        raise Refused(
            f"Number {numbers_words(twice)} is on another tray now, so this can't be undone. "
            "Jot what is right instead."
        )
    for row in changed:
        row.live = True
        act.session.add(row)
