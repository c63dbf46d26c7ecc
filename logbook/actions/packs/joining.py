"""Which pack lot a cut goes into: that of its crop and day, until some of it has gone out."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from logbook.actions.packs.held import held_lot
from logbook.actions.reading import Reading
from logbook.actions.writing import Act
from logbook.growing.days import day_of
from logbook.growing.packs.lots import LotNow, PackLot, best_before, code_read, lot_code
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.packs import lots_of_code, lots_to_join, read_lots, read_lots_now
from logbook.store.reads.templates import template_of_versions
from logbook.text import Refused, fold, nearest
from logbook.ways import Way

NEW = "new"
"""Said for a lot where a new run is to begin."""


def lots_of_cut(
    act: Act, entry: int, trays: Sequence[TrayNow], when: datetime, code: str = ""
) -> dict[int, PackLot]:
    """The lots that a cut of trays joins, by tray (id); where there is none yet the entry names it.

    With a `code` it is the lot of that code, made where there is none; with NEW always a new one.
    """
    reading, found = act.reading, dict[int, PackLot]()
    templates = template_of_versions(reading, {tray.stored.version_id for tray in trays})
    naming: int | None = entry
    for tray in trays:
        template, day = templates[tray.stored.version_id], day_of(when, tray.hours.zone)
        known = next((each for each in found.values() if each.template == template), None)
        if code and fold(code) != NEW and known is None:
            lot = _named(reading, code, template, tray.crop)
        else:
            lot = known or (None if code else _open_lot(reading, template, day))
        if lot is None:
            crop = tray.template
            lot = new_lot(act, day, crop.crop, keeps=crop.keeps, template=template, entry=naming,
                          code="" if fold(code) == NEW else code)  # fmt: skip
            naming = None
        found[tray.id] = lot
    return found


def find_lot(reading: Reading, code: str) -> LotNow:
    """The lot that has, or once had, a code; raise Refused."""
    known = read_lots(reading, lots_of_code(reading, fold(code)))
    found = read_lots_now(reading, known)
    if not found:
        if known:
            raise Refused(f"Lot {code[:30]} is empty: what went into it was struck out.", "lot")
        rows = reading.rows("SELECT code FROM pack_lot ORDER BY entry_id DESC LIMIT 500")
        near = nearest(code, list(dict.fromkeys(each for (each,) in rows)))
        raise Refused(f'There is no pack lot "{code[:30]}".{near} {Way.COLD} lists them.', "lot")
    return found[0]


def own_code(reading: Reading, text: str, lot: int | None = None) -> str:
    """Read a code that a lot (id) is to have; raise Refused where another has or had it."""
    code = code_read(text)
    if set(lots_of_code(reading, fold(code))) - {lot}:
        raise Refused(f"A lot has or had the code {code}; each lot has a code of its own.", "code")
    return code


def _named(reading: Reading, code: str, template: int, crop: str) -> PackLot | None:
    if not lots_of_code(reading, fold(code)):
        return None
    found = find_lot(reading, code)
    if found.lot.template != template or not found.cuts:
        raise Refused(
            f"Lot {found.lot.code} isn't of cut {crop}; leave it out, or write {NEW}.", "lot"
        )
    return found.lot


def _open_lot(reading: Reading, template: int, day: date) -> PackLot | None:
    """The newest lot of a crop and day that a cut may join: not begun, and not on hold."""
    mine = (each for each in reversed(lots_to_join(reading, template, day)))
    return next((each.lot for each in mine if held_lot(reading, each) is None), None)


def new_lot(
    act: Act, day: date, name: str, *, keeps: timedelta, template: int | None = None,
    mix: int | None = None, entry: int | None = None, code: str = "",
) -> PackLot:  # fmt: skip
    """Write a lot of a crop or a mix, by a code that none ever had; `entry` names it, else one of its own."""
    code, last = own_code(act.reading, code) if code else "", best_before(day, keeps)
    run = 1
    while not code or lots_of_code(act.reading, fold(code)):
        code, run = lot_code(day, name, run), run + 1
    entry = entry or act.entry("pack_lot", (), note=code)
    act.put(
        "pack_lot", entry, lot_id=entry, code=code, code_key=fold(code), template_id=template,
        mix_id=mix, packed_on=day, best_before=last,
    )  # fmt: skip
    return PackLot(entry, code, template, mix, day, last)
