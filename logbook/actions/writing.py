"""An act: what one press of a key or one command writes, in one transaction."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any

from logbook.actions.clocking import AHEAD, clock_doubt, likely_now
from logbook.actions.reading import Fold, Folds, Reading, true_summaries
from logbook.clock import Clock
from logbook.growing.kinds import that_carry
from logbook.growing.numbers import in_batch, numbers_words
from logbook.store.reads.deeds import read_newest
from logbook.store.reads.lamps import first_hours, last_hours
from logbook.store.reads.trays import numbers_twice
from logbook.store.search import keep_words
from logbook.store.writer import Writer
from logbook.text import Refused, clean_note

LONGEST_AGO = timedelta(days=366 * 2)


class Act:
    """One transaction. Entries made through it share an act and are undone together."""

    def __init__(
        self, writer: Writer, clock: Clock, by: str, folds: Folds, at: datetime | None = None
    ) -> None:
        self.writer = writer
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
        """The book as this transaction has it now."""
        return Reading(self.writer.connection, self.clock, self.folds, self.now)

    def moment(self, at: datetime | None, what: str = "That") -> datetime:
        """When it happened (now by default), or Refused; a clock in doubt lets it be ahead."""
        if at is None:
            return self.done_now
        if at > self.now + (LONGEST_AGO if self.clock_in_doubt else AHEAD):
            raise Refused(f"{self.reading.when(at)} is still to come. Type a time up to now.")
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
        entry = self.add(
            "entry", kind=kind, at=self._told(at), written_at=self.now, by=self.by, note=note,
            chore=chore, stage=stage, batch_id=batch, place_id=place, strikes_id=strikes,
            act_id=self.act_id, clock_in_doubt=self.clock_in_doubt,
        )  # fmt: skip
        if self.act_id is None:
            self.act_id = entry
            self.change("entry", entry, act_id=entry)
        ids = list(dict.fromkeys(trays))
        self.put("entry_tray", entry, ({"tray_id": tray} for tray in ids))
        self._touched.update(ids)
        return entry

    def add(self, table: str, /, **row: Any) -> int:
        """Write a row of a table whose rows are numbered; returns its number."""
        return self.writer.add(table, **row)

    def put(
        self, table: str, entry: int, rows: Iterable[Mapping[str, Any]] = ({},), **each: Any
    ) -> None:
        """Write what an entry says in a narrow table: rows by their columns, `each` with these too."""
        self.writer.put(table, ({"entry_id": entry, **each, **row} for row in rows))

    def _told(self, at: datetime | None) -> datetime:
        """When an entry says that it happened: a clock in doubt changes no time, not its own."""
        at = at or self.done_now
        return self.now if at == self.likely else at

    def settings(self, what: str, place: int | None = None) -> None:
        """Write that a template, a place or the room was changed, which undo cannot take back."""
        self.entry("settings", (), note=what, place=place)

    def change(self, table: str, which: int, /, **row: Any) -> None:
        """Change columns of a row by its number."""
        self.writer.change(table, which, **row)

    def finish(self) -> None:
        """Write what follows from the entries, and the words that they are found by."""
        self.settle()
        if self.act_id is not None:
            keep_words(self.writer, self.act_id)

    def settle(self) -> None:
        """Write what follows from the entries: trays' summaries, hours of shelves by what stands."""
        refresh_trays(self, self._touched)
        if self._kinds & {*that_carry("hours"), "strike"}:
            reading = self.reading
            for place, hours in {**first_hours(reading), **last_hours(reading)}.items():
                shelf = reading.places.by_id[place]
                if (shelf.lamp_on, shelf.lamp_off) != hours:
                    self.change("place", place, lamp_on=hours[0], lamp_off=hours[1])


def refresh_trays(act: Act, trays: Iterable[int]) -> None:
    """Fold trays' standing deeds and write what the tray table keeps of the result.

    The book keeps the folds, so that the next view does not make them once more. Raises Refused
    where a tray would come back to life whose number is on another one now.
    """
    ids = list(trays)
    if not ids:
        return
    alive: dict[int, int] = {}
    reading = act.reading
    newest = read_newest(reading, ids)
    for tray in true_summaries(reading, ids):
        batch, version = tray.true[:2]
        hours = reading.hours_of(tray.state.place)
        act.folds[tray.id] = Fold(tray.state, (newest.get(tray.id), batch, version, hours))
        if tray.kept == tray.true:
            continue
        number, live = in_batch(tray.number, batch), tray.true[2]
        act.change(
            "tray", tray.id, batch_id=batch, version_id=version, number=number,
            live=tray.kept[2] and live, ended_at=tray.true[3], cut_grams=tray.true[4],
        )  # fmt: skip
        if live:
            alive[tray.id] = number
    numbers = list(alive.values())
    twice = numbers_twice(act.reading, alive)
    twice += [number for number in dict.fromkeys(numbers) if numbers.count(number) > 1]
    if twice:
        raise Refused(
            f"Number {numbers_words(twice)} is on another tray now, so this can't be undone. "
            "Jot what is right instead."
        )
    for tray_id in alive:
        act.change("tray", tray_id, live=True)
