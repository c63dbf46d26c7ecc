"""Live trays that are sold: they leave the rack with the tick, and are a lot of their own."""

from collections.abc import Sequence
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.packs.joining import new_lot
from logbook.actions.reading import Reading
from logbook.actions.trays.done import entry_on
from logbook.actions.writing import Act
from logbook.growing.days import day_of
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.tray_now import TrayNow, refuse_ended, refuse_held
from logbook.store.reads.templates import template_of_versions
from logbook.text import Refused, plural


def trays_to_sell(reading: Reading, template: int, count: int) -> list[TrayNow]:
    """The trays of a crop (template id) that would be sold first: ripe ones, the oldest before the others."""
    crops = template_of_versions(reading, {tray.stored.version_id for tray in reading.live})
    ripe = [
        (tray.window.by, tray)
        for tray in reading.live
        if crops[tray.stored.version_id] == template and tray.status == "growing"
        and not tray.held and tray.window is not None
        and (tray.sign_seen or tray.window.start <= reading.now)
    ]  # fmt: skip
    ripe.sort(key=lambda each: (each[0], each[1].number))
    return [tray for _, tray in ripe[:count]]


def live_offer(book: Book, template: int, count: int) -> tuple[int, ...]:
    """The numbers of the trays that would be sold first."""
    with book.reading() as reading:
        return tuple(tray.number for tray in trays_to_sell(reading, template, count))


def sell_live(
    act: Act, entry: int, template: int, count: int, when: datetime, numbers: Sequence[int] = ()
) -> tuple[str, str]:
    """Write which trays a tick of live trays takes; returns these in words, and how many none is.

    Raises Refused for trays of another crop, another number of them, or such as are gone or on hold.
    """
    reading = act.reading
    trays = reading.trays(numbers) if numbers else trays_to_sell(reading, template, count)
    crops = template_of_versions(reading, {tray.stored.version_id for tray in trays})
    for tray in trays:
        if crops[tray.stored.version_id] != template:
            raise Refused(f"Tray {tray.number} is {tray.crop}, which isn't what was ordered.")
        if tray.status != "growing":
            raise Refused(f"Tray {tray.number} isn't sown yet, so it can't be sold.")
    if numbers and len(trays) != count:
        raise Refused(f"{plural(count, 'live tray')} wanted, but {len(trays)} named.")
    refuse_ended(trays)
    refuse_held(trays, when)
    less = count - len(trays)
    lacking = (
        f"{plural(less, 'live tray')} from no batch in the book: no other tray can be cut yet."
    )
    if not trays:
        return "", lacking
    sold = entry_on(act, "sold_live", trays, when, chore="cut")
    first = trays[0]
    day, keeps = day_of(when, first.hours.zone), first.template.keeps
    crop = first.template.crop
    code = new_lot(act, day, crop, keeps=keeps, template=template, entry=sold).code
    act.put("packed_lot", entry, lot_id=sold, packs=len(trays), grams=None)
    said = f"lot {code}: {numbers_words([tray.number for tray in trays])}"
    return said, lacking if less else ""
