"""Whether something can be promised: from what there is, if it is sown in time, later, or not."""

from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, get_args

from logbook.growing.days import day_of
from logbook.growing.orders.cover import Stock, ToCut
from logbook.growing.orders.customer import Customer, Order
from logbook.growing.orders.wishes import CropPart, Delivery, Wish
from logbook.growing.planning.backward import earliest, latest
from logbook.growing.planning.plan import Crop, Plan, PlannedLine, plan_for
from logbook.growing.trays.chores import RoomHours

Answer = Literal["yes", "if", "later", "no"]
ANSWERS: tuple[Answer, ...] = get_args(Answer)
"""From the best to the worst."""


@dataclass(frozen=True, slots=True)
class Promised:
    """What can be said of one crop."""

    answer: Answer
    chance: float
    trays: tuple[int, ...] = ()
    """The trays (ids) that it would take from."""
    sown: int = 0
    """How many trays would have to be sown for it."""
    start: datetime | None = None
    """When it can be ready at the earliest, where that is later."""
    sow_by: datetime | None = None
    """By when its soak or its sowing must begin."""


@dataclass(frozen=True, slots=True)
class Room:
    """What a promise is judged by: what is wanted already, what there is, and when the room is worked."""

    deliveries: Sequence[Delivery]
    stock: Sequence[Stock]
    trays: Sequence[ToCut]
    crops: Mapping[int, Crop]
    hours: RoomHours
    now: datetime
    sure: float

    def planned(self, crop: int, more: Iterable[Delivery] = ()) -> Plan:
        """The plan of one crop, with deliveries more than are wanted already."""
        deliveries = sorted([*self.deliveries, *more], key=lambda each: each.ready_at)
        stock = [copy(each) for each in self.stock if each.crop == crop]
        trays = [copy(each) for each in self.trays if each.crop == crop]
        return plan_for(
            deliveries, stock, trays, self.crops, self.hours, self.now, self.sure, {crop}
        )  # fmt: skip


def promise(room: Room, part: CropPart, ready: datetime) -> Promised:
    """What can be said of a part of an order that is wanted at a moment.

    Nobody who was promised something before is served worse for it.
    """
    crop = room.crops[part.template]
    before = {
        id(each): line for each, lines in room.planned(part.template).deliveries for line in lines
    }
    line, fine = _tried(room, part, ready, before)
    chance = line.cover.chance
    if fine and not line.trays:
        return Promised("yes", chance, line.used)
    if fine:
        last = latest(crop.template, ready, room.hours, room.now)
        by = None if last is None else last.soak_at or last.sow_at
        return Promised("if", chance, line.used, line.trays, sow_by=by)
    if not crop.weighs:
        return Promised("no", chance)
    soonest = earliest(crop.template, room.now, room.hours).cut_at
    starts = {each.start for each in room.trays if each.crop == part.template}
    for start in sorted({*(at for at in starts if ready < at < soonest), max(soonest, ready)}):
        at = room.hours.walk_at(start)
        later, fine = _tried(room, part, at, before)
        if fine:
            return Promised("later", later.cover.chance, later.used, later.trays, at)
    return Promised("no", chance)


def _tried(
    room: Room, part: CropPart, ready: datetime, before: Mapping[int, PlannedLine]
) -> tuple[PlannedLine, bool]:
    """The line of a delivery more, and whether it is sure and leaves the others as they were."""
    more = asked(part, ready, room.hours)
    found, fine = None, True
    for each, lines in room.planned(part.template, [more]).deliveries:
        for line in lines:
            if each is more:
                found = line
            elif line.cover.chance < min(room.sure, before[id(each)].cover.chance):
                fine = False
    assert found is not None  # noqa: S101 - it is among them
    return found, fine and found.cover.chance >= room.sure


def asked(part: CropPart, ready: datetime, hours: RoomHours) -> Delivery:
    """A delivery of a part alone, of nobody yet."""
    day = day_of(ready, hours.zone)
    grams = None if part.trays else part.grams
    order = Order(0, 0, 0, part.template, None, part.trays or 1, grams, "", None, day, day)
    return Delivery(ready, (Wish(ready, day, Customer(0, "", "kitchen"), order, (part,)),))


def together(parts: Sequence[Promised]) -> Promised:
    """What can be said of all parts of a mix: the worst of them, and the chance that all are enough."""
    worst = max((each.answer for each in parts), key=ANSWERS.index)
    chance = 1.0
    for each in parts:
        chance *= each.chance
    starts = [each.start for each in parts if each.start is not None]
    bys = [each.sow_by for each in parts if each.sow_by is not None]
    return Promised(
        worst, chance, tuple(tray for each in parts for tray in each.trays),
        sum(each.sown for each in parts), max(starts, default=None) if worst == "later" else None,
        min(bys, default=None) if worst == "if" else None,
    )  # fmt: skip
