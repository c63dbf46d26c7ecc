"""A time line in rows: what happened, a line called now, and what will happen; and facts above it."""

from collections.abc import Collection, Iterable, Sequence
from datetime import date, datetime

from rich.cells import cell_len
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trays.ahead import Ahead
from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.entry_lines import Line, fold_lines
from logbook.actions.trays.tray_page import TrayPage
from logbook.growing.crops.yields import Expected
from logbook.growing.days import clock_words, day_of, day_words
from logbook.growing.measures import Units, ago_words, range_words
from logbook.growing.numbers import numbers_words
from logbook.text import clean, plural
from logbook.ui.widgets.walk_list import Row

LINES = 8
"""How many lines of a note are shown before it is opened, and in one step of the cursor."""


class TimeLine:
    """Rows of a time line. `now_row` is the index of the line called now.

    An entry on all the `trays` of the page does not name them; `opened` are the entries whose long
    notes are shown whole.
    """

    def __init__(
        self, book: Book, page: TrayPage | BatchPage, sown_at: datetime | None, trays: Iterable[int],
        width: int, *, narrow: bool, opened: Collection[int | str],
    ) -> None:  # fmt: skip
        self.book, self.hours = book, page.hours
        self.now, self.sown_at, self.trays = book.now(), sown_at, frozenset(trays)
        self.width, self.narrow, self.opened = width, narrow, opened
        self.rows: list[Row] = []
        self._day: date | None = None
        moments = [*(line.at for line in page.past), *(each.at for each in page.ahead)]
        self._date_width = max((len(self.date(at)) for at in moments), default=0) + 2
        past: list[Line | Ahead] = [*fold_lines(page.past, opened)]
        passed: list[Line | Ahead] = [
            each for each in page.ahead if each.at <= self.now and not each.chore
        ]
        for line in sorted(past + passed, key=lambda each: each.at):
            if isinstance(line, Line):
                self._past(line)
            else:
                self._ahead(line, f"ahead {line.words}")
        self.now_row = len(self.rows)
        self.rows.append(Row(self._now()))
        self._day = day_of(self.now, self.hours.zone)
        ahead = [each for each in page.ahead if each not in passed]
        for place, each in enumerate(ahead):
            self._ahead(each, f"ahead {place}")
        if not ahead:
            self.rows.append(Row(Content.styled(" Nothing ahead.", "$text-past")))

    def day(self, at: datetime) -> str:
        """Write the day number of a moment: "day 4"; '' before the sowing."""
        zone, sown_at = self.hours.zone, self.sown_at
        if sown_at is None or day_of(at, zone) < day_of(sown_at, zone):
            return ""
        return f"day {self.hours.day_number(sown_at, at)}"

    def date(self, at: datetime) -> str:
        zone = self.hours.zone
        return day_words(day_of(at, zone), day_of(self.now, zone))

    def clock(self, at: datetime) -> str:
        return clock_words(at, self.hours.zone)

    def _now(self) -> Content:
        now = self.now
        words = "  ".join(filter(None, ("now", self.day(now), self.date(now), self.clock(now))))
        text = f"── {words} "
        return Content.styled(text + "─" * max(0, self.width - cell_len(text)), "bold $primary")

    def _when(self, at: datetime, mark: str, tone: str) -> Content:
        day = day_of(at, self.hours.zone)
        fresh = day != self._day
        self._day = day
        days = (self.day(at), self.date(at)) if fresh else ("", "")
        number = words = ""
        if not self.narrow:
            number = days[0].ljust(8) if fresh else ""
            words = days[1].ljust(self._date_width + 8 - len(number))
        elif fresh:
            self.rows.append(Row(Content(f" {'  '.join(filter(None, days))}")))
        return Content.assemble(
            (mark, "$warning" if mark.strip() else tone),
            (number, f"bold {tone}"),
            (f"{words}{self.clock(at)}  ", tone),
        )

    def _put(
        self, key: str, of: Line | Ahead, before: Content, words: Content, opened: bool = True
    ) -> None:
        """Add an entry: its words hang beside its time, a long text in several steps."""
        indent = " " * before.cell_length
        lines = words.wrap(max(10, self.width - before.cell_length))
        hidden = 0 if opened else max(0, len(lines) - LINES)
        if hidden > 1:
            rest = Content.styled(f"… {plural(hidden, 'more line')}: enter", "$text-past")
            lines = [*lines[:LINES], rest]
        for start in range(0, len(lines), LINES + 1):
            some = [
                Content.assemble(before if not start and not place else indent, line)
                for place, line in enumerate(lines[start : start + LINES + 1])
            ]
            self.rows.append(Row(Content("\n").join(some), f"{key} {start}" if start else key, of))

    def _trays(self, numbers: Sequence[int]) -> str:
        if not numbers or self.trays <= set(numbers):
            return ""
        return numbers_words(number for number in numbers if number in self.trays)

    def _past(self, line: Line) -> None:
        dim = "$text-past" if line.struck or line.kind == "strike" else ""
        trays, by = self._trays(line.trays), clean(line.by, lines=False)
        words = Content.assemble(
            ("struck out: " if line.struck else "", dim),
            (f"{trays}  " if trays else "", f"bold {dim}"),
            (clean(line.words, lines=False), f"{dim} strike" if line.struck else dim),
            "  " if line.note else "",
            (clean(line.note), dim),
            (f"  by {by}" if line.by != self.book.by else "", "$text-past"),
        )
        opened = line.id in self.opened
        self._put(f"entry {line.id}", line, self._when(line.at, " ", dim), words, opened)

    def _ahead(self, each: Ahead, key: str) -> None:
        came = each.at <= self.now
        tone = "$warning" if each.late else "" if came else "$primary"
        trays, late = self._trays(each.trays), ""
        if each.late:
            late = f"late {ago_words((self.now - each.at).total_seconds())}"
        words = Content.assemble(
            (f"{trays}  " if trays else "", f"bold {tone}"),
            (each.words, tone),
            "  " if late else "  due" if each.chore and came else "",
            (late, "bold $warning"),
        )
        self._put(key, each, self._when(each.at, "▌" if each.late else " ", tone), words)


def facts(pairs: Sequence[tuple[str, str]], width: int) -> Content:
    """Write label and value pairs one after the other, as many in a line as fit; no value, no fact."""
    lines: list[Content] = []
    for label, value in pairs:
        words = (clean(value, lines=False), "bold")
        fact = Content.assemble((f"{label} " if label else "", "$text-past"), words)
        if lines and value and lines[-1].cell_length + 3 + fact.cell_length <= width:
            lines[-1] = Content.assemble(lines[-1], "   ", fact)
        elif value:
            lines.append(fact)
    return Content("\n").join(lines)


def expected_words(expected: Expected | None, units: Units) -> str:
    """Say what a tray is expected to weigh, how surely, and what that is based on."""
    if expected is None:
        return ""
    return f"{range_words(expected.low, expected.high, units)}, 4 in 5 ({expected.rests_on})"
