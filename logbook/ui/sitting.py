"""One sitting at the book: which book, with what keys and drafts, and where one is in it."""

import asyncio
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from textual import work
from textual.await_complete import AwaitComplete

from logbook.actions.book import Book
from logbook.handbook import Plain
from logbook.settings import Settings, naming_file
from logbook.text import Refused
from logbook.ui.command import Command
from logbook.ui.commands import COMMANDS, with_keys
from logbook.ui.drafts import Drafts
from logbook.ui.frame import Frame
from logbook.ui.line.keys_in_turn import KeysInTurn
from logbook.ui.line.terminal import Display, has_shell
from logbook.ui.screens import SCREENS, own_commands, screen_of
from logbook.ui.subjects import Subject


class Stop(NamedTuple):
    """A screen on the way that one came, and what it was about."""

    name: str
    subject: Subject = Subject()


class Sitting(KeysInTurn):
    """The app as its screens know it."""

    doubt = ""
    """Why the clock cannot be believed; '' when it can."""
    remember_writer: Callable[[str], str] | None = None
    """What keeps the initials of whoever writes here; None when they are known already."""
    keep_setting: Callable[[str, str | bool], object] | None = None
    """What writes a setting that was tried on the screens into the person's file; raises Refused."""
    display_for: Callable[[str], Display] = staticmethod(
        lambda signs: Display(plain=signs == "plain")
    )
    """What the terminal can show with the signs of the settings."""

    begin: Callable[[Any], Book] | None = None
    """What makes a book from a BeginDraft, where there is none yet, at `new_path`."""
    new_path: Path | None = None
    plain: Callable[[], Sequence[Plain]] = tuple
    """What lists the plain commands for the handbook."""

    def __init__(self, book: Book | None, settings: Settings | None = None, **facts: Any) -> None:
        """Take an open book, or None while a new one is asked for; `facts` are Textual's."""
        super().__init__(**facts)
        self._book = book
        self.settings = settings or Settings()
        self.drafts = Drafts(book.file.path if book is not None else Path("new"))
        self.trail: list[Stop] = []
        self.one_asks = asyncio.Lock()
        """Held while it is asked who writes, so that it is asked once."""
        self._stamp: object = None
        self.commands: Mapping[str, Command] = COMMANDS
        if self.settings.keys:
            try:
                self.commands = with_keys(self.settings.keys, own_commands())
            except Refused as wrong:
                raise naming_file(wrong) from wrong
            self.set_keymap({name: ",".join(self.commands[name].keys) for name in COMMANDS})

    @property
    def book(self) -> Book:
        if self._book is None:
            raise Refused("There is no book yet.")
        return self._book

    @property
    def has_book(self) -> bool:
        """Whether a book is open; there is none while a new one is asked for."""
        return self._book is not None

    @property
    def shown(self) -> Frame | None:
        """The screen that one is on; None while a question lies over it, and when the app has ended."""
        top = self.screen if self.screen_stack else None
        return top if isinstance(top, Frame) else None

    def say(self, words: str, *, wants: bool = False) -> None:
        if self.shown is not None:
            self.shown.say(words, wants=wants)

    def tell_keys(self) -> None:
        """Tell whoever draws keys of their own what the keys do here."""

    def changed_here(self) -> None:
        """Note that the book was changed by this app, so that it is not taken for another's."""
        self._stamp = self.file_stamp()

    def file_stamp(self) -> object:
        """What differs when the book was written to; None when it is not in its place."""
        return self.book.file.stamp()

    def go(self, to: str | Subject) -> None:
        """Go to a subject's screen, or one by name, when an unsaved form lets go; Esc leads back."""
        screen = self.shown
        if isinstance(to, str):
            about = SCREENS[to].about
            stop = Stop(to, about() if screen is None else screen.seen(about))
        else:
            stop = Stop(screen_of(to).name, to)
        if screen is None:
            self._go(stop)
        elif not self.has_book and not SCREENS[stop.name].bookless:
            screen.say(
                "There is no book yet; answer its questions first: esc goes there.", wants=True
            )
        elif self.has_book and screen.unsaved and self.trail[-1].name != stop.name:
            self._leave(screen, lambda: self._go(stop))
        else:
            self._go(stop)

    @work(exclusive=True, group="leave")
    async def _leave(self, screen: Frame, go_on: Callable[[], Any]) -> None:
        """Go on when the screen lets go of what is unsaved on it."""
        if await screen.may_leave():
            go_on()

    def _go(self, stop: Stop) -> None:
        left = self.trail[-1]
        self.trail[-1] = Stop(left.name, self._at(left).subject)  # it may be about another by now
        self._at(stop).subject = stop.subject
        if left.name == stop.name:
            self._at(stop).refresh_view()
            return
        if stop.name == "round":
            self.trail = []
        self.trail.append(stop)
        self.say("")  # what a screen said before it was left would be old when it comes back
        self.switch_screen(stop.name)

    def _at(self, stop: Stop) -> Frame:
        screen = self.get_screen(stop.name)
        assert isinstance(screen, Frame)  # noqa: S101 - the table names no others
        return screen

    def go_back(self) -> AwaitComplete:
        """Go to where one came from, unasked; there must be such a place."""
        self.trail.pop()
        stop = self.trail[-1]
        self._at(stop).subject = stop.subject
        self.say("")
        return self.switch_screen(stop.name)

    async def action_go_back(self) -> None:
        """Go to where one came from; the round is the last."""
        screen = self.shown
        if screen is None:
            return
        if not self.has_book and len(self.trail) < 2:
            self.action_close()
        elif len(self.trail) > 1 and screen.unsaved:
            self._leave(screen, self.go_back)
        elif len(self.trail) > 1:
            await self.go_back()

    def action_show(self, name: str) -> None:
        """Go to a screen, about what the cursor is on where that is of its kind."""
        self.go(name)

    async def action_quit(self) -> None:
        """Leave from the screen that one always comes back to, else go back."""
        screen = self.shown
        if len(self.trail) > 1 and not (screen is not None and screen.home):
            await self.action_go_back()
        else:
            self._quit()

    def action_close(self) -> Any:
        return self._quit()

    def action_suspend(self) -> None:
        """Stop the process where a shell waits to go on with it: else nothing would wake it."""
        if has_shell():
            self.action_suspend_process()
        else:
            self.say("No shell to go to: the program was not started from one.")

    @work(exclusive=True, group="leave")
    async def _quit(self) -> None:
        screen = self.shown
        if screen is None or not screen.unsaved or await screen.may_close():
            self.exit()

    def use_book(self, book: Book) -> None:
        self._book = book
        self.drafts.let_go()
        self.drafts = Drafts(book.file.path)
        self.trail = [Stop("round")]
        self.switch_screen("round")
