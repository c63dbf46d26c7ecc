"""The options that stand before every command: which book, when, who writes."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, tzinfo
from pathlib import Path
from typing import TYPE_CHECKING

import click

from logbook.cli.files import named_book
from logbook.paths import BOOK_VARIABLE, book_path
from logbook.text import Refused

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.clock import Clock
    from logbook.store.server.address import Address

LOGIN, NOBODY = "the login name", "nobody said"
GUESSED = (LOGIN, NOBODY)
"""What says who writes when nobody has told it."""


@dataclass
class Options:
    """The options that stand before the command."""

    book: str | None
    now: str | None
    by: str | None
    at: str | None = None
    """When that which the command writes happened, as it was said; None for now."""
    made: bool = False
    """Whether the command has made a book or a file beside what it writes in the book."""
    say: Callable[[str], object] | None = None
    """Told that a reading waits for a writer."""
    _opened: list[Book] = field(default_factory=list)

    @property
    def written(self) -> bool:
        """Whether anything is on the disk by now that was not there before."""
        return self.made or any(book.wrote for book in self._opened)

    @property
    def where(self) -> Path | Address:
        """Where the book is: its file, or the address of a server."""
        from logbook.store.server.address import address_of, is_address

        given = self.book or os.environ.get(BOOK_VARIABLE, "")
        if is_address(given):
            return address_of(given)
        if "://" in given:
            kind = given.split("://")[0]
            raise Refused(
                f'A book cannot be at "{kind[:40]}://"; give the path of a file, or '
                "postgresql://user@host/database."
            )
        return self._copy_named() or named_book(book_path(self.book))

    @property
    def path(self) -> Path:
        """The book's file; raises Refused where the book is on a server."""
        from logbook.store.server.address import only_files

        where = self.where
        if isinstance(where, Path):
            return where
        raise only_files(where)

    def _copy_named(self) -> Path | None:
        """The copy that --book names by its bare name, where no file of that name is here."""
        named = self.book or ""
        if not named or os.sep in named or named_book(named).exists():
            return None
        from logbook.actions.care.keeping import named_copy

        copy = named_copy(Path(named), book_path())
        return copy if copy.exists() else None

    @property
    def writer(self) -> str:
        """Who writes; see said_writer."""
        return self.said_writer[0]

    @property
    def said_writer(self) -> tuple[str, str]:
        """Who writes and what says so.

        In this order: --by, LOGBOOK_BY, what was told to this terminal, the settings, and the
        login name.
        """
        from logbook.actions.initials import initials_here
        from logbook.settings import read_settings

        for given, source in (
            (self.by, "--by"),
            (os.environ.get("LOGBOOK_BY"), "LOGBOOK_BY"),
            (initials_here(), "this terminal"),
            (read_settings().by, "the settings"),
            (os.environ.get("SSH_USER"), LOGIN),
            (os.environ.get("USER"), LOGIN),
        ):
            if given:
                return given, source
        return "grower", NOBODY

    @property
    def asks_writer(self) -> Callable[[str], str] | None:
        """What keeps the initials of this terminal when nothing better than a login name says."""
        if self.said_writer[1] not in GUESSED:
            return None
        from logbook.actions.initials import set_initials, terminal_here

        return set_initials if terminal_here() is not None else None

    def clock(self, zone: str = "UTC") -> Clock:
        """The machine's clock, or one that stands at --now (read in the zone)."""
        from logbook.clock import SystemClock, ToldClock

        clock = SystemClock()
        if self.now is None:
            return clock
        from logbook.growing.days import zone_named
        from logbook.growing.when import parse_when

        return ToldClock(parse_when(self.now, clock.now(), zone_named(zone)))

    @property
    def zone(self) -> tzinfo:
        """The room's zone where a book is open, else UTC."""
        return self._opened[0].zone if self._opened else UTC

    def open(self, *, brief: bool = False) -> Book:
        """Open the book once, or raise Refused; `brief` gives up where a writer is waited for."""
        if not self._opened:
            from logbook.actions.book import open_book
            from logbook.growing.when import parse_when
            from logbook.store.file.book_file import Patience

            book = open_book(self.where, by=self.writer, patience=Patience(brief, self.say))
            book.clock = self.clock(book.about.zone)
            book.said_at = parse_when(self.at, book.now(), book.zone) if self.at else None
            self._opened.append(book)
        return self._opened[0]


pass_options = click.make_pass_decorator(Options)
