"""Whether deliveries are covered: by what is in the cold store, and by what grows; the nearest delivery first."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import TypeVar

from logbook.growing.crops.yields import Meant, chance_of, expect
from logbook.growing.orders.wishes import Delivery
from logbook.growing.packs.lots import LEAST


@dataclass
class Stock:
    """What was cut of a crop (template id), g, and until when it keeps; `left` is not promised yet."""

    crop: int
    at: datetime
    keeps_until: datetime
    grams: float
    left: float = field(init=False)

    def __post_init__(self) -> None:
        """All of it is there at first."""
        self.left = self.grams

    def serves(self, at: datetime) -> bool:
        """Whether it can go out at a moment."""
        return at <= self.keeps_until


@dataclass
class ToCut:
    """A tray to be cut: from when, and until when what is cut of it at last keeps.

    `taken` is the share of its expected weight, g, that is promised; a live tray that is promised is `sold`.
    `first` is which of its crop's deliveries could take of it first.
    """

    tray: int
    crop: int
    start: datetime
    by: datetime
    keeps_until: datetime
    meant: Meant
    taken: float = 0.0
    sold: bool = False
    first: int | None = None
    kept: float = 1.0
    """The share of what is cut that trimming leaves."""

    def __post_init__(self) -> None:
        """What it alone is expected to give to be packed, g."""
        expected = expect([self.meant])
        self.grams = expected.grams * self.kept if expected else 0.0

    def serves(self, at: datetime) -> bool:
        """Whether it, or what is cut of it before, can go out at a moment."""
        return not self.sold and self.start <= at <= self.keeps_until


@dataclass(frozen=True, slots=True)
class Cover:
    """How one crop of one delivery is covered, g; stalls, which take what is left, promise nothing."""

    crop: int
    promised: float
    packed: float
    ready: float
    """What is in the cold store and is not needed before."""
    growing: float
    """What is expected of trays that can be cut by then and are not needed before."""
    chance: float

    @property
    def short(self) -> float:
        """What is lacking, by what is expected."""
        lacking = self.promised - self.packed - self.ready - self.growing
        return lacking if lacking >= LEAST else 0.0

    @property
    def over(self) -> float:
        """What is left over, by what is expected."""
        return max(0.0, self.packed + self.ready + self.growing - self.promised)


def cold_store(
    cut: Iterable[tuple[int, datetime, float, datetime]], out: Iterable[tuple[int, datetime, float]],
    now: datetime,
) -> list[Stock]:  # fmt: skip
    """What still lies cold: cuts (crop, when, g, keeps until) less what went out (crop, when, g).

    What went out was the oldest that was there and kept then; what keeps no longer is left out.
    """
    stock = sorted((Stock(crop, at, until, grams) for crop, at, grams, until in cut), key=_oldest)
    mine = _by_crop(stock)
    for crop, at, grams in sorted(out, key=lambda each: each[1]):
        take((each for each in mine.get(crop, ()) if each.at <= at and each.serves(at)), grams)
    for each in stock:
        each.grams = each.left
    return [each for each in stock if each.grams >= LEAST and each.serves(now)]


def take(stock: Iterable[Stock], grams: float) -> float:
    """Take so many g, one after another; returns what is still lacking."""
    for each in stock:
        gone = min(each.left, grams)
        each.left, grams = each.left - gone, grams - gone
    return grams


Source = TypeVar("Source", Stock, ToCut)


def _by_crop(sources: Iterable[Source]) -> dict[int, list[Source]]:
    found: dict[int, list[Source]] = {}
    for each in sources:
        found.setdefault(each.crop, []).append(each)
    return found


def _oldest(stock: Stock) -> tuple[datetime, datetime]:
    return stock.keeps_until, stock.at


def way_to_cover(
    trays: Sequence[ToCut], need: float, unmet: Sequence[float]
) -> tuple[list[Meant], float]:
    """Trays, and what they must give, g, for a delivery that needs so much to be whole.

    A nearer delivery takes what it lacks from what is cut by then and stays short of the rest: later
    trays don't make it up (the recursion of D. V. Lindley, Proc. Camb. Phil. Soc. 48, 1952, of a queue). So trays
    from some delivery on are enough, where they give what it and those after it want; the likeliest
    of these ways is taken, so that the chance is at least its. `unmet` is what nearer ones weren't
    promised, g, in their order.
    """
    for tray in trays:
        tray.first = len(unmet) if tray.first is None else tray.first
    mine, ways = list[ToCut](), list[tuple[float, int, float]]()
    ordered = sorted(trays, key=lambda tray: -(tray.first or 0))
    grams = taken = 0.0
    for first in sorted({tray.first or 0 for tray in trays} | {len(unmet)}, reverse=True):
        while len(mine) < len(ordered) and (ordered[len(mine)].first or 0) >= first:
            mine.append(tray := ordered[len(mine)])
            grams, taken = grams + tray.grams, taken + tray.taken
        owed = need + taken + sum(unmet[first:])
        spread = max(1, len(mine)) ** 0.6  # of trays that share their luck in part
        ways.append(((grams - owed) / spread, len(mine), owed))
    _, count, owed = max(ways)
    return [tray.meant for tray in ordered[:count]], owed


def covers(
    deliveries: Sequence[Delivery], stock: Sequence[Stock], trays: Iterable[ToCut],
    tray_grams: Mapping[int, float], now: datetime, crops: Collection[int],
) -> list[tuple[Cover, ...]]:  # fmt: skip
    """How the crops of deliveries, of these (template ids), are covered, in the order of the deliveries.

    Each takes first what goes off first; `tray_grams` is what a live tray of a crop counts for, g.
    """
    cold = _by_crop(stock)
    growing = _by_crop(sorted(trays, key=lambda tray: (tray.by, tray.tray)))
    unmet: dict[int, list[float]] = {}
    found = []
    for delivery in deliveries:
        wanted = dict.fromkeys(part.template for wish in delivery.wishes for part in wish.parts)
        at = max(delivery.ready_at, now)
        found.append(
            tuple(
                cover_crop(
                    delivery,
                    crop,
                    [each for each in cold.get(crop, ()) if each.serves(at)],
                    [each for each in growing.get(crop, ()) if each.serves(at)],
                    tray_grams.get(crop, 0.0),
                    unmet.setdefault(crop, []),
                )
                for crop in wanted
                if crop in crops
            )
        )
    return found


def cover_crop(
    delivery: Delivery, crop: int, stock: Sequence[Stock], trays: Sequence[ToCut],
    tray_grams: float, unmet: list[float],
) -> Cover:  # fmt: skip
    """Cover one crop of a delivery from what can serve it, which is promised from then on.

    What it lacks is put to what nearer deliveries of the crop left `unmet`, g.
    """
    firm = [wish for wish in delivery.wishes if not wish.customer.takes_rest]
    asked = [part for wish in firm for part in wish.parts if part.template == crop]
    lacking = [part for wish in firm for part in wish.open if part.template == crop]
    promised, open_grams = (
        sum(part.grams + part.trays * tray_grams for part in parts) for parts in (asked, lacking)
    )
    packed = promised - open_grams
    sold, wanted = 0.0, sum(part.trays for part in lacking)
    for tray in [each for each in trays if not each.taken][:wanted]:
        tray.sold, wanted, sold = True, wanted - 1, sold + tray_grams
    trays = [each for each in trays if not each.sold]
    need = sum(part.grams for part in lacking)
    ready = sum(each.left for each in stock)
    taken = sum(each.taken for each in trays)
    growing = sum(each.grams for each in trays) - taken
    chance = 1.0
    if wanted:
        chance = 0.0
    elif need:
        kept = next((each.kept for each in trays), 1.0)
        meant, grams = way_to_cover(trays, need - ready, unmet)
        chance = chance_of(meant, grams / kept)
    need = take(stock, need)
    for tray in trays:
        gone = max(0.0, min(tray.grams - tray.taken, need))
        tray.taken, need = tray.taken + gone, need - gone
    unmet.append(need)
    return Cover(crop, promised, packed, ready, max(0.0, growing) + sold, chance)
