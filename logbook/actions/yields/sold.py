"""What of trays' cuts, and of each crop, was packed and sold."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from logbook.actions.packs.way import lots_from, way_of_lots
from logbook.actions.reading import Reading
from logbook.actions.room.lives import LONGEST
from logbook.growing.days import day_of
from logbook.growing.orders.customer import Packed
from logbook.growing.packs.flow import Link, Node, settled
from logbook.growing.packs.lots import LEAST
from logbook.growing.yields.sold import Sold, unlotted_of
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.orders import read_mixes, read_packed
from logbook.store.reads.packs import cut_grams_of_lots, grams_from_lots, read_lots_since
from logbook.store.reads.templates import read_templates
from logbook.store.rows import grouped

LATE = timedelta(days=14)
"""A delivery is ticked so long after its day at most."""


def sold_of_trays(reading: Reading, trays: Collection[int], start: datetime) -> dict[int, Sold]:
    """By tray (id) what became of its cuts since `start` that went into pack lots, in proportion.

    What was packed and sold is what is left of it after trimming, as a trace has it; what is to be
    delivered on later days is packed and not sold yet.
    """
    wanted, whole, mine = set(trays), dict[int, float](), list[tuple[int, int, float]]()
    since = day_of(start - LONGEST, reading.zone)
    for lot, tray, grams in cut_grams_of_lots(reading, read_lots_since(reading, since)):
        whole[lot] = whole.get(lot, 0.0) + grams
        if tray in wanted:
            mine.append((lot, tray, grams))
    of_lots = _of_lots(reading, {lot: whole[lot] for lot, _, _ in mine}) if mine else {}
    found = dict[int, Sold]()
    for lot, tray, grams in mine:
        found[tray] = found.get(tray, Sold()) + of_lots[lot] * (grams / whole[lot] if grams else 0)
    return found


def _of_lots(reading: Reading, whole: Mapping[int, float]) -> dict[int, Sold]:
    """What became of all that was cut into lots (id and g)."""
    onward = way_of_lots(reading, lots_from(reading, whole))
    cuts = {lot: Node("cut", (0, lot)) for lot in whole}
    into = (Link(cuts[lot], Node("pack lot", lot), grams) for lot, grams in whole.items())
    flow = settled((*into, *onward.links))
    gone = {key: Node("delivery", key) for key in onward.packed}
    waste = {
        out.entry: Node("waste", out.entry) for out in onward.outs.values() if out.why != "own use"
    }
    back = [node for entry, node in waste.items() if onward.outs[entry].why == "returned"]
    sold = [node for key, node in gone.items() if onward.packed[key].day <= reading.today]
    packed, of_sold, wasted = (
        flow.back(nodes).grams for nodes in ([*gone.values(), *back], sold, list(waste.values()))
    )
    kept = reading.about.kept
    return {
        lot: Sold(
            whole[lot],
            kept * packed.get(cut, 0.0),
            kept * of_sold.get(cut, 0.0),
            wasted.get(cut, 0.0),
        )
        for lot, cut in cuts.items()
    }


def sold_by_crop(
    reading: Reading, trays: Sequence[GoneTray], since: date, until: date
) -> dict[str, Sold]:
    """By crop what of trays' cuts was packed and sold, and what was packed in these days from no lot.

    Crops of which nothing was are left out.
    """
    found = dict[str, Sold]()
    for one in trays:
        if one.sold is not None:
            found[one.crop] = found.get(one.crop, Sold()) + one.sold
    named = {each.id: each.template.label() for each in read_templates(reading)}
    mixes = grouped((each.id, each) for each in read_mixes(reading))
    packed = _unlotted(reading, read_packed(reading, since - LATE))
    for template, each in unlotted_of(packed, mixes, since, min(until, reading.today)).items():
        if template in named:
            name = named[template]
            cut = sum(one.grams or 0.0 for one in trays if one.crop == name)
            found[name] = replace(found.get(name, Sold()) + each, cut=cut)
    return found


def _unlotted(reading: Reading, packed: Sequence[Packed]) -> Iterator[tuple[date, Packed, float]]:
    """What of packs is from no lot, with the day on which they were packed; live trays have no weight."""
    lotted, kept = grams_from_lots(reading, [each.entry for each in packed]), reading.about.kept
    for each in packed:
        left = each.packs * (each.pack_grams or 0.0) - kept * lotted.get(each.entry, 0.0)
        if left >= LEAST:
            yield day_of(each.at, reading.zone), each, left
