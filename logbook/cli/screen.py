"""Opening the app on a book, and on the sample."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from logbook.cli.mishap import keep_trace
from logbook.store.file.faults import NoBook
from logbook.text import Refused

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.care.begin import BeginDraft
    from logbook.cli.options import Options
    from logbook.handbook import Plain
    from logbook.settings import Settings


def has_screen() -> bool:
    """Whether there is a terminal that a screen can be drawn on, or a browser's tab."""
    if os.environ.get("TEXTUAL_DRIVER", "").endswith(":WebDriver"):
        return True
    return sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM", "") != "dumb"


def open_app(options: Options, top: Callable[[], click.Context]) -> None:
    """Open the app at the round, or at a new book's questions; `top` lists the commands."""
    if not has_screen():
        raise Refused(
            "The screens need a terminal. The plain commands work without one: logbook round, "
            "logbook due, logbook --help."
        )
    gc.disable()  # nothing that is loaded at the start is ever garbage; the app takes it up again
    book: Book | None
    try:
        book = options.open()
    except NoBook:
        book = None

    def begin(draft: BeginDraft) -> Book:
        from logbook.actions.care.begin import begin_book

        return begin_book(options.where, draft, options.clock(draft.zone), options.writer)

    def care(book: Book, settings: Settings) -> list[str]:
        from logbook.actions.care.checking import look_after

        return look_after(book, settings)

    where = options.where
    path = where if isinstance(where, Path) else None
    run_app(book, top, begin, path, care, options.asks_writer)


def run_app(
    book: Book | None, top: Callable[[], click.Context],
    begin: Callable[[BeginDraft], Book] | None = None, new_path: Path | None = None,
    care: Callable[[Book, Settings], list[str]] | None = None,
    remember: Callable[[str], str] | None = None, tour: Literal["begin", "offer", "none"] = "none",
) -> None:  # fmt: skip
    """Run the app on a book until it is closed; without one it asks for a new one.

    `care` looks after the book each day while the app is open. `remember` keeps the initials of who
    writes, which are asked for at the first writing; None asks for none.
    """
    gc.disable()
    os.environ.setdefault("TEXTUAL_ANIMATIONS", "none")
    from logbook.settings import keep_setting, read_settings
    from logbook.ui.app import LogbookApp
    from logbook.ui.line.terminal import display_here
    from logbook.ui.line.watchdog import hold_watchdog

    settings = read_settings()
    encoding = sys.__stderr__.encoding if sys.__stderr__ else None
    display_for = partial(display_here, os.environ, encoding)
    display = display_for(settings.signs)
    app = LogbookApp(book, settings, begin, keep_trace, new_path, display)
    app.display_for = display_for
    app.care = care
    app.remember_writer = remember
    app.keep_setting = keep_setting
    app.plain = lambda: _plain(top())
    app.tour = tour
    put_back = hold_watchdog(app)
    try:
        app.run(mouse=settings.mouse)
    finally:
        put_back()
        gc.enable()
    if app.return_code:
        raise click.exceptions.Exit(app.return_code)


def _plain(top: click.Context) -> list[Plain]:
    from logbook.cli.listing import plain_commands

    return plain_commands(top)
