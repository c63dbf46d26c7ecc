"""Costs: what crops cost and what is left of them, and the rates that it is reckoned from."""

from dataclasses import replace

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.costs.costing import CropCosts, crop_costs
from logbook.actions.costs.rates import list_rates, set_rate
from logbook.actions.crops.templates import list_templates
from logbook.actions.trays.done import Done
from logbook.actions.yields.listing import Span
from logbook.growing.costs.margin import CropMargin, margin_columns
from logbook.growing.costs.parts import unknown_words
from logbook.growing.costs.rates import RATES, CostRate, Rate
from logbook.growing.when import parse_day
from logbook.text import plural
from logbook.ui.columns import column
from logbook.ui.drafts import Draft
from logbook.ui.forms.cost_forms import COST, AskedRate, rate_form
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import CostsSubject, YieldsSubject, next_span
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row

NAMES = 2 + max(map(len, RATES))
View = tuple[CropCosts, list[CostRate], list[str]]


class CostsScreen(LogScreen):
    """One list: crops, then rates, those that are set first; what the cursor is on is told below."""

    heading = "costs"
    purpose = "What trays cost, what they sell for, and what is left per slot-day, lowest first; below, what things cost. Enter on a crop opens its batches; on a cost, it changes the cost. {span} changes the weeks."
    own = ("open", "add", "edit", "span")
    below = True
    subject: CostsSubject = CostsSubject()
    view: View

    def load(self, book: Book) -> View:
        crops = [each.name for each in list_templates(book)]
        return crop_costs(book, Span(self.subject.weeks)), list_rates(book), crops

    def draw(self, view: View) -> None:
        found, rates, _ = view
        money = found.currency
        self.counts = f"last {self.subject.weeks} weeks"
        rows = table_rows(
            margin_columns(money, found.units), found.crops, self.width,
            lambda one: one.crop, _tone,
        ) or [Row(Content("No tray left the rack in that time."))]  # fmt: skip
        rows.append(Row.head("What things cost", "$secondary"))
        rows += [
            Row(
                Content(column(one.name, NAMES) + one.words.removeprefix(one.name).lstrip()),
                f"{one.name} {one.crop} {one.since}",
                one,
            )
            for one in rates
        ]
        known = {one.name for one in rates}
        rows += [
            Row(
                Content.styled(f"{column(rate.name, NAMES)}not set: {rate.meaning}", "$text-past"),
                rate.name,
                rate,
            )
            for rate in RATES.values()
            if rate.name not in known
        ]
        self.walk.show(rows)

    def beside(self) -> Content | None:
        one, money = self.walk.under, self.view[0].currency
        if isinstance(one, CostRate):
            return self.told(one.name, one.words, RATES[one.name].meaning) if self.broad else None
        if isinstance(one, Rate):
            return self.told(one.name, f"not set: {one.meaning}") if self.broad else None
        if one is None:
            return None
        parts = [(part.part, money.total(part.money)) for part in one.costs.parts if part.money]
        said = parts if self.broad else ", ".join(" ".join(each) for each in parts)
        return self.told(one.crop, *_about(one, self.view[0]), said, *_unknown(one))

    def does(self, name: str) -> bool:
        return super().does(name) and (
            name != "edit" or isinstance(self.walk.under, (CostRate, Rate))
        )

    def action_open(self) -> None:
        one = self.walk.under
        if isinstance(one, CropMargin):
            self.logbook.go(YieldsSubject(one.crop, self.subject.weeks))
        else:
            self.action_edit()

    def action_span(self) -> None:
        self.subject = replace(self.subject, weeks=next_span(self.subject.weeks))
        self.refresh_view()

    def on_screen_resume(self) -> None:
        """Go on with what was being typed when the book was closed."""
        asked, self.subject = self.subject, CostsSubject(weeks=self.subject.weeks)
        if asked.asks:
            self.go_on(asked.name)

    @work
    async def go_on(self, name: str) -> None:
        await self.reload()
        await self._ask(name, None)

    @work
    async def action_add(self) -> None:
        await self._ask("", None)

    @work
    async def action_edit(self) -> None:
        one = self.walk.under
        if isinstance(one, CostRate):
            await self._ask(one.name, one)
        elif isinstance(one, Rate):
            await self._ask(one.name, None)
        else:
            self.say("Select a cost first.")

    async def _ask(self, name: str, old: CostRate | None) -> None:
        now, zone = self.book.now(), self.book.zone
        form = rate_form(name, old, self.view[2], lambda text: parse_day(text, now, zone))

        def write(book: Book, said: AskedRate) -> Done:
            return set_rate(book, said.name, said.amount, said.crop, said.since)

        self.tell(await self.ask_to_write(form, write, Draft(COST, name, {}, (), name)), "")


def _tone(one: CropMargin) -> str:
    return "$warning" if one.margin is not None and one.margin < 0 else ""


def _about(one: CropMargin, of: CropCosts) -> list[str]:
    """What matters most first: a short screen shows no more."""
    money, lines = of.currency, [of.instead_words(one)]
    if of.shelf_slots and (more := one.one_more(of.shelf_slots)) is not None:
        lines.append(
            f"One more shelf of it ({plural(of.shelf_slots, 'slot')}) would bring "
            f"{money.total(more)} a "
            "week, all of it sold at that price."
        )
    if one.sold is not None:
        lines.append(one.sold.words(one.grams, of.units))
    return lines


def _unknown(one: CropMargin) -> list[str]:
    unknown = one.costs.unknown
    return [f"Not known: {unknown_words(unknown)}."] if unknown else []
