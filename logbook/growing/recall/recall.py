"""A recall: whom to call for what, what is in the cold store and what still grows of it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.packs.trace import MayHaveGot
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import plural


@dataclass(frozen=True, slots=True)
class CalledLot:
    """A pack lot that is called back, all of it, whatever else went into it."""

    keys: ClassVar = "lot=code crop packed_on best_before grams_out grams_stock on_hold"

    id: int
    code: str
    crop: str
    packed_on: date
    best_before: date
    grams_out: float
    """What customers got of it."""
    grams_stock: float
    """What is left of it."""
    on_hold: str
    """What is on hold of it, and why; empty where it may go out."""


@dataclass(frozen=True, slots=True)
class CalledPacks:
    """Packs of a lot that a customer got on a day."""

    keys: ClassVar = """
        lot=lot.code crop=lot.crop packed_on=lot.packed_on best_before=lot.best_before day packs grams
        called_grams share
    """

    lot: CalledLot
    day: date
    packs: int
    grams: float | None
    """Null for live trays."""
    called_grams: float
    """What is called back in them, as a trace counts it: in proportion, less what came back; 0 of live trays."""
    share: float
    """How much of these packs that is: 1 where the lot is of nothing else."""

    @property
    def pure(self) -> bool:
        """Whether the lot is of nothing else."""
        return self.share >= 0.995

    @property
    def sure(self) -> str:
        """How sure it is that some of it is in them: "all of it", "about 40 % of it"."""
        if self.pure:
            return "all of it"
        percent = 100 * self.share
        return "less than 1 % of it" if percent < 1 else f"about {percent:.0f} % of it"

    def amount(self, units: Units) -> str:
        """Say how much: "6 packs, 300 g", "2 live trays"."""
        if self.grams is None:
            return plural(self.packs, "live tray")
        return f"{plural(self.packs, 'pack')}, {grams_words(self.grams, units)}"

    def words(self, units: Units) -> str:
        """Say what it is: "lot 261128-DAI-1, daikon, 6 packs, 300 g, delivered Fri 27 Nov"."""
        return (
            f"lot {self.lot.code}, {self.lot.crop}, {self.amount(units)}, "
            f"delivered {day_words(self.day)}, best before {day_words(self.lot.best_before)}"
        )


@dataclass(frozen=True, slots=True)
class CalledCustomer:
    """A customer who got packs that are called back."""

    keys: ClassVar = "customer=name contact packs grams called_grams deliveries"

    name: str
    contact: str
    deliveries: tuple[CalledPacks, ...]
    may: tuple[MayHaveGot, ...] = ()
    """What they may have got besides."""

    @property
    def packs(self) -> int:
        """All packs, and live trays."""
        return sum(each.packs for each in self.deliveries)

    @property
    def grams(self) -> float:
        """All of them, g; live trays weigh nothing here."""
        return sum(each.grams or 0.0 for each in self.deliveries)

    @property
    def called_grams(self) -> float:
        """What is called back in them."""
        return sum(each.called_grams for each in self.deliveries)


@dataclass(frozen=True, slots=True)
class CalledRow:
    """A delivery of which all, some or perhaps some is called back, as a row of a file."""

    keys: ClassVar = """
        customer contact lot crop packed_on best_before day packs grams called_grams share sure
    """

    customer: str
    contact: str
    crop: str
    day: date
    packs: int
    sure: str
    lot: str = ""
    packed_on: date | None = None
    best_before: date | None = None
    grams: float | None = None
    called_grams: float | None = None
    share: float | None = None


@dataclass(frozen=True, slots=True)
class Recall:
    """What a recall reaches. Weights of the sums are cut grams of what is called back, mixes in proportion."""

    keys: ClassVar = """
        recall=name at customers may_have_got lots trays
        grams_in grams_out grams_stock grams_waste grams_unaccounted
    """

    name: str
    """What it begins at."""
    at: datetime
    customers: tuple[CalledCustomer, ...]
    lots: tuple[CalledLot, ...]
    trays: tuple[TrayNow, ...]
    """Trays of it that are planned or grow."""
    grams_in: float
    grams_out: float
    grams_stock: float
    grams_waste: float
    grams_unaccounted: float
    """Cut and in no pack lot: the book doesn't know where it went."""
    may_have_got: tuple[MayHaveGot, ...] = ()
    """Who may have got what is in no pack lot."""

    @property
    def everybody(self) -> Iterator[CalledCustomer]:
        """All who got some, then those who may have got some and nothing else."""
        known = {each.name: each for each in self.customers}
        for each in self.may_have_got:
            known.setdefault(each.customer, CalledCustomer(each.customer, each.contact, ()))
        for name, one in known.items():
            mine = (each for each in self.may_have_got if each.customer == name)
            yield replace(one, may=tuple(mine))

    @property
    def rows(self) -> Iterator[CalledRow]:
        """Every delivery that is called back, or may be."""
        for one in self.everybody:
            for each in one.deliveries:
                lot = each.lot
                yield CalledRow(
                    one.name, one.contact, lot.crop, each.day, each.packs, each.sure, lot.code,
                    lot.packed_on, lot.best_before, each.grams, each.called_grams, each.share,
                )  # fmt: skip
            for may in one.may:
                yield CalledRow(
                    one.name, one.contact, may.crop, may.day, may.packs, "perhaps some of it"
                )

    @property
    def cold(self) -> tuple[CalledLot, ...]:
        """The lots of which some is left."""
        return tuple(lot for lot in self.lots if lot.grams_stock > 0)


@dataclass(frozen=True, slots=True)
class KeptRecall:
    """A recall that was made or practised, as its entry says."""

    keys: ClassVar = (
        "entry at by note practice recall=code begun seconds customers lots grams unaccounted_grams"
    )

    entry: int
    at: datetime
    """When it was done."""
    by: str
    note: str
    code: str
    practice: bool
    begun: datetime
    customers: int
    lots: int
    grams: float
    """What customers had got."""
    unaccounted_grams: float

    @property
    def seconds(self) -> int:
        """How long it took."""
        return round((self.at - self.begun).total_seconds())

    @property
    def took(self) -> str:
        """How long, in words."""
        return took_words(timedelta(seconds=self.seconds))

    def words(self, units: Units) -> str:
        """Say what it was: "practice from seed lot RA 12: 3 customers, 4 lots, 1.2 kg in 0:42"."""
        kind = "practice" if self.practice else "recall"
        lost = (
            f", {grams_words(self.unaccounted_grams, units)} unaccounted for"
            if self.unaccounted_grams > 0.5
            else ""
        )
        return (
            f"{kind} from {self.code}: {plural(self.customers, 'customer')}, "
            f"{plural(self.lots, 'lot')}, {grams_words(self.grams, units)} in "
            f"{self.took}{lost}"
        )


def took_words(took: timedelta) -> str:
    """How long a recall took: "42 s", "4 min", "1 h 10 min"."""
    seconds = round(took.total_seconds())
    if seconds < 100:
        return f"{seconds} s"
    hours, minutes = divmod(round(seconds / 60), 60)
    return f"{hours} h {minutes} min" if hours else f"{minutes} min"
