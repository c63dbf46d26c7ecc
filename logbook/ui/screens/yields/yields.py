"""Yields: what crops gave over weeks, the least per slot-day first; a crop's batches and their trays below it."""

from collections.abc import Sequence
from dataclasses import replace

from rich.cells import cell_len
from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.yields.listing import (
    BatchYields,
    Span,
    TrayYields,
    Yields,
    yields,
    yields_by_batch,
    yields_by_tray,
)
from logbook.growing.measures import grams_words
from logbook.growing.yields.crop_yields import (
    PER,
    BatchYield,
    CropYield,
    Shown,
    TrayYield,
    Yield,
    yield_columns,
)
from logbook.growing.yields.trend import beside_rows, trend_rows
from logbook.text import plural
from logbook.ui.forms.asking import AskChoice
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import BatchSubject, Subject, TraySubject, YieldsSubject, next_span
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row

LETTERS = {"season": "e"}
"""Of ways to split whose first letter is taken."""


class YieldsScreen(LogScreen):
    """One list of crops, of a crop's batches, or of a batch's trays; what the cursor is on is told below."""

    heading = "yields"
    purpose = (
        "What crops gave: trays that left the rack, lowest grams per slot-day first. Enter opens "
        "a crop's batches, then a batch's trays. {span} changes the weeks, {split} splits crops "
        "by version, shelf, season, lot or person."
    )
    own = ("open", "span", "split")
    below = True
    subject: YieldsSubject = YieldsSubject()
    view: Yields | BatchYields | TrayYields

    def load(self, book: Book) -> Yields | BatchYields | TrayYields:
        asked = self.subject
        span = Span(asked.weeks)
        if asked.batch:
            return yields_by_tray(book, asked.batch, span, asked.per, asked.group)
        if asked.crop:
            return yields_by_batch(book, asked.crop, span, asked.per, asked.group)
        return yields(book, span, asked.per)

    def draw(self, view: Yields | BatchYields | TrayYields) -> None:
        weeks = plural(self.subject.weeks, "week")
        by = f"by {self.subject.per}" if self.subject.per else ""
        batch = f"batch {self.subject.batch}" if self.subject.batch else ""
        of = ", ".join(filter(None, (self.subject.crop, self.subject.group, batch))) or by
        self.counts = "   ".join(filter(None, (of, weeks)))
        width = self.width
        head, shown = _parted(view)
        rows = table_rows(
            yield_columns(head, view.units), shown, width, lambda one: one.name, _tone
        )
        if not rows:
            rows = [Row(Content(f"Nothing left the rack in {weeks}."))]
        else:
            lines = []
            if isinstance(view, BatchYields):
                lines = trend_rows(view.batches, width, view.units, cell_len)
            elif isinstance(view, Yields):
                lines = beside_rows(view.crops, width, view.units, cell_len)
            rows += [Row.head(line, "$text-past") for line in (("", *lines) if lines else ())]
        self.walk.show(rows)

    def beside(self) -> Content | Subject | None:
        one = self.walk.under
        if isinstance(one, BatchYield) and self.broad:
            return BatchSubject(str(one.batch))
        if isinstance(one, TrayYield) and self.broad:
            return TraySubject(one.tray)
        return self.told(self.walk.key, *self._about(one)) if isinstance(one, Yield) else None

    def _about(self, one: Yield) -> list[str]:
        units = self.book.units
        parts = (
            ("cut first", one.first_grams), ("cut later of the same", one.further_grams),
            ("grown again", one.regrown_grams),
        )  # fmt: skip
        several = [f"{name} {grams_words(grams, units)}" for name, grams in parts if grams]
        said = [", ".join(several)] if len(several) > 1 else []
        said += [] if said or one.sold else [f"cut {grams_words(one.grams, units)}"]
        said += [f"lost: {one.lost_words}"] if one.lost else []
        said += [one.other_words]
        said += [one.sold.words(one.grams, units)] if one.sold else []
        said += [one.unusual] if isinstance(one, BatchYield) and one.unusual else []
        return list(filter(None, said))

    def action_open(self) -> None:
        one = self.walk.under
        if isinstance(one, TrayYield):
            self.logbook.go(TraySubject(one.tray))
        elif isinstance(one, BatchYield):
            self.logbook.go(replace(self.subject, batch=one.batch))
        elif isinstance(one, CropYield):
            per = self.subject.per if one.group else ""
            self.logbook.go(replace(self.subject, crop=one.crop, per=per, group=one.group))

    def action_span(self) -> None:
        self.subject = replace(self.subject, weeks=next_span(self.subject.weeks))
        self.refresh_view()

    @work
    async def action_split(self) -> None:
        choices = (
            ("", "n", "not at all"),
            *((name, LETTERS.get(name, name[0]), f"by {name}") for name in PER),
        )
        per = await self.ask(AskChoice("Split crops", choices, "esc back"))
        if per is not None:
            self.subject = replace(self.subject, per=per, crop="", group="", batch=0)
            self.refresh_view()


def _parted(view: Yields | BatchYields | TrayYields) -> tuple[str, Sequence[Shown]]:
    """The head of the first column, and what has a row each."""
    if isinstance(view, TrayYields):
        return "tray", view.trays
    return ("batch", view.batches) if isinstance(view, BatchYields) else ("crop", view.crops)


def _tone(one: Shown) -> str:
    return "$warning" if getattr(one, "unusual", "") else ""
