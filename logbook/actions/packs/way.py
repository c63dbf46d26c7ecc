"""The way around some nodes: all that went into and out of what is reached from them."""

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from itertools import chain

from logbook.growing.packs.flow import Flow, Link, Node, What, settled
from logbook.growing.packs.lots import LotOut, LotPacked, LotPart, PackLot
from logbook.growing.trays.tray_now import StoredTray
from logbook.store.reads.lots import batches_of_lots
from logbook.store.reads.packs import read_lot_outs, read_lot_packed, read_lots, read_parts
from logbook.store.reads.trace import (
    Cut,
    Unlotted,
    cuts_into,
    cuts_of,
    seed_shares,
    trays_of_batches,
)
from logbook.store.reads.trays import read_trays
from logbook.store.rows import Rows


@dataclass(frozen=True, slots=True)
class Way:
    """The flow around some roots, and what its nodes are."""

    flow: Flow
    trays: dict[int, StoredTray]
    cuts: dict[tuple[int, int], Cut]
    lots: dict[int, PackLot]
    packed: dict[tuple[int, int], LotPacked]
    """By entry and lot."""
    outs: dict[int, LotOut]
    unlotted: dict[int, Unlotted]


def way_around(reading: Rows, roots: Collection[Node], unlotted: Collection[Unlotted] = ()) -> Way:
    """Read what leads to some seed lots, batches, trays, cuts, pack lots or deliveries, and what came of them.

    `unlotted` are packs of these deliveries of which no lot is written.
    """
    seed = [str(node.id) for node in roots if node.what == "seed lot"]
    batches = {*_ids(roots, "batch"), *batches_of_lots(reading, seed)}
    trays = {each.id: each for each in trays_of_batches(reading, batches)}
    cuts = {
        each.id: each
        for each in cuts_of(reading, {*trays, *_ids(roots, "tray"), *_second(roots, "cut")})
    }
    above = _closed(
        {*_ids(roots, "pack lot"), *_second(roots, "delivery")},
        lambda lots: [each.source for each in read_parts(reading, lots)],
    )
    lots = above | lots_from(
        reading, {*_ids(roots, "pack lot"), *(each.lot for each in cuts.values() if each.lot)}
    )
    into = {each.id: each for each in cuts_into(reading, lots)}
    back = {each.tray for each in into.values() if each.lot in above}
    missing = {*back, *(tray for _, tray in cuts)} - set(trays)
    trays |= {each.id: each for each in read_trays(reading, {*missing, *_ids(roots, "tray")})}
    onward = way_of_lots(reading, lots)
    begun = _begun({**into, **cuts}, onward.parts)
    links = chain(
        _of_trays(reading, trays, begun),
        onward.links,
        (
            Link(
                Node("unaccounted", each.entry),
                Node("delivery", (each.entry, 0)),
                each.grams or 0.0,
            )
            for each in unlotted
        ),
    )
    return Way(
        settled(links),
        trays,
        begun,
        read_lots(reading, lots),
        onward.packed,
        onward.outs,
        {each.entry: each for each in unlotted},
    )


@dataclass(frozen=True, slots=True)
class Onward:
    """What became of lots: the links between and out of them, and what those are."""

    links: tuple[Link, ...]
    parts: tuple[LotPart, ...]
    packed: dict[tuple[int, int], LotPacked]
    """By entry and lot."""
    outs: dict[int, LotOut]


def way_of_lots(reading: Rows, lots: Collection[int]) -> Onward:
    """What became of some lots, which are all that is reached from them."""
    parts = {
        (each.lot, each.source): each
        for taken in (False, True)
        for each in read_parts(reading, lots, taken=taken)
    }
    packed = {(each.entry, each.lot): each for each in read_lot_packed(reading, lots)}
    outs = {each.entry: each for each in read_lot_outs(reading, lots)}
    mixed = (
        Link(Node("pack lot", each.source), Node("pack lot", each.lot), each.grams)
        for each in parts.values()
    )
    return Onward((*mixed, *_of_lots(packed, outs)), tuple(parts.values()), packed, outs)


def lots_from(reading: Rows, lots: Collection[int]) -> set[int]:
    """Lots, and those that something of them was mixed into."""
    return _closed(lots, lambda some: [each.lot for each in read_parts(reading, some, taken=True)])


def _ids(nodes: Collection[Node], what: What) -> list[int]:
    return [node.id for node in nodes if node.what == what and isinstance(node.id, int)]


def _second(nodes: Collection[Node], what: What) -> list[int]:
    """The tray of a cut, the lot of a delivery."""
    return [node.id[1] for node in nodes if node.what == what and isinstance(node.id, tuple)]


def _closed(lots: Collection[int], further: Callable[[Collection[int]], Iterable[int]]) -> set[int]:
    """Lots with all that is reached from them step by step."""
    found, ahead = set(lots), set(lots)
    while ahead:
        ahead = set(further(ahead)) - found
        found |= ahead
    return found


def _begun(
    cuts: dict[tuple[int, int], Cut], parts: Iterable[LotPart]
) -> dict[tuple[int, int], Cut]:
    """The cuts without struck ones, but for those of lots that nothing standing went into."""
    filled = {each.lot for each in cuts.values() if each.stands} | {each.lot for each in parts}
    return {key: cut for key, cut in cuts.items() if cut.stands or cut.lot not in filled}


def _of_trays(
    reading: Rows, trays: dict[int, StoredTray], cuts: dict[tuple[int, int], Cut]
) -> Iterator[Link]:
    """From the seed lots to the cuts and into pack lots."""
    of_trays, of_batches = dict.fromkeys(trays, 0.0), dict[int, float]()
    for cut in cuts.values():
        if cut.tray in trays:
            of_trays[cut.tray] += cut.grams
            yield Link(Node("tray", cut.tray), Node("cut", cut.id), cut.grams)
        if cut.lot is not None:
            yield Link(Node("cut", cut.id), Node("pack lot", cut.lot), cut.grams)
    for tray, grams in of_trays.items():
        batch = trays[tray].batch_id
        of_batches[batch] = of_batches.get(batch, 0.0) + grams
        yield Link(Node("batch", batch), Node("tray", tray), grams)
    for batch, shares in seed_shares(reading, of_batches).items():
        for lot, share in shares:
            yield Link(Node("seed lot", lot), Node("batch", batch), of_batches[batch] * share)


def _of_lots(packed: dict[tuple[int, int], LotPacked], outs: dict[int, LotOut]) -> Iterator[Link]:
    """Out of pack lots. What came back is taken from the customer's last packs of the lot."""
    back = dict[tuple[int, int], float]()
    for out in outs.values():
        given = [
            key
            for key, each in packed.items()
            if (each.customer, each.lot) == (out.customer, out.lot)
        ]
        if out.why == "returned" and given:
            back[given[-1]] = back.get(given[-1], 0.0) + out.grams
        what: What = "own use" if out.why == "own use" else "waste"
        yield Link(Node("pack lot", out.lot), Node(what, out.entry), out.grams)
    for key, each in packed.items():
        grams = (each.grams or 0.0) - back.get(key, 0.0)
        yield Link(Node("pack lot", each.lot), Node("delivery", key), grams)
