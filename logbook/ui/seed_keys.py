"""What is written about seed from its screens: bags, counts, weights."""

from typing import ClassVar

from textual import work

from logbook.actions.crops.templates import list_templates
from logbook.actions.seed.writing import buy_seed, change_seed, count_seedlings, weigh_seed
from logbook.growing.days import day_words
from logbook.growing.seed.bags import LotStock, SaidBag
from logbook.growing.when import parse_day
from logbook.ui.drafts import Draft, answer_to
from logbook.ui.forms.asking import AskChoice
from logbook.ui.forms.seed_forms import SEED, bag_change_form, bag_form, count_form, weight_form
from logbook.ui.screen import LogScreen

BOUGHT, COUNTED, WEIGHED = SEED


class SeedKeys(LogScreen):
    """A screen about seed lots; `lot_here` is the one that the cursor is on."""

    own: ClassVar[tuple[str, ...]] = ("open", "add", "edit", "hold")

    def lot_here(self) -> LotStock | None:
        raise NotImplementedError

    @work
    async def action_add(self) -> None:
        stock = self.lot_here()
        if stock is None:
            await self.ask_seed(BOUGHT, "")
            return
        choices = [
            (BOUGHT, "b", "a bag that was bought"),
            (COUNTED, "c", f"seedlings of {stock.lot}, counted"),
            (WEIGHED, "w", f"what is left of {stock.lot}, weighed"),
        ]
        if kind := await self.ask(AskChoice("Write", choices, "esc back")):
            await self.ask_seed(kind, stock.lot, stock)

    @work
    async def action_edit(self) -> None:
        stock, book = self.lot_here(), self.book
        if stock is None or stock.newest is None:
            self.say(self.keyed("Select a lot with a bag first; {add} writes a bag."))
            return
        bag = await self._which_bag(stock)
        if bag is None:
            return
        form = bag_change_form(
            book.units, book.today(), lambda text: parse_day(text, book.now(), book.zone), bag
        )
        done = await self.ask_to_write(
            form,
            lambda book, said: change_seed(book, stock.lot, *said, f"{bag.entry}"),
            answer_to(f"seed lot {stock.lot}"),
        )
        self.tell(done)

    async def _which_bag(self, stock: LotStock) -> SaidBag | None:
        """The bag that is meant: asked where there are several, the newest first."""
        bags = {f"{bag.entry}": bag for bag in sorted(stock.bags, key=lambda bag: bag.entry)[::-1]}
        if len(bags) < 2:
            return stock.newest
        choices = [
            (
                entry,
                key,
                f"{self.grams(bag.grams)}, bought {day_words(bag.bought, self.book.today())}",
            )
            for key, (entry, bag) in zip("123456789", bags.items(), strict=False)
        ]
        entry = await self.ask(AskChoice(f"Which bag of {stock.lot}?", choices, "esc back"))
        return bags[entry] if entry else None

    async def ask_seed(self, kind: str, lot: str, stock: LotStock | None = None) -> None:
        """Ask for what is written about seed; a draft of it is of the lot."""
        book, units = self.book, self.book.units
        if kind == BOUGHT:
            crops = sorted({each.label() for each in list_templates(book)})
            form = bag_form(
                units, crops, book.today(),
                lambda text: parse_day(text, book.now(), book.zone), stock,
            )  # fmt: skip
            done = await self.ask_to_write(form, buy_seed, Draft(kind, "", {}))
        elif kind == COUNTED:
            done = await self.ask_to_write(
                count_form(lot),
                lambda book, counted: count_seedlings(book, lot, counted.sown, counted.up),
                Draft(kind, lot, {}, place=lot),
            )
        else:
            done = await self.ask_to_write(
                weight_form(lot, units),
                lambda book, grams: weigh_seed(book, lot, grams),
                Draft(kind, lot, {}, place=lot),
            )
        self.tell(done)
