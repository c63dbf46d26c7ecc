"""From standing lines and single orders to deliveries, day by day."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from logbook.growing.days import wall
from logbook.growing.orders.customer import Customer, Mix, Order, Packed, Pause
from logbook.growing.orders.weekdays import falls_on
from logbook.growing.trays.chores import RoomHours


@dataclass(frozen=True, slots=True)
class Orders:
    """All that stands of customers and their orders: by id, the rows of an order or mix oldest first."""

    customers: Mapping[int, Customer]
    mixes: Mapping[int, Sequence[Mix]]
    orders: Mapping[int, Sequence[Order]]
    pauses: Sequence[Pause] = ()
    packed: Sequence[Packed] = ()


@dataclass(frozen=True, slots=True)
class CropPart:
    """What a wish takes of one crop (template id): g, or live trays."""

    template: int
    grams: float
    trays: int = 0


@dataclass(frozen=True, slots=True)
class Wish:
    """One line of one delivery: what a customer wants at a moment, and what of it is packed."""

    ready_at: datetime
    day: date
    customer: Customer
    order: Order
    parts: tuple[CropPart, ...]
    mix: Mix | None = None
    packed: float = 0
    """How many of its packs are packed; packs of another size count by their weight."""

    @property
    def packs(self) -> int:
        """How many packs, or live trays, are wanted."""
        return self.order.packs

    @property
    def grams(self) -> float | None:
        """What it weighs in all, g; None for live trays."""
        return self.order.grams

    @property
    def to_pack(self) -> float:
        """How many of its packs are still to be packed; not whole where others went for a part of them."""
        return float(max(0, round(self.packs - self.packed, 6)))

    @property
    def open(self) -> tuple[CropPart, ...]:
        """What is still to be packed of it."""
        left = self.to_pack
        return tuple(
            CropPart(part.template, part.grams * left / self.packs, int(left) if part.trays else 0)
            for part in self.parts
            if left
        )


@dataclass(frozen=True, slots=True)
class Delivery:
    """What is wanted at one moment; those who take what is left come last."""

    ready_at: datetime
    wishes: tuple[Wish, ...]


def deliveries_of(orders: Orders, first: date, last: date, hours: RoomHours) -> list[Delivery]:
    """What is wanted from a day to another, both included, the nearest delivery first.

    Without an hour of its own an order is wanted at the customer's, else when the room's work begins.
    """
    found: dict[datetime, list[Wish]] = {}
    for wish in _wishes(orders, first, last, hours):
        found.setdefault(wish.ready_at, []).append(wish)
    return [
        Delivery(at, tuple(sorted(found[at], key=_in_turn))) for at in sorted(found)
    ]  # fmt: skip


def _in_turn(wish: Wish) -> tuple[bool, str, int]:
    return wish.customer.takes_rest, wish.customer.name.casefold(), wish.order.id


def _wishes(orders: Orders, first: date, last: date, hours: RoomHours) -> Iterator[Wish]:
    packed: dict[tuple[int | None, date], list[Packed]] = {}
    for each in orders.packed:
        packed.setdefault((each.order, each.day), []).append(each)
    for rows in orders.orders.values():
        for day, order in days_of(rows, first, last):
            done = sum(_of_packs(order, each) for each in packed.get((order.id, day), ()))
            customer = orders.customers[order.customer]
            if not done and (customer.gone or _paused(orders.pauses, order, day)):
                continue
            minute = next(
                (each for each in (order.minute, customer.minute) if each is not None), hours.start
            )
            mix = None if order.mix is None else mix_on(orders.mixes[order.mix], day)
            yield Wish(
                wall(day, minute, hours.zone), day, customer, order, _parts(order, mix), mix, done
            )


def _of_packs(order: Order, packed: Packed) -> float:
    """How many packs of an order were packed by a tick, by weight where they are of another size."""
    if packed.pack_grams == order.pack_grams or not (packed.pack_grams and order.pack_grams):
        return packed.packs
    return packed.packs * packed.pack_grams / order.pack_grams


def days_of(rows: Sequence[Order], first: date, last: date) -> Iterator[tuple[date, Order]]:
    """The days on which an order is wanted, each with the row of it that holds on that day."""
    newest = rows[-1]
    if not newest.weekdays:
        if first <= newest.since <= last and not newest.gone:
            yield newest.since, newest
        return
    start = max(first, min(row.since for row in rows))
    for ahead in range((last - start).days + 1):
        day = start + timedelta(days=ahead)
        row = held_on(rows, day)
        if row and not row.gone and falls_on(row.weekdays, day) and day <= (row.until or day):
            yield day, row


def held_on(rows: Sequence[Order], day: date) -> Order | None:
    """The row of a standing line that holds on a day; None before its first."""
    begun = [row for row in rows if row.since <= day]
    return max(begun, key=lambda row: (row.since, row.entry), default=None)


def mix_on(rows: Sequence[Mix], day: date) -> Mix:
    """A mix as it is on a day; as it was first, before that."""
    return next((row for row in reversed(rows) if row.since <= day), rows[0])


def _paused(pauses: Sequence[Pause], order: Order, day: date) -> bool:
    return bool(order.weekdays) and any(
        pause.customer == order.customer
        and pause.order in (None, order.id)
        and pause.since <= day <= pause.until
        for pause in pauses
    )


def _parts(order: Order, mix: Mix | None) -> tuple[CropPart, ...]:
    shares = {order.template: 1.0} if mix is None else mix.shares
    return tuple(
        CropPart(crop, (order.grams or 0.0) * share, order.packs if order.grams is None else 0)
        for crop, share in shares.items()
        if crop is not None
    )
