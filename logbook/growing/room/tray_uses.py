"""What trays had of a shelf's electricity and light: each its share while several stood in it."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from itertools import pairwise

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


def tray_uses(
    stays_of: Mapping[int, Sequence[Stay]], shelves: Mapping[int, ShelfPast],
    tariffs: Sequence[Tariff], *, light: bool = True,
) -> dict[int, TrayUse]:  # fmt: skip
    """What each tray had, by tray id; every tray that shares a shelf must be among them.

    Without `light` what fell on them is left out.
    """
    found = {tray: TrayUse() for tray in stays_of}
    under: dict[int, dict[Span, list[int]]] = {}
    for tray, mine in stays_of.items():
        for one in mine:
            if one.lit and one.place is not None and one.place in shelves:
                there = under.setdefault(one.place, {})
                there.setdefault((one.start, one.end), []).append(tray)
    if not under:
        return found
    every = [moment for there in under.values() for span in there for moment in span]
    start, end = min(every), max(every)
    meters: dict[ShelfPast, Meter] = {}
    for place, there in under.items():
        past = shelves[place]
        alike = replace(past, ppfd=())
        meter = meters.get(alike)
        if meter is None:
            meter = meters[alike] = Meter(alike, start, end, tariffs)
        for span, use in _shared(meter, there).items():
            mol, missing = past.light(*span) if light else (0.0, 0.0)
            had = TrayUse(use, mol, missing)
            for tray in there[span]:
                found[tray] = found[tray] + had if found[tray].use.lit_hours else had
    return found


def _shared(meter: Meter, there: Mapping[Span, Sequence[int]]) -> dict[Span, Use]:
    """What one tray had in each span, of what a meter shows, by how many stood there together."""
    more: Counter[datetime] = Counter()
    for (low, high), trays in there.items():
        more[low] += len(trays)
        more[high] -= len(trays)
    moments, parts, count = sorted(more), list[Read](), 0
    place = {moment: at for at, moment in enumerate(moments)}
    reads = [meter.at(moment) for moment in moments]
    for at, (before, after) in enumerate(pairwise(reads)):
        count += more[moments[at]]
        parts.append(after.less(before).share(count) if count else Read())
    return {span: use_of(parts[place[span[0]] : place[span[1]]]) for span in there}
