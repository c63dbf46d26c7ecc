"""The base of all screens: head, body, what was said, foot; loading off the loop."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar

from textual import work
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.geometry import Size
from textual.screen import Screen
from textual.widgets import Static

from logbook.growing.days import clock_words, day_words
from logbook.text import Refused
from logbook.ui.commands import EVERYWHERE, bindings, keyed
from logbook.ui.drafts import Draft
from logbook.ui.subjects import Subject
from logbook.ui.widgets.bars import Foot, Head, Rule, Said
from logbook.ui.widgets.walk_list import WalkList

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.growing.round import RoundLine
    from logbook.ui.app import LogbookApp
    from logbook.ui.asking import Question

Answer = TypeVar("Answer")
Value = TypeVar("Value")
NARROW, SHORT = 66, 18


def trimmed(text: str) -> str:
    """Give a text without the spaces at the ends of its lines."""
    return "\n".join(line.rstrip() for line in text.split("\n")).strip("\n")


class LogScreen(Screen[None]):
    """A screen of the logbook.

    A subclass names itself (`heading`), says what it is for (`purpose`), lists its own commands in
    the order of the footer (`own`), composes its body, loads its view in `load` (in a thread, with
    the book) and draws it in `draw` (on the loop). State comes down from the view; nothing is read
    from the book while drawing.
    """

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (NARROW, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (SHORT, "-tall")]
    heading: ClassVar[str] = ""
    purpose: ClassVar[str] = ""
    own: ClassVar[tuple[str, ...]] = ()
    digits_go_to_trays: ClassVar[bool] = False
    """Whether a digit here begins the number of a tray to go to."""
    last: ClassVar[str] = "help"
    """The command that ends the footer."""

    def __init_subclass__(cls, **kwargs: Any) -> None:
        names = [name for name in cls.own if name not in EVERYWHERE]
        cls.BINDINGS = [*cls.__dict__.get("BINDINGS", []), *bindings(*names)]
        super().__init_subclass__(**kwargs)

    subject: Subject = Subject()
    """What it is about; set by the app before the screen is shown."""
    view: Any = None
    drawn_for: Size | None = None
    """The size of the app when the screen was drawn last."""
    fresh = False
    """Whether the view was read just now, so that the screen can come up with it."""
    counts = ""
    home: ClassVar = False
    """Whether it is the screen that one always comes back to."""

    @property
    def logbook(self) -> LogbookApp:
        """The app, as what it is."""
        from logbook.ui.app import LogbookApp

        app = self.app
        assert isinstance(app, LogbookApp)  # noqa: S101 - there is no other
        return app

    @property
    def book(self) -> Book:
        """The open book."""
        return self.logbook.book

    @property
    def unsaved(self) -> bool:
        """Whether something was typed here that is not in the book."""
        return False

    async def may_leave(self) -> bool:
        """Ask what to do with what is unsaved; give whether one may go elsewhere now."""
        return True

    async def may_close(self) -> bool:
        """Ask whether to close the book although something here is unsaved."""
        from logbook.ui.asking import AskYes

        asked = "What is typed here is not saved. Close the book all the same?"
        answer = await self.app.push_screen_wait(AskYes(asked))
        return answer is True

    @property
    def narrow(self) -> bool:
        """Whether lines must be folded in two."""
        return self.app.size.width < NARROW

    def compose(self) -> ComposeResult:
        """Put head, body and foot together."""
        yield Head(id="head")
        yield Rule(id="rule")
        with Vertical(id="body"):
            yield from self.compose_body()
        yield Said(id="said")
        yield Foot(id="foot")

    def compose_body(self) -> ComposeResult:
        """Give the widgets of the body."""
        yield from ()

    def load(self, book: Book) -> Any:
        """Read what the screen shows; runs in a thread."""
        return None

    def find(self) -> Any:
        """Give the view; runs in a thread. One that needs no book overrides this, not `load`."""
        return self.load(self.book)

    def draw(self) -> None:
        """Draw the view; called when it has changed or the size has."""

    def sowing_place(self) -> str:
        """Give the path of the place that a sowing begun from here is for; '' for any."""
        return ""

    def weighing_trays(self) -> tuple[int, ...]:
        """Give the trays that a weigh-in begun from here is for; none for any."""
        return ()

    def here(self) -> tuple[tuple[int, ...], str]:
        """Give the trays and the place that a reading is of when it is entered here."""
        return (), ""

    def due_now(self) -> Sequence[RoundLine] | None:
        """Give the lines of the round that are due, if they are what was read here."""
        return None

    def line_words(self) -> str:
        """Give what the cursor is on as plain text, to be copied; '' for nothing."""
        walk = next(iter(self.query(WalkList)), None)
        if walk is None or walk.highlighted is None:
            return ""
        return trimmed(walk.rows[walk.highlighted].text.plain)

    def page_words(self) -> str:
        """Give all that is listed here as plain text, to be copied; '' for nothing."""
        walk = next(iter(self.query(WalkList)), None)
        if walk is None or not walk.rows:
            return ""
        above = [str(line.content) for line in self.query(".plain").results(Static)]
        rows = [row.text.plain for row in walk.rows]
        return trimmed("\n".join([f"{self.heading}   {self.counts}", *filter(None, above), *rows]))

    @property
    def undoes(self) -> str:
        """Say which key takes back what was just written."""
        return self.keyed("{undo} undoes.")

    def keyed(self, text: str) -> str:
        """Put the keys that commands have into a sentence that names them like {undo}."""
        return keyed(text, self.logbook.commands)

    def footer(self) -> tuple[str, ...]:
        """Name the commands of the footer, most needed first."""
        return self.own

    @property
    def stands(self) -> bool:
        """Whether the screen is up: one that is taken down loses its parts before it ends."""
        return self.is_attached and self.display

    def on_screen_resume(self) -> None:
        """Load anew whenever the screen comes back; Textual calls a subclass's own one first."""
        if self.fresh:
            self.fresh = False
        else:
            self.refresh_view()

    def on_screen_suspend(self) -> None:
        """Let go of what was painted when the screen is left.

        That is most of what it holds, and quickly painted anew. The screen that one always comes
        back to keeps its parts' own painting and lets go of what is around them alone.
        """
        if self not in self.app.screen_stack:
            for part in (self, *self.query()):
                if part.is_container or not self.home:
                    part.refresh()

    def on_resize(self) -> None:
        """Draw again for the new width."""
        if self.app.size != self.drawn_for:
            self._draw_all()

    @work(exclusive=True, group="view")
    async def refresh_view(self) -> None:
        """Read the view off the loop and draw it."""
        await self.reload()

    async def reload(self) -> None:
        """Read the view off the loop and draw it, then go on."""
        try:
            self.view = await asyncio.to_thread(self.find)
        except Refused as refused:
            self.say(str(refused), wants=True)
            return
        if self.stands:
            self._draw_all()

    def _draw_all(self) -> None:
        self.drawn_for = self.app.size
        if self.view is not None:
            self.draw()
        self.draw_head()
        self.query_one("#rule", Rule).warn(self.logbook.doubt)
        commands = [self.logbook.commands[name] for name in (*self.footer(), self.last)]
        self.query_one(Foot).show(commands)

    def draw_head(self) -> None:
        """Draw the top line; with no book there is no clock to show."""
        when: tuple[str, ...] = ()
        if self.logbook.has_book:
            now, zone = self.book.now(), self.book.zone
            day, clock = day_words(self.book.today()), clock_words(now, zone)
            when = (f"{day}  {clock}", f"{day[:3]} {clock}", clock)
        self.query_one(Head).show(when, self.heading, self.counts)

    def say(self, words: str, *, wants: bool = False) -> None:
        """Show a sentence above the foot."""
        if self.stands:
            self.query_one(Said).say(words, wants=wants)

    async def ask_book(self, act: Callable[..., Value], *args: Any, **kwargs: Any) -> Value | None:
        """Run an action in a thread; show why, and give None, when it is refused.

        The view is loaded anew after it.
        """
        try:
            result = await self.write_book(act, *args, **kwargs)
        except Refused as refused:
            self.say(str(refused), wants=True)
            return None
        await self.after_writing()
        return result

    async def ask_kept(self, question: Question[Answer], draft: Draft) -> Answer | None:
        """Ask what begins with what was typed before; what is typed is kept as this draft."""
        drafts = self.logbook.drafts
        kept = drafts.find(draft.key)
        if kept is not None:
            question.take_up(kept.texts)
        question.keep = lambda texts: drafts.keep(replace(draft, texts=texts))
        return await self.app.push_screen_wait(question)

    async def ask_to_write(
        self,
        question: Question[Answer],
        act: Callable[[Book, Answer], Value],
        draft: Draft | None = None,
        *before: Draft,
    ) -> Value | None:
        """Ask and write the answer; give what the action gave, or None when one went back.

        When the book refuses it, the question stays with what was typed and says why, and Enter
        tries again. What is typed is kept as `draft`; that and what was kept `before`, by other
        questions of the same act, goes when it is in the book.
        """
        done: list[Value] = []

        async def write(answer: Answer) -> None:
            done.append(await self.write_book(act, answer))

        question.write = write
        if draft is None:
            await self.app.push_screen_wait(question)
        else:
            await self.ask_kept(question, draft)
        if not done:
            return None
        for each in (*before, draft):
            if each is not None:
                self.logbook.drafts.drop(each.key)
        await self.after_writing()
        return done[0]

    async def after_writing(self) -> None:
        """Show what the book holds now that an action has written to it."""
        await self.reload()

    async def write_book(self, act: Callable[..., Value], *args: Any, **kwargs: Any) -> Value:
        """Run an action in a thread; raise Refused as it does, or when nobody says who writes."""
        await self.logbook.ask_who()
        result = await asyncio.to_thread(act, self.book, *args, **kwargs)
        self.logbook.changed_here()
        return result
