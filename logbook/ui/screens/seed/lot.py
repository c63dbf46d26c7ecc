"""A seed lot: what is known of it, and the batches that were sown from it."""

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.seed.lot_page import LotBatch, LotPage, lot_page
from logbook.actions.seed.tables import stock_facts
from logbook.growing.numbers import numbers_words
from logbook.growing.seed.bags import LotStock
from logbook.growing.trays.life import Status
from logbook.text import clean
from logbook.ui.seed_keys import SeedKeys
from logbook.ui.subjects import BatchSubject, LotSubject
from logbook.ui.timeline_drawing import facts
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.walk_list import Row, WalkList


class LotScreen(SeedKeys):
    """The page of a seed lot."""

    heading = "seed lot"
    purpose = (
        "A seed lot: its bags, what is left, how much comes up; and every batch that was sown from "
        "it. {add} writes seedlings that were counted, what is left, or another bag of it."
    )
    enter = "open"
    subject: LotSubject
    view: LotPage | None = None

    def compose_body(self) -> ComposeResult:
        yield Static(Content(""), id="facts", classes="plain")
        yield WalkList()

    def load(self, book: Book) -> LotPage:
        return lot_page(book, self.subject.lot)

    def draw(self, view: LotPage) -> None:
        self.counts = clean(view.lot, lines=False)
        known = [each for each in stock_facts(view.stock, view.money, self.book.units) if each[1]]
        if view.alike:
            known.append(("spelled alike", ", ".join(view.alike)))
        show_once(self.query_one("#facts", Static), facts(known, self.width), layout=True)
        rows = [Row.head("Sown from it" if view.batches else "Nothing was sown from it yet.")]
        rows += [Row(self._batch(each), f"batch {each.batch}", each) for each in view.batches[::-1]]
        self.walk.show(rows)

    def _batch(self, batch: LotBatch) -> Content:
        became = {
            status.words: [tray.number for tray in batch.trays if tray.status == status]
            for status in Status
        }
        trays = ", ".join(
            f"{numbers_words(each)} {words}" for words, each in became.items() if each
        )
        cut = self.grams(batch.cut_grams) if batch.cut_grams else ""
        named = clean(batch.template_name, lines=False)
        day = self.day(batch.at)
        parts = ((day, cut), (named, trays)) if self.narrow else ((day, named, trays, cut),)
        lines = ["  ".join(filter(None, each)) for each in parts]
        return Content.assemble((f"batch {batch.batch:<5}", "bold"), "\n  ".join(lines))

    def lot_here(self) -> LotStock | None:
        return self.view.stock if self.view else None

    def action_open(self) -> None:
        under = self.walk.under
        if isinstance(under, LotBatch):
            self.logbook.go(BatchSubject(under.batch))
