"""Which pack lot a cut goes into: that of its crop and day, until some of it has gone out."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from logbook.actions.writing import Act
from logbook.growing.days import day_of
from logbook.growing.packs.lots import PackLot, best_before, lot_code
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.packs import lot_to_join, lots_of_code
from logbook.store.reads.templates import template_of_versions
from logbook.text import fold


def lots_of_cut(
    act: Act, entry: int, trays: Sequence[TrayNow], when: datetime
) -> dict[int, PackLot]:
    """The lots that a cut of trays joins, by tray (id); where there is none yet the entry names it."""
    reading, found = act.reading, dict[int, PackLot]()
    templates = template_of_versions(reading, {tray.stored.version_id for tray in trays})
    naming: int | None = entry
    for tray in trays:
        template, day = templates[tray.stored.version_id], day_of(when, tray.hours.zone)
        known = next((each for each in found.values() if each.template == template), None)
        lot = known or lot_to_join(reading, template, day)
        if lot is None:
            crop = tray.template
            lot = new_lot(act, day, crop.crop, keeps=crop.keeps, template=template, entry=naming)
            naming = None
        found[tray.id] = lot
    return found


def new_lot(
    act: Act, day: date, name: str, *, keeps: timedelta, template: int | None = None,
    mix: int | None = None, entry: int | None = None,
) -> PackLot:  # fmt: skip
    """Write a lot of a crop or a mix, by a code that none ever had; `entry` names it, else one of its own."""
    run = 1
    while lots_of_code(act.reading, fold(lot_code(day, name, run))):
        run += 1
    code, last = lot_code(day, name, run), best_before(day, keeps)
    entry = entry or act.entry("pack_lot", (), note=code)
    act.put(
        "pack_lot", entry, lot_id=entry, code=code, code_key=fold(code), template_id=template,
        mix_id=mix, packed_on=day, best_before=last,
    )  # fmt: skip
    return PackLot(entry, code, template, mix, day, last)
