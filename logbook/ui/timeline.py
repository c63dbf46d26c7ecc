"""The page of a tray or a batch: facts, what happened, a line called now, and what will happen."""

from collections.abc import Iterable, Sequence
from datetime import datetime

from textual import work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.entry_lines import Line
from logbook.actions.trays.tray_page import TrayPage
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import clean
from logbook.ui.deeds import TrayKeys
from logbook.ui.subjects import Subject, TraySubject
from logbook.ui.timeline_drawing import TimeLine, facts
from logbook.ui.tray_facts import entry_facts
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.walk_list import Row, WalkList


class TimeLineList(WalkList):
    """A walk list that can be opened at the line called now."""

    def open_at(self, rows: Sequence[Row], now_row: int) -> None:
        """Put rows in, the cursor on the first thing ahead, the line called now in the middle."""
        self.show(rows)
        keyed = [place for place, row in enumerate(rows) if row.key]
        if not keyed:
            return
        self.go_to(next((place for place in keyed if place > now_row), keyed[-1]))
        above = sum(row.text.plain.count("\n") + 1 for row in rows[:now_row])
        self.scroll_to(y=max(0, above - self.size.height // 2), animate=False, force=True)


class TimeLineKeys(TrayKeys):
    """A screen with a time line: an entry under the cursor can be struck, a long note opened."""

    drawn_of: Subject | None = None
    """What its page was drawn of last."""

    def on_screen_resume(self) -> None:
        """Show no page of another tray or batch while this one's is read."""
        if self.subject != self.drawn_of:
            self.clear()

    def compose_body(self) -> ComposeResult:
        yield Static(id="facts", classes="plain")
        yield TimeLineList()

    def clear(self) -> None:
        """Show nothing until the view is loaded: another's page would be in the way."""
        self.view = None
        self.query_one("#facts", Static).update("")
        self.walk.show([])
        self.say("")

    def show_facts(self, known: Sequence[tuple[str, str]], above: int) -> list[Row]:
        """Show the facts; where it is narrow those past `above` are given as rows of the list."""
        self.drawn_of, width = self.subject, self.columns
        above = above if self.narrow else len(known)
        text = facts(known[:above], width - 2)
        show_once(self.query_one("#facts", Static), text, layout=True)
        rest = facts(known[above:], width - 4)
        return [Row(Content(" ") + line) for line in rest.wrap(width - 5)] if rest else []

    def beside(self) -> Content | Subject | None:
        one = self.walk.under
        if isinstance(one, TrayNow):
            return TraySubject(one.name)
        if isinstance(one, Line):
            return self.told(f"entry {one.id}", entry_facts(one, self.book), one.note)
        return None

    def does(self, name: str) -> bool:
        return super().does(name) and (name != "strike" or isinstance(self.walk.under, Line))

    def time_line(
        self, page: TrayPage | BatchPage, sown_at: datetime | None, trays: Iterable[int]
    ) -> TimeLine:
        return TimeLine(
            self.book, page, sown_at, trays, self.width, narrow=self.narrow, opened=self.unfolded
        )

    @property
    def walk(self) -> TimeLineList:
        return self.query_one(TimeLineList)

    def open_entry(self, line: Line) -> None:
        """Show a long note whole, or each of the entries that one line stands for."""
        if line.folded:
            self.unfolded.update(line.folded)
            self.redraw()
        else:
            self.unfold(line.id)
        self.walk.go_to_key(f"entry {line.id}")

    @work
    async def action_strike(self) -> None:
        entry = self.walk.under
        if not isinstance(entry, Line):
            self.say("Select an entry first; what happened is above the line called now.")
            return
        if entry.folded:
            self.say(f"These are {len(entry.folded)} entries; enter shows each.")
            return
        from logbook.ui.forms.strike_form import ask_strike

        await ask_strike(self, f'Why is "{clean(entry.words, lines=False)}" struck out?', entry)
