"""Pack lots that a hold covers: themselves, or what was cut of what is on hold."""

from logbook.actions.packs.way import way_around
from logbook.actions.reading import Reading
from logbook.growing.crops.seed_lots import plain
from logbook.growing.packs.flow import Node
from logbook.growing.recall.holds import Held, Hold
from logbook.store.reads.lots import read_lot_names


def held_lots(reading: Reading) -> dict[int, Hold]:
    """The pack lots (ids) that are on hold, mixes of them too, each with the oldest hold on it."""
    found = dict[int, Hold]()
    for hold in reading.holds.holds:
        nodes = _nodes(reading, hold.on)
        followed = way_around(reading, nodes).flow.forward(nodes).grams if nodes else {}
        for node in followed:
            if node.what == "pack lot" and isinstance(node.id, int):
                found.setdefault(node.id, hold)
    return found


def _nodes(reading: Reading, on: Held) -> list[Node]:
    if on.seed_lot:
        names = (name for name in read_lot_names(reading) if plain(name) == plain(on.seed_lot))
        return [Node("seed lot", name) for name in names]
    one = {"batch": on.batch_id, "tray": on.tray_id, "pack lot": on.lot_id}
    return [Node(what, each) for what, each in one.items() if each is not None]  # type: ignore[arg-type]  # names of kinds
