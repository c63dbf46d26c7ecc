"""What a trace begins at: which seed lots, batch, tray or packs a code means."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from logbook.actions.reading import Reading
from logbook.actions.trays.named import trays_named
from logbook.growing.crops.seed_lots import like, plain
from logbook.growing.days import day_of, day_words
from logbook.growing.numbers import name_words, names_trays, on_day, parse_numbers
from logbook.growing.packs.flow import Node, What
from logbook.growing.trays.tray_now import TrayNow
from logbook.growing.when import parse_day
from logbook.store.reads.lots import read_lot_names, spellings
from logbook.store.reads.orders import read_customers
from logbook.store.reads.packs import lots_of_code, read_lots
from logbook.store.reads.seed import read_bag_names, read_bags
from logbook.store.reads.trace import Unlotted, packed_on, trays_of_batches
from logbook.text import Refused, fold, listed, nearest

NEWEST = 8
MOST_DIGITS = 15


@dataclass(frozen=True, slots=True)
class Root:
    """What a code means."""

    what: What | Literal["supplier", "customer"]
    code: str
    """As the book has it; of a seed lot as it was asked for."""
    nodes: tuple[Node, ...]
    alike: tuple[str, ...] = ()
    """Of a seed lot: spellings that may be of another bag, and are followed too."""
    unlotted: tuple[Unlotted, ...] = ()
    """Of a customer and a day: packs of which no lot is written."""

    @property
    def several(self) -> bool:
        """Whether it is a name for nodes that are told one by one: bags of a supplier, packs for a customer."""
        return self.what in ("supplier", "customer")


def root_of(reading: Reading, code: str) -> Root:
    """What a code means; a kind may stand before it, like "batch 12", and a day after it, like "23@2027-03-07".

    Raises:
        Refused: nothing has that name, with the nearest that has; or several have.
    """
    asked = " ".join(code.split())
    if not fold(asked):
        raise Refused(
            "Trace what? A seed lot, a supplier, a batch, a tray, a pack lot, or a customer and "
            "a day."
        )
    for kind, find in (*_KINDS.items(), ("batch", _batch)):
        if fold(asked).startswith(f"{kind} ") and (found := find(reading, asked[len(kind) + 1 :])):
            return found
    known, refused = _known(reading, asked)
    near = [kind for kind, root in known.items() if root.alike]
    for kind in near if len(near) < len(known) else ():
        del known[kind]
    if len(known) > 1:
        which = listed([f'"{kind} {root.code}"' for kind, root in known.items()], joint="or")
        raise Refused(f'"{asked[:40]}" may mean several things: write {which}.')
    if known:
        return next(iter(known.values()))
    raise refused or Refused(
        f'Nothing in the book is called "{asked[:40]}".{_hint(reading, asked)}'
    )


def _known(reading: Reading, code: str) -> tuple[dict[str, Root], Refused | None]:
    """What a code may mean, by kind, and why it is no tray where it looks like one."""
    known, refused = dict[str, Root](), None
    for kind, find in _KINDS.items():
        try:
            found = find(reading, code)
        except Refused as fault:
            refused = fault
        else:
            known |= {kind: found} if found else {}
    return known, refused


def _hint(reading: Reading, code: str) -> str:
    spelled = dict[str, str]()
    for name in (*read_lot_names(reading), *read_bag_names(reading)):
        spelled.setdefault(fold(name), name)
    lots = list(spelled.values())
    return nearest(code, [*lots, *_suppliers(reading)]) or (
        f" The newest seed lots: {listed(lots[:NEWEST])}." if lots else ""
    )


def _seed_lot(reading: Reading, code: str) -> Root | None:
    near = like(code)
    bags = (name for name in read_bag_names(reading) if near(name))
    names = list(dict.fromkeys((*spellings(reading, near), *bags)))
    same = [name for name in names if fold(name) == fold(code)]
    other = [name for name in names if name not in same]
    if not same and not other:
        return None
    nodes = tuple(Node("seed lot", name) for name in (*same, *other))
    return Root("seed lot", (same or other)[0], nodes, tuple(other))


def _suppliers(reading: Reading) -> list[str]:
    return list(dict.fromkeys(bag.supplier for bag in read_bags(reading) if bag.supplier))


def _supplier(reading: Reading, code: str) -> Root | None:
    bags = [bag for bag in read_bags(reading) if fold(bag.supplier) == fold(code)]
    if not bags:
        return None
    theirs = {plain(bag.lot) for bag in bags}
    sown = spellings(reading, lambda name: plain(name) in theirs)
    nodes = (Node("seed lot", name) for name in dict.fromkeys((*(bag.lot for bag in bags), *sown)))
    return Root("supplier", bags[-1].supplier, tuple(nodes))


def _batch(reading: Reading, code: str) -> Root | None:
    number = code.removeprefix("b").removeprefix("B")
    if not number.isdecimal() or not trays_of_batches(reading, [int(number[:MOST_DIGITS])]):
        return None
    return Root("batch", str(int(number)), (Node("batch", int(number)),))


def _named_batch(reading: Reading, code: str) -> Root | None:
    return _batch(reading, code) if fold(code).startswith("b") else None


def _tray(reading: Reading, code: str) -> Root | None:
    if not names_trays(code) or fold(code).startswith("b"):
        return None
    (number, *more) = parse_numbers(code)
    if more:
        raise Refused("Trace one tray at a time, or its batch.")
    (found,) = reading.folded(trays_named(reading, [number], reading.zone, newest=False))
    return Root("tray", tray_code(found), (Node("tray", found.id),))


def _pack_lot(reading: Reading, code: str) -> Root | None:
    for lot in lots_of_code(reading, fold(code)):
        return Root("pack lot", read_lots(reading, [lot])[lot].code, (Node("pack lot", lot),))
    return None


def _customer(reading: Reading, code: str) -> Root | None:
    """A customer's delivery of a day, like "Bistro@2027-03-07"; the newest where no day is given."""
    name, _, day = code.rpartition("@") if "@" in code else (code, "", "")
    found = next((each for each in read_customers(reading) if fold(each.name) == fold(name)), None)
    if found is None:
        return None
    asked = parse_day(day, reading.now, reading.zone) if day else None
    on, lots, unlotted = packed_on(reading, found.id, asked)
    if on is None:
        when = f" on {day_words(asked)}" if asked else ""
        raise Refused(f"{found.name} got nothing{when} that the book knows of.")
    nodes = [
        *(Node("delivery", one) for one in lots),
        *(Node("delivery", (one.entry, 0)) for one in unlotted),
    ]
    return Root("customer", f"{found.name}@{on}", tuple(nodes), unlotted=tuple(unlotted))


def tray_code(tray: TrayNow) -> str:
    """A tray told apart from all others that had its number: "23@2027-03-07"."""
    sown = tray.state.sown_at
    number = tray.number
    return name_words(number if sown is None else on_day(number, day_of(sown, tray.hours.zone)))


_KINDS: dict[str, Callable[[Reading, str], Root | None]] = {
    "seed lot": _seed_lot, "supplier": _supplier, "batch": _named_batch, "tray": _tray,
    "pack lot": _pack_lot, "customer": _customer,
}  # fmt: skip
"""What a code may mean, by the word that may stand before it."""
