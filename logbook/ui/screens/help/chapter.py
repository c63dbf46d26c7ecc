"""A chapter of the handbook, to read."""

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from logbook import handbook
from logbook.growing.cautions import care_chapter
from logbook.growing.kinds import purposes
from logbook.handbook import CHAPTERS
from logbook.ui.commands import keys_listed
from logbook.ui.reading import lines_of
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import ChapterSubject
from logbook.ui.widgets.bars import show_once

WIDEST = 96
"""Cells of a line; longer ones are hard to read."""


class _Reader(VerticalScroll, inherit_bindings=False):
    BINDINGS = [
        Binding("up", "scroll_up", "up"),
        Binding("down", "scroll_down", "down"),
        Binding("pageup", "page_up", "page up"),
        Binding("pagedown,space", "page_down", "page down"),
        Binding("home", "scroll_home", "first"),
        Binding("end", "scroll_end", "last"),
    ]


class ChapterScreen(LogScreen):
    """One chapter; left and right go to its neighbours."""

    heading = "the handbook"
    purpose = "One chapter of the handbook. Arrows, Page Up, Page Down and Space move the text; left and right go to the chapter before and the next."
    own = ("chapter_before", "chapter_after")
    subject: ChapterSubject
    view: str | None = None

    def compose_body(self) -> ComposeResult:
        with _Reader(classes="scroll"):
            yield Static(id="chapter")

    def find(self) -> str:
        """Its text as read, or as made of the tables; no book is needed."""
        name = self.subject.chapter
        if name == handbook.KEYS:
            keys = keys_listed(self.logbook.commands)
            return handbook.keys_chapter(*keys, self.logbook.plain())
        if name == handbook.ENTRIES:
            return handbook.entries_chapter(purposes())
        if name == handbook.CARE:
            return care_chapter()
        return handbook.without_pictures(handbook.chapter_text(name))

    def draw(self, view: str) -> None:
        name = self.subject.chapter
        self.counts = f"{CHAPTERS.index(name) + 1} of {len(CHAPTERS)}"
        text = Content("\n").join(lines_of(view, min(WIDEST, self.app.size.width - 4)))
        show_once(self.query_one("#chapter", Static), text, layout=True)

    def action_turn(self, by: int) -> None:
        at = CHAPTERS.index(self.subject.chapter) + by
        if not 0 <= at < len(CHAPTERS):
            self.say("This is the last chapter." if by > 0 else "This is the first chapter.")
            return
        self.query_one(_Reader).scroll_home(animate=False)
        self.logbook.go(ChapterSubject(CHAPTERS[at]))
