"""What to sow for deliveries: the fewest trays of each sowing that surely make up what is lacking."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from math import ceil

from logbook.growing.crops.conditions import NONE, Conditions, Shifts
from logbook.growing.crops.luck import Luck
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.crops.yields import Meant, chance_of, expect
from logbook.growing.orders.cover import Cover, Stock, ToCut, cover_crop, way_to_cover
from logbook.growing.orders.wishes import Delivery, Wish
from logbook.growing.planning.backward import Backward, backward
from logbook.growing.trays.chores import RoomHours

MOST_TIMES = 3
"""No more trays than so many times those that are enough on average: more would not make it surer."""


@dataclass(frozen=True, eq=False)
class Crop:
    """What is known of a crop: its newest template, and the luck of its trays (None: no weight)."""

    template: CropTemplate
    luck: Luck | None
    kept: float = 1.0
    """The share of what is cut that trimming leaves."""
    shifts: Shifts = NONE

    def meant(self, batch: int, at: datetime) -> Meant:
        """A tray of a batch that is to be sown and cut at a moment: by its seed and the season."""
        had = Conditions(None, self.template.seed_grams, at)
        return Meant(self.luck, batch, factor=self.shifts.factor(had))

    def tray_grams(self, at: datetime) -> float:
        """What a tray cut at a moment is expected to give to be packed, g; 0 where nothing is known."""
        expected = expect([self.meant(0, at)])
        return expected.grams * self.kept if expected else 0.0

    @property
    def weighs(self) -> bool:
        """Whether it is known what a tray gives."""
        return bool(expect([Meant(self.luck, 0)]))


@dataclass(frozen=True, slots=True)
class Served:
    """A delivery for which trays are sown, what of it they are to give, g, and whom it is for."""

    ready_at: datetime
    grams: float
    customers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sowing:
    """Trays of a crop (template id) to be sown together, and what for."""

    crop: int
    trays: int
    back: Backward
    serves: tuple[Served, ...]


@dataclass(frozen=True, slots=True)
class PlannedLine:
    """A crop of a delivery: how it will be covered, with the trays that are to be sown for it."""

    cover: Cover
    packs: int
    trays: int = 0
    late: bool = False
    """Whether trays are lacking that can't be grown by then."""
    used: tuple[int, ...] = ()
    """The trays (ids) that it takes from, those that are already there."""


@dataclass
class Plan:
    """The deliveries with their lines, and what to sow for them, in the order of time."""

    sure: float
    deliveries: list[tuple[Delivery, tuple[PlannedLine, ...]]] = field(default_factory=list)
    sowings: list[Sowing] = field(default_factory=list)


def plan_for(
    deliveries: Sequence[Delivery], stock: Sequence[Stock], trays: Sequence[ToCut],
    crops: Mapping[int, Crop], hours: RoomHours, now: datetime, sure: float,
    only: Collection[int] = (),
) -> Plan:  # fmt: skip
    """Plan sowings for deliveries, the nearest first, each with the chance `sure` of enough.

    What is in the cold store, what grows or is planned and what is left of nearer deliveries count first. What
    is to be sown at one time is one sowing, and shares its luck. Crops are planned apart, `only`
    these where some are named.
    """
    made = Plan(sure)
    planner = _Planner(list(stock), sorted(trays, key=lambda tray: (tray.by, tray.tray)), crops,
                       hours, now, sure)  # fmt: skip
    for delivery in deliveries:
        every = dict.fromkeys(part.template for wish in delivery.wishes for part in wish.parts)
        lines = (planner.line(delivery, crop) for crop in every if not only or crop in only)
        made.deliveries.append((delivery, tuple(lines)))
    made.sowings = sorted(
        planner.sowings.values(),
        key=lambda each: (each.back.soak_at or each.back.sow_at, each.back.sow_at, each.crop),
    )
    return made


@dataclass
class _Planner:
    stock: list[Stock]
    trays: list[ToCut]
    crops: Mapping[int, Crop]
    hours: RoomHours
    now: datetime
    sure: float
    by_crop: dict[int, tuple[list[Stock], list[ToCut]]] = field(default_factory=dict)
    unmet: dict[int, list[float]] = field(default_factory=dict)
    """What deliveries before left unmet of each crop, g."""
    sowings: dict[tuple[int, datetime], Sowing] = field(default_factory=dict)
    backs: dict[tuple[int, datetime], Backward | None] = field(default_factory=dict)

    def line(self, delivery: Delivery, crop: int) -> PlannedLine:
        """Sow what a delivery lacks of a crop, and take what it needs."""
        at, known = max(delivery.ready_at, self.now), self.crops[crop]
        cold, growing = self._of(crop)
        stock = [each for each in cold if each.serves(at)]
        trays = [each for each in growing if each.serves(at)]
        lacks, live = _lacking(delivery, crop)
        sold = [each for each in trays if not each.taken][:live]
        cut = [each for each in trays if each not in sold]
        unmet = self.unmet.setdefault(crop, [])
        left = sum(each.left for each in stock)
        free, need = way_to_cover(cut, lacks - left, unmet)
        need /= known.kept
        more, late = live - len(sold), False
        enough = not lacks or self._enough(free, need)
        back = None
        if more or not enough:
            key = (crop, delivery.ready_at)
            if key not in self.backs:
                self.backs[key] = backward(known.template, delivery.ready_at, self.hours, self.now)
            back = self.backs[key]
            late = back is None or not known.weighs
        if back is not None and known.weighs:
            if not enough:
                one = known.meant(self._batch(crop, back), back.cut_at)
                more += self._fewest(one, free, need)
            trays += self._sow(delivery, crop, back, more)
        else:
            more = 0
        before = [(each, each.taken) for each in trays if each.tray > 0]
        cover = cover_crop(delivery, crop, stock, trays, known.tray_grams(at), unmet)
        used = tuple(each.tray for each, taken in before if each.sold or each.taken > taken)
        packs = sum(wish.packs for wish in firm(delivery, crop))
        return PlannedLine(cover, packs, more, late, used)

    def _of(self, crop: int) -> tuple[list[Stock], list[ToCut]]:
        """What is in the cold store and what is to be cut of a crop."""
        if crop not in self.by_crop:
            stock = [each for each in self.stock if each.crop == crop]
            self.by_crop[crop] = stock, [each for each in self.trays if each.crop == crop]
        return self.by_crop[crop]

    def _enough(self, free: Sequence[Meant], need: float) -> bool:
        """Whether trays are surely enough; those that are not enough on average are not asked further."""
        expected = expect(free) if self.sure > 0.5 else None
        if expected is not None and expected.grams < need:
            return False
        return chance_of(free, need) >= self.sure

    def _fewest(self, one: Meant, free: Sequence[Meant], need: float) -> int:
        """The fewest more trays like one of a sowing with which the chance is reached."""
        expected, each = expect(free), expect([one])
        lacks = max(0.0, need - (expected.grams if expected else 0.0))
        mean = max(1, ceil(lacks / each.grams)) if each else 1
        count, most = mean if self.sure > 0.5 else 1, MOST_TIMES * mean + 10
        while count < most and chance_of([*free, *([one] * count)], need) < self.sure:
            count += 1
        return count

    def _batch(self, crop: int, back: Backward) -> int:
        """The number of a sowing that is not yet: what is sown at one time shares its luck."""
        keys = list(self.sowings)
        key = (crop, back.sow_at)
        return -1 - (keys.index(key) if key in self.sowings else len(keys))

    def _sow(self, delivery: Delivery, crop: int, back: Backward, count: int) -> list[ToCut]:
        batch, known, key = self._batch(crop, back), self.crops[crop], (crop, back.sow_at)
        grams, live = _lacking(delivery, crop)
        names = dict.fromkeys(wish.customer.name for wish in firm(delivery, crop))
        served = Served(
            delivery.ready_at, grams + live * known.tray_grams(back.cut_at), tuple(names)
        )
        before = self.sowings.get(key) or Sowing(crop, 0, back, ())
        self.sowings[key] = replace(
            before, trays=before.trays + count, serves=(*before.serves, served)
        )
        keeps = back.cut.by + known.template.keeps
        new = [
            ToCut(
                -1,
                crop,
                back.cut.start,
                back.cut.by,
                keeps,
                known.meant(batch, back.cut_at),
                kept=known.kept,
            )
            for _ in range(count)
        ]
        self._of(crop)[1].extend(new)
        return new


def firm(delivery: Delivery, crop: int) -> list[Wish]:
    """The wishes for a crop that are promised: those who take what is left are promised nothing."""
    return [
        wish
        for wish in delivery.wishes
        if not wish.customer.takes_rest and any(part.template == crop for part in wish.parts)
    ]


def _lacking(delivery: Delivery, crop: int) -> tuple[float, int]:
    """What is still to be packed of a crop, g and live trays."""
    parts = [part for wish in firm(delivery, crop) for part in wish.open if part.template == crop]
    return sum(part.grams for part in parts), sum(part.trays for part in parts)
