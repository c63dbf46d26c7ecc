"""A tray's page: what it is, and its time line."""

from dataclasses import replace

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.packs.roots import tray_code
from logbook.actions.trays.ahead import Ahead
from logbook.actions.trays.entry_lines import Line
from logbook.actions.trays.named import OtherLife
from logbook.actions.trays.tray_page import TrayPage, tray_page
from logbook.growing.numbers import name_words
from logbook.growing.trays.chores import WORDS
from logbook.text import clean
from logbook.ui.subjects import BatchSubject, Chosen, LightSubject, Subject, TraySubject
from logbook.ui.timeline import TimeLineKeys
from logbook.ui.tray_facts import tray_facts
from logbook.ui.widgets.walk_list import Row

ABOVE = 5  # facts
MOST_OTHERS = 4
"""So many other trays of a number are listed at once, where it is narrow half of them."""


class TrayScreen(TimeLineKeys):
    """The page of a tray."""

    heading = "tray"
    purpose = (
        "One tray: what happened above the line called now, what will happen below it. Enter does "
        "a chore of today, or opens a long note. An entry that is struck out stays, and says so."
    )
    own = (
        "open", "jot", "look", "weigh", "batch", "move", "discard", "strike", "tray_before",
        "tray_after", "numbered", "hold",
    )  # fmt: skip
    subject: TraySubject
    view: TrayPage
    shown: int | None = None

    def load(self, book: Book) -> TrayPage:
        return tray_page(book, self.subject.number)

    def draw(self, page: TrayPage) -> None:
        tray = page.tray
        words = [name_words(tray.number), clean(tray.template.label(), lines=False)]
        words += [f"day {tray.day_number}"] if tray.day_number is not None else []
        self.counts = "  ".join(filter(None, words))
        others = self._others(page)
        rows = self.show_facts(tray_facts(page, self.book, others), ABOVE + len(others))
        line = self.time_line(page, tray.state.sown_at, {tray.number})
        rows += line.rows
        if self.shown == tray.id:
            self.walk.show(rows)
        else:
            now_row = len(rows) - len(line.rows) + line.now_row
            self.call_after_refresh(self._open_at, tray.id, rows, now_row)

    def beside(self) -> Content | Subject | None:
        """The entry under the cursor, else the shelf that it stands on."""
        place = self.view.tray.place if self.view.tray.status == "growing" else ""
        return super().beside() or (LightSubject(place) if place else None)

    def _open_at(self, tray: int, rows: list[Row], now_row: int) -> None:
        self.shown = tray
        self.walk.open_at(rows, now_row)

    def _others(self, page: TrayPage) -> list[tuple[str, str]]:
        """The other trays that had its number, the newest first; where there are many, the rest by key."""
        others, shown = page.other_lives[::-1], MOST_OTHERS // (1 + self.narrow)
        said = [
            (f"also {name_words(page.tray.number)}", self._span(each)) for each in others[:shown]
        ]
        if others[shown:]:
            said.append((self.keyed("{numbered}"), f"{len(others) - shown} more"))
        return said

    def _span(self, life: OtherLife) -> str:
        return life.span(self.book.now(), self.book.zone)

    def chosen(self) -> Chosen:
        tray, sign = self.view.tray, self.view.tray.template.sign_to_cut
        return Chosen((tray.name,), place=tray.place, crop=tray.crop, sign=sign)

    def footer(self) -> tuple[str, ...]:
        """With the chore, where Enter would do one."""
        _open, *rest = super().footer()
        under = self.walk.under
        return ("done" if isinstance(under, Ahead) and under.chore else _open, *rest)

    def does(self, name: str) -> bool:
        names = self.view.batch_names
        at = names.index(self.view.tray.name)
        ends = {"tray_before": at > 0, "tray_after": at + 1 < len(names),
                "numbered": bool(self.view.other_lives)}  # fmt: skip
        return ends.get(name, super().does(name))

    def traced(self) -> str:
        return f"tray {tray_code(self.view.tray)}"

    def weighing_trays(self) -> tuple[int, ...]:
        tray = self.view.tray
        return (tray.number,) if tray.status == "growing" else ()

    @work
    async def action_open(self) -> None:
        under = self.walk.under
        if isinstance(under, Line):
            self.open_entry(under)
        elif isinstance(under, Ahead) and under.chore:
            words = under.words if under.chore not in ("cut", "look") else WORDS[under.chore]
            await self.do_chore(replace(self.chosen(), chore=under.chore, words=words))
        elif isinstance(under, Ahead):
            self.say("That is not due today.")

    @work
    async def action_numbered(self) -> None:
        from logbook.ui.forms.asking import AskChoice

        page = self.view
        number, others = name_words(page.tray.number), page.other_lives[::-1]
        to = str(others[0].tray) if others else None
        if not others:
            self.say(f"No other tray had the number {number}.")
        elif len(others) > 1:
            choices = [(str(each.tray), "", self._span(each)) for each in others]
            asked = AskChoice(f"Other trays {number}", choices, "enter open   esc back")
            to = await self.ask(asked)
        if to is not None:
            await self.open_tray(int(to))

    def action_batch(self) -> None:
        self.logbook.go(BatchSubject(self.view.tray.batch))

    def action_turn(self, step: int) -> None:
        page = self.view
        numbers = page.batch_names
        place = numbers.index(page.tray.name) + step
        if not 0 <= place < len(numbers):
            end = "last" if step > 0 else "first"
            self.say(f"This is the {end} tray of batch {page.tray.batch}.")
            return
        self.say("")
        self.logbook.go(TraySubject(numbers[place]))
