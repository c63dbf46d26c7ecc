"""A batch's page: its trays as they stand, the weights, and one time line for all of them."""

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.entry_lines import Line
from logbook.growing.costs.parts import unknown_words
from logbook.growing.numbers import name_words
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import clean
from logbook.ui.columns import column, fit
from logbook.ui.subjects import BatchSubject, Chosen
from logbook.ui.timeline import TimeLineKeys
from logbook.ui.timeline_drawing import facts
from logbook.ui.tray_facts import batch_facts
from logbook.ui.widgets.walk_list import Row

ABOVE = 3  # facts


class BatchScreen(TimeLineKeys):
    """The page of a batch."""

    heading = "batch"
    purpose = (
        "The trays that were sown together, what was cut, and one time line for all of them. Enter "
        "opens a tray; on the time line {jot}, {look}, {move} and {discard} act on all trays "
        "still growing."
    )
    own = ("open", "jot", "look", "move", "discard", "strike", "weigh", "hold")
    subject: BatchSubject
    view: BatchPage

    def load(self, book: Book) -> BatchPage:
        return batch_page(book, self.subject.batch)

    def draw(self, page: BatchPage) -> None:
        self.counts = f"{page.batch}  {clean(page.template_name, lines=False)}"
        rows = self.show_facts(batch_facts(page, self.book), ABOVE)
        if page.unusual is not None:
            rows.append(Row(Content.styled(page.unusual.words, "$warning")))
            rows += [Row.head(each, "$text-past") for each in page.unusual.differed]
        rows.append(Row(Content("Trays")))
        rows += [Row(self._tray(tray), f"tray {tray.number}", tray) for tray in page.trays]
        rows += self._costs(page)
        rows.append(Row(Content("What happened")))
        line = self.time_line(page, page.sown_at, (tray.number for tray in page.trays))
        self.walk.show([*rows, *line.rows])

    def _costs(self, page: BatchPage) -> list[Row]:
        """What its trays cost, part by part; nothing where no part is known."""
        costs = page.costs
        if costs is None or costs.total is None:
            return []
        money = costs.currency
        parts = [(one.part, money.rate(one.money)) for one in costs.parts if one.money is not None]
        parts.append(("not known", unknown_words(costs.unknown)))
        lines = facts(parts, self.columns - 6).wrap(self.columns - 6)
        return [Row(Content("What it cost")), *(Row(Content(" ") + line) for line in lines)]

    def _tray(self, tray: TrayNow) -> Content:
        status = tray.stage or tray.status.words
        if tray.regrowth_day is not None:
            status = f"again, day {tray.regrowth_day}"
        number, day = name_words(tray.number), tray.day_number
        words = f"day {day}" if day is not None else ""
        dim = "" if tray.state.live else "$text-past"
        weight = self.grams(tray.state.grams)
        where = _where(tray)
        if self.narrow:
            first = f"{words.ljust(7)} {clean(status, lines=False)}".rstrip()
            second = "  ".join(part for part in (where, weight) if part)
            lines = [Content.assemble(" ", (number.ljust(6), f"bold {dim}"), (first, dim))]
            if second:
                lines.append(Content.assemble(" " * 7, (fit(second, self.columns - 10), dim)))
            return Content("\n").join(lines)
        spare = max(0, self.columns - 80)
        return Content.assemble(
            " ", (number.ljust(7), f"bold {dim}"), (words.ljust(8), f"bold {dim}"),
            (column(clean(status, lines=False), 20 + spare // 3), dim),
            (column(where, 26 + spare // 3), dim), (weight, f"bold {dim}"),
        )  # fmt: skip

    def _tray_here(self) -> int | None:
        under = self.walk.under
        return under.name if isinstance(under, TrayNow) else None

    def chosen(self) -> Chosen | None:
        """The tray under the cursor, or all that still grow or wait to be sown."""
        page = self.view
        here = self._tray_here()
        live = tuple(tray.number for tray in page.trays if tray.state.live)
        numbers = (here,) if here is not None else live or tuple(t.name for t in page.trays)
        template = page.trays[0].template
        return Chosen(numbers, crop=template.label(), sign=template.sign_to_cut)

    def traced(self) -> str:
        return f"batch {self.view.batch}"

    def weighing_trays(self) -> tuple[int, ...]:
        page = self.view
        growing = tuple(tray.number for tray in page.trays if tray.state.status == "growing")
        here = self._tray_here()
        return (here,) if here in growing and here is not None else growing

    @work
    async def action_open(self) -> None:
        under = self.walk.under
        if isinstance(under, TrayNow):
            await self.open_tray(under.name)
        elif isinstance(under, Line):
            self.open_entry(under)
        else:
            self.say("Do chores on the round, or on a tray's own page.")


def _where(tray: TrayNow) -> str:
    if not tray.place or not tray.state.live:
        return ""
    slot = f" slot {tray.state.slot}" if tray.state.slot is not None else ""
    return clean(tray.place, lines=False) + slot
