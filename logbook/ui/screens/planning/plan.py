"""The plan: what to soak and sow day by day, and what it is for; Enter accepts a line or a day."""

from collections.abc import Iterable
from datetime import date
from itertools import groupby
from typing import ClassVar

from rich.cells import cell_len
from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.planning import plan_words as words
from logbook.actions.planning.plan import PlanView, SowingView, accept_these, plan
from logbook.growing.days import day_words
from logbook.text import plural
from logbook.ui.columns import apart, wrapped
from logbook.ui.promise_keys import PromiseKeys
from logbook.ui.told import Facts, Part
from logbook.ui.widgets.walk_list import Row


class PlanScreen(PromiseKeys):
    """What begins in the weeks to come, how sure the deliveries are, and what the room lacks."""

    heading = "plan"
    purpose = (
        "What to soak and sow for coming deliveries: the fewest trays that make enough as likely "
        "as you want, on top of growing trays and the cold store. Enter accepts a line, or all "
        "of a day on its head; what you accept comes onto the round. {promise} says whether you "
        "can "
        "promise something more. {calendar} writes a file for your calendar."
    )
    enter = "accept"
    own = ("accept", "promise", "span", "calendar")
    view: PlanView
    WEEKS: ClassVar = (2, 4, 8)
    weeks = 2

    def load(self, book: Book) -> PlanView:
        return plan(book, self.weeks)

    def rows(self, view: PlanView) -> list[Row]:
        self.counts = f"{plural(len(view.sowings), 'sowing')}, {self.weeks} weeks"
        rows = []
        for day, there in groupby(view.sowings, lambda each: each.day):
            sowings = list(there)
            rows += [self._day(day, sowings), *map(self._sowing, sowings)]
        if not rows:
            rows.append(Row.head("Nothing to sow for the orders.", ""))
        rows += self._section(words.DELIVERIES, words.delivery_lines(view, self.book), "")
        rows += self._section("Not possible", view.notices, "$warning")
        rows += self._section("Room", words.room_lines(view, self.book), "$warning")
        rows += self._section("Seed", words.seed_lines(view, self.book), "")
        return rows

    def beside(self) -> Content | None:
        there: tuple[SowingView, ...] = self.walk.under or ()
        parts: list[Part] = []
        for each in there:
            parts += [
                Content.styled(f"{each.sowing.trays} × {each.crop}", "bold"),
                self._times(each),
            ]
            parts.append(words.serves_words(each, self.book))
        return self.told(day_words(there[0].day, self.book.today()), *parts) if there else None

    def _times(self, each: SowingView) -> Facts:
        back, when = each.back, self.moment
        return (
            ("soak", when(back.soak_at)), ("sow", when(back.sow_at)),
            *((change.words, when(change.at)) for change in back.changes),
            ("ready", when(back.cut.start)), ("best", when(back.cut.best)), ("cut", when(back.cut_at)),
        )  # fmt: skip

    def _day(self, day: date, there: list[SowingView]) -> Row:
        trays = plural(sum(each.sowing.trays for each in there), "tray")
        head = Content.styled(day_words(day, self.book.today()), "bold $primary")
        return Row(apart(head, Content(trays), self.width), f"day {day}", tuple(there))

    def _sowing(self, each: SowingView) -> Row:
        said = self._wrapped(words.sowing_words(each, self.book), "  ")
        why = self._wrapped(words.serves_words(each, self.book), "    ")
        text = Content.assemble(said, "\n", (why, "$text-past"))
        return Row(text, f"{each.crop} {each.back.sow_at}", (each,))

    def _wrapped(self, text: str, indent: str) -> str:
        room = self.width - len(indent)
        lines = [text] if cell_len(text) <= room else wrapped(text, room - 2)
        return "\n".join([indent + lines[0], *(f"{indent}  {line}" for line in lines[1:])])

    def _section(self, head: str, lines: Iterable[str], tone: str) -> list[Row]:
        made = [
            Row(Content.styled(self._wrapped(line, "  "), tone), f"{head} {place}")
            for place, line in enumerate(lines)
        ]
        return [Row.head(head), *made] if made else []

    @work(group="step")
    async def action_accept(self) -> None:
        there: tuple[SowingView, ...] | None = self.walk.under
        if there:
            names = [each.name for each in there]
            self.tell(await self.ask_book(accept_these, names, self.weeks))

    @work
    async def action_span(self) -> None:
        place = self.WEEKS.index(self.weeks)
        self.weeks = self.WEEKS[(place + 1) % len(self.WEEKS)]
        await self.reload()

    @work
    async def action_calendar(self) -> None:
        from logbook.ui.forms.calendar_form import ask_calendar

        await ask_calendar(self)
