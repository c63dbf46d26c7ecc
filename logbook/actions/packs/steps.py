"""What the nodes of a way are, in words."""

from collections.abc import Collection, Mapping
from datetime import date, datetime
from typing import get_args

from logbook.actions.orders.wanted import crop_names
from logbook.actions.packs.roots import tray_code
from logbook.actions.packs.way import Way
from logbook.actions.reading import Reading
from logbook.growing.crops.seed_lots import plain
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import name_words
from logbook.growing.packs.flow import Node, What
from logbook.growing.packs.lots import PackLot
from logbook.growing.packs.trace import CustomerShare, Step
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.orders import read_customers, read_mixes
from logbook.store.reads.seed import read_bags
from logbook.store.reads.trace import Cut
from logbook.store.rows import grouped
from logbook.text import plural

_ORDER = {what: place for place, what in enumerate(get_args(What))}
NO_LOT = "no lot written"
LIVE = "sold live"
TOO_MUCH = "more went out than was weighed"


class Steps:
    """What is known of the nodes of a way: its trays as they stand, bags, dates."""

    def __init__(self, reading: Reading, way: Way) -> None:
        self.reading, self.way = reading, way
        self.trays = {
            each.id: each for each in reading.folded(list(way.trays.values()), watered=False)
        }
        self.batches = grouped((each.stored.batch_id, each) for each in self.trays.values())
        self.customers = {each.id: each.name for each in read_customers(reading)}
        self.mixes = {each.id: each.name for each in read_mixes(reading)}
        self.crops = crop_names(reading)
        self.bags = grouped((plain(bag.lot), bag) for bag in read_bags(reading))

    def of(self, grams: Mapping[Node, float], roots: Collection[Node]) -> list[Step]:
        """Nodes but for the roots, from the bag to the plate."""
        nodes = (node for node in grams if node not in roots)
        made = [self.step(node, grams[node]) for node in nodes]
        return sorted(made, key=lambda step: (_ORDER[step.what], step.day or date.min, step.code))

    def step(self, node: Node, grams: float) -> Step:
        """A node with the roots' grams in it."""
        code, day, words = self._facts(node)
        return Step(node.what, code, day, grams, words, self._by(node))

    def _by(self, node: Node) -> str:
        match node:
            case Node("cut", (int(entry), int(tray))):
                return self.way.cuts[entry, tray].by
            case Node("delivery", (int(entry), int(lot))) if lot:
                return self.way.packed[entry, lot].by
        return ""

    def customer_shares(self, grams: Mapping[Node, float]) -> list[CustomerShare]:
        """Who got of it, and on which day, the first first."""
        shares = grouped(
            ((step.day, step.code), (node, step))
            for node in grams
            if node.what == "delivery" and (step := self.step(node, grams[node])).day
        )
        return [
            CustomerShare(
                customer, tuple(dict.fromkeys(self._packed_from(node) for node, _ in some)),
                sum(step.grams for _, step in some), day,
            )
            for (day, customer), some in sorted(shares.items())
        ]  # fmt: skip

    def _packed_from(self, node: Node) -> str:
        """The code of the lot that packs came from; of trays sold live theirs."""
        lot = node.id[1] if isinstance(node.id, tuple) else 0
        return self._code(lot) if lot else NO_LOT

    def _code(self, lot: int) -> str:
        """A lot's code; trays that were sold live without one are named themselves."""
        if lot in self.way.lots:
            return self.way.lots[lot].code
        sold = {cut.tray for cut in self.way.cuts.values() if cut.lot == lot} & set(self.trays)
        return ", ".join(tray_code(self.trays[tray]) for tray in sorted(sold))

    def _facts(self, node: Node) -> tuple[str, date | None, str]:
        """Its code, its day and what else is known of it."""
        way = self.way
        match node:
            case Node("seed lot", str(lot)):
                return lot, *self._bag(lot)
            case Node("batch", int(batch)):
                first = self.batches[batch][0]
                return str(batch), self._sown(self.batches[batch]), first.template.name
            case Node("tray", int(tray)):
                known = self.trays[tray]
                return tray_code(known), self._sown([known]), became(known)
            case Node("cut" | "unaccounted" as what, (int(entry), int(tray))):
                return self._cut(way.cuts[entry, tray], what)
            case Node("pack lot", int(lot)):
                if (found := way.lots.get(lot)) is None:
                    return self._code(lot), None, LIVE
                good = f"best before {day_words(found.best_before)}"
                return (
                    found.code,
                    found.packed_on,
                    ", ".join(filter(None, (self._crop(found), good))),
                )
            case Node("delivery", (int(entry), int(lot))):
                one = way.packed[entry, lot] if lot else way.unlotted[entry]
                packs = plural(one.packs, "pack") + (
                    f" of {self._code(lot)}" if lot else f", {NO_LOT}"
                )
                return self.customers[one.customer], one.day, packs
            case Node("own use" | "waste", int(entry)):
                out = way.outs[entry]
                by = f" by {self.customers[out.customer]}" if out.customer else ""
                return self._code(out.lot), self._day(out.at), f"{out.why}{by}"
            case Node("unaccounted", int(entry)) if entry in way.unlotted:
                return str(entry), way.unlotted[entry].day, f"packs, {NO_LOT}"
            case Node(what, int(lot)):
                return self._code(lot), None, "" if what == "stock" else TOO_MUCH
        raise LookupError(node)

    def _cut(self, cut: Cut, what: str) -> tuple[str, date | None, str]:
        tray = self.trays[cut.tray]
        lost = NO_LOT if what == "unaccounted" else "" if cut.stands else "struck out"
        by = f"by {cut.by}" if cut.by else ""
        words = ", ".join(filter(None, (f"tray {name_words(tray.number)}", by, lost)))
        return str(cut.entry), day_of(cut.at, tray.hours.zone), words

    def _crop(self, lot: PackLot) -> str:
        mix = self.mixes.get(lot.mix or 0)
        return mix or self.crops.get(lot.template or 0, "")

    def _day(self, at: datetime) -> date:
        return day_of(at, self.reading.zone)

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
