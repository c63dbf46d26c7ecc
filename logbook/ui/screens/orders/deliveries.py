"""Deliveries: whether there is enough of what is promised, and each customer's packs to tick."""

from collections.abc import Sequence

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.orders import delivery_words as words
from logbook.actions.orders.deliveries import Deliveries, DeliveryView, PackLine, list_deliveries
from logbook.actions.orders.packing import pack, unpack
from logbook.actions.packs.live import live_offer
from logbook.actions.trays.done import Done
from logbook.growing.numbers import numbers_words, parse_numbers
from logbook.growing.orders.wishes import Wish
from logbook.growing.table import table
from logbook.text import plural
from logbook.ui.columns import apart
from logbook.ui.drafts import answer_to
from logbook.ui.forms.asking import AskChoice
from logbook.ui.order_keys import OrderKeys
from logbook.ui.promise_keys import PromiseKeys
from logbook.ui.told import Part
from logbook.ui.widgets.walk_list import Row


class DeliveriesScreen(OrderKeys, PromiseKeys):
    """Deliveries, the next two with the cover of their crops and all that is to pack."""

    heading = "deliveries"
    purpose = (
        "What is promised, ready and growing for coming deliveries, the next two on top. The "
        "percentage is the chance of having enough. Enter ticks a line as packed, or unticks it; "
        "{add} enters "
        'an order as it was texted, like "Bistro: daikon 500g fri"; {promise} says whether you '
        "can promise it; "
        "{labels} writes the delivery note of what is packed, or labels."
    )
    enter = "pack"
    own = ("pack", "add", "promise", "labels")
    view: Deliveries | None = None

    def load(self, book: Book) -> Deliveries:
        return list_deliveries(book)

    def rows(self, view: Deliveries) -> list[Row]:
        short = sum(bool(each.short) for each in view.deliveries)
        self.counts = (
            f"{short} short" if short else plural(len(view.deliveries), "delivery", "deliveries")
        )
        rows, shown = [], 0
        for each in view.deliveries:
            rows.append(self._head(each))
            if shown < words.FULL:
                rows += [*self._crops(each), *self._packs(each)]
            shown += bool(each.crops) and not each.done
        if not rows:
            lines = ("No deliveries to come.", self.keyed("{add} enters an order."))
            rows += [Row(Content(line)) for line in lines]
        return rows

    def _head(self, view: DeliveryView) -> Row:
        state = words.head_words(view, self.book.units)
        tone = "$warning" if view.short else "$text-past" if view.done else ""
        at = Content.styled(self.moment(view.ready_at), "bold $primary")
        return Row(apart(at, Content.styled(state, tone), self.width))

    def _crops(self, view: DeliveryView) -> list[Row]:
        indent = "" if self.narrow else "  "
        drawn = table(words.cover_columns(self.book.units), view.crops, self.width - len(indent))
        tones = ["$warning" if each.short_grams else "$text" for each in view.crops]
        heads = [(line, "$text-past") for line in drawn.heads]
        return [
            Row(Content.styled("\n".join(indent + part for part in line.split("\n")), tone))
            for line, tone in (*heads, *zip(drawn.rows, tones, strict=True))
        ]

    def _packs(self, view: DeliveryView) -> list[Row]:
        rows = []
        for each in view.customers:
            rest = "  takes what is left" if each.takes_rest else ""
            rows.append(Row(Content.assemble("  ", (each.customer, "bold"), (rest, "$text-past"))))
            for line in each.lines:
                tone = "$text-past" if line.packed else ""
                text = f"    {words.tick_words(line):7}  {words.line_words(line, self.book.units)}"
                key = f"{line.wish.order.id}/{line.wish.day}"
                rows.append(Row(Content.styled(text, tone), key, line))
        return rows

    def beside(self) -> Content | None:
        line: PackLine | None = self.walk.under
        if line is None or self.view is None:
            return None
        wish, units = line.wish, self.book.units
        view = next(each for each in self.view.deliveries if each.ready_at == wish.ready_at)
        mine = [each for each in view.customers if each.customer == wish.customer.name]
        packs = [
            (words.tick_words(one), words.line_words(one, units))
            for each in mine
            for one in each.lines
        ]
        crops = {part.template for part in wish.parts}
        covers: list[Part] = []
        for each in view.crops:
            if each.cover.crop in crops:
                covers += [Content.styled(each.crop, "bold"), words.cover_facts(each, units)]
        return self.told(
            wish.customer.name,
            (("wanted", self.moment(view.ready_at)), ("contact", wish.customer.contact), ("price", self._price(wish))),
            packs, *covers,
        )  # fmt: skip

    def _price(self, wish: Wish) -> str:
        price = wish.order.per_pack
        if price is None:
            return ""
        money = self.book.about.money
        return f"{money.price(price)} per pack, {money.total(price * wish.packs)}"

    @work(group="step")
    async def action_pack(self) -> None:
        line: PackLine | None = self.walk.under
        if line is None:
            return
        wish = line.wish
        if line.pack_grams is None and not line.packed:
            await self._sell(wish)
            return
        self.tell(await self.ask_book(unpack if line.packed else pack, wish.order.id, wish.day))

    async def _sell(self, wish: Wish) -> None:
        """Live trays go by their numbers; the ripe ones are offered."""
        left = int(wish.to_pack)
        offered = await self.ask_book(live_offer, wish.order.template or 0, left)
        asked = f"Which trays go to {wish.customer.name}?"
        question = self.asks_line(
            asked,
            parse_numbers,
            start=numbers_words(offered or ()),
            hint="their numbers   esc back",
        )

        def write(book: Book, numbers: Sequence[int]) -> Done:
            return pack(book, wish.order.id, wish.day, numbers=numbers)

        self.tell(await self.ask_to_write(question, write, answer_to(asked)))

    async def prints(self) -> bool:
        from logbook.ui.forms.note_form import ask_note

        papers = [
            ("note", "n", "a delivery note"), ("labels", "l", "labels, or tapes"),
        ]  # fmt: skip
        what = await self.ask(AskChoice("Print", papers, "esc back"))
        if what == "note":
            line: PackLine | None = self.walk.under
            every = self.view.deliveries if self.view else ()
            names = list(dict.fromkeys(one.customer for each in every for one in each.customers))
            name, day = (line.wish.customer.name, f"{line.wish.day}") if line else ("", "")
            await ask_note(self, name, day, names)
        return what != "labels"

    def traced(self) -> str:
        line: PackLine | None = self.walk.under
        packed = line is not None and line.packed
        return f"customer {line.wish.customer.name}@{line.wish.day}" if line and packed else ""

    @property
    def customer_here(self) -> str:
        line: PackLine | None = self.walk.under
        if line is None or line.wish.customer.takes_rest:
            return ""  # a stall takes what is left; who orders is somebody else
        return line.wish.customer.name
