"""Which seed lots a sowing draws on: as chosen, else the bag that was bought first."""

from collections.abc import Sequence

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.actions.trays.done import Numbers, batch_of
from logbook.actions.trays.lots import lots_named, planned_lots
from logbook.growing.crops.seed_lots import SeedLot, lots_words, plain
from logbook.growing.measures import grams_words
from logbook.growing.seed.bags import TREATED, LotStock, first_in_first_out
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.seed import read_bags
from logbook.text import Refused, fold
from logbook.ways import Way

NO_LOT = "none"
"""What is written for a sowing of which no lot is to be kept."""
A_LITTLE = 1.02
"""So many times what is left may be drawn unasked: a scale and a hand are no better."""

Drawn = tuple[tuple[SeedLot, ...], tuple[str, ...]]
"""The lots of a sowing, and what to say of them, a sentence each."""


def lots_drawn(
    reading: Reading, text: str, crop: str, grams: float | None, *, now: bool = True
) -> Drawn:
    """The lots that trays of a crop draw on, `grams` in all; nothing is taken yet unless `now`.

    Raises Refused as lots_named() does.
    """
    if fold(text) == NO_LOT:
        return (), ()
    if text.strip():
        lots, said = lots_named(reading, text)
        _refuse_held(reading, lots)
        return lots, (*said, *_odd(reading, lots, grams)) if now else said
    if not now or not any(read_bags(reading)):
        return (), ()
    return _oldest(reading, crop, grams)


def _refuse_held(reading: Reading, lots: Sequence[SeedLot]) -> None:
    for each in lots:
        if (hold := reading.holds.of_seed(each.lot)) is not None:
            raise Refused(
                f"Seed lot {each.lot} is on hold ({hold.why}); sow from another, or release it: "
                f"{Way.RELEASE.of(hold.code)}.",
                "lot",
            )


def _oldest(reading: Reading, crop: str, grams: float | None) -> Drawn:
    stock = lots_in_stock(reading, crop)
    held = [
        each
        for each in first_in_first_out(stock)
        if not each.treated and not reading.holds.of_seed(each.lot)
    ]
    taken, rest = list[SeedLot](), grams or 0.0
    for each in held:
        left = each.left_grams or 0.0
        last = each is held[-1] or rest <= left * A_LITTLE
        part = rest if last else left
        taken.append(SeedLot(each.lot, round(part, 2) if grams and (taken or not last) else None))
        rest -= part
        if last:
            break
    if not taken:
        return (), ()
    told = lots_words(taken, reading.units)
    return tuple(taken), (
        f"Seed lot {told} is used, as the oldest bag; name another if it was a different bag.",
        *_odd(reading, taken, grams, held),
    )


def _odd(
    reading: Reading, lots: Sequence[SeedLot], grams: float | None, held: Sequence[LotStock] = ()
) -> list[str]:
    """What to ask of lots that hold less than is drawn from them, or must not be eaten."""
    if not held and not any(read_bags(reading)):
        return []
    said, units = list[str](), reading.units
    for lot in lots:
        known = [each for each in held if plain(each.lot) == plain(lot.lot)]
        stock = next(iter(known or lots_in_stock(reading, only=[lot.lot])), None)
        if stock is None:
            continue
        if stock.treated:
            said.append(f"Seed lot {lot.lot} is treated: {TREATED}.")
        takes = lot.grams if lot.grams is not None else grams and grams / len(lots)
        left = stock.left_grams
        if left is None or not takes or takes <= max(left, 0.0) * A_LITTLE:
            continue
        has, wants = grams_words(max(left, 0.0), units), grams_words(takes, units)
        said.append(
            f"Seed lot {lot.lot} has {has} left and this takes {wants}: is that right? "
            f'Write two bags like "{lot.lot} = {has} + …", or weigh the bag.'
        )
    return said


def seed_of(trays: Sequence[TrayNow]) -> float | None:
    """The dry seed of trays, g; None where that of one is not known."""
    grams = [each.seed_grams for each in trays]
    return None if None in grams else sum(each or 0.0 for each in grams)


def lots_of(book: Book, numbers: Numbers) -> str:
    """The seed lots that planned trays draw on, as they are written: as planned, else bought first."""
    with book.reading() as reading:
        trays = reading.trays(numbers)
        if batch_of(trays) is None:
            return ""
        lots = planned_lots(reading, trays)
        if not lots and any(read_bags(reading)):
            lots, _ = _oldest(reading, trays[0].crop, seed_of(trays))
        return lots_words(lots, reading.units)
