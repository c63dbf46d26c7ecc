"""What came back on paper: the lines as they were written by hand, and what they are taken for."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trays.sheet import Entry, enter_sheet
from logbook.growing.when import parse_day
from logbook.text import Refused, clean_name, plural
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.widgets.form_lines import Field

LINES = [f"line-{number}" for number in range(1, 61)]
"""The names of a sheet's lines."""


class SheetScreen(FormScreen):
    """A line a line of the paper; below, what each is understood as."""

    heading = "back on paper"
    purpose = (
        "What came back on a printed round. Type each line as it is on the paper: its code, when, "
        "which trays: RB 7:30 1-14 not 6; for a cut RC 17:30 101=240. Below is how each is "
        "understood. All of it is written in one act, or nothing."
    )
    kind = "sheet"
    save_words = "write all lines"

    @property
    def draft_label(self) -> str:
        return "from paper"

    def load(self, book: Book) -> bool:
        """Nothing of the book is shown but what lines are taken for."""
        return True

    def fields(self) -> tuple[Field, ...]:
        typed = [
            place
            for place, name in enumerate(LINES)
            if name in self.entries and self.entries[name].text.strip()
        ]
        last = max(typed, default=-1)
        lines = (
            Field(name, f"line {place + 1}", "like RB 7:30 1-14 not 6" if place == 0 else "one more",
                  optional=True, empty="", shown=place <= last + 1)
            for place, name in enumerate(LINES)
        )  # fmt: skip
        return (
            Field("by", "whose paper", f"initials; empty: {self.book.by}", optional=True,
                  empty="", read=lambda text: clean_name(text, "initials")),
            Field("printed", "printed on", "empty: the newest sheet", read=self._day, optional=True),
            *lines,
        )  # fmt: skip

    def _day(self, text: str) -> date:
        return parse_day(text, self.book.now(), self.book.zone)

    @staticmethod
    def _lines(values: Mapping[str, Any]) -> list[str]:
        return [values[name] for name in LINES if values.get(name)]

    def preview(self, values: Mapping[str, Any]) -> Preview:
        lines = self._lines(values)
        if not lines:
            return Preview()
        read = enter_sheet(self.book, lines, values["by"], printed=values["printed"])
        return Preview(tuple(part for each in read.lines for part in self._said(each)))

    def _said(self, entry: Entry) -> list[Content]:
        said = [Content.styled(entry.text, "bold")]
        if entry.refusal:
            return [*said, Content.styled(f"  {self.spoken(entry.refusal)}", "$warning")]
        notices = [Content.styled(f"  {each}", "$warning") for each in entry.notices]
        return [*said, Content(f"  {entry.words}"), *notices]

    async def write(self, values: Mapping[str, Any]) -> str:
        lines = self._lines(values)
        read = await self.write_book(
            enter_sheet, lines, values["by"], printed=values["printed"], write=True
        )
        for name, entry in zip(
            [name for name in LINES if values.get(name)], read.lines, strict=True
        ):
            if entry.refusal:
                raise Refused(entry.refusal, about=name)
        notices = [notice for entry in read.lines for notice in entry.notices]
        words = f"{plural(len(read.lines), 'line')} written by {read.by} in one act."
        return " ".join([words, *notices])
