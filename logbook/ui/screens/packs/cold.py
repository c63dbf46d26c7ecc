"""The cold store: what lies in it, first to go out on top, and what becomes of it."""

import re

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.orders.mixes import list_mixes
from logbook.actions.packs.cold_store import ColdLot, ColdStore, cold_columns, cold_store
from logbook.actions.packs.withdrawing import change_lot, pack_mix, take_back, take_out
from logbook.actions.trays.done import Done
from logbook.growing.measures import grams_words
from logbook.growing.packs.lots import OWN
from logbook.growing.quantities import OF_LOT
from logbook.text import Refused, plural
from logbook.ui.columns import wrapped
from logbook.ui.drafts import answer_to
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.forms.asking import AskChoice
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import Subject, TraceSubject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.form_lines import Field, any_text
from logbook.ui.widgets.walk_list import Row

NOTHING = "Nothing is in the cold store. The weigh-in ({weigh}) puts what is cut into a pack lot."
_AMOUNT = re.compile(r"(.*?)\s*(\d[\d.,]*\s*[^\W\d]*)")
BACK, MIXED = "returned", "Which mix, and how much?"


class ColdScreen(LogScreen):
    """A line for each pack lot of which something is left."""

    heading = "cold store"
    purpose = (
        "The pack lots in the cold store, first to go out on top; deliveries ({deliveries}) take "
        "from them as they are ticked. {take_out} writes waste, own use or what a customer "
        "returned; {edit} "
        "changes the code or best-before day; {add} packs a mix from the oldest lots."
    )
    enter = "take_out"
    own = ("take_out", "edit", "add", "hold")
    view: ColdStore | None = None

    def load(self, book: Book) -> ColdStore:
        return cold_store(book)

    def rows(self, view: ColdStore) -> list[Row]:
        self.counts = plural(len(view.lots), "lot")
        units = self.book.units
        rows = table_rows(
            cold_columns(units, self.book.today()), view.lots, self.width, lambda one: f"lot {one.code}",
            lambda one: "$warning" if one.state else "",
        )  # fmt: skip
        if view.no_lot_grams:
            loose = f"{grams_words(view.no_lot_grams, units)} cut in the last week: no lot written"
            rows.append(Row.head(loose, "$text-past"))
        return rows or [Row(Content(part)) for part in wrapped(self.keyed(NOTHING), self.width)]

    def beside(self) -> Subject | None:
        lot: ColdLot | None = self.walk.under
        return TraceSubject(f"pack lot {lot.code}") if lot else None

    def traced(self) -> str:
        lot: ColdLot | None = self.walk.under
        return lot.code if lot else ""

    def _lot(self) -> ColdLot | None:
        lot: ColdLot | None = self.walk.under
        if lot is None:
            self.say("Select a lot first.")
        return lot

    @work
    async def action_take_out(self) -> None:
        if (lot := self._lot()) is None:
            return
        choices: list[tuple[str, str, str]] = [(why, why[0], why) for why in OWN]
        choices += [(BACK, "r", "returned by a customer")] if lot.now.packed else []
        why = await self.ask(AskChoice(f"Why take out lot {lot.code}?", choices, "esc back"))
        if why == BACK:
            await self._returned(lot)
        elif why:
            left = grams_words(lot.now.grams_left, self.book.units)
            asked = f"How much of lot {lot.code}: {why}?"
            question = self.asks_line(asked, self._weight, start=left, hint="esc back")

            def write(book: Book, grams: float) -> Done:
                return take_out(book, lot.code, min(grams, _whole(grams, lot)), why)

            self.tell(await self.ask_to_write(question, write, answer_to(asked)))

    async def _returned(self, lot: ColdLot) -> None:
        names = lot.customers
        fields = (
            Field(
                "customer", "customer", "right completes", names[0] if names else "", offers=names
            ),
            Field("grams", "weight", "like 100g", read=self._weight),
            Field("note", "why", "may stay empty"),
        )
        asked = f"Returned from lot {lot.code}"
        form = AskForm(asked, fields, lambda values: values)
        done = await self.ask_to_write(
            form,
            lambda book, said: take_back(
                book, said["customer"], lot.code, said["grams"], note=said["note"]
            ),
            answer_to(asked),
        )
        self.tell(done)

    def _weight(self, text: str) -> float:
        return OF_LOT.read(text, self.book.units)

    @work
    async def action_edit(self) -> None:
        if (lot := self._lot()) is None:
            return
        best = f"{lot.now.lot.best_before}"
        fields = (
            Field("code", "code", "the old one still finds it", lot.code),
            Field("best", "best before", "a day", best),
        )
        form = AskForm(f"Lot {lot.code}", fields, lambda values: values)
        done = await self.ask_to_write(
            form,
            lambda book, said: change_lot(
                book, lot.code, said["code"], "" if said["best"] == best else said["best"]
            ),
            answer_to(f"lot {lot.code}"),
        )
        self.tell(done)

    @work
    async def action_add(self) -> None:
        mixes = await self.ask_book(list_mixes)
        names = [f"{each.name} " for each in mixes.mixes] if mixes else []
        question = self.asks_line(
            MIXED, any_text, start=names[0] if names else "", begun=True, offers=names,
            hint="like salad mix 600g   esc back",
        )  # fmt: skip

        def write(book: Book, text: str) -> Done:
            found = _AMOUNT.fullmatch(text.strip())
            if found is None:
                raise Refused("How much of which mix? Write it like salad mix 600g.")
            return pack_mix(book, found[1], OF_LOT.read(found[2], book.units))

        self.tell(await self.ask_to_write(question, write, answer_to(MIXED)))


def _whole(grams: float, lot: ColdLot) -> float:
    """All that is left, where what was typed is as much as was shown."""
    left = lot.now.grams_left
    return left if abs(grams - left) <= 1 else grams
