"""What batches and crops cost, and what is left of what they sell for."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from operator import add
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.costs.rates import rates_of
from logbook.actions.costs.seed_costs import seed_costs
from logbook.actions.reading import Reading
from logbook.actions.yields.gone import gone_of_batch, gone_trays
from logbook.actions.yields.listing import Span, bounds, template_id
from logbook.actions.yields.sold import sold_by_crop
from logbook.growing.costs.margin import CropMargin
from logbook.growing.costs.parts import BatchCosts, Costs, Used, parts_of, summed
from logbook.growing.costs.rates import Rates
from logbook.growing.currencies import Currency, exact
from logbook.growing.days import day_of
from logbook.growing.measures import Units
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.costs import CHORES, count_chores, read_sale_prices
from logbook.store.reads.trays import read_trays_of_batch
from logbook.store.rows import grouped, unswept
from logbook.text import Refused, listed


@dataclass(frozen=True, slots=True)
class CropCosts:
    """What each crop cost over days, the least left per slot-day first."""

    keys: ClassVar = "since until crops currency=currency.code"

    since: date
    until: date
    crops: tuple[CropMargin, ...]
    currency: Currency
    units: Units = "metric"
    shelf_slots: int = 0
    """How many slots most shelves of the room have; 0 without a shelf."""

    @property
    def best(self) -> CropMargin | None:
        """The crop of which most is left by slot and day; None where no price is known."""
        known = [one for one in self.crops if one.margin_per_slot_day is not None]
        return max(known, key=lambda one: one.margin_per_slot_day or 0, default=None)

    def instead_words(self, one: CropMargin) -> str:
        """Say what the best crop would bring more in the slots of another; '' for none."""
        days = (self.until - self.since).days + 1
        more = self.best and one.more_in_its_slots(self.best, days)
        if not more or self.best is None:
            return ""
        return f"In its slots {self.best.crop} would bring {self.currency.total(more)} more a week, all of it sold."

    @property
    def unsold_words(self) -> str:
        """Say of which crops much less was packed than was cut; '' for none."""
        few = [words for one in self.crops if (words := one.unsold_words)]
        return (
            f"This counts all that was cut as sold; less was packed: {listed(few)}." if few else ""
        )


def batch_costs(book: Book, batch: int) -> BatchCosts:
    """What a batch cost up to now; raises Refused where there is none, or none of it has left the rack."""
    with book.reading() as reading:
        found = costs_of_batch(reading, batch)
        if found is not None:
            return found
        if not read_trays_of_batch(reading, batch):
            raise Refused(f"There is no batch {batch}.")
        raise Refused(f"No tray of batch {batch} has left the rack yet; costs are shown then.")


def costs_of_batch(reading: Reading, batch: int) -> BatchCosts | None:
    """What the trays of a batch cost that have left the rack; None where none has."""
    own = gone_of_batch(reading, batch)
    if not own:
        return None
    mine = {batch: own}
    (found,) = _costed(reading, mine, _templates(reading, mine), _held(reading, mine)).values()
    return BatchCosts(batch, own[0].crop, found)


def crop_costs(book: Book, span: Span = Span(), crop: str = "") -> CropCosts:  # noqa: B008 - it is frozen
    """What crops cost and what is left over a span of trays that left the rack; raises Refused."""
    with book.reading() as reading:
        since, until, start, end = bounds(reading, span)
        trays = gone_trays(reading, start, end, template_id(reading, crop))
        return costs_of(reading, trays, since, until)


@unswept()
def costs_of(reading: Reading, trays: Sequence[GoneTray], since: date, until: date) -> CropCosts:
    """As crop_costs(), of the trays of these days."""
    batches = grouped((one.batch, one) for one in trays)
    templates = _templates(reading, batches)
    held = _held(reading, batches)
    costs = _costed(reading, batches, templates, held)
    prices, rates = read_sale_prices(reading), Rates(rates_of(reading))
    sold = sold_by_crop(reading, trays, since, until)
    found = []
    for name, own in grouped((one.crop, one) for one in trays).items():
        mine = list(dict.fromkeys(one.batch for one in own))
        each = summed([costs[batch] for batch in mine])
        template = templates[mine[0]]
        sale = rates.of("sale", template, until)
        lost = sum(bool(one.lost) for one in own)
        wasted = exact(sold[name].wasted) if name in sold else Decimal(0)
        gone = None if each.per_tray is None else each.per_tray * lost
        if gone is not None and each.per_100_grams is not None:
            gone += each.per_100_grams * wasted / 100
        found.append(
            CropMargin(
                name, len(mine), sum(held[batch] for batch in mine), each,
                prices.get(template) if sale is None else sale,
                gone, sold.get(name),
            )
        )  # fmt: skip
    found.sort(
        key=lambda one: (
            one.margin_per_slot_day is None,
            one.margin_per_slot_day or 0,
            one.crop,
        )
    )
    slots = Counter(shelf.slots for shelf in reading.places.shelves if shelf.slots)
    most = slots.most_common(1)[0][0] if slots else 0
    return CropCosts(since, until, tuple(found), reading.about.money, reading.units, most)


def _templates(reading: Reading, of: Collection[int]) -> dict[int, int]:
    """The template (id) of each batch."""
    rows = reading.rows_of(
        "SELECT b.id, v.template_id FROM batch b JOIN template_version v ON v.id = b.version_id "
        "WHERE b.id IN (ids)",
        of,
    )
    return dict(rows)


def _costed(
    reading: Reading,
    batches: Mapping[int, Sequence[GoneTray]],
    templates: Mapping[int, int],
    held: Mapping[int, float],
) -> dict[int, Costs]:
    """What each batch cost: those of its trays that have left the rack."""
    rates, money = Rates(rates_of(reading)), reading.about.money
    chores, water = _chores(reading, batches)
    seed = seed_costs(reading, batches)
    found = {}
    for batch, trays in batches.items():
        grams = [one.seed_grams for one in trays if one.seed_grams is not None]
        used = Used(
            templates[batch],
            day_of(min(one.sown_at or one.ended_at for one in trays), reading.zone),
            day_of(max(one.ended_at for one in trays), reading.zone),
            len(trays), sum(one.grams or 0.0 for one in trays),
            sum(grams) if len(grams) == len(trays) else None, seed.get(batch),
            _light(trays),
            water.get(batch), held[batch],
            chores[batch],
        )  # fmt: skip
        parts, unknown = parts_of(used, rates)
        found[batch] = Costs(parts, unknown, used.trays, used.grams, money)
    return found


def _held(reading: Reading, batches: Mapping[int, Sequence[GoneTray]]) -> dict[int, float]:
    """The slot-days of each batch."""
    stack = reading.about.stack
    return {
        batch: sum(one.slot_days(stack) or 0.0 for one in trays) for batch, trays in batches.items()
    }


def _light(trays: Sequence[GoneTray]) -> Decimal | None:
    """What lit trays, where that is known of each."""
    known = [one.light_cost for one in trays if one.light_cost is not None]
    return sum(known, Decimal(0)) if len(known) == len(trays) else None


def _chores(
    reading: Reading, batches: Mapping[int, Sequence[GoneTray]]
) -> tuple[dict[int, Counter[str]], dict[int, float]]:
    """How often each chore was done by batch, and the water of those all of whose waterings are known."""
    counts = {batch: [0] * len(CHORES) for batch in batches}
    water: dict[int, float | None] = dict.fromkeys(batches, 0.0)
    trays = [one.tray for each in batches.values() for one in each]
    for batch, mine, amount in count_chores(reading, trays):
        counts[batch] = list(map(add, counts[batch], mine))
        before = water[batch]
        water[batch] = None if amount is None or before is None else before + amount
    named = {batch: Counter(dict(zip(CHORES, each, strict=True))) for batch, each in counts.items()}
    return named, {batch: each for batch, each in water.items() if each is not None}
