"""The app: opens at the round, goes from screen to screen, watches the book and the clock."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual import work
from textual.app import App, SystemCommand
from textual.screen import Screen

from logbook.settings import Settings
from logbook.text import Refused
from logbook.ui.commands import COMMANDS, EVERYWHERE, bindings
from logbook.ui.drafts import Drafts
from logbook.ui.lifeline import watch_terminal
from logbook.ui.look import THEMES
from logbook.ui.screen import LogScreen

if TYPE_CHECKING:
    from logbook.actions.book import Book

LOOK_SECONDS = 1.0
TICK_SECONDS = 20.0


def _screen(name: str) -> Callable[[], Screen[Any]]:
    """Give a maker of a screen that imports its module when it is first shown."""

    def make() -> Screen[Any]:
        from importlib import import_module

        module, class_name = SCREENS[name]
        made = getattr(import_module(f"logbook.ui.screens.{module}"), class_name)()
        assert isinstance(made, Screen)  # noqa: S101 - the table names screens only
        return made

    return make


SCREENS = {
    "round": ("round", "RoundScreen"),
    "racks": ("racks", "RacksScreen"),
    "tray": ("tray", "TrayScreen"),
    "batch": ("batch", "BatchScreen"),
    "due": ("due", "DueScreen"),
    "page": ("page", "PageScreen"),
    "sow": ("sow", "SowScreen"),
    "weigh": ("weigh", "WeighScreen"),
    "templates": ("templates", "TemplatesScreen"),
    "template": ("template", "TemplateScreen"),
    "places": ("places", "PlacesScreen"),
    "place": ("place", "PlaceScreen"),
    "begin": ("begin", "BeginScreen"),
}
JUMPS = (
    ("round", "r"),
    ("racks", "k"),
    ("due", "d"),
    ("page", "p"),
    ("sow", "s"),
    ("weigh", "w"),
    ("templates", "t"),
    ("places", "l"),
)


class LogbookApp(App[None], inherit_bindings=False):
    """The logbook on the screen."""

    CSS_PATH = "logbook.tcss"
    TITLE = "logbook"
    ENABLE_COMMAND_PALETTE = True
    COMMAND_PALETTE_BINDING = "colon"
    SCREENS: ClassVar[dict[str, Callable[[], Screen[Any]]]] = {
        name: _screen(name) for name in SCREENS
    }
    BINDINGS = bindings(*EVERYWHERE)

    def __init__(
        self,
        book: Book | None,
        settings: Settings | None = None,
        begin: Callable[[Any], Book] | None = None,
        on_mishap: Callable[[BaseException], str] | None = None,
    ) -> None:
        """Take an open book, or None and what makes one from a BeginDraft.

        `on_mishap` keeps the trace of a fault of the program and gives the sentence to show.
        """
        super().__init__()
        self.on_mishap = on_mishap
        self._book = book
        self.settings = settings or Settings()
        self.begin = begin
        self.drafts = Drafts(book.file.path if book is not None else Path("new"))
        self.trail: list[str] = []
        self.subject: dict[str, Any] = {}
        self._subjects: list[dict[str, Any]] = []
        self._stamp: tuple[int, int] | None = None
        self._waiting: set[tuple[Any, ...]] | None = None
        for theme in THEMES.values():
            self.register_theme(theme)
        self.theme = THEMES[self.settings.theme].name
        if self.settings.theme == "terminal":
            self.ansi_color = True
        if self.settings.keys:
            self.set_keymap(dict(self.settings.keys))

    @property
    def book(self) -> Book:
        """The open book."""
        if self._book is None:
            raise Refused("There is no book yet.")
        return self._book

    def on_mount(self) -> None:
        """Open at the round, or at the questions of a new book."""
        self.push_screen("begin" if self._book is None else "round")
        self.trail = ["begin" if self._book is None else "round"]
        watch_terminal(self)
        if self._book is not None:
            self.begin_watching()
            self.offer_drafts()

    @work
    async def offer_drafts(self) -> None:
        """Offer what was being typed when the app ended last."""
        from logbook.ui.asking import AskChoice
        from logbook.ui.deeds import TrayKeys

        kept = {draft.key: draft for draft in self.drafts.all()}
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
            for key in kept:
                self.drafts.drop(key)
        elif answer and isinstance(self.screen, TrayKeys):
            await self.screen.take_up(kept[answer])

    def use_book(self, book: Book) -> None:
        """Go on with a book that was just made."""
        self._book = book
        self.drafts = Drafts(book.file.path)
        self.trail = ["round"]
        self._subjects = []
        self.switch_screen("round")
        self.begin_watching()

    def begin_watching(self) -> None:
        """Look after the book's file and the clock from now on."""
        self._stamp = self._file_stamp()
        self.set_interval(LOOK_SECONDS, self._look_at_file)
        self.set_interval(TICK_SECONDS, self.tick)
        self.warm_up()

    @work(thread=True)
    def warm_up(self) -> None:
        """Load what writing needs, after the first screen is shown."""
        import logbook.actions.doing

        _ = logbook.actions.doing.did

    def _handle_exception(self, error: Exception) -> None:
        """Show a sentence instead of a traceback, which would print people's notes.

        Textual has no public hook for this; it shows an error that has __rich__ as itself.
        """
        from rich.text import Text

        words = self.on_mishap(error) if self.on_mishap else type(error).__name__
        error.__rich__ = lambda: Text(words)  # type: ignore[attr-defined]
        super()._handle_exception(error)

    # where one is

    def go(self, name: str, **subject: Any) -> None:
        """Go to a screen, with what it is about; Esc leads back, to what that was about."""
        before = dict(self.subject)
        self.subject.update(subject)
        if self.trail and self.trail[-1] == name:
            if isinstance(self.screen, LogScreen):
                self.screen.refresh_view()
            return
        if name == "round":
            self.trail = []
            self._subjects = []
        elif self.trail:
            self._subjects.append(before)
        self.trail.append(name)
        self.switch_screen(name)

    async def action_go_back(self) -> None:
        """Go to where one came from; the round is the last."""
        if isinstance(self.screen, LogScreen) and len(self.trail) > 1:
            self.trail.pop()
            self.subject = self._subjects.pop()
            await self.switch_screen(self.trail[-1])

    def action_round(self) -> None:
        """Go to the round."""
        self.go("round")

    def action_racks(self) -> None:
        """Go to the racks."""
        self.go("racks")

    def action_due(self) -> None:
        """Go to what is due."""
        self.go("due")

    def action_page(self) -> None:
        """Go to today's page."""
        self.go("page", day=None, words="", tray=None, only=None)

    def action_templates(self) -> None:
        """Go to the crop templates."""
        self.go("templates")

    def action_places(self) -> None:
        """Go to the racks and shelves."""
        self.go("places")

    def action_sow(self) -> None:
        """Go to the sowing form, for the place under the cursor if there is one."""
        screen = self.screen
        self.go("sow", place=screen.sowing_place() if isinstance(screen, LogScreen) else "")

    def action_weigh(self) -> None:
        """Go to the weigh-in, for the tray that the screen is about if there is one."""
        screen = self.screen
        self.go("weigh", trays=screen.weighing_trays() if isinstance(screen, LogScreen) else ())

    @work
    async def action_jump(self) -> None:
        """Ask where to go."""
        from logbook.ui.asking import AskChoice

        choices = [(name, letter, COMMANDS[name].tip) for name, letter in JUMPS]
        name = await self.push_screen_wait(AskChoice("Go to", choices, "esc back"))
        if name:
            getattr(self, f"action_{name}")()

    @work
    async def action_search(self) -> None:
        """Ask for words and show the entries whose notes hold them."""
        from logbook.text import clean
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
            self.go("page", words=words, day=None, tray=None, only=None)

    @work
    async def action_undo(self) -> None:
        """Strike what this person wrote last."""
        from logbook.actions.striking import undo

        screen = self.screen
        if isinstance(screen, LogScreen):
            done = await screen.ask_book(undo)
            if done is not None:
                screen.say(done.words)

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
            command = COMMANDS[name]
            action = f"app.{name}" if name in EVERYWHERE else f"screen.{name}"
            if name == "back":
                action = "app.go_back"

            def run(action: str = action) -> None:
                self.call_later(self.run_action, action)

            yield SystemCommand(f"{command.words} ({command.key_words})", command.tip, run)

    def action_quit(self) -> Any:
        """Close the book; asks when a form holds something unsaved."""
        return self._quit()

    @work
    async def _quit(self) -> None:
        from logbook.ui.asking import AskYes

        unsaved = getattr(self.screen, "unsaved", False)
        if unsaved and not await self.push_screen_wait(
            AskYes("This form is not saved. Close the book all the same?")
        ):
            return
        self.exit()

    # what changes while the app is open

    def _file_stamp(self) -> tuple[int, int] | None:
        try:
            facts = self.book.file.path.stat()
        except OSError:
            return None
        return facts.st_mtime_ns, facts.st_size

    def changed_here(self) -> None:
        """Note that the book was changed by this app, so that it is not taken for another's."""
        self._stamp = self._file_stamp()

    def _look_at_file(self) -> None:
        """Show what another program wrote; every commit changes the file itself."""
        stamp = self._file_stamp()
        if stamp != self._stamp:
            self._stamp = stamp
            if isinstance(self.screen, LogScreen):
                self.screen.refresh_view()

    def tick(self) -> None:
        """Move on with the clock: redraw, and ring when a chore's time has come."""
        if isinstance(self.screen, LogScreen):
            self.screen.refresh_view()
        self.remind()

    @work(exclusive=True, group="remind")
    async def remind(self) -> None:
        """Ring and say what has come due since the last look, also past midnight."""
        from logbook.actions.viewing import the_round

        try:
            now = await asyncio.to_thread(the_round, self.book)
        except Refused:
            return
        fresh = {(line.key, line.due_at): line for line in now.due}
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
