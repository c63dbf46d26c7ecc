"""The app: opens at the round, or at the questions of a new book."""

from __future__ import annotations

import asyncio
import gc
import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from textual import work
from textual.app import SystemCommand
from textual.driver import Driver
from textual.drivers.linux_driver import LinuxDriver
from textual.events import Key
from textual.filter import LineFilter, NoColor
from textual.screen import Screen
from textual.scrollbar import ScrollBar
from textual.worker import WorkerFailed

from logbook.paths import state_folder, write_private
from logbook.settings import Settings
from logbook.text import Refused, plural
from logbook.ui.command import words_of_key
from logbook.ui.commands import EVERYWHERE, bindings
from logbook.ui.drafts import ANSWER
from logbook.ui.line.plain import PlainSigns
from logbook.ui.line.terminal import Display
from logbook.ui.line.thin_driver import Sent, ThinDriver
from logbook.ui.line.watchdog import watch_terminal
from logbook.ui.look import THEMES, theme_for
from logbook.ui.screen import LogScreen
from logbook.ui.screens import SCREENS
from logbook.ui.sitting import Stop
from logbook.ui.subjects import PageSubject
from logbook.ui.watching import Watching
from logbook.ui.widgets.thumb import Thumb
from logbook.ways import Way

if TYPE_CHECKING:
    from textual.command import Provider

    from logbook.actions.book import Book

THREADS = 2
"""One may copy the book or wait for another writer while the other reads; each keeps memory."""
KEYS_SHOWN = 24
WARM_UP_SECONDS = 0.5
BOUNCE_SECONDS = 0.3
"""So long after an undo another is taken for the same press of a key."""
STILL_SECONDS = 0.3
"""Nothing was typed for so long: a step of warming up (0.2 s and less) is in nobody's way."""
MOST_HANDED_OVER = 50_000
"""Letters of a copy that terminals still take; a longer one is cut off or not taken at all."""


def _finder() -> type[Provider]:
    from logbook.ui.palette import CommandFinder

    return CommandFinder


class LogbookApp(Watching, inherit_bindings=False):
    """The logbook on the screen."""

    CSS_PATH = "logbook.tcss"
    TITLE = "logbook"
    ENABLE_COMMAND_PALETTE = True
    COMMAND_PALETTE_BINDING = "colon"
    COMMANDS: ClassVar = {_finder}
    SCREENS: ClassVar[dict[str, Callable[[], Screen[Any]]]] = {
        name: each.make for name, each in SCREENS.items()
    }
    BINDINGS = bindings(*EVERYWHERE)
    _undone_at = -math.inf
    _told_keys: Sequence[tuple[str, str]] | None = None
    tour: Literal["begin", "offer", "none"] = "none"
    """What to do with the tour of the sample."""

    def __init__(
        self, book: Book | None, settings: Settings | None = None,
        begin: Callable[[Any], Book] | None = None,
        on_mishap: Callable[[BaseException], str] | None = None, new_path: Path | None = None,
        display: Display | None = None,
    ) -> None:  # fmt: skip
        """Take an open book, or None and what makes one from a BeginDraft at `new_path`.

        `on_mishap` keeps the trace of a fault and gives the sentence to show. Raises Refused where
        the settings give a command a key that it cannot have.
        """
        self.sent = Sent()
        self.display_facts = display or Display()
        super().__init__(book, settings, ansi_color=self.display_facts.few_colours or None)
        self.on_mishap = on_mishap
        self.begin = begin
        self.new_path = new_path
        self._signs: PlainSigns | None = None
        self.use_signs(self.display_facts)
        self._colourless = [NoColor()] if self.display_facts.colourless else []
        ScrollBar.renderer = Thumb
        self.use_colours(self.settings.theme)

    def get_driver_class(self) -> type[Driver]:
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

    @property
    def themes_here(self) -> Sequence[str]:
        """The themes that this terminal has colours for."""
        return ("contrast", "terminal") if self.display_facts.few_colours else tuple(THEMES)

    def use_signs(self, display: Display) -> None:
        """Draw in ASCII or with all signs, as a display can."""
        self._signs = PlainSigns(display.encoding, display.signs) if display.plain else None
        arrows = not display.plain
        self.commands = {name: replace(each, arrows=arrows) for name, each in self.commands.items()}

    def show_settings(self, wanted: Settings) -> None:
        """Let the screens follow settings that can change while the program runs."""
        before, self.settings = self.settings, wanted
        if wanted.theme != self.colours:
            self.use_colours(wanted.theme)
        if wanted.signs != before.signs:
            self.use_signs(self.display_for(wanted.signs))
            for widget in (each for screen in self.screen_stack for each in screen.walk_children()):
                widget.refresh()
        if wanted.bell and not before.bell:
            self.bell()

    def get_line_filters(self) -> Sequence[LineFilter]:
        filters = [*super().get_line_filters(), *self._colourless]
        return filters if self._signs is None else [*filters, self._signs]

    def on_mount(self) -> None:
        asyncio.get_running_loop().set_default_executor(ThreadPoolExecutor(THREADS))
        self.trail = [Stop("round" if self.has_book else "begin")]
        self.push_screen(self.trail[0].name)
        self.screen_change_signal.subscribe(self, lambda _: self.tell_keys())
        watch_terminal(self)
        self.set_timer(WARM_UP_SECONDS, self.warm_up)
        if self.has_book:
            self.begin_watching()
            self.offer_drafts()
            if self.tour != "none":
                self.action_tour(ask=self.tour == "offer")

    def tell_keys(self) -> None:
        """Tell the page in a browser what the keys do here; its row of keys follows."""
        tell = getattr(self._driver, "write_meta", None)
        if tell is None:
            return
        hints: list[tuple[str, str]] = getattr(self.screen, "foot_hints", list)()
        if hints != self._told_keys:
            self._told_keys = hints
            tell({"type": "keys", "keys": hints})

    def on_unmount(self) -> None:
        self.drafts.let_go()

    @work(group="warm")
    async def warm_up(self) -> None:
        """Load what writing and the screens of most days need, step by step, while nobody types."""
        for step in self._steps_to_warm():
            while asyncio.get_running_loop().time() < self.typed_at + STILL_SECONDS:  # noqa: ASYNC110 - no event tells of stillness
                await asyncio.sleep(STILL_SECONDS)
            await asyncio.to_thread(step)

    def _steps_to_warm(self) -> Iterator[Callable[[], object]]:
        """Each of 0.2 s and less; garbage is collected from then on, but not what the start brought."""
        from logbook.actions.loading import steps_for_writing

        started = not gc.isenabled()
        if started:
            yield gc.collect
            gc.enable()
        yield from steps_for_writing()
        for each in SCREENS.values():
            if each.daily:
                yield partial(getattr, each, "screen")
        if started:
            yield gc.collect
            gc.freeze()

    @work
    async def offer_drafts(self) -> None:
        """Offer what was being typed when the app ended last."""
        from logbook.ui.deeds import TrayKeys
        from logbook.ui.forms.asking import AskChoice

        kept = {draft.key: draft for draft in self.drafts.all() if draft.kind != ANSWER}
        if not kept:
            return
        choices = [(key, "", draft.words) for key, draft in kept.items()]
        choices.append(("discard", "", "discard all of these"))
        answer = await self.push_screen_wait(
            AskChoice("Not saved last time", choices, "enter carry on with it   esc later")
        )
        if answer == "discard":
            self.drafts.throw_away(kept)
        elif answer and isinstance(self.screen, TrayKeys):
            draft = self.drafts.find(answer)
            if draft is None:
                self.say("That is already open elsewhere.", wants=True)
            else:
                await self.screen.take_up(draft)

    @work
    async def action_tour(self, ask: bool = False) -> None:
        from logbook.ui.tour import tour

        if self.has_book:
            await tour(self, ask=ask)
        else:
            self.say(f"The tour needs a book; {Way.DEMO_TOUR} has one.", wants=True)

    def use_book(self, book: Book) -> None:
        super().use_book(book)
        self.begin_watching()

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

    def done_by(self, key: Key) -> Literal["writes", "asks", ""]:
        if (key.character or "").isdigit():
            return "asks"  # for the number of a tray
        names = (*(self.shown.own if self.shown is not None else ()), *EVERYWHERE)
        for command in (self.commands[name] for name in names):
            if key.key in command.keys:
                shows = command.shows or command.name in SCREENS or not key.is_printable
                return "writes" if command.writes else "" if shows else "asks"
        return ""

    def ask_about(self, keys: Sequence[Key]) -> None:
        self.ask_if_commands(keys)

    @work(group="keys")
    async def ask_if_commands(self, keys: Sequence[Key]) -> None:
        from logbook.ui.forms.asking import AskSure

        words = " ".join(words_of_key(key.key) for key in keys[:KEYS_SHOWN])
        more = " …" if len(keys) > KEYS_SHOWN else ""
        asked = f"These keys came all at once: {words}{more}\nAre they meant as commands?"
        if await self.push_screen_wait(AskSure(asked, "y or /  run them   n or -  ignore them")):
            self.do_after_all(keys)

    @work
    async def action_reading(self) -> None:
        from logbook.ui.forms.readings import ask_reading

        if isinstance(self.screen, LogScreen) and self.has_book:
            await ask_reading(self.screen)

    @work
    async def action_labels(self) -> None:
        from logbook.ui.forms.label_form import ask_labels

        screen = self.screen
        if isinstance(screen, LogScreen) and self.has_book and not await screen.prints():
            await ask_labels(screen)

    @work
    async def action_jump(self) -> None:
        from logbook.ui.forms.asking import AskChoice

        choices = [(name, each.goes, each.tip) for name, each in SCREENS.items() if each.goes]
        if name := await self.push_screen_wait(AskChoice("Go to", choices, "esc back")):
            self.go(name)

    @work
    async def action_search(self) -> None:
        from logbook.ui.forms.asking import AskLine, written

        read = written("What are you looking for? Type a word.")
        asked = AskLine("Search the notes for", read, hint="enter search   esc back")
        if words := await self.push_screen_wait(asked):
            self.go(PageSubject(words=words))

    @work
    async def action_undo(self) -> None:
        from logbook.actions.trays.striking import last_act, undo
        from logbook.ui.forms.asking import AskSure

        screen, loop = self.screen, asyncio.get_running_loop()
        if not isinstance(screen, LogScreen) or loop.time() < self._undone_at + BOUNCE_SECONDS:
            return
        self._undone_at = math.inf  # until this one is done
        try:
            last = await asyncio.to_thread(last_act, self.book)
            if not last.asks or await screen.ask(AskSure(f"Last written: {last.words}. Undo it?")):
                screen.tell(await screen.ask_book(undo, last.id), "{redo} brings it back.")
        except Refused as refused:
            screen.refuse(refused)
        finally:
            self._undone_at = loop.time()

    @work
    async def action_redo(self) -> None:
        from logbook.actions.trays.striking import redo

        if isinstance(self.screen, LogScreen):
            self.screen.tell(await self.screen.ask_book(redo))

    def action_copy_out(self, what: Literal["line_words", "page_words"]) -> None:
        """Hand a text to the terminal, and keep it in a file, for not every terminal takes it."""
        words = getattr(self.shown, what)() if self.shown is not None else ""
        if not words:
            self.say("There is nothing to copy here.")
            return
        if len(words) <= MOST_HANDED_OVER:
            self.copy_to_clipboard(words)
        path = state_folder() / "copied.txt"
        try:
            write_private(path, words + "\n")
        except OSError as fault:
            self.say(f"Sent to the terminal only: {path}: {fault.strerror}.", wants=True)
            return
        lines = plural(words.count("\n") + 1, "line")
        self.say(f"Copied {lines} to the clipboard, if the terminal allows it, and to {path}.")

    def action_colours(self) -> None:
        names = self.themes_here
        at = names.index(self.colours) if self.colours in names else -1
        self.use_colours(names[(at + 1) % len(names)])
        if isinstance(self.screen, LogScreen):
            kept = self._kept({"theme": self.colours})
            self.say(
                self.screen.keyed(
                    f"Colours: {self.colours}.{kept} The key {{settings}} asks for all settings."
                )
            )

    def _kept(self, settings: Mapping[str, str | bool]) -> str:
        """Keep settings in the person's file and say where; '' where there is none."""
        if self.keep_setting is None:
            return ""
        self.settings = replace(self.settings, **settings)  # type: ignore[arg-type]
        try:
            files = {str(self.keep_setting(name, value)) for name, value in settings.items()}
        except Refused as refused:
            return str(refused)
        return f" Saved in {', '.join(files)}." if files else ""

    @work
    async def action_settings(self) -> None:
        """Ask for the settings, each tried as it is chosen; Esc takes them all back."""
        from logbook.actions.initials import set_initials
        from logbook.ui.forms.settings_form import SettingsForm

        screen = self.screen
        if not isinstance(screen, LogScreen):
            return
        by = self.book.by if self.has_book else self.settings.by
        before = replace(self.settings, theme=self.colours, by=by)
        chosen = await screen.ask(SettingsForm(before, self.themes_here, self.show_settings))
        self.show_settings(chosen or before)
        screen.refresh_view()
        if chosen is None or chosen == before:
            return
        changed = {
            name: getattr(chosen, name)
            for name in ("theme", "signs", "bell", "by")
            if getattr(chosen, name) != getattr(before, name)
        }
        if "by" in changed:
            if self.has_book:
                self.book.by = chosen.by
            self.remember_writer = None
            with suppress(Refused):  # this terminal's own initials would go before the settings
                set_initials(chosen.by)
        screen.say(screen.keyed(f"Settings changed.{self._kept(changed)}"))

    def action_help(self) -> None:
        from logbook.ui.forms.asking import Question
        from logbook.ui.screens.help.help import HelpScreen, QuestionHelp

        if isinstance(self.screen, LogScreen):
            self.push_screen(HelpScreen(self.screen))
        elif isinstance(self.screen, Question):
            self.push_screen(QuestionHelp(self.screen))

    def get_system_commands(self, screen: Screen[Any]) -> Iterable[SystemCommand]:
        own = screen.own if isinstance(screen, LogScreen) else ()
        for name in dict.fromkeys((*own, *EVERYWHERE)):
            command = self.commands[name]
            action = f"{'app' if command.everywhere else 'screen'}.{command.action}"

            run = partial(self.call_later, self.run_action, action)
            yield SystemCommand(f"{command.words} ({command.key_words})", command.tip, run)
        jump = self.commands["jump"].key_words
        for name, each in SCREENS.items():
            if each.goes and not each.key:
                go = partial(self.call_later, self.go, name)
                yield SystemCommand(f"{each.words} ({jump} {each.goes})", each.tip, go)

    def action_repaint(self) -> None:
        self.sent.forget()
        self.screen.refresh()
