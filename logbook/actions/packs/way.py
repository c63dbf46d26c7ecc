"""The way around some nodes: all that went into and out of what is reached from them."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from logbook.growing.packs.flow import Flow, Link, Node, What, settled
from logbook.growing.trays.tray_now import StoredTray
from logbook.store.reads.trace import (
    Cut,
    batches_of_lots,
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


def way_around(reading: Rows, roots: Collection[Node]) -> Way:
    """Read what leads to some seed lots, batches, trays, cuts or pack lots, and what came of them."""
    lots = [str(node.id) for node in roots if node.what == "seed lot"]
    batches = {*_ids(roots, "batch"), *batches_of_lots(reading, lots)}
    trays = {each.id: each for each in trays_of_batches(reading, batches)}
    trays |= {each.id: each for each in read_trays(reading, _ids(roots, "tray"))}
    cuts = {each.id: each for each in cuts_of(reading, trays)}
    return Way(settled(_links(reading, trays, cuts)), trays, cuts)


def _ids(nodes: Collection[Node], what: What) -> list[int]:
    return [node.id for node in nodes if node.what == what and isinstance(node.id, int)]


def _links(
    reading: Rows, trays: dict[int, StoredTray], cuts: dict[tuple[int, int], Cut]
) -> Iterator[Link]:
    of_trays, of_batches = dict.fromkeys(trays, 0.0), dict[int, float]()
    for cut in cuts.values():
        of_trays[cut.tray] += cut.grams
        yield Link(Node("tray", cut.tray), Node("cut", cut.id), cut.grams)
    for tray, grams in of_trays.items():
        batch = trays[tray].batch_id
        of_batches[batch] = of_batches.get(batch, 0.0) + grams
        yield Link(Node("batch", batch), Node("tray", tray), grams)
    for batch, shares in seed_shares(reading, of_batches).items():
        for lot, share in shares:
            yield Link(Node("seed lot", lot), Node("batch", batch), of_batches[batch] * share)
