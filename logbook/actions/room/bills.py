"""What light costs: kWh and money by shelf, tray-day and batch, from the hours that were really lit."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.lamps import CircuitView, circuit_views, shelf_pasts
from logbook.actions.room.lives import lives_since
from logbook.growing.currencies import Currency, exact
from logbook.growing.days import DAY, day_bounds, day_of
from logbook.growing.keys import BatchNumber
from logbook.growing.measures import hours_words
from logbook.growing.room.places import Place
from logbook.growing.room.power import Draw, LampSet, Worth, per_tray, worth
from logbook.growing.room.shelf_past import ShelfPast, Use
from logbook.growing.room.tariffs import Tariff
from logbook.growing.room.tray_uses import TrayUse, tray_uses
from logbook.growing.step_functions import gaps
from logbook.growing.trays.tray_now import TrayNow
from logbook.growing.wall_hours import WallHours
from logbook.store.reads.batches import batches_cut_last, first_sowings
from logbook.store.reads.lamps import read_tariffs
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, plural

BATCHES = 12
PERIOD_DAYS = 30
MEASURED_WITHIN = 1 / 60
"""Lit hours without a survey up to this are the time that a tray takes to be carried."""


@dataclass(frozen=True, slots=True)
class ShelfBill:
    """A shelf's lamps and what they cost: of a whole day today, and of the period before now.

    `period` is what a meter of the shelf would show: what its trays pay, and what was lit over
    covered or empty slots alone, `over_no_one`. `trays` are those in a stage of light on it now;
    `tray_days` those of the period.
    """

    keys: ClassVar = """
        place=place.path watts=draw.watts volt_amps=draw.volt_amps
        power_factor=draw.power_factor hours=hours.words kwh_per_day=today.known.kwh
        cost_per_day=today.known.known_cost trays_in_light=trays cost_per_tray_today period over_no_one
        tray_days cost_per_tray_day
    """

    place: Place
    lamps: LampSet | None
    hours: WallHours | None
    today: Use
    period: Use
    over_no_one: Use
    trays: int
    tray_days: float

    @property
    def draw(self) -> Draw | None:
        """What its lamps draw; None when no lamps are known."""
        return self.lamps.draw if self.lamps is not None else None

    @property
    def cost_per_tray_today(self) -> Decimal | None:
        """What a tray on it costs today; None with no tray in the light."""
        cost = self.today.bill.known_cost
        return None if cost is None else per_tray(cost, self.trays)

    @property
    def cost_per_tray_day(self) -> Decimal | None:
        """What a tray-day cost its tray in the period; None when there was none."""
        if self.period.bill.known_cost is None:
            return None
        paid = max(Decimal(0), self.period.bill.cost - self.over_no_one.bill.cost)
        return paid / exact(self.tray_days) if self.tray_days > 0 else None


@dataclass(frozen=True, slots=True)
class BatchBill:
    """What a batch's trays used and gave.

    `mol` is what fell on all its trays where that was measured, `unmeasured_hours` the most lit
    hours that no survey covers on one of them. `worth` is of the trays that are cut or discarded,
    `growing` are the others; it is None-filled where nothing was cut or light was not measured
    throughout.
    """

    keys: ClassVar = """
        batch crop trays ended_at=ended grams currency=money.code *use mol=known_mol
        mol_m2_per_tray=known_mol_m2 growing
        grams_per_kwh=worth.grams_per_kwh grams_per_mol=worth.grams_per_mol
        cost_per_100_g=worth.cost_per_100_g
    """

    batch: BatchNumber
    crop: str
    trays: int
    ended: datetime | None
    grams: float
    use: Use
    mol: float
    """Light on its trays, mol."""
    unmeasured_hours: float
    worth: Worth
    money: Currency
    mol_m2_per_tray: float = 0.0
    growing: int = 0
    """Trays that still grow; what follows is of the others."""

    @property
    def known_mol(self) -> float | None:
        """Light on its trays, mol; None where none was measured."""
        return self.mol if self.mol or self.unmeasured_hours <= MEASURED_WITHIN else None

    @property
    def known_mol_m2(self) -> float | None:
        """Light on one of its trays, mol m⁻²; None where none was measured."""
        return None if self.known_mol is None else self.mol_m2_per_tray

    @property
    def growing_words(self) -> str:
        """Say how many trays are still to come; '' when all of it is cut or discarded."""
        return (
            f"{self.growing} of {plural(self.trays, 'tray')} still growing" if self.growing else ""
        )

    @property
    def unmeasured_words(self) -> str:
        """Say for how many lit hours its light is not known; '' where it was measured throughout."""
        if self.unmeasured_hours <= MEASURED_WITHIN:
            return ""
        most = " of a tray" if self.trays > 1 else ""
        return f"light not measured for {hours_words(self.unmeasured_hours)}{most}"


@dataclass(frozen=True, slots=True)
class Bills:
    """All of it: shelves in walking order, the batches cut last, circuits, tariffs."""

    keys: ClassVar = "days currency=money.code today period over_no_one shelves batches circuits"

    shelves: tuple[ShelfBill, ...]
    batches: tuple[BatchBill, ...]
    circuits: tuple[CircuitView, ...]
    tariffs: tuple[Tariff, ...]
    tariff: Tariff | None
    days: int
    """Days of the period."""
    money: Currency

    @property
    def today(self) -> Use:
        """What all shelves use today."""
        return sum((shelf.today for shelf in self.shelves), Use())

    @property
    def period(self) -> Use:
        """What all shelves used in the period."""
        return sum((shelf.period for shelf in self.shelves), Use())

    @property
    def over_no_one(self) -> Use:
        """What was lit in the period over covered or empty slots alone, in no batch's bill."""
        return sum((shelf.over_no_one for shelf in self.shelves), Use())


def no_one_words(use: Use, money: Currency) -> str:
    """Say what was lit over empty slots, kWh, cost and hours; '' for less than an hour."""
    hours = f"lit {hours_words(use.lit_hours)}"
    return f"over empty slots: {use.bill.brief(money)}, {hours}" if use.lit_hours >= 1 else ""


def bills(book: Book, days: int = PERIOD_DAYS) -> Bills:
    """The bills of today, of the last days, and of the batches that were cut last."""
    if not 1 <= days <= 366:
        raise Refused(f"{days} days? Give 1 to 366.")
    with book.reading() as reading:
        now, pasts, ended = reading.now, shelf_pasts(reading), batches_cut_last(reading, BATCHES)
        known_since = [past.lamps[0][0] for past in pasts.values() if past.lamps]
        begun = min([reading.about.made_at, *known_since])
        start = min(now, max(now - timedelta(days=days), begun))
        costs = Costs(reading, pasts, min([start, *first_sowings(reading, ended)]))
        priced = (one for one in reversed(costs.tariffs) if one.since <= reading.today)
        shelves = [costs.of_shelf(place, start) for place in reading.places.shelves]
        return Bills(
            tuple(each for each in shelves if each.lamps is not None or each.hours is not None),
            tuple(costs.of_batch(batch) for batch in ended), tuple(circuit_views(reading)),
            tuple(costs.tariffs), next(priced, None), days, reading.about.money,
        )  # fmt: skip


def batch_bill(book: Book, batch: int) -> BatchBill:
    """What one batch used and gave up to now; raises Refused when there is no such batch."""
    with book.reading() as reading:
        begun = first_sowings(reading, [batch])
        if not begun:
            raise Refused(f"There is no batch {batch}, or it is not sown yet.")
        return Costs(reading, shelf_pasts(reading), min(begun)).of_batch(batch)


class Costs:
    """The trays that stood in the room since a moment, and what lamps used for them."""

    def __init__(self, reading: Reading, pasts: dict[int, ShelfPast], since: datetime) -> None:
        self.reading, self.pasts = reading, pasts
        self.tariffs = read_tariffs(reading)
        self.lives = lives_since(reading, since)
        self.uses = tray_uses(self.lives, pasts, self.tariffs)

    def of_shelf(self, place: Place, start: datetime) -> ShelfBill:
        """The bill of a shelf: of today, and of the time from start to now."""
        now, past = self.reading.now, self.pasts[place.id]
        zone = self.reading.hours_of(place.id).zone
        lives = (one for life in self.lives.values() for one in life)
        here = [one for one in lives if one.place == place.id and one.lit]
        spans = (min(one.end, now) - max(one.start, start) for one in here)
        alone = gaps(((one.start, one.end) for one in here), start, now)
        day = day_bounds(day_of(now, zone), zone)
        lamps, hours = past.hanging, past.hours_at(now)
        today = ShelfPast(zone, hours, lamps=((day[0], lamps),) if lamps is not None else ())
        return ShelfBill(
            place, lamps, hours, today.use(*day, self.tariffs), past.use(start, now, self.tariffs),
            sum((past.use(*span, self.tariffs) for span in alone), Use()),
            sum(one.start <= now <= one.end and one.end == now for one in here),
            sum(max(0.0, span.total_seconds()) for span in spans) / DAY,
        )  # fmt: skip

    def of_batch(self, batch: int) -> BatchBill:
        """The bill of a batch whose trays are among those known."""
        known = self.reading.folded(read_trays_of_batch(self.reading, batch))
        mine = [self._of(each) for each in known]
        ends = [each.state.ended_at for each in known if each.state.ended_at is not None]
        done = [each for each in known if each.state.ended_at is not None]
        return BatchBill(
            batch, known[0].template.label(), len(known),
            max(ends, default=None) if len(done) == len(known) else None,
            sum(each.state.grams or 0.0 for each in known), sum((one.use for one in mine), Use()),
            self._mol(known), max((one.unmeasured_hours for one in mine), default=0.0),
            self._worth(done), self.reading.about.money,
            sum(one.mol_m2 for one in mine) / len(mine), len(known) - len(done),
        )  # fmt: skip

    def _of(self, tray: TrayNow) -> TrayUse:
        """What a tray had; nothing where it was sown this very moment."""
        return self.uses.get(tray.id, TrayUse())

    def _mol(self, known: Sequence[TrayNow]) -> float:
        """What fell on trays, mol, over their areas."""
        return sum(
            self._of(each).mol_m2 * each.template.tray[0] * each.template.tray[1] / 1e6
            for each in known
        )

    def _worth(self, done: Sequence[TrayNow]) -> Worth:
        """What trays gave for their light; they are cut or discarded, none still growing."""
        mine = [self._of(each) for each in done]
        use = sum((one.use for one in mine), Use())
        measured = all(one.unmeasured_hours <= MEASURED_WITHIN for one in mine)
        whole = all(one.use.unknown_hours < 1 for one in mine) and use.bill.kwh > 0
        return worth(
            sum(each.state.grams or 0.0 for each in done),
            kwh_used=use.bill.kwh if whole else None,
            mol=self._mol(done) if measured else None,
            cost=use.bill.cost if whole and use.bill.unpriced_kwh <= 0 else None,
        )
