"""Customers: who gets deliveries, and what each of them orders."""

from dataclasses import dataclass

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.orders.customers import (
    customer_words,
    list_customers,
    pause,
    put_customer,
    remove_customer,
)
from logbook.actions.orders.listing import OrderLine, list_orders, list_pauses
from logbook.actions.orders.mixes import MixView, list_mixes, put_mix, remove_mix
from logbook.actions.orders.ordering import change_order, stop_order
from logbook.actions.trays.done import Done
from logbook.growing.days import day_words
from logbook.growing.orders.customer import Customer, Pause
from logbook.growing.orders.weekdays import weekdays_words
from logbook.growing.wall_hours import wall_words
from logbook.text import plural
from logbook.ui.columns import wrapped
from logbook.ui.drafts import answer_to
from logbook.ui.forms.asking import AskChoice, AskYes
from logbook.ui.forms.order_forms import NEW, customer_form, mix_form, order_form
from logbook.ui.order_keys import OrderKeys
from logbook.ui.told import Facts
from logbook.ui.widgets.form_lines import any_text
from logbook.ui.widgets.walk_list import Row

NEW_ONES = (
    ("order", "o", "an order, as it was texted"),
    ("customer", "c", "a customer"),
    ("mix", "m", "a mix of crops"),
)


@dataclass(frozen=True, slots=True)
class Ordering:
    """Who there is, what they order, and the mixes."""

    customers: tuple[Customer, ...]
    orders: tuple[OrderLine, ...]
    mixes: tuple[MixView, ...]
    pauses: tuple[Pause, ...]


class CustomersScreen(OrderKeys):
    """A line for each customer, and below it what they order."""

    heading = "customers"
    purpose = (
        "Who gets deliveries, the standing and single orders of each, and the mixes. {add} enters "
        "an order, a customer or a mix; {edit} changes a customer, or an order or a mix from a "
        "day on; "
        "{pause} pauses their orders for some days; {retire} ends an order, or removes a "
        "customer or a mix. The past stays as it was."
    )
    enter = "edit"
    own = ("edit", "add", "pause", "retire")
    view: Ordering | None = None

    def load(self, book: Book) -> Ordering:
        orders, mixes = list_orders(book).orders, list_mixes(book).mixes
        return Ordering(tuple(list_customers(book)), orders, mixes, list_pauses(book))

    def rows(self, view: Ordering) -> list[Row]:
        self.counts = plural(len(view.customers), "customer")
        rows = []
        for each in view.customers:
            name, _, rest = customer_words(each).partition(": ")
            head = Content("\n  ".join(wrapped(f"{name}  {rest}", self.width - 2)))
            head = head.stylize("bold $primary", 0, len(name))
            rows.append(Row(head, f"customer {each.id}", each))
            rows += [self._line(line) for line in view.orders if line.customer == each.name]
            rows += [
                Row(
                    Content.styled(
                        f"  nothing from {day_words(one.since)} to {day_words(one.until)}",
                        "$warning",
                    )
                )
                for one in view.pauses
                if one.customer == each.id and one.order is None
            ]
        rows += [Row.head("Mixes", "$text-past")] if view.mixes else []
        rows += [
            Row(Content(f"  {mix.name}: {mix.words}"), f"mix {mix.name}", mix) for mix in view.mixes
        ]
        return rows or [Row(Content(self.keyed("No customers yet: {add} adds one.")))]

    def _line(self, line: OrderLine) -> Row:
        words = line.words.removeprefix(f"{line.customer}: ")
        price = "" if line.price_per_pack is None else f", {self.price(line)}"
        text = "\n".join(f"  {part}" for part in wrapped(words + price, self.width - 2))
        return Row(Content(text), f"order {line.order}", line)

    def price(self, line: OrderLine) -> str:
        """The price of a pack of a line, in the book's currency."""
        assert line.price_per_pack is not None  # noqa: S101 - asked where there is one
        return f"{self.book.about.money.price(line.price_per_pack)} per pack"

    def beside(self) -> Content | None:
        view, one = self.view, self.walk.under
        if view is None or one is None:
            return None
        if isinstance(one, MixView):
            return self.told(one.name, one.words)
        name = one.customer if isinstance(one, OrderLine) else one.name
        of = next(each for each in view.customers if each.name == name)
        lines = (
            [one]
            if isinstance(one, OrderLine)
            else [each for each in view.orders if each.customer == name]
        )
        facts = (
            ("kind", of.kind), ("contact", of.contact), ("delivered", weekdays_words(of.weekdays)),
            ("wanted by", wall_words(of.minute))
        )  # fmt: skip
        return self.told(name, facts, *(self._order(each) for each in lines))

    def _order(self, line: OrderLine) -> Facts:
        price = line.price_per_pack
        return (
            ("order", line.text), ("next", self.moment(line.ready_at)),
            ("price", "" if price is None else self.price(line)),
            ("from", day_words(line.since)), ("until", day_words(line.until) if line.until else ""),
        )  # fmt: skip

    @property
    def customer_here(self) -> str:
        under = self.walk.under
        if isinstance(under, Customer):
            return under.name
        return under.customer if isinstance(under, OrderLine) else ""

    @work
    async def action_add(self) -> None:
        what = await self.ask(AskChoice("Write", NEW_ONES, "esc back"))
        if what == "order":
            await self.ask_order()
        elif what == "customer":
            await self.ask_customer(NEW)
        elif what == "mix":
            await self.ask_mix(None)

    async def ask_customer(self, customer: Customer) -> None:
        """Ask what is known of a customer, or of a new one."""
        done = await self.ask_to_write(
            customer_form(customer),
            lambda book, draft: put_customer(book, draft, new=customer is NEW),
            answer_to(f"customer {customer.id}"),
        )
        self.tell(done)

    async def ask_mix(self, mix: MixView | None) -> None:
        """Ask what is in a mix, or in a new one."""
        done = await self.ask_to_write(
            mix_form(mix),
            lambda book, values: put_mix(book, **values),
            answer_to(f"mix {mix.name if mix else ''}"),
        )
        self.tell(done)

    @work
    async def action_edit(self) -> None:
        under = self.walk.under
        if isinstance(under, Customer):
            await self.ask_customer(under)
        elif isinstance(under, MixView):
            await self.ask_mix(under)
        elif isinstance(under, OrderLine):
            changed = await self.ask_to_write(
                order_form(under),
                lambda book, values: change_order(book, under.order, **values),
                answer_to(f"order {under.order}"),
            )
            self.tell(changed)

    @work
    async def action_pause(self) -> None:
        name = self.customer_here
        if not name:
            self.say("Select a customer first.")
            return

        def write(book: Book, text: str) -> Done:
            since, _, until = text.partition(" to ")
            return pause(book, name, since, until)

        asked = f"Pause {name} from when to when?"
        question = self.asks_line(asked, any_text, hint="like 24 Dec to 2 Jan   esc back")
        self.tell(await self.ask_to_write(question, write, answer_to(asked)))

    @work
    async def action_retire(self) -> None:
        under = self.walk.under
        if isinstance(under, Customer):
            asked = f"Remove {under.name}? They get no more deliveries; the past stays."
            if await self.ask(AskYes(asked)):
                self.tell(await self.ask_book(remove_customer, under.name))
        elif isinstance(under, MixView):
            if await self.ask(
                AskYes(f"Remove {under.name}? It is no longer made; the past stays.")
            ):
                self.tell(await self.ask_book(remove_mix, under.name))
        elif isinstance(under, OrderLine) and not under.weekdays:
            if await self.ask(AskYes(f"Call it off? {under.words}.")):
                self.tell(await self.ask_book(stop_order, under.order))
        elif isinstance(under, OrderLine):
            asked = f"Stop {under.crop} for {under.customer} from which day?"
            question = self.asks_line(
                asked, any_text, start="today", hint="like fri or 4 Dec   esc back"
            )
            stopped = await self.ask_to_write(
                question, lambda book, day: stop_order(book, under.order, day), answer_to(asked)
            )
            self.tell(stopped)
