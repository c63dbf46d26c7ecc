"""The frame of all screens: head, body, what was said, foot; a view is read off the loop and drawn."""

import asyncio
from collections.abc import Callable, Sequence
from functools import cached_property
from typing import Any, ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.geometry import Size
from textual.screen import Screen
from textual.widgets import Static

from logbook.growing.numbers import name_words
from logbook.growing.room.upkeep import DueDuty
from logbook.growing.trays.round import RoundLine
from logbook.text import Refused
from logbook.ui.commands import COMMANDS, EVERYWHERE, bindings
from logbook.ui.subjects import (
    Chosen,
    LightSubject,
    SowSubject,
    Subject,
    TraceSubject,
    WeighSubject,
)
from logbook.ui.told import Part, told
from logbook.ui.widgets.bars import Foot, Head, Pane, Rule, Sentence
from logbook.ui.widgets.walk_list import Row, WalkList

NARROW, BROAD, SHORT, TINY = 66, 120, 18, 8
LIST, PANE = 92, 40
"""Cells of the widest list, and of the narrowest pane beside one on a broad screen."""


Beside = Subject | Content | Callable[[], Content] | None


def trimmed(text: str) -> str:
    """A text without the spaces at the ends of its lines."""
    return "\n".join(line.rstrip() for line in text.split("\n")).strip("\n")


class Frame(Screen[None]):
    """A screen and what the app may ask of it; it knows neither app nor book.

    A subclass names itself (`heading`), says what it is for (`purpose`), lists its own commands in
    the order of the footer (`own`), composes its body, finds its view (in a thread) and draws it
    (on the loop). State comes down from the view; nothing is read from the book while drawing.
    """

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (NARROW, "-wide"), (BROAD, "-broad")]
    VERTICAL_BREAKPOINTS = [(0, "-tiny"), (TINY, "-short"), (SHORT, "-tall")]
    heading: ClassVar[str] = ""
    purpose: ClassVar[str] = ""
    own: ClassVar[tuple[str, ...]] = ()
    enter: ClassVar[str] = "open"
    """Which of its own commands Enter on a row of its list does."""
    page_below: ClassVar[str] = ""
    """The selector of the page that "further" and "nearer" move."""
    digits_go_to_trays: ClassVar[bool] = False
    """Whether a digit here begins the number of a tray to go to."""
    last: ClassVar[str] = "help"
    """The command that ends the footer."""
    home: ClassVar = False
    """Whether it is the screen that one always comes back to."""
    subject: Subject = Subject()
    """What it is about; set by the app before the screen is shown."""
    view: Any = None
    counts = ""
    """What counts, at the right of the head."""
    late = ""
    """What wants somebody, behind it."""
    drawn_for: Size | None = None
    """The size of the app when the screen was drawn last."""
    writes_unread: ClassVar = False
    """Whether its own commands may do something before a view is read."""
    own_actions: ClassVar[frozenset[str]] = frozenset()
    fresh = False
    looks_begun = 0
    """How many times the book was looked into; `look_drawn` is the number of the look that is drawn."""
    look_drawn = 0
    """Whether the view was read just now, so that the screen can come up with it."""
    sided: ClassVar = False
    """Whether a broad screen shows beside the list what the cursor is on."""
    below: ClassVar = False
    """Whether a screen that isn't broad shows it below the list."""

    def __init_subclass__(cls, **kwargs: Any) -> None:
        names = [name for name in cls.own if name not in EVERYWHERE]
        cls.own_actions = frozenset(COMMANDS[name].action.partition("(")[0] for name in names)
        cls.BINDINGS = [*cls.__dict__.get("BINDINGS", []), *bindings(*names)]
        cls.sided = cls.beside is not Frame.beside
        super().__init_subclass__(**kwargs)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Let none of its own commands run where nothing could be read yet."""
        return self.view is not None or self.writes_unread or action not in self.own_actions

    # what a subclass gives

    def compose_body(self) -> ComposeResult:
        """What stands between head and foot: one list, where nothing else is given."""
        yield WalkList()

    def find(self) -> Any:
        """The view; read in a thread, may raise Refused."""

    def forget(self) -> None:
        """Have no view, and so no commands, until one is read."""
        self.view = None

    def rows(self, view: Any) -> Sequence[Row]:
        """The rows of the list; for a screen that draws nothing else."""
        return ()

    def draw(self, view: Any) -> None:
        """Draw the view; called when it has changed or the size has."""
        self.walk.show(self.rows(view))

    def draw_around(self) -> None:
        """Draw head and foot."""

    def draw_foot(self) -> None:
        """Draw the foot."""

    def beside(self) -> Beside:
        """What a broad screen shows beside the list, by what the cursor is on.

        `ui/panes.py` draws a subject; what is called for a text is called in a thread, for it may read.
        """

    def draw_beside(self) -> None:
        """Draw it."""

    def told(self, name: str, *parts: Part) -> Content:
        """What is told of a thing by its name, as wide as where it is shown."""
        width = self.beside_width if self.broad else self.columns - 2
        return told(name if self.broad else "", parts, width)

    def footer(self) -> tuple[str, ...]:
        """The commands of the footer, most needed first; a preview may have no more to show."""
        return tuple(name for name in self.own if name not in ("further", "nearer"))

    def does(self, name: str) -> bool:
        """Whether a command of the footer would do something now."""
        return not COMMANDS[name].on_line or self.on_something

    @property
    def on_something(self) -> bool:
        """Whether the cursor is on what the screen lists, and not on a sentence alone."""
        return any(walk.under is not None for walk in self.lists)

    # what the app asks

    @property
    def unsaved(self) -> bool:
        """Whether something was typed here that is not in the book."""
        return False

    async def may_leave(self) -> bool:
        """Ask what to do with what is unsaved; whether one may go elsewhere now."""
        return True

    async def may_close(self) -> bool:
        """Ask whether to close the book although something here is unsaved."""
        return True

    def seen(self, about: type[Subject]) -> Subject:
        """What a key for such a thing means when it is pressed here, by what the cursor is on."""
        if self.view is None:
            return about()
        if about is WeighSubject:
            return self.subject if isinstance(self.subject, about) else about(self.weighing_trays())
        if about is SowSubject:
            return SowSubject(place=self.sowing_place())
        if about is TraceSubject:
            return TraceSubject(self.traced())
        if issubclass(about, LightSubject):
            return about(self.here()[1])
        return about()

    def sowing_place(self) -> str:
        """The path of the place that a sowing begun from here is for; '' for any."""
        return ""

    def weighing_trays(self) -> tuple[int, ...]:
        """The trays that a weigh-in begun from here is for; none for any."""
        return ()

    def traced(self) -> str:
        """What a trace begun from here follows, as its command takes it; '' for what is asked for."""
        chosen = self.chosen()
        alone = chosen is not None and len(chosen.numbers) == 1
        return f"tray {name_words(chosen.numbers[0])}" if chosen and alone else ""

    def here(self) -> tuple[tuple[int, ...], str]:
        """The trays and the place that a reading is of when it is entered here."""
        chosen = self.chosen() if self.view is not None else None
        return (chosen.numbers, chosen.place) if chosen is not None else ((), "")

    def chosen(self) -> Chosen | None:
        """What the cursor is on, or None."""
        return None

    def due_now(self) -> Sequence[RoundLine | DueDuty] | None:
        """The lines of the round that are due, if they are what was read here."""
        return None

    def line_words(self) -> str:
        """What the cursor is on as plain text, to be copied; '' for nothing."""
        walk = next(iter(self.lists), None)
        if walk is None or walk.highlighted is None:
            return ""
        return trimmed(walk.rows[walk.highlighted].text.plain)

    def page_words(self) -> str:
        """All that is listed here as plain text, to be copied; '' for nothing."""
        walk = next(iter(self.lists), None)
        if walk is None or not walk.rows:
            return ""
        above = [str(line.content) for line in self.query(".plain").results(Static)]
        rows = [row.text.plain for row in walk.rows]
        return trimmed(
            "\n".join([f"{self.heading}   {self.counts}{self.late}", *filter(None, above), *rows])
        )

    # the frame

    @property
    def narrow(self) -> bool:
        """Whether lines must be folded in two."""
        return self.app.size.width < NARROW

    @property
    def columns(self) -> int:
        """Cells of the list with its edges; beside it stands the pane where the screen is broad."""
        width = self.app.size.width
        return min(LIST, width - PANE if self.broad else width)

    @property
    def broad(self) -> bool:
        """Whether there is a pane beside the list."""
        return self.sided and self.app.size.width >= BROAD

    @property
    def width(self) -> int:
        """Cells of a row of the list, up to its scrollbar."""
        return self.columns - 3

    @property
    def beside_width(self) -> int:
        """Cells of what stands beside the list."""
        return min(LIST, self.app.size.width - self.columns - 3)

    @cached_property
    def lists(self) -> list[WalkList]:
        """Its lists, which stay what they were when it came up; looked for once, not at each key."""
        return list(self.query(WalkList))

    @property
    def walk(self) -> WalkList:
        return self.lists[0]

    def compose(self) -> ComposeResult:
        yield Head(id="head")
        yield Rule(id="rule")
        with Horizontal(id="sides"):
            with Vertical(id="body"):
                yield from self.compose_body()
                if self.below:
                    yield Static(id="below", classes="plain")
            if self.sided:
                yield Pane(id="pane")
        yield Sentence(id="said")
        yield Foot(id="foot")

    def say(self, words: str, *, wants: bool = False) -> None:
        """Show a sentence above the foot; `wants` for one that asks for attention."""
        if self.stands:
            self.query_one(Sentence).say(words, wants=wants)

    @property
    def said(self) -> str:
        """The sentence above the foot, as it is now."""
        return str(self.query_one(Sentence).content)

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
        if self.app.size != self.drawn_for:
            self._draw_all()

    @work(exclusive=True, group="view")
    async def refresh_view(self) -> None:
        await self.reload()

    async def reload(self) -> None:
        """Read the view off the loop and draw it, then go on.

        A look that took so long that a later one is drawn by now is left aside: it may be from before
        what was written since.
        """
        self.looks_begun += 1
        look = self.looks_begun
        try:
            view = await asyncio.to_thread(self.find)
        except Refused as refused:
            self.say(str(refused), wants=True)
            return
        if look < self.look_drawn:
            return
        self.view, self.look_drawn = view, look
        if self.stands:
            self._draw_all()

    def redraw(self) -> None:
        if self.view is not None:
            self.draw(self.view)
            self.draw_beside()

    def _draw_all(self) -> None:
        self.drawn_for = self.app.size
        if self.sided:
            self.query_one("#body").styles.width = self.columns if self.broad else "1fr"
        self.redraw()
        self.draw_around()

    @on(WalkList.Moved)
    def cursor_moved(self) -> None:
        self.draw_beside()
        self.draw_foot()

    @on(WalkList.Selected)
    async def enter_row(self) -> None:
        """Let Enter, or a click, on a row do what it does here."""
        if self.enter in self.own:
            await self.run_action(self.enter)

    def action_further(self) -> None:
        self._turn(1)

    def action_nearer(self) -> None:
        self._turn(-1)

    def _turn(self, by: int) -> None:
        page = self.query_one(self.page_below)
        to = page.scroll_y + by * page.scrollable_content_region.height
        page.scroll_to(y=to, animate=False, immediate=True)
