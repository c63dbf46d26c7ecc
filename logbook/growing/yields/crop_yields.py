"""What trays yielded: by crop, batch or group, by tray, slot-day, gram of seed and lit kWh."""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from operator import attrgetter
from typing import Annotated, Any, ClassVar, TypeVar

from logbook.growing.crops.luck import batch_weights
from logbook.growing.crops.luck_parts import spread_parts, trays_differ
from logbook.growing.keys import LEFT_OUT, BatchNumber, TrayNumber
from logbook.growing.measures import GRAMS, Units, weighing
from logbook.growing.numbers import name_words
from logbook.growing.table import Column
from logbook.growing.yields.sold import Sold
from logbook.growing.yields.trays import GoneTray
from logbook.text import listed, plural

Key = TypeVar("Key")
_SEASONS = ("winter", "spring", "summer", "autumn")
PER: Mapping[str, Callable[[GoneTray], str]] = {
    "version": lambda one: f"version {one.template.version}",
    "shelf": lambda one: one.place or "no shelf",
    "season": lambda one: _season(one.sown_at),
    "lot": lambda one: one.lot or "no lot",
    "person": lambda one: one.person or "no initials",
}
"""What the trays of a crop may be parted by, and the group that a tray is in."""


def _season(at: datetime | None) -> str:
    """By the month of the sowing, as meteorologists count them in the north."""
    return "not known" if at is None else f"{_SEASONS[at.month % 12 // 3]} {at.year}"


@dataclass(frozen=True, slots=True)
class Lost:
    """How many trays were discarded for a reason."""

    why: str
    trays: int


@dataclass(frozen=True, slots=True)
class Yield:
    """What some trays gave that have left the rack; None where it is not known.

    Per tray sown, losses count as 0 g; trays that were cut and not weighed, or sold live, are left out
    of grams.
    """

    trays_sown: int
    trays_cut: int
    lost: tuple[Lost, ...]
    trays_unweighed: int
    trays_sold_live: int
    first_grams: float
    further_grams: float
    regrown_grams: float
    grams_per_tray_sown: float | None
    grams_per_tray_cut: float | None
    grams_per_gram_seed: float | None
    grams_per_kwh: float | None
    grams_per_slot_day: float | None
    days_to_cut: float | None
    sold: Sold | None
    """What of it was packed and sold; None where nothing is known of that."""

    @property
    def trays_lost(self) -> int:
        """Trays that were discarded."""
        return sum(each.trays for each in self.lost)

    @property
    def other_words(self) -> str:
        """Say how many trays are in no grams, and why: "2 trays not weighed, 1 sold live"; '' for none."""
        said = ((self.trays_unweighed, "not weighed"), (self.trays_sold_live, "sold live"))
        return ", ".join(f"{plural(trays, 'tray')} {how}" for trays, how in said if trays)

    @property
    def grams(self) -> float:
        """All that was cut, g."""
        return self.first_grams + self.further_grams + self.regrown_grams

    @property
    def lost_words(self) -> str:
        """Say what was lost and why: "3 mould, 1 dropped"."""
        return listed([f"{one.trays} {one.why}" for one in self.lost], most=3, joint="and")


def figures(trays: Sequence[GoneTray], stack: int) -> dict[str, Any]:
    """The figures of a Yield by their names."""
    known = [(grams, one) for one in trays if (grams := one.grams) is not None]
    weighed = [grams for grams, one in known if not one.lost and not one.sold_live]
    cut = [one for one in trays if not one.lost and not one.sold_live]

    def by(of: Callable[[GoneTray], float | None]) -> float | None:
        """Grams by something else, over the trays of which both are known."""
        both = [(grams, each) for grams, one in known if (each := of(one)) is not None]
        whole = math.fsum(each for _, each in both)
        return math.fsum(grams for grams, _ in both) / whole if whole > 0 else None

    days = [each for one in cut if (each := one.days_to_cut) is not None]
    sold = [one.sold for one in trays if one.sold is not None]
    why = Counter(one.lost for one in trays if one.lost)
    live = sum(one.sold_live for one in trays)
    return {
        "trays_sown": len(trays), "trays_cut": len(cut),
        "lost": tuple(Lost(*each) for each in why.most_common()),
        "trays_unweighed": len(trays) - len(known) - live,
        "trays_sold_live": live,
        "first_grams": math.fsum(one.first_grams or 0.0 for _, one in known),
        "further_grams": math.fsum(one.further_grams for _, one in known),
        "regrown_grams": math.fsum(one.regrown_grams for _, one in known),
        "grams_per_tray_sown":
            math.fsum(grams for grams, _ in known) / len(known) if known else None,
        "grams_per_tray_cut": math.fsum(weighed) / len(weighed) if weighed else None,
        "grams_per_gram_seed": by(attrgetter("seed_grams")),
        "grams_per_kwh": by(attrgetter("kwh")),
        "grams_per_slot_day": by(lambda one: one.slot_days(stack)),
        "days_to_cut": math.fsum(days) / len(days) if days else None,
        "sold": sum(sold, Sold()) if sold else None,
    }  # fmt: skip


@dataclass(frozen=True, slots=True)
class CropYield(Yield):
    """A crop's yield, or that of one of its groups, with how far batches and trays are apart."""

    keys: ClassVar = """
        crop group batches trays_sown trays_cut trays_lost lost trays_unweighed trays_sold_live grams_per_tray_sown
        grams_per_tray_cut batch_sd tray_sd grams_per_gram_seed grams_per_kwh grams_per_slot_day
        days_to_cut first_grams further_grams regrown_grams into_lots_grams=sold.cut packed_grams=sold.packed sold_grams=sold.sold wasted_grams=sold.wasted
    """

    crop: str = ""
    group: Annotated[str, LEFT_OUT] = ""
    batches: int = 0
    batch_sd: float | None = None
    """How far batches are apart, g: one standard deviation; None for one batch."""
    tray_sd: float | None = None
    """How far trays of a batch are apart, g: one standard deviation."""

    @property
    def name(self) -> str:
        """The crop, or the group where it is parted."""
        return f"{self.crop}: {self.group}" if self.group else self.crop


@dataclass(frozen=True, slots=True)
class BatchYield(Yield):
    """A batch's yield."""

    keys: ClassVar = """
        batch crop sown_at ended_at trays_sown trays_cut trays_lost lost trays_unweighed trays_sold_live
        grams_per_tray_sown grams_per_tray_cut grams_per_gram_seed grams_per_kwh grams_per_slot_day
        days_to_cut first_grams further_grams regrown_grams into_lots_grams=sold.cut packed_grams=sold.packed
        sold_grams=sold.sold wasted_grams=sold.wasted unusual
    """

    batch: BatchNumber = 0
    crop: str = ""
    sown_at: datetime | None = None
    ended_at: datetime | None = None
    unusual: str = ""
    """Says that it gave less than is usual, and by how much; '' where it did not."""

    @property
    def name(self) -> str:
        """Its crop and number."""
        return f"{self.crop} {self.batch}"


@dataclass(frozen=True, slots=True)
class TrayYield(Yield):
    """A tray's yield; what is by tray is of it alone."""

    keys: ClassVar = """
        tray crop batch sown_at ended_at trays_cut trays_lost lost trays_unweighed trays_sold_live
        grams_per_tray_sown grams_per_gram_seed grams_per_kwh grams_per_slot_day days_to_cut
        first_grams further_grams regrown_grams into_lots_grams=sold.cut packed_grams=sold.packed sold_grams=sold.sold
        wasted_grams=sold.wasted
    """

    tray: TrayNumber = 0
    """What it is called by."""
    batch: BatchNumber = 0
    crop: str = ""
    sown_at: datetime | None = None
    ended_at: datetime | None = None

    @property
    def name(self) -> str:
        """Its number."""
        return name_words(self.tray)


Shown = CropYield | BatchYield | TrayYield


def crop_yields(trays: Sequence[GoneTray], stack: int, per: str = "") -> list[CropYield]:
    """The yield of each crop, or of each of its groups, the least per slot-day first."""
    part = PER[per] if per else lambda _: ""
    found = []
    for (crop, group), mine in _by(trays, lambda one: (one.crop, part(one))).items():
        batch_sd, tray_sd = spreads(mine)
        found.append(
            CropYield(
                **figures(mine, stack), crop=crop, group=group,
                batches=len({one.batch for one in mine}), batch_sd=batch_sd, tray_sd=tray_sd,
            )
        )  # fmt: skip
    return sorted(found, key=lambda one: (one.grams_per_slot_day or 0.0, one.name))


def batch_yields(trays: Sequence[GoneTray], stack: int) -> list[BatchYield]:
    """The yield of each batch, the one that left the rack last first."""
    found = [
        BatchYield(
            **figures(mine, stack), batch=batch, crop=mine[0].crop, sown_at=mine[0].sown_at,
            ended_at=max(one.ended_at for one in mine),
        )
        for batch, mine in _by(trays, lambda one: one.batch).items()
    ]  # fmt: skip
    return sorted(found, key=lambda one: (one.ended_at, one.batch), reverse=True)


def tray_yields(trays: Iterable[GoneTray], stack: int, names: Mapping[int, int]) -> list[TrayYield]:
    """The yield of each tray, by what each (id) is called by, in the order of that."""
    found = [
        TrayYield(
            **figures([one], stack), tray=names[one.tray], batch=one.batch, crop=one.crop,
            sown_at=one.sown_at, ended_at=one.ended_at,
        )
        for one in trays
    ]  # fmt: skip
    return sorted(found, key=lambda one: one.tray)


def spreads(trays: Iterable[GoneTray]) -> tuple[float | None, float | None]:
    """How far batches, and trays of a batch, are apart in g (SD); None where it can't be told."""
    own = batch_weights(
        (one.batch, one.grams, one.shared) for one in trays if one.grams and not one.lost
    )
    df = sum(each.df for each in own)
    if len(own) > 1 and df:
        _, batch, tray = spread_parts(own) if trays_differ(own) else (0.0, 0.0, 0.0)
        return batch, tray
    within = math.sqrt(math.fsum(each.squares for each in own) / df) if df else None
    return None, within


def _by(trays: Iterable[GoneTray], key: Callable[[GoneTray], Key]) -> dict[Key, list[GoneTray]]:
    found: dict[Key, list[GoneTray]] = {}
    for one in trays:
        found.setdefault(key(one), []).append(one)
    return found


def _figure(value: float | None, digits: int = 1) -> str:
    return "" if value is None else f"{value:.{digits}f}"


def yield_columns(name: str, units: Units) -> tuple[Column[Any], ...]:
    """A crop, a group, a batch or a tray a row; `name` is the head of the first column."""
    of = weighing(units)

    def grams(get: Callable[[Shown], float | None], digits: int = 0) -> Callable[[Shown], str]:
        def write(one: Shown) -> str:
            value = get(one)
            if value is None:
                return ""
            return _figure(value / GRAMS[of.unit], digits + (1 if units == "us" else 0))

        return write

    columns: tuple[Column[Any], ...] = (
        Column(name, lambda one: one.name, right=False),
        Column("trays", lambda one: str(one.trays_sown), spare=1),
        Column("lost", lambda one: str(one.trays_lost or ""), spare=2),
        Column("sown", grams(lambda one: one.grams_per_tray_sown), f"{of.unit}/tray"),
        Column("cut", grams(lambda one: one.grams_per_tray_cut), f"{of.unit}/tray", spare=3),
        Column("slots", grams(lambda one: one.grams_per_slot_day, 1), f"{of.unit}/slot-day"),
        Column(
            "seed", lambda one: _figure(one.grams_per_gram_seed), f"{of.unit}/{of.unit}", spare=4
        ),
        Column("light", grams(lambda one: one.grams_per_kwh), f"{of.unit}/kWh", spare=5),
        Column("to cut", lambda one: _figure(one.days_to_cut), "days", spare=4),
        Column("batch SD", grams(lambda one: getattr(one, "batch_sd", None)), of.unit, spare=6),
        Column("tray SD", grams(lambda one: getattr(one, "tray_sd", None)), of.unit, spare=6),
        Column(
            "packed",
            lambda one: _figure(one.sold and one.sold.percent(one.sold.packed), 0),
            "%",
            spare=6,
        ),
        Column(
            "sold",
            lambda one: _figure(one.sold and one.sold.percent(one.sold.sold), 0),
            "%",
            spare=6,
        ),
        Column("again", grams(lambda one: one.regrown_grams or None), of.unit, spare=7),
    )
    of_many = ("trays", "cut", "batch SD", "tray SD")
    return columns if name != "tray" else tuple(one for one in columns if one.head not in of_many)
