"""The app: opens at the round, goes from screen to screen, watches the book and the clock."""

from __future__ import annotations

import asyncio
import gc
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar, Literal, NamedTuple

from textual import events, work
from textual.app import App, SystemCommand
from textual.await_complete import AwaitComplete
from textual.driver import Driver
from textual.drivers.linux_driver import LinuxDriver
from textual.filter import LineFilter
from textual.message import Message
from textual.message_pump import MessagePump
from textual.screen import Screen
from textual.scrollbar import ScrollBar
from textual.worker import WorkerCancelled, WorkerFailed

from logbook.paths import state_folder, write_private
from logbook.settings import Settings, naming_file, settings_path
from logbook.text import Refused, clean, clean_name, plural
from logbook.ui.commands import COMMANDS, EVERYWHERE, bindings, with_keys
from logbook.ui.drafts import ANSWER, Drafts
from logbook.ui.lifeline import watch_terminal
from logbook.ui.look import THEMES, theme_for
from logbook.ui.plain import PlainSigns
from logbook.ui.screen import LogScreen
from logbook.ui.screens import SCREENS, own_commands, screen_of
from logbook.ui.subjects import PageSubject, Subject
from logbook.ui.terminal import Display
from logbook.ui.thin_driver import Sent, ThinDriver
from logbook.ui.widgets.thumb import Thumb

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.growing.round import RoundLine
    from logbook.handbook import Plain
    from logbook.ui.form import FormScreen

THREADS = 2
"""One may copy the book or wait for another writer while the other reads; each keeps memory."""
LOOK_SECONDS = 1.0
TICK_SECONDS = 20.0
WARM_UP_SECONDS = 0.5
STILL_SECONDS = 0.3
"""Nothing was typed for so long: a step of warming up (0.2 s and less) is in nobody's way."""
TIDY_AFTER_SECONDS = 0.1
"""So long after the last key the hands are elsewhere and what the key did is painted."""
TIDY_FROM = 3
"""Looks at the younger objects since the last look at all; Python looks by itself after ten."""
CARE_SECONDS = 5.0
STEPS_TO_ASK = 6
"""Turns of the loop in which a command that asks something has put its question on the screen."""
CATCH_UP_SECONDS = 1.0
MOST_HANDED_OVER = 50_000
"""Letters of a copy that terminals still take; a longer one is cut off or not taken at all."""


async def _caught_up(node: MessagePump) -> None:
    """Wait until a screen or line has taken in what was sent to it; a stuck one for a second."""
    done = asyncio.Event()
    if node.call_later(done.set):
        with suppress(TimeoutError):
            await asyncio.wait_for(done.wait(), CATCH_UP_SECONDS)


def _tidy() -> None:
    """Look for garbage among all objects, where that is near; not before the start is done."""
    if gc.isenabled() and gc.get_count()[2] >= TIDY_FROM:
        gc.collect()


class Stop(NamedTuple):
    """A screen on the way that one came, and what it was about."""

    name: str
    subject: Subject = Subject()


class LogbookApp(App[None], inherit_bindings=False):
    """The logbook on the screen."""

    CSS_PATH = "logbook.tcss"
    TITLE = "logbook"
    ENABLE_COMMAND_PALETTE = True
    COMMAND_PALETTE_BINDING = "colon"
    SCREENS: ClassVar[dict[str, Callable[[], Screen[Any]]]] = {
        name: each.make for name, each in SCREENS.items()
    }
    BINDINGS = bindings(*EVERYWHERE)

    def __init__(
        self,
        book: Book | None,
        settings: Settings | None = None,
        begin: Callable[[Any], Book] | None = None,
        on_mishap: Callable[[BaseException], str] | None = None,
        new_path: Path | None = None,
        display: Display | None = None,
    ) -> None:
        """Take an open book, or None and what makes one from a BeginDraft at `new_path`.

        `on_mishap` keeps the trace of a fault of the program and gives the sentence to show;
        `display` is what the terminal can show.

        Raises:
            Refused: the settings give a command a key that it cannot have.
        """
        self._on_its_way: events.Event | None = None
        self._came_up = False
        self._tidying: asyncio.TimerHandle | None = None
        self._typed_at = 0.0
        """When the last key was done, by the loop's time, in s."""
        self.sent = Sent()
        self.display_facts = display or Display()
        super().__init__(ansi_color=True if self.display_facts.few_colours else None)
        self.on_mishap = on_mishap
        self.doubt = ""
        """Why the clock cannot be believed; '' when it can."""
        self.care: Callable[[Book, Settings], list[str]] | None = None
        """What looks after the book once, some seconds after the start, and gives what to say."""
        self._book = book
        self.settings = settings or Settings()
        self.begin = begin
        self.plain: Callable[[], Sequence[Plain]] = tuple
        """What lists the plain commands for the handbook."""
        self.tour: Literal["begin", "offer", "none"] = "none"
        """What to do with the tour of the sample."""
        self.new_path = new_path
        self.drafts = Drafts(book.file.path if book is not None else Path("new"))
        self.trail: list[Stop] = []
        self._stamp: tuple[int, int, int] | None = None
        self._waiting: set[tuple[Any, ...]] | None = None
        self.remember_writer: Callable[[str], str] | None = None
        """What keeps the initials of whoever writes here; None when they are known already."""
        self._who = asyncio.Lock()
        self._signs = PlainSigns(self.display_facts.encoding) if self.display_facts.plain else None
        ScrollBar.renderer = Thumb
        self.colours = self.settings.theme
        self.use_colours(self.colours)
        self.commands = COMMANDS
        if self.settings.keys:
            try:
                self.commands = with_keys(self.settings.keys, own_commands())
            except Refused as wrong:
                raise naming_file(wrong) from wrong
            self.set_keymap({name: ",".join(self.commands[name].keys) for name in COMMANDS})
        if self.display_facts.plain:
            self.commands = {
                name: replace(command, arrows=False) for name, command in self.commands.items()
            }

    @property
    def book(self) -> Book:
        """The open book."""
        if self._book is None:
            raise Refused("There is no book yet.")
        return self._book

    @property
    def has_book(self) -> bool:
        """Whether a book is open; there is none while a new one is asked for."""
        return self._book is not None

    def get_driver_class(self) -> type[Driver]:
        """Give the driver of this machine; on a terminal the one that sends only what differs."""
        usual = super().get_driver_class()
        return ThinDriver if usual is LinuxDriver else usual

    def on_resize(self) -> None:
        """Trust nothing that was painted at another size."""
        self.sent.forget()

    def use_colours(self, name: str) -> None:
        """Show the screens in the colours of a name in the settings, as far as there are any."""
        theme = theme_for(name, few_colours=self.display_facts.few_colours)
        self.register_theme(theme)
        self.colours, self.theme = name, theme.name

    def action_colours(self) -> None:
        """Change to the next colours, until the book is closed."""
        names = ("contrast", "terminal") if self.display_facts.few_colours else tuple(THEMES)
        at = names.index(self.colours) if self.colours in names else -1
        self.use_colours(names[(at + 1) % len(names)])
        if isinstance(self.screen, LogScreen):
            self.screen.say(
                f'Colours: {self.colours}. theme = "{self.colours}" in {settings_path()} keeps them.'
            )

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Draw our signs in ASCII where the terminal cannot show them."""
        filters = super().get_line_filters()
        return filters if self._signs is None else [*filters, self._signs]

    def on_mount(self) -> None:
        """Open at the round, or at the questions of a new book."""
        asyncio.get_running_loop().set_default_executor(ThreadPoolExecutor(THREADS))
        self.trail = [Stop("begin" if self._book is None else "round")]
        self.push_screen(self.trail[0].name)
        watch_terminal(self)
        self.set_timer(WARM_UP_SECONDS, self.warm_up)
        if self._book is not None:
            self.begin_watching()
            self.offer_drafts()
            if self.tour != "none":
                self.take_tour(ask=self.tour == "offer")

    def on_unmount(self) -> None:
        """Leave the drafts to whoever opens the book next."""
        if self._tidying is not None:
            self._tidying.cancel()
        self.drafts.let_go()

    @work
    async def offer_drafts(self) -> None:
        """Offer what was being typed when the app ended last."""
        from logbook.ui.asking import AskChoice
        from logbook.ui.deeds import TrayKeys

        kept = {draft.key: draft for draft in self.drafts.all() if draft.kind != ANSWER}
        if not kept:
            return
        choices = [
            (key, str(place), draft.words) for place, (key, draft) in enumerate(kept.items(), 1)
        ]
        choices.append(("throw away", "x", "throw all of these away"))
        answer = await self.push_screen_wait(
            AskChoice("Not saved last time", choices, "enter take it up   esc later")
        )
        if answer == "throw away":
            self.drafts.throw_away(kept)
        elif answer and isinstance(self.screen, TrayKeys):
            draft = self.drafts.find(answer)
            if draft is None:
                self.screen.say("That is taken up elsewhere by now.", wants=True)
            else:
                await self.screen.take_up(draft)

    @work
    async def take_tour(self, *, ask: bool = False) -> None:
        """Walk through the screens, a sentence on each."""
        from logbook.ui.tour import tour

        if not self.has_book and isinstance(self.screen, LogScreen):
            self.screen.say("The tour needs a book; `logbook demo --tour` has one.", wants=True)
            return
        await tour(self, ask=ask)

    def use_book(self, book: Book) -> None:
        """Go on with a book that was just made."""
        self._book = book
        self.drafts.let_go()
        self.drafts = Drafts(book.file.path)
        self.trail = [Stop("round")]
        self.switch_screen("round")
        self.begin_watching()

    def begin_watching(self) -> None:
        """Look after the book's file and the clock from now on."""
        self._stamp = self._file_stamp()
        self.set_interval(LOOK_SECONDS, self._look_at_file)
        self.set_interval(TICK_SECONDS, self.tick)
        self.doubt_clock()
        if self.care is not None:
            self.set_timer(CARE_SECONDS, self.look_after)

    @work(group="care")
    async def look_after(self) -> None:
        """Check and copy the book off the loop; say what is not in order."""
        if self.care is None:
            return
        try:
            found = await asyncio.to_thread(self.care, self.book, self.settings)
        except Refused as refused:
            found = [str(refused)]
        if found and isinstance(self.screen, LogScreen):
            more = f" And {len(found) - 1} more: `logbook check`." if len(found) > 1 else ""
            self.screen.say(found[0] + more, wants=True)

    @work
    async def warm_up(self) -> None:
        """Load what writing and the screens of most days need, step by step, while nobody types.

        Garbage is looked for from then on, but not in what the start brought.
        """
        for step in self._to_warm():
            while asyncio.get_running_loop().time() < self._typed_at + STILL_SECONDS:  # noqa: ASYNC110 - no event tells of stillness
                await asyncio.sleep(STILL_SECONDS)
            await asyncio.to_thread(step)

    def _to_warm(self) -> Iterator[Callable[[], object]]:
        from logbook.actions.book import load_for_writing, load_packages

        started = not gc.isenabled()
        if started:
            yield gc.collect
            gc.enable()
        yield load_packages
        if self._book is not None:
            yield partial(load_for_writing, self._book)
        for each in SCREENS.values():
            if each.daily:
                yield partial(getattr, each, "screen")
        if started:
            yield gc.collect
            gc.freeze()

    def _handle_exception(self, error: Exception) -> None:
        """Show a sentence instead of a traceback, which would print people's notes.

        Textual has no public hook for this; it shows an error that has __rich__ as itself.
        """
        from rich.text import Text

        if isinstance(error, WorkerFailed) and isinstance(error.error, Exception):
            error = error.error
        words = self.on_mishap(error) if self.on_mishap else type(error).__name__
        error.__rich__ = lambda: Text(words)  # type: ignore[attr-defined]
        super()._handle_exception(error)

    # where one is

    def go(self, to: str | Subject) -> None:
        """Go to the screen of a subject, or to one by its name, as its key does; Esc leads back.

        A form that holds something unsaved is asked first.
        """
        screen = self.screen
        if isinstance(to, str):
            about = SCREENS[to].about
            subject = about.seen_from(screen) if isinstance(screen, LogScreen) else about()
            stop = Stop(to, subject)
        else:
            stop = Stop(screen_of(to).name, to)
        if not isinstance(screen, LogScreen):
            self._go(stop)
        elif not self.has_book and not SCREENS[stop.name].bookless:
            screen.say(
                "There is no book yet; its questions come first: esc leads there.", wants=True
            )
        elif self.has_book and screen.unsaved and self.trail[-1].name != stop.name:
            self._leave(screen, lambda: self._go(stop))
        else:
            self._go(stop)

    @work(exclusive=True, group="leave")
    async def _leave(self, screen: LogScreen, go_on: Callable[[], Any]) -> None:
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
        self._say_no_more()
        self.switch_screen(stop.name)

    def _at(self, stop: Stop) -> LogScreen:
        screen = self.get_screen(stop.name)
        assert isinstance(screen, LogScreen)  # noqa: S101 - the table names no others
        return screen

    def _say_no_more(self) -> None:
        """Let go of what a screen said before it is left: it would be old when it comes back."""
        if isinstance(self.screen, LogScreen):
            self.screen.say("")

    async def action_go_back(self) -> None:
        """Go to where one came from; the round is the last."""
        screen = self.screen
        if not isinstance(screen, LogScreen):
            return
        if not self.has_book and len(self.trail) < 2:
            self.action_quit()
        elif len(self.trail) > 1 and screen.unsaved:
            self._leave(screen, self.go_back)
        elif len(self.trail) > 1:
            await self.go_back()

    def go_back(self) -> AwaitComplete:
        """Go to where one came from, unasked; there must be such a place."""
        self.trail.pop()
        stop = self.trail[-1]
        self._at(stop).subject = stop.subject
        self._say_no_more()
        return self.switch_screen(stop.name)

    def action_show(self, name: str) -> None:
        """Go to a screen, about what the cursor is on where that is of its kind."""
        self.go(name)

    @work
    async def action_reading(self) -> None:
        """Ask for a reading of what the cursor is on."""
        from logbook.ui.readings import ask_reading

        if isinstance(self.screen, LogScreen) and self.has_book:
            await ask_reading(self.screen)

    @work
    async def action_jump(self) -> None:
        """Ask where to go."""
        from logbook.ui.asking import AskChoice

        choices = [
            (name, each.letter or each.key, self.commands[name].tip)
            for name, each in SCREENS.items()
            if each.key
        ]
        name = await self.push_screen_wait(AskChoice("Go to", choices, "esc back"))
        if name:
            self.go(name)

    @work
    async def action_search(self) -> None:
        """Ask for words and show the entries whose notes hold them."""
        from logbook.ui.asking import AskLine

        def read(text: str) -> str:
            words = clean(text, lines=False)
            if not words:
                raise Refused("What to look for? Write a word.")
            return words

        words = await self.push_screen_wait(
            AskLine("Search the notes for", read, hint="enter search   esc back")
        )
        if words:
            self.go(PageSubject(words=words))

    @work
    async def action_undo(self) -> None:
        """Strike what this person wrote last."""
        from logbook.actions.striking import undo

        screen = self.screen
        if isinstance(screen, LogScreen):
            done = await screen.ask_book(undo)
            if done is not None:
                screen.say(done.words)

    def action_copy_line(self) -> None:
        """Copy the line under the cursor out of the program."""
        if isinstance(self.screen, LogScreen):
            self.copy_out(self.screen.line_words(), "The cursor is on nothing to copy.")

    def action_copy_page(self) -> None:
        """Copy all that the screen lists out of the program."""
        if isinstance(self.screen, LogScreen):
            self.copy_out(self.screen.page_words(), "There is nothing here to copy.")

    def copy_out(self, words: str, nothing: str) -> None:
        """Hand a text to the terminal, and keep it in a file, for not every terminal takes it."""
        screen = self.screen
        if not isinstance(screen, LogScreen):
            return
        if not words:
            screen.say(nothing)
            return
        if len(words) <= MOST_HANDED_OVER:
            self.copy_to_clipboard(words)
        path = state_folder() / "copied.txt"
        try:
            write_private(path, words + "\n")
        except OSError as fault:
            screen.say(f"Handed to the terminal alone: {path}: {fault.strerror}.", wants=True)
            return
        lines = words.count("\n") + 1
        screen.say(
            f"Copied {plural(lines, 'line')} to the clipboard, if the terminal allows it, "
            f"and to {path}."
        )

    def action_help(self) -> None:
        """Show the keys of this screen."""
        from logbook.ui.screens.help import HelpScreen

        if isinstance(self.screen, LogScreen):
            self.push_screen(HelpScreen(self.screen))

    def action_palette(self) -> None:
        """Find a command by its name."""
        self.action_command_palette()

    def get_system_commands(self, screen: Screen[Any]) -> Iterable[SystemCommand]:
        """Offer every command that works on this screen."""
        own = screen.own if isinstance(screen, LogScreen) else ()
        for name in dict.fromkeys((*own, *EVERYWHERE)):
            command = self.commands[name]
            action = f"{'app' if command.everywhere else 'screen'}.{command.action}"

            def run(action: str = action) -> None:
                self.call_later(self.run_action, action)

            yield SystemCommand(f"{command.words} ({command.key_words})", command.tip, run)

    def action_repaint(self) -> None:
        """Paint all of the screen, whatever the terminal shows."""
        self.sent.forget()
        self.screen.refresh()

    def action_quit(self) -> Any:
        """Close the book; asks when a form holds something unsaved."""
        return self._quit()

    @work(exclusive=True, group="leave")
    async def _quit(self) -> None:
        screen = self.screen
        if isinstance(screen, LogScreen) and screen.unsaved and not await screen.may_close():
            return
        self.exit()

    async def ask_who(self) -> None:
        """Ask once who writes at this terminal, if nothing says so; raise Refused for no answer."""
        from logbook.ui.asking import AskLine

        async with self._who:
            remember = self.remember_writer
            if remember is None:
                return
            name = await self.push_screen_wait(
                AskLine(
                    "Who writes at this terminal?",
                    lambda text: clean_name(text, "initials"),
                    start=self.book.by,
                    replaced=True,
                    hint="enter take it   esc back   "
                    f'To be asked no more: write by = "ab" in {settings_path()}',
                )
            )
            if name is None:
                raise Refused("Nothing was written.")
            self.remember_writer = None
            with suppress(Refused):
                remember(name)
            self.book.by = name

    # what is typed

    async def on_event(self, event: events.Event) -> None:
        """Take keys strictly one after another, and clean what is pasted.

        Textual looks for the command of a key when it has bubbled up from the line, and hands the
        keys that follow to whatever has the focus meanwhile: of a burst over a slow link, the later
        ones would reach the screen or line that the earlier ones were about to leave. Escapes in a
        paste would reach the terminal raw.
        """
        if not isinstance(event, (events.Key, events.Paste)) or event.is_forwarded:
            await super().on_event(event)
            return
        await _caught_up(self.screen)
        if isinstance(event, events.Paste):
            event.text = clean(event.text)
        node: MessagePump = self.focused or self.screen
        self._on_its_way, self._came_up = event, False
        await super().on_event(event)
        if event.is_forwarded:
            while node is not self and node.parent is not None:
                await _caught_up(node)
                node = node.parent
        self._on_its_way = None
        if self._came_up:
            await super().on_event(event)
        for _ in range(STEPS_TO_ASK):
            await asyncio.sleep(0)
        self._tidy_soon()

    def _tidy_soon(self) -> None:
        """Look for garbage between keys rather than in one: a look at all of it takes 10 to 40 ms."""
        if self._tidying is not None:
            self._tidying.cancel()
        loop = asyncio.get_running_loop()
        self._typed_at = loop.time()
        self._tidying = loop.call_later(TIDY_AFTER_SECONDS, _tidy)

    def post_message(self, message: Message) -> bool:
        """Take a message in; a key that comes up from its line is done by who waits for it."""
        if message is self._on_its_way:
            self._came_up = True
            return True
        return super().post_message(message)

    def on_form_screen_draft_changed(self, event: FormScreen.DraftChanged) -> None:
        """Keep what is being typed into a form, or let it go when nothing is unsaved."""
        form, key = event.form, event.draft.key
        if form.unsaved if form.draft.key == key else event.unsaved:
            self.drafts.keep(event.draft)
        else:
            self.drafts.drop(key)

    # what changes while the app is open

    def _file_stamp(self) -> tuple[int, int, int] | None:
        try:
            facts = self.book.file.path.stat()
        except OSError:
            return None
        return facts.st_mtime_ns, facts.st_size, facts.st_ino

    def changed_here(self) -> None:
        """Note that the book was changed by this app, so that it is not taken for another's."""
        self._stamp = self._file_stamp()

    def _look_at_file(self) -> None:
        """Show what another program wrote; every commit changes the file itself."""
        stamp = self._file_stamp()
        if stamp != self._stamp:
            is_back = self._stamp is None
            self._stamp = stamp
            if isinstance(self.screen, LogScreen):
                if is_back:
                    self.screen.say("The book is back in its place.")
                self.screen.refresh_view()

    def tick(self) -> None:
        """Move on with the clock: redraw, and ring when a chore's time has come."""
        self.remind()
        self.doubt_clock()

    @work(exclusive=True, group="doubt")
    async def doubt_clock(self) -> None:
        """Look whether the clock can be believed, and show it when that changes."""
        from logbook.actions.clocking import clock_doubt

        try:
            doubt = await asyncio.to_thread(clock_doubt, self.book)
        except Refused:
            return
        if doubt != self.doubt:
            self.doubt = doubt
            if isinstance(self.screen, LogScreen):
                self.screen.refresh_view()

    @work(exclusive=True, group="remind")
    async def remind(self) -> None:
        """Read the screen anew; ring and say what has come due since the last look.

        The round on the screen is looked at itself; elsewhere, and while a question is open, it is
        read after the screen.
        """
        screen = self.screen
        if isinstance(screen, LogScreen):
            with suppress(WorkerCancelled):
                await screen.refresh_view().wait()
        try:
            waiting = screen.due_now() if isinstance(screen, LogScreen) else None
            if waiting is None:
                waiting = await asyncio.to_thread(self._due_now)
        except Refused:
            return
        fresh = {(line.key, line.due_at): line for line in waiting}
        if self._waiting is not None:
            came = [line for key, line in fresh.items() if key not in self._waiting]
            if came:
                if self.settings.bell:
                    self.bell()
                first = came[0]
                more = f" and {len(came) - 1} more" if len(came) > 1 else ""
                if isinstance(self.screen, LogScreen):
                    self.screen.say(
                        f"Due now: {first.words}, {first.crop}, {first.place}{more}", wants=True
                    )
        self._waiting = set(fresh)

    def _due_now(self) -> Sequence[RoundLine]:
        from logbook.actions.viewing import the_round

        return the_round(self.book).due
