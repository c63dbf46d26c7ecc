"""Pack lots that may not go out: on hold themselves, or made of what is."""

from logbook.actions.reading import Reading
from logbook.growing.packs.lots import LotNow
from logbook.growing.recall.holds import Held, Hold
from logbook.store.reads.packs import read_lots, read_lots_now
from logbook.store.reads.trays import read_trays


def held_lot(reading: Reading, lot: LotNow) -> Hold | None:
    """The hold that covers a lot: on itself, on a tray, batch or seed lot of it, or on a lot that it took of."""
    if not reading.holds.holds:
        return None
    if found := reading.holds.on(Held(lot_id=lot.lot.id)):
        return found
    for tray in read_trays(reading, [each.tray for each in lot.cuts]):
        if found := reading.holds.of_tray(tray.id, tray.batch_id, tray.lot):
            return found
    sources = read_lots(reading, [each.source for each in lot.parts])
    held = (held_lot(reading, each) for each in read_lots_now(reading, sources))
    return next((each for each in held if each), None)
