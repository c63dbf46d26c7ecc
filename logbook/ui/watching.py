"""What changes while the app is open: the book's file, the clock, what comes due."""

import asyncio
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from datetime import date
from functools import partial
from types import MappingProxyType
from typing import Any

from textual import work
from textual.worker import WorkerCancelled

from logbook.actions.book import Book
from logbook.growing.room.upkeep import DueDuty
from logbook.growing.trays.chores import parts_of
from logbook.growing.trays.round import RoundLine
from logbook.settings import Settings
from logbook.text import Refused
from logbook.ui.commands import keyed
from logbook.ui.sitting import Sitting
from logbook.ways import Way, on_screens

LOOK_SECONDS = 1.0
TICK_SECONDS = 20.0
CARE_SECONDS = 5.0


def give_back() -> None:
    """Give memory that is free back to the system, which the C library may keep else; takes 1 ms."""
    from ctypes import CDLL

    with suppress(OSError, AttributeError):  # another C library
        CDLL("libc.so.6").malloc_trim(0)


class Watching(Sitting):
    """An app that shows what others wrote and what has come due."""

    care: Callable[[Book, Settings], list[str]] | None = None
    """What looks after the book, some seconds after the start and each day, and gives what to say."""
    _waiting: set[tuple[Any, ...]] | None = None
    _cared_on: date | None = None
    _notices: Mapping[str, str] = MappingProxyType({})
    """What was said last that nobody asked for, by what it is about."""
    _unsaid: Mapping[str, str] = MappingProxyType({})
    """What waits to be noticed until no question lies over the screen."""

    def begin_watching(self) -> None:
        """Look after the book's file and the clock from now on."""
        self.changed_here()
        self.book.tell_waits(partial(self.call_later, self.say))
        self.set_interval(LOOK_SECONDS, self.look_at_file)
        self.set_interval(TICK_SECONDS, self.tick)
        self.doubt_clock()
        if self.care is not None:
            self.set_timer(CARE_SECONDS, self.look_after)

    @work(group="care")
    async def look_after(self) -> None:
        """Check and copy the book off the loop; say what is not in order."""
        if self.care is None:
            return
        self._cared_on = self.book.today()
        try:
            found = await asyncio.to_thread(self.care, self.book, self.settings)
        except Refused as refused:
            found = [str(refused)]
        give_back()
        if found:
            more = f" And {len(found) - 1} more: {Way.CHECK}." if len(found) > 1 else ""
            self.notice("care", f"{found[0]}{more}")

    def notice(self, about: str, words: str) -> None:
        """Say what nobody asked for below what was said, when no question lies over it."""
        words = on_screens(words, lambda text: keyed(text, self.commands))
        self._unsaid = {**self._unsaid, about: words}
        self._say_notices()

    def _say_notices(self) -> None:
        if not self._unsaid or self.shown is None:
            return
        said, noticed = self.shown.said, "\n".join(self._notices.values())
        before = self._notices if noticed and said.endswith(noticed) else {}
        said = said.removesuffix(noticed).rstrip()
        self._notices = {**before, **self._unsaid}
        self._unsaid = {}
        self.say("\n".join(filter(None, [said, *self._notices.values()])), wants=True)

    def look_at_file(self) -> None:
        """Show what another program wrote; every commit changes the file itself."""
        self._say_notices()
        before, self._stamp = self._stamp, self.file_stamp()
        if self._stamp != before and self.shown is not None:
            if before is None:
                self.say("The book is back in its place.")
            self.shown.refresh_view()

    def tick(self) -> None:
        """Move on with the clock: redraw, ring when a chore's time has come, care for the book daily."""
        self.remind()
        self.doubt_clock()
        if self._cared_on not in (None, self.book.today()):
            self.look_after()

    @work(exclusive=True, group="doubt")
    async def doubt_clock(self) -> None:
        """Look whether the clock can be believed, and show it when that changes."""
        try:
            doubt = await asyncio.to_thread(self.book.clock_doubt)
        except Refused:
            return
        if doubt != self.doubt:
            self.doubt = doubt
            if self.shown is not None:
                self.shown.refresh_view()

    @work(exclusive=True, group="remind")
    async def remind(self) -> None:
        """Read the screen anew; ring and say what has come due since the last look.

        The round on the screen is looked at itself; elsewhere, and while a question is open, it is
        read after the screen.
        """
        from logbook.actions.trays.round import the_round

        waiting: Sequence[RoundLine | DueDuty] | None = None
        try:
            if self.shown is not None:
                screen = self.shown
                with suppress(WorkerCancelled):
                    await screen.refresh_view().wait()
                waiting = screen.due_now() if screen.view is not None else None
            if waiting is None:
                waiting = tuple((await asyncio.to_thread(the_round, self.book)).walked())
        except Refused:
            return
        fresh = {
            (part, line.key[1:], line.due_at): line
            for line in waiting
            for part in parts_of(line.chore)
        }
        before, self._waiting = self._waiting, set(fresh)
        came = [] if before is None else [fresh[key] for key in fresh if key not in before]
        if came:
            if self.settings.bell:
                self.bell()
            first = came[0]
            more = f" and {len(came) - 1} more" if len(came) > 1 else ""
            self.notice("due", f"Due now: {first.said}{more}")
