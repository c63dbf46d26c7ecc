"""Where trays stood and in what light since a moment, and what lit each."""

from datetime import datetime, timedelta

from logbook.actions.reading import Reading
from logbook.actions.room.lamps import shelf_pasts
from logbook.growing.room.shelf_past import Use
from logbook.growing.room.tray_uses import tray_uses
from logbook.growing.trays.stays import Stay, stays_of
from logbook.store.reads.lamps import read_tariffs
from logbook.store.reads.moves import Moves, read_moves
from logbook.store.reads.trays import read_ends

Life = tuple[Stay, ...]
LONGEST = timedelta(days=120)
"""So long before a time trays were sown that still grew in it."""


def lives_since(
    reading: Reading, since: datetime, until: datetime | None = None, moves: Moves | None = None
) -> dict[int, Life]:
    """The stretches of each tray (id) that lived since a moment; up to `until`, else now.

    A tray that was sown more than LONGEST before is left out. Trays that lived alike are told once.
    `moves` are those of all that time, where they were read.
    """
    until = until or reading.now
    deeds_of = (moves or read_moves(reading, since - LONGEST, until)).deeds
    ends = {
        tray: (version, end)
        for tray, version, end in read_ends(reading, deeds_of)
        if end is None or end >= since
    }
    versions = reading.versions({version for version, _ in ends.values()})
    told: dict[tuple[object, ...], Life] = {}
    found = {}
    for tray, (version, end) in ends.items():
        deeds = deeds_of[tray]
        last = until if end is None else min(end, until)
        alike = (version, last, *(id(deed) for deed in deeds))
        if alike not in told:
            told[alike] = stays_of(versions[version], deeds, last)
        found[tray] = told[alike]
    return found


def light_used(
    reading: Reading, since: datetime, until: datetime, moves: Moves | None = None
) -> dict[int, Use]:
    """What lit each tray (id) from since until; nothing in a room without lamps. `moves` as above."""
    pasts = shelf_pasts(reading)
    if not any(past.lamps for past in pasts.values()):
        return {}
    lives = lives_since(reading, since, until, moves)
    uses = tray_uses(lives, pasts, read_tariffs(reading), light=False)
    return {tray: one.use for tray, one in uses.items()}
