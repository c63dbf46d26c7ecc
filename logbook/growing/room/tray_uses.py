"""What trays had of a shelf's electricity and light: each its share while several stood in it."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from logbook.growing.room.energy_bill import Summed
from logbook.growing.room.meter import Meter, Read, use_of
from logbook.growing.room.shelf_past import ShelfPast, Use
from logbook.growing.room.tariffs import Tariff
from logbook.growing.trays.stays import Stay
from logbook.growing.wall_hours import Span


@dataclass(frozen=True, slots=True)
class TrayUse(Summed):
    """What a tray had of electricity and light: mol m⁻², and lit hours that no survey covers."""

    use: Use = field(default_factory=Use)
    mol_m2: float = 0.0
    unmeasured_hours: float = 0.0


Under = dict[int, dict[Span, list[int]]]
"""By shelf (place id) the spans in which trays (ids) were in a stage of light there."""


def tray_uses(
    stays_of: Mapping[int, Sequence[Stay]], shelves: Mapping[int, ShelfPast],
    tariffs: Sequence[Tariff], *, light: bool = True,
) -> dict[int, TrayUse]:  # fmt: skip
    """What each tray had, by tray id; every tray that shares a shelf must be among them.

    Without `light` what fell on them is left out.
    """
    under = _under(stays_of, shelves)
    reads, had = _reads(under, shelves, tariffs), dict[int, tuple[float, float]]()
    for place, there in under.items() if light else ():
        for span, trays in there.items():
            mol, missing = shelves[place].light(*span)
            for tray in trays:
                before = had.get(tray, (0.0, 0.0))
                had[tray] = before[0] + mol, before[1] + missing
    return {
        tray: TrayUse(use_of([reads[tray]]), *had.get(tray, (0.0, 0.0)))
        if tray in reads
        else TrayUse()
        for tray in stays_of
    }


def tray_reads(
    stays_of: Mapping[int, Sequence[Stay]], shelves: Mapping[int, ShelfPast],
    tariffs: Sequence[Tariff],
) -> dict[int, Read]:  # fmt: skip
    """As tray_uses(), what each tray that was in light had of its shelves' meters."""
    return _reads(_under(stays_of, shelves), shelves, tariffs)


def _under(stays_of: Mapping[int, Sequence[Stay]], shelves: Mapping[int, ShelfPast]) -> Under:
    under: Under = {}
    for tray, mine in stays_of.items():
        for one in mine:
            if one.lit and one.place is not None and one.place in shelves:
                there = under.setdefault(one.place, {})
                there.setdefault((one.start, one.end), []).append(tray)
    return under


def _reads(
    under: Under, shelves: Mapping[int, ShelfPast], tariffs: Sequence[Tariff]
) -> dict[int, Read]:
    every = [moment for there in under.values() for span in there for moment in span]
    if not every:
        return {}
    start, end = min(every), max(every)
    meters: dict[ShelfPast, Meter] = {}
    found: dict[int, Read] = {}
    for place, there in under.items():
        alike = replace(shelves[place], ppfd=())
        meter = meters.get(alike)
        if meter is None:
            meter = meters[alike] = Meter(alike, start, end, tariffs)
        for span, read in _shared(meter, there).items():
            for tray in there[span]:
                found[tray] = found[tray].more(read) if tray in found else read
    return found


def _shared(meter: Meter, there: Mapping[Span, Sequence[int]]) -> dict[Span, Read]:
    """What one tray had in each span, of what a meter shows, by how many stood there together."""
    more: Counter[datetime] = Counter()
    for (low, high), trays in there.items():
        more[low] += len(trays)
        more[high] -= len(trays)
    moments, count, before, had = sorted(more), 0, Read(), Read()
    upto: dict[datetime, Read] = {}
    for at in moments:
        after = meter.at(at)
        if count:
            had = had.more(after.less(before).share(count))
        upto[at], before = had, after
        count += more[at]
    return {span: upto[span[1]].less(upto[span[0]]) for span in there}
