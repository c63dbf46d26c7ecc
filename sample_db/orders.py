"""Whom the invented room delivers to, what they order, and what was packed for them."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial

from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.cold_store import cold_store
from logbook.actions.packs.withdrawing import change_lot, take_out
from logbook.growing.days import DAYS
from sample_db.lots import SINCE
from sample_db.world import World

CLEARED = (16, 9, 2)
"""So many days ago the cold store was cleared."""
OWN_CODE = ("radish", "R28")
"""The newest lot of a crop that has a code of the room's own, as on a stamp."""
MIX = ("salad mix", "2 radish + 1 pea shoots")


@dataclass(frozen=True, slots=True)
class Buyer:
    """A customer, on which days from today their deliveries are, and what they get each time.

    `rush` is what they ordered once, yesterday, for their next delivery.
    """

    name: str
    kind: str
    contact: str
    ahead: tuple[int, ...]
    lines: tuple[tuple[str, str], ...]
    """What, and the price of a pack."""
    rush: str = ""

    def weekdays(self, today: int) -> tuple[int, ...]:
        """Their days of the week, Monday 0."""
        return tuple(sorted({(today + ahead) % 7 for ahead in self.ahead}))


BUYERS = (
    Buyer("the chef", "kitchen", "at the kitchen door, before ten", (2, 5),
          (("sunflower 8 x 100g", "3.80"), ("pea shoots 5 x 100g", "3.50"), ("salad mix 8 x 50g", "2.90")),
          rush="mustard 900g"),
    Buyer("the corner shop", "shop", "ask for the manager", (3,),
          (("radish, pink stem 10 x 40g", "2.20"), ("kale 8 x 40g", "2.20"))),
)  # fmt: skip
STALL = Buyer(
    "the Saturday stall", "stall", "", (),
    (("sunflower 8 x 60g", "3"), ("rocket 5 x 40g", "2.50"), ("pea shoots 6 x 60g", "3")),
)  # fmt: skip
"""Sells what is left, always on Saturdays."""


def await_orders(world: World) -> None:
    """Have customers, standing lines and packed deliveries written at their moments."""
    days, today = world.days, world.days.today.weekday()
    for ago in CLEARED:
        world.agenda.put(days.on(ago, 500), partial(_clear, world))
    world.agenda.put(days.on(1, 500), partial(_stamp, world))
    world.await_act(days.on(SINCE, 200), put_mix, *MIX)
    for minute, buyer in enumerate((*BUYERS, STALL), 201):
        weekdays = buyer.weekdays(today) or (5,)
        world.agenda.put(days.on(SINCE, minute), partial(_begin, world, buyer, weekdays))
        for ago in range(SINCE - 1, 0, -1):
            if (days.today - timedelta(days=ago)).weekday() in weekdays:
                day = (days.today - timedelta(days=ago)).isoformat()
                world.await_act(days.on(ago, 45), pack_for, buyer.name, "", day)
        if buyer.rush:
            wanted = (days.today + timedelta(days=min(buyer.ahead))).isoformat()
            draft = OrderDraft(buyer.name, f"{buyer.rush} {wanted}")
            world.await_act(days.on(1, 400), order, draft)


def _clear(world: World, at: datetime) -> None:
    """Take out of the cold store what is past its best before."""
    book = world.act(at)
    for each in cold_store(book).lots:
        if each.past:
            take_out(book, each.code, None, "waste", note="past its best before")


def _stamp(world: World, at: datetime) -> None:
    """Give a lot the code that was stamped on its packs."""
    book, (crop, code) = world.act(at), OWN_CODE
    newest = max(each.code for each in cold_store(book).lots if each.crop == crop)
    change_lot(book, newest, code)


def _begin(world: World, buyer: Buyer, weekdays: tuple[int, ...], at: datetime) -> None:
    book, names = world.owner_acts(at), ",".join(DAYS[day] for day in weekdays)
    put_customer(book, CustomerDraft(buyer.name, None, buyer.kind, buyer.contact, names), new=True)
    for what, price in buyer.lines:
        order(book, OrderDraft(buyer.name, f"{what} every {names}", price))
