"""Records that rules ask for, on one screen: who reviewed each week, assurances, the exemption, lots."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.records.assurances import Assurance, assure, list_assurances
from logbook.actions.records.covered import set_sales, worksheet
from logbook.actions.records.lot_sheets import LotSheet, every_sheet
from logbook.actions.records.reviewing import (
    Reviews,
    ReviewWeek,
    review,
    review_weeks,
    week_records,
)
from logbook.actions.trays.done import Done
from logbook.actions.trays.entry_lines import Line
from logbook.actions.yields.listing import Span
from logbook.growing.days import day_words
from logbook.growing.quantities import SOLD
from logbook.growing.records.exemption import SalesYear, Worksheet
from logbook.text import plural
from logbook.ui.columns import apart, wrapped
from logbook.ui.drafts import answer_to
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.forms.asking import AskYes, written
from logbook.ui.frame import Beside
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import measured
from logbook.ui.widgets.walk_list import Row
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class View:
    """What the screen shows."""

    reviews: Reviews
    assurances: tuple[Assurance, ...]
    covered: Worksheet
    sheets: list[LotSheet]
    opened: tuple[Line, ...]
    """The records of the week that is open."""


class RecordsScreen(LogScreen):
    """Enter on a week signs it, on a buyer writes an assurance, on a year its sales."""

    heading = "records"
    enter = "open"
    purpose = (
        "What inspectors ask for: each week's records and who reviewed them, assurances from "
        "buyers of live trays, sales that tell whether a rule covers you, sheets of lots. "
        "{unfold} lists a "
        "week's records, Enter signs it; on other lines Enter writes what they are about."
    )
    own = ("open", "unfold")
    view: View
    opened: date | None = None
    """The week whose records are listed."""

    def load(self, book: Book) -> View:
        return View(
            review_weeks(book),
            list_assurances(book),
            worksheet(book),
            every_sheet(book, Span()),
            week_records(book, self.opened) if self.opened else (),
        )

    def rows(self, view: View) -> list[Row]:
        weeks = view.reviews.weeks
        self.counts = plural(
            sum(bool(each.unsigned) for each in weeks), "week to review", "weeks to review"
        )
        rows = [Row.head("Reviewed, week by week")]
        for each in weeks:
            rows.append(self._week(each))
            if each.week == self.opened:
                rows += [self._told(f"  {self._entry(line)}") for line in view.opened]
        rows.append(Row.head("Assurances from buyers of live trays"))
        rows += [
            self._row(each.words, each, "" if each.holds else "$warning")
            for each in view.assurances
        ] or [Row(Content("No live trays in the last year."))]
        rows.append(Row.head(f"Am I covered in {view.covered.year}?"))
        first = view.covered.year - len(view.covered.years)
        for at, year in enumerate(view.covered.years):
            rows.append(self._row(self._sales(first + at, year), first + at))
        rows += [self._told(words) for words in view.covered.words]
        rows.append(Row.head("Lots made and shipped, last 8 weeks"))
        rows += [
            self._told(f"{each.sheet.name}: {plural(len(each.rows), 'row')}")
            for each in view.sheets
        ]
        return [*rows, self._told(self.spoken(f"As CSV: {Way.RECORDS_CSV}"))]

    def does(self, name: str) -> bool:
        of = self.walk.under
        return super().does(name) and (
            name != "unfold" or (isinstance(of, ReviewWeek) and of.records > 0)
        )

    def beside(self) -> Beside:
        of = self.walk.under
        if isinstance(of, ReviewWeek):
            return lambda: self.told(
                day_words(of.week), f"{of.words}\n{self._state(of)}", self._records(of)
            )
        if isinstance(of, Assurance):
            return self.told(of.customer, of.words, of.says)
        return self.told(f"{of}", *self.view.covered.words) if of else None

    def _records(self, week: ReviewWeek) -> str:
        return "\n".join(self._entry(line) for line in week_records(self.book, week.week))

    def _week(self, week: ReviewWeek) -> Row:
        """What a week has, and at the right whether it was reviewed."""
        tone = "$warning" if week.wrong or week.since else ""
        said = Content.styled(f"{day_words(week.week)}: {week.words}", tone)
        return Row(apart(said, Content(self._state(week)), self.width), self._key(week), week)

    @staticmethod
    def _key(of: Any) -> str:
        return f"{type(of).__name__} {getattr(of, 'week', getattr(of, 'customer', of))}"

    def _row(self, words: str, of: Any, tone: str = "") -> Row:
        return Row(Content.styled(self._lines(words), tone), self._key(of), of)

    def _told(self, words: str) -> Row:
        return Row(Content.styled(self._lines(words), "$text-past"))

    def _lines(self, words: str) -> str:
        """Words over as many lines as they need, later ones set in."""
        return "\n  ".join(wrapped(words, self.columns - 6))

    def _state(self, week: ReviewWeek) -> str:
        if week.review is None:
            return "not reviewed" if week.counts else ""
        since = f", {week.since} written since" if week.since else ""
        return f"{week.review.by} {self.day(week.review.at)}{since}"

    def _entry(self, line: Line) -> str:
        note = f" {line.note}" if line.note else ""
        return f"{self.moment(line.at)} {line.words}{note} {line.place} {line.by}"

    def _sales(self, year: int, sales: SalesYear | None) -> str:
        if sales is None:
            return f"{year}: sales not known"
        money = self.view.covered.currency.total
        source = "" if sales.typed else ", from deliveries"
        return f"{year}: {money(sales.sold)}, {money(sales.to_end_users)} to end users{source}"

    @work
    async def action_unfold(self) -> None:
        of = self.walk.under
        if isinstance(of, ReviewWeek):
            self.opened = None if of.week == self.opened else of.week
            await self.reload()

    @work
    async def action_open(self) -> None:
        of = self.walk.under
        if isinstance(of, ReviewWeek):
            await self._sign(of)
        elif isinstance(of, Assurance):
            await self._assured(of)
        elif isinstance(of, int):
            await self._sold(of)
        else:
            self.say("Select a week, a buyer or a year first.")

    async def _sign(self, week: ReviewWeek) -> None:
        asked = f"The week from {day_words(week.week)}: {week.words}. Have you looked through it?"
        if await self.ask(AskYes(asked)):
            self.tell(await self.ask_book(review, week.week))

    async def _assured(self, of: Assurance) -> None:
        asked = f"What does {of.customer} assure in writing, for a year from today?"
        question = self.asks_line(
            asked, written("A few words, like: washes and chills what is cut."), start=of.says,
            hint="enter save   esc back",
        )  # fmt: skip

        def write(book: Book, words: str) -> Done:
            return assure(book, of.customer, words)

        self.tell(await self.ask_to_write(question, write, answer_to(asked)))

    async def _sold(self, year: int) -> None:
        known = next((each for each in self.view.covered.known if each.year == year), None)

        def start(name: str) -> Decimal | None:
            return None if known is None else getattr(known, name)

        fields = (
            measured("sold", "sold in all", SOLD, "food of all kinds", start("sold"), needed=True),
            measured("to_end_users", "to end users", SOLD, "people; kitchens and shops near you",
                     start("to_end_users"), needed=True),
            measured("produce", "produce", SOLD, "may stay empty", start("produce")),
        )  # fmt: skip
        form = AskForm(f"What was sold in {year}", fields, lambda values: SalesYear(year, **values))
        self.tell(await self.ask_to_write(form, set_sales, answer_to(f"sales of {year}")))
