"""The key by which an order is entered as it was texted, on every screen of customers."""

from textual import work

from logbook.actions.book import Book
from logbook.actions.orders.customers import list_customers
from logbook.actions.orders.ordering import Ordered, order, order_from
from logbook.ui.drafts import answer_to
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import any_text

ASKED = "Who wants what, and when?"


class OrderKeys(LogScreen):
    """A screen on which orders are entered."""

    @property
    def customer_here(self) -> str:
        """The customer that the cursor is on; '' for none."""
        return ""

    @work
    async def action_add(self) -> None:
        await self.ask_order()

    async def ask_order(self) -> None:
        """Ask for an order as it was texted."""
        customers = await self.ask_book(list_customers)
        question = self.asks_line(
            ASKED,
            any_text,
            start=f"{self.customer_here}: " if self.customer_here else "",
            begun=True,
            offers=[f"{each.name}: " for each in customers or ()],
            hint="like Bistro: daikon 500g fri, or Bistro: pea shoots 6 x 50g every tue,fri   esc back",
        )
        done: Ordered | None = await self.ask_to_write(question, _order, answer_to(ASKED))
        self.tell(done)


def _order(book: Book, text: str) -> Ordered:
    return order(book, order_from(book, text))
