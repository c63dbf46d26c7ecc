"""The page: a day's entries, or those whose notes hold what was searched for."""

import asyncio
import re
from dataclasses import dataclass, replace
from datetime import date, timedelta

from textual import work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.trays.entry_lines import Line, fold_lines
from logbook.actions.trays.named import OtherLife
from logbook.actions.trays.page import lives, page, search
from logbook.growing.days import clock_words, day_of, day_words
from logbook.growing.numbers import name_words, numbers_words, of_these
from logbook.growing.page_filter import PageFilter, parse_filter
from logbook.text import Refused
from logbook.ui.columns import column, fit, one_line, spread, wrapped
from logbook.ui.deeds import TrayKeys, one_number
from logbook.ui.subjects import Chosen, PageSubject
from logbook.ui.tray_facts import entry_facts
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.walk_list import Row, WalkList

MOST_ROWS = 300
MOST_FOUND = 1_000
PROMPT = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class PageView:
    """The entries of a day, or those found."""

    day: date
    words: str
    only: PageFilter
    lines: tuple[Line, ...]
    lives: tuple[OtherLife, ...]
    """The trays that an asked number was, where there are several."""


class PageScreen(TrayKeys):
    """A day's entries, oldest first."""

    heading = "page"
    purpose = (
        "What was written for a day, oldest first, with what was written on it for earlier days; "
        "by "
        "whom, and when, if that was later. Entries that are struck out stay and say so. Enter "
        "opens the tray of an entry; one on the "
        "room is shown whole, as {unfold} shows any. {filter} narrows the page: tray 101, crop "
        "radish, "
        "kind water; or goes to a day: 2026-04-14."
    )
    own = ("open", "before", "after", "today", "filter", "strike", "unfold", "jot")
    DEFAULT_CSS = """
    PageScreen #day { height: 1; text-style: bold; color: $primary; }
    """
    subject: PageSubject = PageSubject()
    view: PageView

    def __init__(self) -> None:
        super().__init__()
        self.sheet = 0

    def compose_body(self) -> ComposeResult:
        yield Static(id="day", classes="plain")
        yield WalkList()

    def load(self, book: Book) -> PageView:
        only = self.subject.only or PageFilter()
        words, day = self.subject.words, self.subject.day or book.today()
        if words:
            lines = search(book, words, MOST_FOUND, tray=only.tray, crop=only.crop)
        else:
            lines = page(book, day, tray=only.tray, crop=only.crop)
        if only.kinds:
            lines = [line for line in lines if line.kind in only.kinds]
        number = int(words) if re.fullmatch(r"[0-9]{1,5}", words) else only.tray
        return PageView(day, words, only, tuple(lines), lives(book, number))

    def draw(self, view: PageView) -> None:
        count = len(view.lines)
        self.counts = f"{count:,} {'entry' if count == 1 else 'entries'}"
        show_once(self.query_one("#day", Static), Content(self._title(view)))
        last = max(0, (count - 1) // MOST_ROWS)
        self.sheet = min(self.sheet, last)
        start = self.sheet * MOST_ROWS
        shown = view.lines[start : start + MOST_ROWS]
        folded = fold_lines(shown, self.unfolded)
        rows: list[Row] = []
        if start:
            rows.append(Row(Content(f"{start:,} earlier: enter shows {MOST_ROWS} of them"), "less"))
        day = None if view.words else view.day
        for line in folded:
            happened = day_of(line.at, line.hours.zone)
            if happened != day:
                day = happened
                late = "" if view.words or day == view.day else ": written later"
                rows.append(Row.head(f"{self._day_words(day)}{late}"))
            rows.append(Row(self._text(line), str(line.id), line))
            if line.id in self.unfolded:
                rows += self._unfolded(line)
        rest = count - start - len(shown)
        if rest:
            rows.append(
                Row(Content(f"{rest:,} more: enter shows {min(rest, MOST_ROWS)} of them"), "more")
            )
        if not count:
            rows.append(Row(Content(self._none(view))))
        if view.lives:
            rows.append(Row.head("Trays of this number"))
        for life in view.lives:
            words = life.words(self.book.now(), self.book.zone)
            rows.append(Row(Content(words), f"life {life.tray}", life))
        self.walk.show(rows)

    def _day_words(self, day: date) -> str:
        today = self.book.today()
        near = {0: ", today", 1: ", yesterday"}.get((today - day).days, "")
        return f"{day_words(day, today)}{near}"

    def _title(self, view: PageView) -> str:
        narrowed = f"   only {view.only.words}" if view.only.words else ""
        narrowed += f"   {len(view.lives)} trays below" if view.lives else ""
        if view.words:
            most = f"   the newest {MOST_FOUND:,}" if len(view.lines) >= MOST_FOUND else ""
            words = f'entries with "{one_line(view.words)}"{most}{narrowed}'
        else:
            words = f"{self._day_words(view.day)}{narrowed}"
        return fit(words, self.columns - 2)

    def _none(self, view: PageView) -> str:
        if view.words:
            return "No note, look or seed lot contains that."
        if view.only.words:
            return self.keyed("No such entries on this day; {filter} and an empty line show all.")
        return "No entries on this day."

    def _text(self, line: Line) -> Content:
        width = self.width
        clock = clock_words(line.at, line.hours.zone)
        words = f"struck out: {line.words}" if line.struck else line.words
        tone = "$text-past" if line.struck else ""
        where = numbers_words(line.trays) or line.place or "the room"
        note = one_line(line.note) if line.id not in self.unfolded else ""
        late = line.written_at - line.at > PROMPT
        by = f"{line.by}, written {self._written(line)}" if late else line.by
        if self.narrow:
            right = Content.styled(fit(where, 15), f"bold {tone}")
            first = spread(Content.styled(f"{clock} {words}", tone), right, width)
            if not note and not late:
                return first
            second = spread(
                Content.styled(f"      {note}", "$text-past"),
                Content.styled(fit(by, 22), "$text-past"),
                width,
            )
            return Content("\n").join([first, second])
        left = Content.assemble(
            (column(clock, 6), "$text-past"),
            (column(where, 15), f"bold {tone}"),
            (words, tone),
            (f"  {note}", "$text-past" if line.struck else "$secondary"),
        )
        return spread(left, Content.styled(fit(by, 26), "$text-past"), width)

    def _written(self, line: Line) -> str:
        zone = line.hours.zone
        same = day_of(line.written_at, zone) == day_of(line.at, zone)
        return clock_words(line.written_at, zone) if same else self.moment(line.written_at)

    def _whole(self, line: Line) -> list[Content]:
        where = numbers_words(line.trays) or line.place or "the room"
        facts = (
            f"entry {line.id}, {line.words}: {where}; "
            f"{self.moment(line.at)}, written {self.moment(line.written_at)} by {line.by}"
        )
        width = self.columns - 9
        texts = [Content.styled(text, "$text-past") for text in wrapped(facts, width)]
        return texts + [Content(text) for text in wrapped(line.note, width) if line.note]

    def beside(self) -> Content | None:
        line = self._line()
        return (
            self.told(f"entry {line.id}", entry_facts(line, self.book), line.note) if line else None
        )

    def _unfolded(self, line: Line) -> list[Row]:
        return [
            Row(Content.assemble("      ", text), f"{line.id}/{place}", line)
            for place, text in enumerate(self._whole(line))
        ]

    def _line(self) -> Line | None:
        return self.walk.under if isinstance(self.walk.under, Line) else None

    def does(self, name: str) -> bool:
        today = not self.view.words and self.view.day >= self.book.today()
        if name == "strike":
            line = self._line()
            return line is not None and not (line.folded or line.struck or line.kind == "strike")
        return super().does(name) and not (today and name in ("after", "today"))

    def chosen(self) -> Chosen | None:
        line = self._line()
        return None if line is None else Chosen(line.names, place=line.place)

    @work
    async def action_open(self) -> None:
        """Open a tray of the entry, or show it whole where it has none; else turn the sheet."""
        line = self._line()
        if isinstance(self.walk.under, OtherLife):
            await self.open_tray(self.walk.under.tray)
        elif line is None:
            if self.walk.key:
                self.sheet += 1 if self.walk.key == "more" else -1
                self.redraw()
                self.walk.action_end(-1)
        elif not line.trays:
            self.action_unfold()
        else:
            await self._open_one_of(line)

    async def _open_one_of(self, line: Line) -> None:
        first = line.names[0]
        number: int | None = first
        if first < 0:  # they look alike until they have numbers: open their batch
            number = one_number(name_words(first))
        elif len(line.trays) > 1:
            number = await self.ask_line(
                f"Open which of {numbers_words(line.trays)}?",
                lambda text: of_these([one_number(text)], line.names)[0],
                name_words(line.trays[0]),
                "enter open   esc back",
            )
        if number is not None:
            await self.open_tray(number)

    def action_unfold(self) -> None:
        line = self._line()
        if line is not None and line.folded:
            self.unfolded.update(line.folded)
            self.redraw()
        elif line is not None:
            self.unfold(line.id)
            mine = [at for at, row in enumerate(self.walk.rows) if row.of is line]
            self.walk.go_to(mine[-1])  # so that its end is in view too
            self.walk.go_to(mine[0])

    @work
    async def action_strike(self) -> None:
        line = self._line()
        if line is None:
            self.say("Select an entry first.")
        elif line.folded:
            self.say(self.keyed(f"These are {len(line.folded)} entries; {{unfold}} shows each."))
        elif line.struck or line.kind == "strike":
            self.say(
                "That is struck out already."
                if line.struck
                else "An undo can't be struck out; use redo."
            )
        else:
            where = numbers_words(line.trays) or line.place
            from logbook.ui.forms.strike_form import ask_strike

            asked = f"Strike out {line.words} {where}: why?".replace(" :", ":")
            await ask_strike(self, asked, line, "It stays in the record.")

    def _go(self, day: date | None) -> None:
        self.sheet = 0
        self.unfolded.clear()
        self.say("")
        self.subject = replace(self.subject, day=day, words="")
        self.refresh_view()

    def action_before(self) -> None:
        line = self._line() if self.view.words else None
        day = day_of(line.at, line.hours.zone) if line else self.view.day
        self._go(day if line else day - timedelta(days=1))

    def action_after(self) -> None:
        if self.view.day >= self.book.today() and not self.view.words:
            self.say("Today is the last page.")
            return
        self._go(min(self.view.day + timedelta(days=1), self.book.today()))

    def action_today(self) -> None:
        self._go(None)

    @work
    async def action_filter(self) -> None:
        now, zone, before = self.book.now(), self.book.zone, self.subject
        asked = await self.ask_line(
            "Show only",
            lambda text: parse_filter(text, now, zone),
            self.view.only.words,
            "tray 101, crop radish, kind water, 2026-04-14; empty: all   esc back",
        )
        if asked is None:
            return
        if asked.day is not None:
            self._go(min(asked.day, self.book.today()))
            return
        self.subject = replace(before, only=asked)
        try:
            await asyncio.to_thread(self.load, self.book)
        except Refused as refused:
            self.subject = before
            self.refuse(refused)
            return
        self.sheet = 0
        self.say("")
        await self.reload()
