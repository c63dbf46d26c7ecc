"""Seed: every lot with what is left of it, how much comes up, when and from whom it was bought."""

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.seed.seed_store import SeedStore, seed_store
from logbook.actions.seed.shopping_words import to_buy_words
from logbook.actions.seed.tables import PACE_HEAD, lot_columns, need_columns, pace_columns
from logbook.growing.days import day_words
from logbook.growing.seed.bags import LotStock
from logbook.growing.seed.shopping import SeedToBuy
from logbook.text import plural
from logbook.ui.seed_keys import SeedKeys
from logbook.ui.subjects import SeedSubject, Subject, TraceSubject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row


class SeedScreen(SeedKeys):
    """A line a lot, those to be used up first on top of their crop."""

    heading = "seed"
    purpose = (
        "Seed lots: what is left of each, how much of it comes up, when and from whom it was "
        "bought. "
        "A sowing takes the bag that was bought first, or the one you name. {add} writes a bag "
        "that was "
        "bought, seedlings that were counted, or what is left; {edit} corrects a bag."
    )
    enter = "open"
    below = True
    subject: SeedSubject = SeedSubject()
    view: SeedStore

    def load(self, book: Book) -> SeedStore:
        return seed_store(book)

    def rows(self, view: SeedStore) -> list[Row]:
        self.counts = plural(len(view.lots), "lot")
        columns = lot_columns(view.money, self.book.units)
        rows = table_rows(columns, view.lots, self.width, lambda one: f"lot {one.lot}", self._tone)
        needed = table_rows(
            need_columns(self.book.units), view.shopping.seed, self.width,
            lambda one: f"need {one.crop}", lambda one: "$warning" if one.buy_by else "",
        )  # fmt: skip
        if needed:
            until = day_words(view.shopping.until)
            rows += [Row.head(f"Needed by sowings until {until}", "$secondary"), *needed]
        paces = table_rows(
            pace_columns(self.book.units), view.paces, self.width, lambda one: f"pace {one.crop}"
        )
        rows += [Row.head(PACE_HEAD, "$secondary"), *paces] if paces else []
        return rows or [Row.head(self.keyed("No seed yet: {add} adds a bag."), "$text-past")]

    def beside(self) -> Content | Subject | None:
        one, units = self.walk.under, self.book.units
        if isinstance(one, SeedToBuy) and one.buy_grams:
            return self.told(one.crop, to_buy_words(one, self.view.shopping, units))
        if not isinstance(one, LotStock):
            return None
        if self.broad:
            return TraceSubject(f"seed lot {one.lot}")
        cautions = (Content.styled(words, "$warning") for words in one.cautions(units))
        return self.told(one.lot, one.counted.words if one.counted else "", *cautions)

    def _tone(self, one: LotStock) -> str:
        return "$warning" if one.cautions(self.book.units) else "" if one.bags else "$text-past"

    def lot_here(self) -> LotStock | None:
        under = self.walk.under
        return under if isinstance(under, LotStock) else None

    def traced(self) -> str:
        stock = self.lot_here()
        return f"seed lot {stock.lot}" if stock else ""

    def action_open(self) -> None:
        if (stock := self.lot_here()) is not None:
            self.logbook.go(TraceSubject(f"seed lot {stock.lot}"))

    def on_screen_resume(self) -> None:
        """Go on with what was being typed when the book was closed."""
        asked, self.subject = self.subject, SeedSubject()
        if asked.kind:
            self.go_on(asked)

    @work
    async def go_on(self, asked: SeedSubject) -> None:
        await self.reload()
        await self.ask_seed(asked.kind, asked.lot)
