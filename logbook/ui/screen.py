"""The base of all screens of the logbook: a frame at the open book, that asks and writes."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from textual import work
from textual.content import Content
from textual.geometry import Size
from textual.widgets import Static

from logbook.growing.days import clock_words, day_of, day_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import name_words
from logbook.settings import settings_path
from logbook.text import Refused, clean_name
from logbook.ui.command import Command
from logbook.ui.commands import keyed
from logbook.ui.drafts import Draft, answer_to
from logbook.ui.frame import Beside, Frame
from logbook.ui.sitting import Sitting
from logbook.ui.subjects import Subject
from logbook.ui.widgets.bars import Foot, Head, Pane, Rule, show_once
from logbook.ways import on_screens

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.ui.forms.asking import AskLine, Question

Answer = TypeVar("Answer")
Value = TypeVar("Value")


class Written(Protocol):
    """What an action says of what it wrote."""

    @property
    def words(self) -> str:
        """What was written."""

    @property
    def notices(self) -> Sequence[str]:
        """What else the book says of it."""


class LogScreen(Frame):
    """A screen of the logbook: it loads its view from the book, asks questions and writes."""

    @property
    def logbook(self) -> Sitting:
        app = self.app
        assert isinstance(app, Sitting)  # noqa: S101 - there is no other
        return app

    @property
    def book(self) -> Book:
        return self.logbook.book

    def moment(self, at: datetime | None) -> str:
        """A moment as it is said now, in the room's zone; '' for None."""
        return "" if at is None else self.book.when(at)

    def day(self, at: datetime | None) -> str:
        """The day of a moment in the room; '' for None."""
        return "" if at is None else day_words(day_of(at, self.book.zone), self.book.today())

    async def likely_time(self) -> str:
        """A likely time of something done now, as it is typed, while the clock is in doubt."""
        likely = await asyncio.to_thread(self.book.likely_now)
        likely += timedelta(seconds=59)  # the whole minute after it, not the one before
        words, day = clock_words(likely, self.book.zone), day_of(likely, self.book.zone)
        return words if day == self.book.today() else f"{day.isoformat()}T{words}"

    def grams(self, grams: float | None, after: str = "") -> str:
        """A weight in the room's units and what follows it; '' for None."""
        return "" if grams is None else grams_words(grams, self.book.units) + after

    async def may_close(self) -> bool:
        from logbook.ui.forms.asking import AskYes

        asked = "What you typed here isn't saved. Close the book anyway?"
        return await self.ask(AskYes(asked)) is True

    def load(self, book: Book) -> Any:
        """Read what the screen shows; runs in a thread."""

    def find(self) -> Any:
        """The view, from the book; a screen that needs none overrides this, not `load`."""
        return self.load(self.book)

    def draw_around(self) -> None:
        self.draw_head()
        self.query_one("#rule", Rule).warn(self.logbook.doubt)
        self.draw_foot()

    def draw_foot(self) -> None:
        self.query_one(Foot).show(self.foot_commands())
        self.logbook.tell_keys()

    def foot_hints(self) -> list[tuple[str, str]]:
        """The keys of the foot and what they do, also those that it has no room for."""
        return [(each.key_words, each.words) for each in self.foot_commands()]

    def foot_commands(self) -> list[Command]:
        names = [name for name in self.footer() if self.view is None or self.does(name)]
        return [self.logbook.commands[name] for name in (*names, self.last)]

    def draw_head(self) -> None:
        """Draw the top line; with no book there is no clock to show."""
        when, rehearsal = tuple[str, ...](), ""
        if self.logbook.has_book:
            now, zone = self.book.now(), self.book.zone
            day, clock = day_words(self.book.today()), clock_words(now, zone)
            when = (f"{day}  {clock}", f"{day[:3]} {clock}", clock)
            rehearsal = f"{self.book.rehearsal}: ".lstrip(": ")
        self.query_one(Head).show(when, rehearsal + self.heading, self.counts, self.late)

    def draw_beside(self) -> None:
        if self.view is None:
            return
        if self.broad:
            self._read_beside(self.beside())
        elif self.below:
            text = self.beside()
            text = text if isinstance(text, Content) else Content("")
            show_once(self.query_one("#below", Static), text, layout=True)

    @work(exclusive=True, group="beside")
    async def _read_beside(self, found: Beside) -> None:
        """Read what the cursor is on off the loop; the keys don't wait for it."""
        from logbook.ui.panes import pane_of

        pane = self.query_one(Pane)
        size = Size(self.beside_width, self.app.size.height - 4)
        text = found if isinstance(found, Content) else Content("")
        with suppress(Refused):
            if isinstance(found, Subject):
                text = await asyncio.to_thread(pane_of, self.book, found, size, self.keyed)
            elif callable(found):
                text = await asyncio.to_thread(found)
        if self.stands:
            show_once(pane, text)

    def keyed(self, text: str) -> str:
        """Put the keys that commands have into a sentence that names them like {undo}."""
        return keyed(text, self.logbook.commands)

    def spoken(self, text: str) -> str:
        """Put keys into a sentence, also for what it names by its `Way`."""
        return on_screens(self.keyed(text), self.keyed)

    def say(self, words: str, *, wants: bool = False) -> None:
        super().say(on_screens(words, self.keyed), wants=wants)

    @property
    def undoes(self) -> str:
        return self.keyed("{undo} undoes.")

    def refuse(self, refused: Refused) -> None:
        self.say(str(refused), wants=True)

    def tell(self, done: Written | None, then: str = "{undo} undoes.") -> None:
        """Say what was written and what the book said of it; None when nothing was written."""
        if done is not None:
            parts = [f"{done.words.removesuffix('.')}.", self.keyed(then), *done.notices]
            self.say("  ".join(filter(None, parts)), wants=bool(done.notices))

    async def ask(self, question: Question[Answer]) -> Answer | None:
        return await self.app.push_screen_wait(question)

    @staticmethod
    def asks_line(asked: str, read: Callable[[str], Answer], **more: Any) -> AskLine[Answer]:
        """A question for one line, whose module is loaded when it is asked first."""
        from logbook.ui.forms.asking import AskLine

        return AskLine(asked, read, **more)

    async def ask_line(
        self,
        asked: str,
        read: Callable[[str], Answer],
        start: str = "",
        hint: str = "",
        **more: Any,
    ) -> Answer | None:
        return await self.ask(self.asks_line(asked, read, start=start, hint=hint, **more))

    async def ask_book(self, act: Callable[..., Value], *args: Any, **kwargs: Any) -> Value | None:
        """Run an action in a thread and load the view anew; a refusal is shown, and gives None."""
        try:
            result = await self.write_book(act, *args, **kwargs)
        except Refused as refused:
            self.refuse(refused)
            return None
        await self.after_writing()
        return result

    async def ask_kept(self, question: Question[Answer], draft: Draft) -> Answer | None:
        """Ask what begins with what was typed before; what is typed is kept as this draft."""
        drafts = self.logbook.drafts
        if (kept := drafts.find(draft.key)) is not None:
            question.take_up(kept.texts)
        question.keep = lambda texts: drafts.keep(replace(draft, texts=texts))
        return await self.ask(question)

    async def ask_to_write(
        self, question: Question[Answer], act: Callable[[Book, Answer], Value],
        draft: Draft | None = None, *before: Draft,
    ) -> Value | None:  # fmt: skip
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
            await self.ask(question)
        else:
            await self.ask_kept(question, draft)
        if not done:
            return None
        for each in (*before, draft):
            if each is not None:
                self.logbook.drafts.drop(each.key)
        await self.after_writing()
        return done[0]

    async def ask_in_turn(
        self, act: Callable[..., Value], *asked: tuple[Callable[[], Question[Any]], Draft]
    ) -> Value | None:
        """Ask questions in turn, kept until `act` writes all answers with the last, or None.

        Each is made when it is asked, for ↑ goes back to the one before.
        """
        answers: list[Any] = []
        while True:
            make, kept = asked[len(answers)]
            question, said = make(), tuple(answers)
            question.may_turn_back = bool(answers)
            if len(answers) + 1 < len(asked):
                answer = await self.ask_kept(question, kept)
            else:
                before = [draft for _, draft in asked[:-1]]

                def write(book: Book, last: Any, said: tuple[Any, ...] = said) -> Value:
                    return act(book, *said, last)

                done = await self.ask_to_write(question, write, kept, *before)
                if done is not None:
                    return done
                answer = None
            if answer is not None:
                answers.append(answer)
            elif question.turned_back:
                answers.pop()
            else:
                return None

    async def ask_why(
        self, asked: str, act: Callable[[Book, str], Written], then: str = "{undo} undoes."
    ) -> None:
        """Ask for a reason, write it with what it is the reason of, and say so."""
        from logbook.ui.forms.asking import why_asked

        self.tell(await self.ask_to_write(why_asked(asked), act, answer_to(asked)), then)

    async def prints(self) -> bool:
        """Print what this screen has beside labels; whether labels aren't wanted."""
        return False

    @work
    async def action_hold(self) -> None:
        from logbook.actions.recall.holding import hold

        code = self.to_hold()
        if not code:
            self.say("Select what goes on hold first.")
            return
        await self.ask_why(f"Put {code} on hold: why?", lambda book, why: hold(book, code, why))

    def to_hold(self) -> str:
        """What goes on hold from here, as its command takes it; '' for nothing."""
        return self.traced() or " ".join(map(name_words, self.here()[0]))

    async def after_writing(self) -> None:
        """Show what the book holds now that an action has written to it."""
        await self.reload()

    async def write_book(self, act: Callable[..., Value], *args: Any, **kwargs: Any) -> Value:
        """Run an action in a thread; raise Refused as it does, or when nobody says who writes."""
        async with self.logbook.one_asks:
            await self._ask_who()
        result = await asyncio.to_thread(act, self.book, *args, **kwargs)
        self.logbook.changed_here()
        return result

    async def _ask_who(self) -> None:
        """Ask who writes at this terminal, if nothing says so; raise Refused for no answer."""
        remember = self.logbook.remember_writer
        if remember is None:
            return
        name = await self.ask(
            self.asks_line(
                "Who writes at this terminal?",
                lambda text: clean_name(text, "initials"),
                start=self.book.by,
                hint="enter save   esc back   "
                "{settings} changes it later; for all your terminals: by = "
                f'"ab" in {settings_path()}',
            )
        )
        if name is None:
            raise Refused("Nothing was written.")
        self.logbook.remember_writer = None
        with suppress(Refused):
            remember(name)
        self.book.by = name
