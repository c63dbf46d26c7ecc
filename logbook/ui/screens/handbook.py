"""The handbook: its chapters, by job."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.content import Content

from logbook.handbook import CHAPTERS, title_of
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import ChapterSubject
from logbook.ui.widgets.walk_list import Row, WalkList

TOUR = "tour of the screens"


class HandbookScreen(LogScreen):
    """The list of chapters, and the tour."""

    heading = "the handbook"
    purpose = (
        "How to do things, by job: the first day, a day, a week, a trial, a recall, looking after "
        "the book. Enter opens a chapter. `logbook handbook` prints it."
    )
    own = ("open",)
    view: list[tuple[str, str]] | None = None

    def compose_body(self) -> ComposeResult:
        """Give the list."""
        yield WalkList()

    def find(self) -> list[tuple[str, str]]:
        """Give the chapters with their titles; no book is needed."""
        return [(name, title_of(name)) for name in CHAPTERS]

    def draw(self) -> None:
        """Draw a line for each chapter, and one for the tour."""
        rows = [Row(Content(title), name) for name, title in self.view or ()]
        rows.append(Row(Content("")))
        rows.append(Row(Content("A tour of the screens, one minute"), TOUR))
        self.query_one(WalkList).show(rows)

    @on(WalkList.Selected)
    def selected(self) -> None:
        """Let Enter open."""
        self.action_open()

    def action_open(self) -> None:
        """Open the chapter under the cursor, or begin the tour."""
        key = self.query_one(WalkList).key
        if key == TOUR:
            self.logbook.take_tour()
        elif key:
            self.logbook.go(ChapterSubject(key))
