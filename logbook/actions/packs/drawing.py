"""From which lots packs come: the oldest first, as long as they are within best before and not on hold."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from math import ceil, floor

from logbook.actions.orders.wanted import crop_names
from logbook.actions.packs.held import held_lot
from logbook.actions.packs.joining import new_lot
from logbook.actions.reading import Reading
from logbook.actions.writing import Act
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import grams_words
from logbook.growing.orders.customer import Customer, Mix
from logbook.growing.packs.lots import LEAST, LotNow
from logbook.store.reads.packs import read_lots_keeping, read_lots_now
from logbook.text import Refused, listed
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class Parcel:
    """Packs of a crop (template id) or a mix for a customer's delivery of a day; live trays without a size."""

    customer: Customer
    name: str
    template: int | None
    mix: Mix | None
    packs: int
    pack_grams: float | None
    day: date
    order: int | None = None
    """The order that they are of; None for what nobody ordered before."""

    @property
    def grams(self) -> float:
        """What they weigh in all."""
        return self.packs * (self.pack_grams or 0.0)


@dataclass
class Drawn:
    """What was drawn: cut g by lot in their order, and what no lot had."""

    grams: dict[int, float] = field(default_factory=dict)
    lots: dict[int, LotNow] = field(default_factory=dict)
    lacking: float = 0.0


def in_store(reading: Reading, day: date) -> list[LotNow]:
    """The lots of which something is left and that are best before a day or later, the oldest first."""
    lots = read_lots_now(reading, read_lots_keeping(reading, day))
    found = [each for each in lots if each.in_store]
    return sorted(found, key=lambda each: (each.lot.best_before, each.lot.packed_on, each.lot.id))


def draw_from(lots: Iterable[LotNow], grams: float) -> Drawn:
    """Take so many cut g from lots, one after another."""
    drawn = Drawn(lacking=grams)
    for lot in lots:
        if drawn.lacking < LEAST:
            break
        gone = min(lot.grams_left, drawn.lacking)
        drawn.grams[lot.lot.id], drawn.lots[lot.lot.id] = gone, lot
        drawn.lacking -= gone
    if drawn.lacking < LEAST:
        if drawn.lots:
            drawn.grams[next(reversed(drawn.grams))] += drawn.lacking
        drawn.lacking = 0.0
    return drawn


def free_lots(reading: Reading, day: date, when: datetime) -> list[LotNow]:
    """What may go out for a delivery of a day: in_store(), but for lots on hold, and later than `when`."""
    until = day_of(when, reading.zone)
    return [
        each for each in in_store(reading, day)
        if each.lot.packed_on <= until and not held_lot(reading, each)
    ]  # fmt: skip


def check_lot(reading: Reading, lot: LotNow, parcel: Parcel) -> None:
    """Raise Refused where packs can't come from a lot that somebody named."""
    one, crops = lot.lot, crop_names(reading)
    if (one.template, one.mix) != (parcel.template, parcel.mix and parcel.mix.id):
        of = crops[one.template] if one.template else "another mix"
        raise Refused(f"Lot {one.code} is of {of}, not of {parcel.name}.", "lot")
    if held := held_lot(reading, lot):
        raise Refused(f"Lot {one.code} is on hold ({held.words}). {Way.RELEASE} lets it go.", "lot")
    if one.best_before < parcel.day:
        best = day_words(one.best_before, reading.today)
        day = day_words(parcel.day, reading.today)
        raise Refused(f"Lot {one.code} is best before {best}; it can't go out on {day}.", "lot")
    cut = parcel.grams / reading.about.kept
    if cut - lot.grams_left >= LEAST:
        left = grams_words(max(0.0, lot.grams_left), reading.units)
        raise Refused(
            f"Lot {one.code} has {left} left, and that takes {grams_words(cut, reading.units)}. "
            "Take fewer packs, or correct its weights.",
            "packs",
        )


def despatch_packs(
    act: Act, entry: int, parcel: Parcel, when: datetime, lot: LotNow | None
) -> tuple[str, str]:
    """Write from which lots the packs of a tick come; returns these in words, and what none has.

    A mix comes from what is packed of it, and for the rest from its crops, which then are a lot of
    their own. What no lot has is said, and stays without one.
    """
    reading = act.reading
    if lot:
        check_lot(reading, lot, parcel)
    free = [lot] if lot else free_lots(reading, parcel.day, when)
    kept = reading.about.kept
    cut = parcel.grams / kept
    mix = parcel.mix and parcel.mix.id
    drawn = draw_from(
        (each for each in free if (each.lot.template, each.lot.mix) == (parcel.template, mix)), cut
    )
    codes = {each.lot.id: each.lot.code for each in drawn.lots.values()}
    if parcel.mix and drawn.lacking and not lot:
        made = mix_lot(act, entry, parcel.mix, drawn.lacking, free, when)
        if made:
            codes[entry], drawn.grams[entry] = made[:2]
            drawn.lacking = max(0.0, drawn.lacking - made[1])
    _write_packed(act, entry, drawn.grams, parcel.grams / parcel.packs / kept)
    lots = f"lot {listed(list(codes.values()))}" if codes else ""
    if drawn.lacking < LEAST:
        return lots, ""
    lacking = grams_words(drawn.lacking * kept, reading.units)
    held = _held_words(reading, parcel)
    return lots, f"{parcel.name}: {lacking} comes from no pack lot in the book.{held}"


def _held_words(reading: Reading, parcel: Parcel) -> str:
    """Which lots of the same are left out of it, for they are on hold; '' for none."""
    crops = {parcel.template} if parcel.mix is None else parcel.mix.shares.keys()
    held = [
        f"{each.lot.code} is on hold ({hold.words})"
        for each in in_store(reading, parcel.day)
        if each.lot.template in crops or (parcel.mix and each.lot.mix == parcel.mix.id)
        if (hold := held_lot(reading, each))
    ]
    return f" {listed(held, most=3)}: pack none of it." if held else ""


def _write_packed(act: Act, entry: int, grams: Mapping[int, float], each_pack: float) -> None:
    """Packs are filled one after another, so a pack may hold something of two lots."""
    start, rows = 0.0, []
    for lot, gone in grams.items():
        first, last = (round(at / each_pack, 6) for at in (start, start + gone))
        rows.append({"lot_id": lot, "packs": max(1, ceil(last) - floor(first)), "grams": gone})
        start += gone
    act.put("packed_lot", entry, rows)


def mix_lot(
    act: Act, entry: int, mix: Mix, grams: float, free: Collection[LotNow], when: datetime
) -> tuple[str, float, list[str]] | None:
    """Write that an entry mixes a lot of so many cut g from its crops' lots; returns its code, g and lots.

    Where a crop has too little it is of the others alone; None where no crop has anything.
    """
    reading, taken = act.reading, dict[int, float]()
    lots = list[LotNow]()
    for template, share in mix.shares.items():
        drawn = draw_from((each for each in free if each.lot.template == template), grams * share)
        taken |= drawn.grams
        lots += drawn.lots.values()
    if not lots:
        return None
    day = day_of(when, reading.zone)
    keeps = min(each.lot.best_before for each in lots) - day
    code = new_lot(act, day, mix.name, keeps=keeps, mix=mix.id, entry=entry).code
    rows = ({"from_lot_id": lot, "grams": gone} for lot, gone in taken.items())
    act.put("lot_part", entry, rows)
    return code, sum(taken.values()), [each.lot.code for each in lots]
