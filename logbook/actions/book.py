"""The Book: a file, a clock and who writes; handed to every action."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from logbook.actions.clocking import clock_doubt, likely_now
from logbook.actions.copies import naming_copies, way_back
from logbook.actions.reading import Folds, Reading
from logbook.clock import Clock, SystemClock, ToldClock
from logbook.growing.days import day_of, moment_words
from logbook.growing.measures import Units
from logbook.growing.trays.chores import RoomHours
from logbook.store.file.book_file import BookFile, Patience
from logbook.store.file.faults import Damaged
from logbook.store.file.health import read_stamp
from logbook.store.file.opening import opened
from logbook.store.reads.book import About, read_rooms
from logbook.store.rows import Connection
from logbook.store.server.address import Address
from logbook.store.server.server_book import ServerBook
from logbook.text import Refused, clean_name
from logbook.ways import Way

if TYPE_CHECKING:
    from logbook.actions.writing import Act


@dataclass
class Book:
    """An open book. `by` is who writes: initials or a name.

    `damage` is what a check has found wrong with the file, "" for nothing: a damaged book can be
    read as far as its pages allow and is not written to. `folds` are those of the live trays, by
    tray id, as last read: only trays with new entries are read and folded again.
    """

    file: BookFile | ServerBook
    clock: Clock
    by: str
    about: About
    damage: str = ""
    opened_after: int = 0
    """The newest entry when it was opened: what is newer is of this sitting."""
    wrote: bool = False
    """Whether an act was written since it was opened."""
    said_at: datetime | None = None
    """When that happened which is written without a time of its own; None for now."""
    folds: Folds = field(default_factory=Folds, repr=False, compare=False)

    @property
    def zone(self) -> ZoneInfo:
        """The first room's time zone."""
        return self.about.hours.zone

    @property
    def units(self) -> Units:
        """The units that weights and lengths are read and written in."""
        return self.about.units

    @property
    def hours(self) -> RoomHours:
        """The first room's day."""
        return self.about.hours

    @property
    def rehearsal(self) -> str:
        """What is said on top of a book in which nothing is real, or whose time is pretended."""
        real = self.about.begun_as == "" and not isinstance(self.clock, ToldClock)
        return "" if real or self.about.begun_as == "sample" else "rehearsal"

    def now(self) -> datetime:
        """The present moment by the book's clock, in UTC."""
        return self.clock.now()

    def today(self) -> date:
        """The present day in the room."""
        return day_of(self.now(), self.zone)

    def when(self, at: datetime) -> str:
        """Write a moment in the time of the first room: "07:42", "Tue 18:00"."""
        return moment_words(at, self.now(), self.zone)

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        """One moment of the book, which cannot be written to."""
        with naming_copies(self.file.path), self.file.reading() as rows:
            yield self.read(rows.connection)

    def read(self, connection: Connection) -> Reading:
        """A reading over a connection; what another program changed of the room is noted."""
        reading = Reading(connection, self.clock, self.folds)
        self.about = reading.about
        return reading

    def tell_waits(self, say: Callable[[str], object]) -> None:
        """From now on a reading that waits for a writer says so; `say` is called in its thread."""
        self.file.patience = Patience(say=say)

    def clock_doubt(self) -> str:
        """Why the clock is in doubt, or ''."""
        with self.reading() as reading:
            return clock_doubt(reading)

    def likely_now(self) -> datetime:
        """The time of the clock; of one in doubt, none before what the book knows."""
        with self.reading() as reading:
            return likely_now(reading)

    @contextmanager
    def writing(self) -> Iterator[Act]:
        """An act: one transaction whose entries stand or fall together.

        Raises Refused where the time is pretended and the book real, where the disk, the file or another program does not let it be written, or a
        check has found the book damaged.
        """
        from logbook.actions.writing import Act

        if isinstance(self.clock, ToldClock) and not self.about.begun_as:
            raise Refused(
                f"{Way.NOW} pretends a time; this is a real book, so nothing was written. To say when "
                f"something happened, use {Way.AT}."
            )
        if self.damage:
            raise Damaged(
                f"The book {self.file.path} was found damaged and is not written to. The check "
                f"said: {self.damage} {way_back(self.file.path)}"
            )
        try:
            with naming_copies(self.file.path), self.file.writing() as writer:
                self.read(writer.connection)
                act = Act(writer, self.clock, self.by, self.folds, self.said_at)
                yield act
                act.finish()
            self.wrote = True
        except BaseException:
            self.folds.clear()  # of entries that never were, whose ids others will have
            raise


def open_book(
    where: Path | Address,
    clock: Clock | None = None,
    by: str = "",
    patience: Patience | None = None,
) -> Book:
    """Open a book, in a file or on a server, bringing it up to date if it is of an older program.

    Raises:
        NoBook: there is none there.
        NotABook: the file is no book, of a newer program, or damaged where it cannot be read; the
            sentence names the newest good copy.
    """
    file: BookFile | ServerBook
    if isinstance(where, Address):
        from logbook.store.server.making import opened_server

        file = opened_server(ServerBook(where, patience))
    else:
        with naming_copies(where):
            file = opened(where, patience)
    with naming_copies(file.path), file.reading() as rows:
        about = read_rooms(rows)[0]
        newest = rows.value("SELECT max(id) FROM entry") or 0
    stamp = read_stamp(file.path)
    name = clean_name(by or "grower", "initials")
    return Book(file, clock or SystemClock(), name, about, stamp.damage if stamp else "", newest)
