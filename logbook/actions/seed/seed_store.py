"""The seed of the room at a glance: what is left of each lot, what is needed, when it runs out."""

from dataclasses import dataclass
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.seed.shopping import ShoppingList, shopping_list
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.currencies import Currency
from logbook.growing.seed.bags import LotStock, first_in_first_out, is_of
from logbook.growing.seed.pace import SeedPace


@dataclass(frozen=True, slots=True)
class SeedStore:
    """The seed lots: what is left first, in the order to use it up."""

    keys: ClassVar = "lots seed=shopping.seed paces currency=money.code"

    lots: tuple[LotStock, ...]
    shopping: ShoppingList
    """What the sowings of the weeks to come need of each crop's seed."""
    paces: tuple[SeedPace, ...] = ()
    """Those of the shopping list, of the crop that is asked for."""
    notices: tuple[str, ...] = ()

    @property
    def money(self) -> Currency:
        """What prices are in."""
        return self.shopping.money


def seed_store(book: Book, crop: str = "", *, every: bool = False) -> SeedStore:
    """The lots with seed left and those sown from last, of one crop where it is named; or `every` one."""
    shopping = shopping_list(book)
    with book.reading() as reading:
        lots = lots_in_stock(reading, every=every)
        paces = [each for each in shopping.paces if not crop or is_of(each.crop, crop)]
        if crop:
            lots = [each for each in lots if each.is_of(crop)]
        held = first_in_first_out(lots)
        ids = {id(each) for each in held}
        rest = [each for each in lots if id(each) not in ids]
        if not every:
            rest = [each for each in rest if not each.empty]
        shown = (*sorted(held, key=lambda each: each.crop), *rest)
        cautions = [words for each in shown for words in each.cautions(reading.units)]
    return SeedStore(shown, shopping, tuple(paces), tuple(cautions))
