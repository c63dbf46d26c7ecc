"""An act: what one press of a key or one command writes, in one transaction."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from sqlmodel import Session

from logbook.growing.days import moment_words
from logbook.growing.life import fold_tray
from logbook.store.book_file import raw_connection
from logbook.store.reads import read_deeds, read_trays, read_versions
from logbook.store.tables import EntryRow, EntryTrayRow, TrayRow
from logbook.text import Refused, clean_note, fold

if TYPE_CHECKING:
    from logbook.actions.book import Book

AHEAD = timedelta(minutes=5)
LONGEST_AGO = timedelta(days=366 * 2)


class Act:
    """One transaction. Entries made through it share an act and are undone together."""

    def __init__(self, book: Book, session: Session) -> None:
        self.book = book
        self.session = session
        self.now = book.now()
        self.act_id: int | None = None
        self._touched: set[int] = set()
        self._kinds: set[str] = set()

    @property
    def raw(self) -> sqlite3.Connection:
        """The connection for reads inside the transaction."""
        self.session.flush()
        return raw_connection(self.session)

    def moment(self, at: datetime | None, what: str = "That") -> datetime:
        """Give when it happened (now by default); raise Refused for the future or the far past."""
        if at is None:
            return self.now
        if at > self.now + AHEAD:
            words = moment_words(at, self.now, self.book.zone)
            raise Refused(
                f"{what} cannot have been done at {words}: that is still to come. "
                "Give a time up to now."
            )
        if at < self.now - LONGEST_AGO:
            words = moment_words(at, self.now, self.book.zone)
            raise Refused(f"{what} at {words} is more than two years ago; look at the year.")
        return at

    def entry(
        self,
        kind: str,
        trays: Iterable[int],
        at: datetime | None = None,
        *,
        note: str = "",
        chore: str = "",
        stage: int | None = None,
        batch: int | None = None,
        place: int | None = None,
        strikes: int | None = None,
    ) -> int:
        """Write one entry on trays (ids) and give its id."""
        note = clean_note(note)
        self._kinds.add(kind)
        row = EntryRow(
            kind=kind,
            at=at or self.now,
            written_at=self.now,
            by=self.book.by,
            note=note,
            note_key=fold(note),
            chore=chore,
            stage=stage,
            batch_id=batch,
            place_id=place,
            strikes_id=strikes,
            act_id=self.act_id,
        )
        self.session.add(row)
        self.session.flush()
        assert row.id is not None  # noqa: S101 - flushed
        if self.act_id is None:
            self.act_id = row.act_id = row.id
        ids = list(dict.fromkeys(trays))
        self.session.add_all(EntryTrayRow(entry_id=row.id, tray_id=tray) for tray in ids)
        self._touched.update(ids)
        return row.id

    def touch(self, trays: Iterable[int]) -> None:
        """Mark trays whose summary must be written anew at the end."""
        self._touched.update(trays)

    def finish(self) -> None:
        """Write the summary of every touched tray, and the hours of shelves, from the entries."""
        from logbook.actions.lamp_hours import settle_hours

        refresh_trays(self, self._touched)
        if self._kinds & {"hours", "strike"}:
            settle_hours(self)
        self.session.flush()


def refresh_trays(act: Act, trays: Iterable[int]) -> None:
    """Fold trays' standing deeds and write what the tray table keeps of the result."""
    ids = list(trays)
    if not ids:
        return
    raw = act.raw
    stored = read_trays(raw, ids)
    versions = read_versions(raw, {tray.version_id for tray in stored})
    deeds = read_deeds(raw, ids)
    for tray in stored:
        state = fold_tray(
            versions[tray.version_id], deeds.get(tray.id, ()), act.book.hours, act.now
        )
        grams = state.grams if state.status == "cut" else None
        if (tray.live, tray.ended_at, tray.cut_grams) == (state.live, state.ended_at, grams):
            continue
        row = act.session.get_one(TrayRow, tray.id)
        row.live, row.ended_at, row.cut_grams = state.live, state.ended_at, grams
        act.session.add(row)
