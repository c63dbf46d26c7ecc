"""Deliveries as they are shown: what is promised, ready and growing, and each customer's packs."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.wanted import crop_names, wanted, wish_crop
from logbook.actions.packs.drawing import free_lots
from logbook.actions.reading import Reading
from logbook.growing.crops.templates import USUAL_KEEPING
from logbook.growing.days import day_bounds
from logbook.growing.orders.cover import Cover, Stock, ToCut, cold_store, covers
from logbook.growing.orders.wishes import Delivery, Orders, Wish, deliveries_of, mix_on
from logbook.growing.packs.lots import PackLot
from logbook.growing.trays.forecast import Window, cut_window
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.cold import read_cuts
from logbook.store.reads.orders import read_orders
from logbook.store.reads.packs import grams_from_lots
from logbook.store.reads.templates import template_of_versions
from logbook.text import Refused

MOST_DAYS = 62


@dataclass(frozen=True, slots=True)
class CropCover:
    """How one crop of a delivery is covered."""

    keys: ClassVar = "crop promised_grams ready_grams growing_grams short_grams chance_of_enough"

    crop: str
    cover: Cover

    @property
    def promised_grams(self) -> float:
        """What is promised; those who take what is left are promised nothing."""
        return self.cover.promised

    @property
    def ready_grams(self) -> float:
        """What was cut, still keeps by then and isn't needed by an earlier delivery; what is packed for this one too."""
        return self.cover.ready + self.cover.packed

    @property
    def growing_grams(self) -> float:
        """What is expected of trays that can be cut by then, less what earlier deliveries need."""
        return self.cover.growing

    @property
    def short_grams(self) -> float:
        """What is lacking, by what is expected; 0 where it is enough."""
        return self.cover.short

    @property
    def chance_of_enough(self) -> float:
        """The chance that what is ready and grows is enough."""
        return self.cover.chance


@dataclass(frozen=True, slots=True)
class PackLine:
    """What a customer gets of a crop or mix, and whether it is packed."""

    keys: ClassVar = "crop packs pack_grams packed"

    crop: str
    wish: Wish

    @property
    def packs(self) -> int:
        """How many packs, or live trays."""
        return self.wish.packs

    @property
    def pack_grams(self) -> float | None:
        """Null for live trays."""
        return self.wish.order.pack_grams

    @property
    def packed(self) -> bool:
        """Whether all of them are packed."""
        return not self.wish.to_pack


@dataclass(frozen=True, slots=True)
class CustomerLines:
    """What one customer gets."""

    keys: ClassVar = "customer lines"

    customer: str
    takes_rest: bool
    lines: tuple[PackLine, ...]


@dataclass(frozen=True, slots=True)
class DeliveryView:
    """A delivery: when it is wanted, how its crops are covered (none of one that is over), and who gets what."""

    ready_at: datetime
    crops: tuple[CropCover, ...]
    customers: tuple[CustomerLines, ...]

    @property
    def short(self) -> list[CropCover]:
        """The crops of which there isn't enough, by what is expected."""
        return [each for each in self.crops if each.short_grams]

    @property
    def done(self) -> bool:
        """Whether all of it is packed."""
        return all(line.packed for each in self.customers for line in each.lines)


@dataclass(frozen=True, slots=True)
class Deliveries:
    """The deliveries to come, the nearest first."""

    deliveries: tuple[DeliveryView, ...]


def list_deliveries(book: Book, days: int = 14) -> Deliveries:
    """The deliveries of so many days, today's too while something of it is to pack or its hour is to come.

    Before them yesterday's, if something promised isn't ticked: it claims nothing any more.
    """
    if not 1 <= days <= MOST_DAYS:
        raise Refused(f"{days} days ahead? Give 1 to {MOST_DAYS}.")
    with book.reading() as reading:
        views = [
            view
            for view in delivery_views(reading, reading.today + timedelta(days=days))
            if view.ready_at >= reading.now or not view.done
        ]
        return Deliveries((*_unticked(reading), *views))


def _unticked(reading: Reading) -> list[DeliveryView]:
    """Yesterday's deliveries of which something promised isn't ticked."""
    yesterday, crops = reading.today - timedelta(days=1), crop_names(reading)
    found = wanted(reading, yesterday, yesterday)
    return [
        _view(delivery, (), crops)
        for delivery in found
        if any(wish.open and not wish.customer.takes_rest for wish in delivery.wishes)
    ]


def delivery_views(reading: Reading, last: date) -> list[DeliveryView]:
    """The deliveries from today to a day as they are shown."""
    found = covered(reading, last)
    crops = crop_names(reading)
    return [_view(delivery, cover, crops) for delivery, cover in found]


def _view(delivery: Delivery, cover: Sequence[Cover], crops: Mapping[int, str]) -> DeliveryView:
    customers: dict[int, list[Wish]] = {}
    for wish in delivery.wishes:
        customers.setdefault(wish.customer.id, []).append(wish)
    return DeliveryView(
        delivery.ready_at,
        tuple(CropCover(crops[each.crop], each) for each in cover),
        tuple(
            CustomerLines(
                wishes[0].customer.name,
                wishes[0].customer.takes_rest,
                tuple(PackLine(wish_crop(wish, crops), wish) for wish in wishes),
            )
            for wishes in customers.values()
        ),
    )


Covered = list[tuple[Delivery, tuple[Cover, ...]]]


def covered(
    reading: Reading, last: date, in_time: Collection[int] = (), only: Collection[int] = ()
) -> Covered:
    """The deliveries from today to a day, each with how its crops, or `only` these, are covered.

    Trays `in_time` (ids) are taken as if their next change weren't late.
    """
    deliveries, stock, trays, crops = supply(reading, last, in_time, only=only)
    live = any(part.trays for each in deliveries for wish in each.wishes for part in wish.parts)
    tray_grams = grams_of_trays(reading, crops) if live else {}
    found = covers(deliveries, stock, trays, tray_grams, reading.now, crops)
    return list(zip(deliveries, found, strict=True))


def supply(
    reading: Reading,
    last: date,
    in_time: Collection[int] = (),
    only: Collection[int] = (),
) -> tuple[list[Delivery], list[Stock], list[ToCut], set[int]]:
    """The deliveries from today to a day; what is in the cold store and the trays to be cut of their crops.

    And these crops (template ids); see covered().
    """
    longest = timedelta(days=reading.value(_LONGEST, (USUAL_KEEPING,)) or 0)
    since = reading.today - 2 * longest - timedelta(days=1)
    orders = read_orders(reading, since)
    deliveries = deliveries_of(orders, reading.today, last, reading.hours)
    crops = set(only) or {
        part.template for each in deliveries for wish in each.wishes for part in wish.parts
    }
    if not crops:
        return deliveries, [], [], crops
    stock = stock_of(reading, orders, crops, reading.now - 2 * longest)
    return deliveries, stock, trays_to_cut(reading, crops, in_time), crops


_LONGEST = "SELECT max(coalesce(keeping_days, ?)) FROM template_version"


def stock_of(
    reading: Reading, orders: Orders, crops: Collection[int], since: datetime
) -> list[Stock]:
    """What is in the cold store of crops (template ids): what is left of pack lots that may go out.

    And of what was cut since a moment and has no lot, less what was packed of none.
    """
    kept = reading.about.kept
    found = [
        Stock(crop, day_bounds(lot.packed_on, reading.zone)[0], _until(reading, lot), left * kept * share)
        for each in free_lots(reading, reading.today, reading.now)
        for lot, left in ((each.lot, each.grams_left),)
        for crop, share in _shares(orders, lot).items()
        if crop in crops
    ]  # fmt: skip
    cuts = [each for each in read_cuts(reading, since) if each[0] in crops]
    versions = reading.versions({version for _, version, _, _ in cuts})
    cut = (
        (crop, at, grams * kept, at + versions[version].keeps) for crop, version, at, grams in cuts
    )
    from_lots = grams_from_lots(reading, [each.entry for each in orders.packed])
    out = (
        (crop, packed.at, max(0.0, grams - from_lots.get(packed.entry, 0.0) * kept) * share)
        for packed in orders.packed
        if packed.pack_grams is not None and (packed.mix or packed.template in crops)
        for grams in (packed.packs * packed.pack_grams,)
        for crop, share in _of(orders, packed.template, packed.mix, packed.day).items()
    )
    return [*cold_store(cut, out, reading.now), *found]


def _until(reading: Reading, lot: PackLot) -> datetime:
    return day_bounds(lot.best_before, reading.zone)[1] - timedelta(seconds=1)


def _shares(orders: Orders, lot: PackLot) -> dict[int, float]:
    return _of(orders, lot.template, lot.mix, lot.packed_on)


def _of(orders: Orders, template: int | None, mix: int | None, day: date) -> dict[int, float]:
    """The crops (template ids) of a crop or a mix, each with its share."""
    return {template or 0: 1.0} if mix is None else dict(mix_on(orders.mixes[mix], day).shares)


def trays_to_cut(
    reading: Reading, crops: Collection[int], in_time: Collection[int] = ()
) -> list[ToCut]:
    """The trays of crops (template ids) that grow or are planned; see covered()."""
    crop_of = template_of_versions(reading, {tray.stored.version_id for tray in reading.live})
    live = (
        tray for tray in reading.live if tray.state.live and not tray.held
    )  # one may have ended in this act
    trays = [tray for tray in live if crop_of[tray.stored.version_id] in crops]
    meant = reading.meant(trays)
    found = []
    for tray in trays:
        window = _window(tray, in_time)
        if window is not None:
            start = reading.now if tray.sign_seen else window.start
            off = max(window.by, reading.now) + tray.template.keeps
            crop = crop_of[tray.stored.version_id]
            found.append(
                ToCut(tray.id, crop, start, window.by, off, meant[tray.id], kept=reading.about.kept)
            )
    return found


def _window(tray: TrayNow, in_time: Collection[int]) -> Window | None:
    if tray.id in in_time and tray.state.stage_since is not None:
        return cut_window(tray.template, tray.state.stage, tray.state.stage_since)
    return tray.window


def grams_of_trays(reading: Reading, crops: Collection[int]) -> dict[int, float]:
    """What a tray of each crop (template id) is expected to give by its newest version, g."""
    newest: dict[int, int] = dict(
        reading.rows_of(
            "SELECT template_id, max(id) FROM template_version WHERE template_id IN (ids) "
            "GROUP BY template_id",
            crops,
        )
    )
    expected = reading.expected(list(newest.values()))
    return {crop: each.grams for crop, version in newest.items() if (each := expected[version])}
