"""The handbook: its chapters, by job."""

from functools import partial

from textual.content import Content

from logbook.handbook import CHAPTERS, WRITTEN, chapter_text, title_of, without_pictures
from logbook.ui.frame import Beside
from logbook.ui.reading import lines_of
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import ChapterSubject
from logbook.ui.widgets.walk_list import Row
from logbook.ways import Way

TOUR = "tour of the screens"


class HandbookScreen(LogScreen):
    """The list of chapters, and the tour."""

    heading = "the handbook"
    purpose = (
        "How to do things, by job: the first day, a day, a week, a trial, a recall, looking after "
        f"the book. Enter opens a chapter. {Way.HANDBOOK} prints it."
    )
    own = ("open",)
    view: list[tuple[str, str]] | None = None

    def find(self) -> list[tuple[str, str]]:
        return [(name, title_of(name)) for name in CHAPTERS]

    def rows(self, view: list[tuple[str, str]]) -> list[Row]:
        rows = [Row(Content(title), name) for name, title in view]
        return [*rows, Row(Content("")), Row(Content("A tour of the screens, one minute"), TOUR)]

    def beside(self) -> Beside:
        name = self.walk.key
        return partial(self._begun, name) if name in WRITTEN else None

    def _begun(self, name: str) -> Content:
        """A chapter as far as there are lines for it."""
        lines = lines_of(without_pictures(chapter_text(name)), self.beside_width)
        return Content("\n").join(lines[: self.app.size.height - 4])

    @property
    def on_something(self) -> bool:
        return True

    async def action_open(self) -> None:
        key = self.walk.key
        if key == TOUR:
            await self.run_action("app.tour")
        elif key:
            self.logbook.go(ChapterSubject(key))
