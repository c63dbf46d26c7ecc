"""Asking whether an order can be promised, on the screens that have its key."""

from textual import work

from logbook.actions.book import Book
from logbook.actions.planning.promise import PromiseView, accept_promise, promised
from logbook.actions.trays.done import Done
from logbook.text import clean_name
from logbook.ui.drafts import answer_to
from logbook.ui.screen import LogScreen

ASKED = "What does the customer want, and for when?"
FOR_WHOM = "For whom? The book writes the order, and plans the sowing it needs."


class PromiseKeys(LogScreen):
    """A screen on which it can be asked whether an order can be promised."""

    @work
    async def action_promise(self) -> None:
        question = self.asks_line(ASKED, str.strip, hint="like daikon 500g fri 06:00   esc back")
        view: PromiseView | None = await self.ask_to_write(question, promised, answer_to(ASKED))
        if view is None:
            return
        self.say(view.words, wants=view.answer in ("later", "no"))
        if view.answer not in ("yes", "if"):
            return

        def accept(book: Book, customer: str) -> Done:
            return accept_promise(book, customer, view.text, "")

        whom = self.asks_line(
            f"{view.words} {FOR_WHOM}",
            lambda text: clean_name(text, "name of the customer"),
            hint="the customer   esc: write nothing",
        )
        self.tell(await self.ask_to_write(whom, accept, answer_to(FOR_WHOM)))
