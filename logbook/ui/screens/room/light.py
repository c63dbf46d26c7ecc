"""Light on the shelves: what the meter said, what it means for the crops, and how it fades."""

import math
from collections.abc import Sequence

from rich.cells import cell_len
from textual import on, work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.room.light import ShelfLight, SurveyView, all_light
from logbook.actions.room.light_table import LIGHT, wants
from logbook.growing.measures import hours_words, length_words, number_words
from logbook.growing.table import Column, table
from logbook.text import plural
from logbook.ui.charts import bar
from logbook.ui.frame import BROAD
from logbook.ui.light_drawing import shelf_drawing
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import Chosen, LightSubject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import ShortList, WalkList

PAST = 6
LIST_WIDTH = 80


class LightScreen(LogScreen):
    """The shelves above, the one under the cursor below: drawn, judged, and over the months."""

    heading = "light"
    purpose = "What the meter said on each shelf: PPFD, how even it is, DLI, too little or too much for the crops there, and how the lamps fade. Enter walks round the shelf with the meter."
    own = ("measure", "further", "nearer")
    enter = "measure"
    page_below = "#shelf-scroll"
    subject: LightSubject = LightSubject()
    view: list[ShelfLight] | None = None

    def __init__(self) -> None:
        super().__init__()
        self._shown = ""

    def compose_body(self) -> ComposeResult:
        yield ShortList()
        with VerticalScroll(id="shelf-scroll", can_focus=False, classes="scroll"):
            yield Static(Content(""), id="shelf", classes="plain")

    def load(self, book: Book) -> list[ShelfLight]:
        return all_light(book)

    def draw(self, view: list[ShelfLight]) -> None:
        measured = [one for one in view if one.surveys]
        self.counts = f"{len(measured)} of {plural(len(view), 'shelf', 'shelves')} measured"
        self.walk.show(
            table_rows(
                LIGHT,
                view,
                min(LIST_WIDTH, self.app.size.width) - 4,
                lambda one: one.place.path,
                _tone,
            )
        )
        asked = self.subject.place
        if asked and asked != self._shown:
            self._shown = asked
            self.walk.go_to_key(asked)
        self.draw_shelf()

    def here(self) -> tuple[tuple[int, ...], str]:
        return (), self.walk.key

    @on(WalkList.Moved)
    def draw_shelf(self) -> None:
        one: ShelfLight | None = self.walk.under
        none = Content(self.keyed("No shelf yet: places ({places}) adds one."))
        self.query_one("#shelf", Static).update(none if one is None else self._page(one))

    @property
    def _room(self) -> int:
        """Cells for the drawn shelf, which stands beside the list where the screen is broad."""
        width = self.app.size.width
        return width - LIST_WIDTH - 5 if width >= BROAD else width - 4

    def _page(self, one: ShelfLight) -> Content:
        units, width = self.book.units, self._room
        unknown = self.keyed("lamps not known (lamps, bills: {bills})")
        lamps = unknown if one.lamps is None else one.lamps.words(units)
        newest = one.newest
        if newest is None:
            return Content.assemble(
                (f"{one.place.path}: no reading yet.\n", "bold"),
                f"{lamps}\nEnter takes the first walk with the meter.",
            )
        survey = newest.survey
        height = ""
        if survey.height_mm is not None:
            height = f", {length_words(survey.height_mm, units)} under the lamp"
        lines: list[Content] = [
            Content.styled(
                f"{one.place.path}   {self.day(survey.at)}, {survey.by}{height}", "bold $primary"
            )
        ]
        lines += [Content(line) for line in shelf_drawing(survey.grid, survey.spots, width)]
        even = newest.even
        lines.append(Content(f"PPFD {number_words(even.mean, 0)} µmol/m²/s; {newest.even.words}"))
        if newest.estimate:
            lines.append(Content.styled(newest.estimate, "$warning"))
        if one.daily is not None:
            hours = f" ({one.hours.words})" if one.hours else ""
            lit = f"{hours_words(one.lit_hours)} of light{hours}"
            lines.append(Content(f"DLI today {number_words(one.daily, 1)} mol/m²/d in {lit}"))
        for each in one.verdicts:
            tone = "" if each.judgement.verdict == "enough" else "$warning"
            lines.append(Content.styled(f"{each.crop}: {each.judgement.words}", tone))
        lines += [Content(wish) for wish in one.wishes]
        if one.falling:
            lines.append(Content.styled(one.falling, "$warning"))
        if len(one.surveys) > 1:
            lines += self._past(one.surveys[-PAST:])
        lines.append(Content.styled(lamps, "$text-past"))
        return Content("\n").join(lines)

    def _past(self, surveys: Sequence[SurveyView]) -> list[Content]:
        """Output over time as bars that begin where the surveys differ; what they begin at is said."""
        shares = [one.percent for one in surveys if one.percent is not None]
        base = max(0.0, math.floor(min(shares, default=0) / 10 - 1) * 10)
        top = max(100.0, *shares, base + 10) if shares else 100.0
        room = max(8, min(30, self._room - 36))

        def drawn(one: SurveyView) -> str:
            if one.percent is None:
                return "other height or meter"
            return bar((one.percent - base) / (top - base), room)

        columns: tuple[Column[SurveyView], ...] = (
            Column("over time", lambda one: self.day(one.survey.at), right=False),
            Column("PPFD", lambda one: number_words(one.even.mean, 0), "µmol/m²/s"),
            Column(
                "of first",
                lambda one: "" if one.percent is None else number_words(one.percent, 0),
                "%",
            ),
            Column(
                f"{base:.0f} %".ljust(room - 5) + f"{top:.0f} %" if shares else "",
                drawn,
                right=False,
            ),
        )
        found = table(columns, surveys, self._room, cell_len)
        heads = [Content.styled(line, "$text-past") for line in found.heads]
        return heads + [Content(line) for line in found.rows]

    @work
    async def action_measure(self) -> None:
        from logbook.ui.forms.readings import ask_light

        await ask_light(self, Chosen((), place=self.here()[1]))


def _tone(one: ShelfLight) -> str:
    return "$text-past" if one.newest is None else "$warning" if wants(one) else ""
