"""What leaves the cold store without a customer, what comes back from one, and mixes packed ahead."""

from dataclasses import replace
from datetime import datetime, timedelta

from logbook.actions.book import Book
from logbook.actions.orders.customers import find_customer
from logbook.actions.orders.mixes import mixes_now
from logbook.actions.orders.wanted import crop_names
from logbook.actions.packs.drawing import free_lots, mix_lot
from logbook.actions.packs.joining import find_lot, own_code
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.days import day_words
from logbook.growing.measures import grams_words
from logbook.growing.packs.lots import LEAST, OWN, LotNow
from logbook.growing.quantities import OF_LOT
from logbook.growing.when import parse_day_ahead
from logbook.text import Refused, clean_note, fold, listed


def take_out(
    book: Book, code: str, grams: float | None, why: str, at: datetime | None = None, *,
    note: str = "",
) -> Done:  # fmt: skip
    """Write that so many g of a lot, or all that is left, went out as "waste" or for "own use"."""
    if why not in OWN:
        raise Refused(f"Why does it go out? Say {listed(OWN, joint='or')}.", "why")
    with book.writing() as act:
        lot = find_lot(act.reading, code)
        left = lot.grams_left
        gone = left if grams is None else OF_LOT.checked(grams)
        if gone - left >= LEAST or left < LEAST:
            raise Refused(
                f"Lot {lot.lot.code} has {_weight(act.reading, max(0.0, left))} left.", "grams"
            )
        words = f"{_weight(act.reading, gone)} of lot {lot.lot.code}: {why}"
        entry = _out(act, words, note, at)
        act.put("lot_out", entry, lot_id=lot.lot.id, grams=gone, why=why)
        return done_of(act, f"{words}; {_left(act.reading, lot, -gone)}", ())


def take_back(
    book: Book, customer: str, code: str, grams: float | None, at: datetime | None = None, *, note: str = "",
) -> Done:  # fmt: skip
    """Write that a customer returned so many cut g of a lot, or all that they got of it; it isn't sold again.

    Raises Refused for more than they got.
    """
    with book.writing() as act:
        reading = act.reading
        who, lot = find_customer(reading, customer, gone=True), find_lot(reading, code)
        got = lot.got(who.id)
        back = got if grams is None else OF_LOT.checked(grams)
        if got < LEAST:
            raise Refused(f"{who.name} has nothing of lot {lot.lot.code} to return.", "grams")
        if back - got >= LEAST:
            raise Refused(
                f"{who.name} got {_weight(reading, got)} of lot {lot.lot.code}; no more can come "
                "back.",
                "grams",
            )
        words = f"{who.name} returned {_weight(reading, back)} of lot {lot.lot.code}"
        entry = _out(act, words, note, at)
        act.put(
            "lot_out", entry, lot_id=lot.lot.id, grams=back, why="returned", customer_id=who.id,
        )  # fmt: skip
        return done_of(act, f"{words}: waste, it isn't sold again", ())


def pack_mix(book: Book, mix: str, grams: float, at: datetime | None = None) -> Done:
    """Mix so many g ahead, from the oldest lots of its crops; it is a lot of its own."""
    with book.writing() as act:
        reading, wanted = act.reading, fold(mix)
        found = [each for each in mixes_now(reading).values() if fold(each.name) == wanted]
        if not found:
            raise Refused(f'There is no mix "{mix[:60]}".', "mix")
        when, cut = act.moment(at, "That"), OF_LOT.checked(grams)
        free = free_lots(reading, reading.today, when)
        for template, share in found[0].shares.items():
            has = sum(each.grams_left for each in free if each.lot.template == template)
            if cut * share - has >= LEAST:
                raise Refused(
                    f"That takes {_weight(reading, cut * share)} of "
                    f"{crop_names(reading)[template]}, and "
                    f"the cold store has {_weight(reading, has)}.",
                    "grams",
                )
        entry = act.entry("pack_lot", (), when, note=f"{found[0].name} mixed")
        made = mix_lot(act, entry, found[0], cut, free, when)
        assert made is not None  # noqa: S101 - there is enough of each
        words = (
            f"lot {made[0]}: {_weight(reading, made[1])} {found[0].name}, from {listed(made[2])}"
        )
        return done_of(act, words, ())


KEEPS_AT_MOST = timedelta(days=366)


def change_lot(
    book: Book, code: str, new_code: str = "", best_before: str = "", at: datetime | None = None
) -> Done:
    """Give a lot another code, or another best before; the old code finds it still.

    Raises Refused for a code that another lot has or had, or a best before that is before the packing.
    """
    if not new_code and not best_before:
        raise Refused("What changes? Give another code or best-before day.")
    with book.writing() as act:
        reading = act.reading
        found = find_lot(reading, code)
        lot = after = found.lot
        if new_code:
            after = replace(after, code=own_code(reading, new_code, lot.id))
        if best_before:
            best = parse_day_ahead(best_before, reading.now, reading.zone, lot.packed_on)
            if best < lot.packed_on:
                packed = day_words(lot.packed_on, reading.today)
                raise Refused(
                    f"Lot {lot.code} was packed on {packed}; it can't be best before an earlier "
                    "day.",
                    "best_before",
                )
            if best - lot.packed_on > KEEPS_AT_MOST:
                raise Refused(
                    f"{day_words(best, reading.today)} is more than a year after it was packed; check the date.",
                    "best_before",
                )
            after = replace(after, best_before=best)
        if after == lot:
            raise Refused(f"Lot {lot.code} is like that already; nothing was written.")
        until = day_words(after.best_before, reading.today)
        old = f"before {lot.code}, " if after.code != lot.code else ""
        entry = act.entry(
            "pack_lot", (), act.moment(at, "That"), note=f"{after.code}: {old}best before {until}"
        )
        act.put(
            "pack_lot", entry, lot_id=lot.id, code=after.code, code_key=fold(after.code),
            template_id=lot.template, mix_id=lot.mix, packed_on=lot.packed_on,
            best_before=after.best_before,
        )  # fmt: skip
        gone = f"What went out already has {lot.code} and the old best before on its labels."
        words = f"lot {after.code}: {old}best before {until}"
        return done_of(act, words, (), [gone] if found.packed else [])


def _out(act: Act, words: str, note: str, at: datetime | None) -> int:
    said = ": ".join(filter(None, (words, clean_note(note))))
    return act.entry("lot_out", (), act.moment(at, "That"), note=said)


def _weight(reading: Reading, grams: float) -> str:
    return grams_words(grams, reading.units)


def _left(reading: Reading, lot: LotNow, more: float) -> str:
    left = lot.grams_left + more
    return f"{_weight(reading, left)} left" if left >= LEAST else "nothing left"
