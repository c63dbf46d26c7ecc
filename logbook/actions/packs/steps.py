"""What the nodes of a way are, in words."""

from collections.abc import Collection, Mapping
from datetime import date
from typing import get_args

from logbook.actions.packs.roots import tray_code
from logbook.actions.packs.way import Way
from logbook.actions.reading import Reading
from logbook.growing.crops.seed_lots import plain
from logbook.growing.days import day_of
from logbook.growing.measures import grams_words
from logbook.growing.numbers import name_words
from logbook.growing.packs.flow import Node, What
from logbook.growing.packs.trace import Step
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.seed import read_bags
from logbook.store.rows import grouped

_ORDER = {what: place for place, what in enumerate(get_args(What))}
NO_LOT = "no lot written"
TOO_MUCH = "more went out than was weighed"


class Steps:
    """What is known of the nodes of a way: its trays as they stand, bags, dates."""

    def __init__(self, reading: Reading, way: Way) -> None:
        self.reading, self.way = reading, way
        self.trays = {each.id: each for each in reading.folded(list(way.trays.values()))}
        self.batches = grouped((each.stored.batch_id, each) for each in self.trays.values())
        self.bags = grouped((plain(bag.lot), bag) for bag in read_bags(reading))

    def of(self, grams: Mapping[Node, float], roots: Collection[Node]) -> list[Step]:
        """Nodes but for the roots, from the bag to the plate."""
        nodes = (node for node in grams if node not in roots)
        made = [self.step(node, grams[node]) for node in nodes]
        return sorted(made, key=lambda step: (_ORDER[step.what], step.day or date.min, step.code))

    def step(self, node: Node, grams: float) -> Step:
        """A node with the roots' grams in it."""
        code, day, words = self._facts(node)
        return Step(node.what, code, day, grams, words)

    def _facts(self, node: Node) -> tuple[str, date | None, str]:
        """Its code, its day and what else is known of it."""
        match node:
            case Node("seed lot", str(lot)):
                return lot, *self._bag(lot)
            case Node("batch", int(batch)):
                first = self.batches[batch][0]
                return str(batch), self._sown(self.batches[batch]), first.template.name
            case Node("tray", int(tray)):
                known = self.trays[tray]
                return tray_code(known), self._sown([known]), became(known)
            case Node("cut", (entry, tray)):
                cut = self.way.cuts[entry, tray]
                known = self.trays[tray]
                by = f", by {cut.by}" if cut.by else ""
                day = day_of(cut.at, known.hours.zone)
                return str(entry), day, f"tray {name_words(known.number)}{by}"
            case Node("unaccounted", (entry, tray)):
                return self._facts(Node("cut", (entry, tray)))[0], None, NO_LOT
        return str(node.id), None, TOO_MUCH

    def _bag(self, lot: str) -> tuple[date | None, str]:
        bags, units = self.bags.get(plain(lot), []), self.reading.units
        said = (
            ", ".join(filter(None, (bag.supplier, grams_words(bag.grams, units)))) for bag in bags
        )
        return min((bag.bought for bag in bags), default=None), "; ".join(said)

    def _sown(self, trays: Collection[TrayNow]) -> date | None:
        sown = [day_of(at, tray.hours.zone) for tray in trays if (at := tray.state.sown_at)]
        return min(sown, default=None)


def became(tray: TrayNow) -> str:
    """What became of a tray: "growing on Rack 1/Shelf 2", "cut Fri 10 Apr"."""
    status, ended = tray.state.status, tray.state.ended_at
    if tray.state.live:
        return status.words + (f" on {tray.place}" if tray.place else ", no place")
    return status.words + (f" {tray.when(ended)}" if ended else "")
