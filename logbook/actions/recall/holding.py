"""Putting a seed lot, a batch, trays or a shelf on hold, and releasing them."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.shortages import Shortages
from logbook.actions.packs.drawing import in_store
from logbook.actions.packs.held import held_lot
from logbook.actions.reading import Reading
from logbook.actions.recall.codes import Meant, meant_by
from logbook.actions.seed.stock import lots_in_stock
from logbook.actions.trays.done import Done, done_of, ids_of, numbers_of
from logbook.actions.writing import Act
from logbook.growing.cautions import LAST_WORD, words_of
from logbook.growing.keys import TrayNumber
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.packs.lots import LotNow
from logbook.growing.recall.holds import Hold, Holds, code_of
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import Refused, clean_reason, listed, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class HoldLine:
    """A hold that is in force, and the trays in use that it covers."""

    keys: ClassVar = "*hold trays=numbers"

    hold: Hold
    numbers: tuple[TrayNumber, ...]


@dataclass(frozen=True, slots=True)
class HoldList:
    """The holds that stand, oldest first."""

    holds: tuple[HoldLine, ...]


def list_holds(book: Book) -> HoldList:
    """The holds that stand, each with the trays that it covers."""
    with book.reading() as reading:
        return HoldList(
            tuple(
                HoldLine(hold, numbers_of(_covered(reading, (hold,))))
                for hold in reading.holds.holds
            )
        )


def _covered(reading: Reading, holds: Sequence[Hold]) -> list[TrayNow]:
    """The trays in use that one of these holds covers."""
    only = Holds(tuple(holds))
    return [tray for tray in reading.live if reading.held(tray, only)]


def hold(book: Book, code: str, why: str, at: datetime | None = None) -> Done:
    """Put what a code means on hold: it leaves round, weigh-in and deliveries until it is released.

    A shelf takes the trays with it that stand on it, wherever they are moved. What is gone already is
    marked all the same, for its number may come back, and that is said. Raises Refused for a code
    that is nothing in the book, or on hold already.
    """
    why = clean_reason(why)
    with book.writing() as act:
        when = act.moment(at, "A hold")
        reading = act.reading
        meant = meant_by(reading, code)
        for each in meant:
            if (known := reading.holds.on(each.on)) is not None:
                raise Refused(
                    f"{_capital(each.name)} is on hold already, since {reading.when(known.at)} "
                    f"({known.why})."
                )
        meant += _on_shelf(reading, meant)
        before = list(reading.live)
        shortages = Shortages(reading, [each for each in before if not each.held])
        for each in meant:
            _write(act, reading, each, why, when)
        after = act.reading
        new = [one for one in after.holds.holds if one.act == act.act_id]
        covered = _covered(after, new)
        cold = [
            each
            for each in in_store(after, after.today)
            if (held := held_lot(after, each)) and held.act == act.act_id
        ]
        notices = [] if cold else _gone(after, meant, covered)
        notices += shortages.made_by(act)
        words = f"on hold: {_names(meant)}{_with(covered, meant)}{_cold(cold, reading.units)}"
        return done_of(act, words, numbers_of(covered),
                       [*notices, words_of("holds and recalls")[0], LAST_WORD])  # fmt: skip


def release(book: Book, code: str, why: str, at: datetime | None = None) -> Done:
    """Let what a code means go on again; a shelf with the trays that were put on hold with it.

    Raises Refused where it is not on hold by itself: the sentence says what would have to be released.
    """
    why = clean_reason(why)
    with book.writing() as act:
        when = act.moment(at, "A release")
        reading = act.reading
        meant, ends = meant_by(reading, code), list[Hold]()
        for each in meant:
            found = [one for one in reading.holds.holds if one.on.same(each.on)]
            if not found:
                raise Refused(_not_held(reading, each))
            ends += found
            if each.on.place_id is not None:
                acts = {one.act for one in found}
                ends += [one for one in reading.holds.holds if one.act in acts and one.on.tray_id]
        covered = _covered(reading, ends)
        for one in ends:
            if when < one.at:
                raise Refused(
                    f"{_capital(one.name)} was put on hold {reading.when(one.at)}; it can't have "
                    "been released before that."
                )
            trays = [tray for tray in covered if reading.held(tray, Holds((one,)))]
            entry = act.entry(
                "release", ids_of(trays), when, note=why, batch=one.on.batch_id,
                place=one.on.place_id,
            )  # fmt: skip
            act.put("hold_end", entry, hold_id=one.entry)
        after = act.reading
        still = [tray for tray in after.live if tray.held and tray.id in ids_of(covered)]
        notices = [
            f"Still on hold: {numbers_words(numbers_of(still))} ({still[0].on_hold})."
        ] if still else []  # fmt: skip
        free = [tray for tray in covered if tray not in still]
        return done_of(act, f"released: {_names(meant)}{_with(free, meant)}", numbers_of(free),
                       notices)  # fmt: skip


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]


def _names(meant: Sequence[Meant]) -> str:
    """What is meant, in few words; a shelf's trays are named after it."""
    trays = [tray.number for each in meant if each.on.tray_id for tray in each.trays]
    if len(trays) == len(meant) > 1:
        return f"trays {numbers_words(trays)}"
    placed = [each.name for each in meant if each.on.place_id]
    return listed(placed or [each.name for each in meant], 8)


def _with(covered: Sequence[TrayNow], meant: Sequence[Meant]) -> str:
    if not covered or all(each.on.tray_id for each in meant):
        return ""
    return f", with {plural(len(covered), 'tray')}: {numbers_words(numbers_of(covered))}"


def _cold(lots: Sequence[LotNow], units: Units) -> str:
    said = [f"{each.lot.code} ({grams_words(each.grams_left, units)})" for each in lots]
    return f"; in the cold store: {listed(said, 8)}" if said else ""


def _on_shelf(reading: Reading, meant: Sequence[Meant]) -> list[Meant]:
    """The trays that stand on a shelf that is meant."""
    places = {each.on.place_id for each in meant} - {None}
    if not places:
        return []
    there = [
        tray
        for tray in reading.live
        if tray.status == "growing" and tray.spot and places & {*tray.spot.walk[1::2]}
    ]
    found = [one for tray in there for one in meant_by(reading, f"tray {tray.number}")]
    return [one for one in found if reading.holds.on(one.on) is None]


def _write(act: Act, reading: Reading, each: Meant, why: str, when: datetime) -> None:
    mine = Hold(0, 0, when, "", why, each.name, each.on)
    trays = each.trays if each.on.place_id is None else ()
    if not each.trays and each.on.seed_lot:
        trays = tuple(_covered(reading, (mine,)))
    entry = act.entry(
        "hold", ids_of(trays), when, note=why, batch=each.on.batch_id, place=each.on.place_id
    )
    act.put("hold", entry, name=each.name, **asdict(each.on))


def _gone(reading: Reading, meant: Sequence[Meant], covered: Sequence[TrayNow]) -> list[str]:
    """Say of what is gone that the hold is a mark only."""
    first = meant[0]
    if covered or first.on.place_id is not None:
        return []
    seed = lots_in_stock(reading, only=[first.on.seed_lot])[0] if first.on.seed_lot else None
    if seed is not None and not seed.empty and seed.left_grams:
        left = grams_words(seed.left_grams, reading.units)
        return [f"None of it is growing; its {left} of seed can't be sown until it is released."]
    who = Way.RECALL.of(code_of(first.name))
    return [
        (
            f"None of {_names(meant)} is growing or in the cold store. The hold marks it; {who} "
            "shows who has it."
        )
    ]


def _not_held(reading: Reading, each: Meant) -> str:
    over = [tray.held for tray in reading.live if tray.held and tray.id in ids_of(each.trays)]
    if over:
        return f"{_capital(each.name)} is on hold with {over[0].name}; release that."
    names = [one.name for one in reading.holds.holds]
    known = f" On hold: {listed(names, 8)}." if names else " Nothing is on hold."
    return f"{_capital(each.name)} is not on hold.{known}"
