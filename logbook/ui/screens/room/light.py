"""Light on the shelves: what the meter said, what it means for the crops, and how it fades."""

from textual import on, work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.room.light import ShelfLight, SurveyView, all_light
from logbook.growing.measures import hours_words, length_words, number_words
from logbook.text import plural
from logbook.ui.charts import bar
from logbook.ui.columns import apart
from logbook.ui.light_drawing import shelf_drawing
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import Chosen, LightSubject
from logbook.ui.widgets.walk_list import Row, ShortList, WalkList

PAST = 6


class LightScreen(LogScreen):
    """The shelves above, the one under the cursor below: drawn, judged, and over the months."""

    heading = "light"
    purpose = (
        "What the meter said on each shelf: how even, how much a day, too little or too much for "
        "the crops there, and how the lamps fade. Enter walks round the shelf with the meter."
    )
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
        self.walk.show([Row(self._line(one), one.place.path, one) for one in view])
        asked = self.subject.place
        if asked and asked != self._shown:
            self._shown = asked
            self.walk.go_to_key(asked)
        self.draw_shelf()

    def here(self) -> tuple[tuple[int, ...], str]:
        return (), self.walk.key

    def _line(self, one: ShelfLight) -> Content:
        name, width = Content.styled(one.place.path, "bold"), self.app.size.width - 4
        newest = one.newest
        if newest is None:
            rest, tone = "not measured", "$text-past"
            longer = f"{rest}   {one.place.hours_words}"
            if name.cell_length + len(longer) + 2 <= width:
                rest = longer
        else:
            daily = "" if one.daily is None else f"   {number_words(one.daily)} mol a day"
            if self.narrow and _mark(one):
                daily = ""
            even = newest.even.min_over_mean
            spread = "" if even is None or self.narrow else f"   min/mean {even:.2f}"
            rest, tone = f"{newest.even.mean:.0f}{spread}{daily}{_mark(one)}", ""
            if _mark(one):
                tone = "$warning"
        return apart(name, Content.styled(rest, tone), width)

    @on(WalkList.Moved)
    def draw_shelf(self) -> None:
        one: ShelfLight | None = self.walk.under
        none = Content(self.keyed("No shelf yet: places ({places}) adds one."))
        self.query_one("#shelf", Static).update(none if one is None else self._page(one))

    def _page(self, one: ShelfLight) -> Content:
        units, width = self.book.units, self.app.size.width - 4
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
        lines.append(Content(f"mean {number_words(even.mean, 0)} µmol/m²/s; {newest.even.words}"))
        if newest.estimate:
            lines.append(Content.styled(newest.estimate, "$warning"))
        if one.daily is not None:
            hours = f" ({one.hours.words})" if one.hours else ""
            lit = f"{hours_words(one.lit_hours)} of light{hours}"
            lines.append(Content(f"today {number_words(one.daily, 1)} mol/m² in {lit}"))
        for each in one.verdicts:
            tone = "" if each.judgement.verdict == "enough" else "$warning"
            lines.append(Content.styled(f"{each.crop}: {each.judgement.words}", tone))
        lines += [Content(wish) for wish in one.wishes]
        if one.falling:
            lines.append(Content.styled(one.falling, "$warning"))
        if len(one.surveys) > 1:
            lines.append(Content.styled("Over time, of the first at like height", "$text-past"))
            lines += [self._past(view) for view in one.surveys[-PAST:]]
        lines.append(Content.styled(lamps, "$text-past"))
        return Content("\n").join(lines)

    def _past(self, view: SurveyView) -> Content:
        day = self.day(view.survey.at)
        mean = f"{view.even.mean:>5.0f}"
        if view.percent is None:
            return Content(f"{day:<11}{mean}   other height or meter")
        room = max(4, min(30, self.app.size.width - 30))
        return Content(f"{day:<11}{mean} {view.percent:>4.0f} % {bar(view.percent / 120, room)}")

    @work
    async def action_measure(self) -> None:
        from logbook.ui.forms.readings import ask_light

        await ask_light(self, Chosen((), place=self.here()[1]))


def _mark(one: ShelfLight) -> str:
    wrong = {each.judgement.verdict for each in one.verdicts} - {"enough"}
    if len(wrong) > 1:
        return "   too little, too much"
    if wrong:
        return f"   {wrong.pop()}"
    return "   falling" if one.falling else ""
