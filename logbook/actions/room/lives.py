"""Where trays stood and in what light since a moment, and what lit each."""

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from types import MappingProxyType

from logbook.actions.reading import Reading
from logbook.actions.room.lamps import shelf_pasts
from logbook.growing.room.meter import Read
from logbook.growing.room.tray_uses import tray_reads
from logbook.growing.trays.stays import Stay, stays_of, up_to
from logbook.store.reads.lamps import read_tariffs
from logbook.store.reads.moves import Moves, read_moves
from logbook.store.reads.trays import read_ends

Life = tuple[Stay, ...]
LONGEST = timedelta(days=120)
"""So long before a time trays were sown that still grew in it."""


Ends = Mapping[int, tuple[int, datetime | None]]
"""By tray (id) its template version (id), and when it left the rack."""


def lives_since(
    reading: Reading, since: datetime, until: datetime | None = None, moves: Moves | None = None,
    known: Ends = MappingProxyType({}),
) -> dict[int, Life]:  # fmt: skip
    """The stretches of each tray (id) that lived since a moment; up to `until`, else now.

    A tray that was sown more than LONGEST before is left out. Trays that lived alike are told once.
    `moves` are those of all that time, where they were read, `known` the ends of some trays.
    """
    until = until or reading.now
    deeds_of = (moves or read_moves(reading, since - LONGEST, until)).deeds
    ends = dict(known)
    ends |= {
        tray: (version, end)
        for tray, version, end in read_ends(reading, deeds_of.keys() - known.keys())
    }
    versions = reading.versions({version for version, _ in ends.values()})
    begun: dict[tuple[int, int], Life] = {}
    told: dict[tuple[int, int, datetime], Life] = {}
    found = {}
    for tray, deeds in deeds_of.items():
        version, end = ends[tray]
        if end is not None and end < since:
            continue
        last = until if end is None else min(end, until)
        alike = (version, id(deeds))
        if (*alike, last) not in told:
            if alike not in begun:
                begun[alike] = stays_of(versions[version], deeds, _NEVER)
            told[*alike, last] = up_to(begun[alike], last)
        found[tray] = told[*alike, last]
    return found


_NEVER = datetime.max.replace(tzinfo=UTC)


def light_used(
    reading: Reading, since: datetime, until: datetime, moves: Moves, known: Ends
) -> dict[int, Read]:
    """What lit each tray (id) from since until; nothing in a room without lamps. The rest as above."""
    pasts = shelf_pasts(reading)
    if not any(past.lamps for past in pasts.values()):
        return {}
    lives = lives_since(reading, since, until, moves, known)
    return tray_reads(lives, pasts, read_tariffs(reading))
