"""Entries about lamps, light, power, air, water and cleaning in words, for a page's lines."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from logbook.actions.reading import Reading
from logbook.growing.air import FEED
from logbook.growing.kinds import that_carry
from logbook.growing.measures import (
    Units,
    number_words,
    temperature_words,
    volume_words,
)
from logbook.growing.solutions import use_words
from logbook.growing.spots import uniformity
from logbook.growing.water import WaterReading, WaterTarget, WaterThing, water_marks
from logbook.store.entry_details import read_details
from logbook.store.reads_air import AirCount, count_air
from logbook.store.reads_entries import StoredEntry
from logbook.store.reads_water import read_water_targets
from logbook.text import plural

ROOM_KINDS = that_carry("lamps", "hours", "tariff", "circuit", "light", "air", "use")


def room_words(reading: Reading, entries: Sequence[StoredEntry]) -> dict[int, str]:
    """Give what entries say of the room, by entry id; nothing for those that speak of trays."""
    ids = [entry.id for entry in entries if entry.kind in ROOM_KINDS]
    found: dict[int, str] = {}
    if not ids:
        return found
    details = read_details(reading, ids)
    for entry, lamps in details.lamps.items():
        found[entry] = lamps.words(reading.units)
    for entry, hours in details.hours.items():
        found[entry] = hours.words if hours is not None else "none"
    for entry, tariff in details.tariffs.items():
        found[entry] = tariff.words
    found |= details.circuits
    for entry, ppfds in details.light.items():
        even = uniformity(ppfds)
        found[entry] = (
            f"mean {number_words(even.mean, 0)} µmol/m²/s of {plural(even.count, 'spot')}"
        )
    for entry, use in details.uses.items():
        found[entry] = use_words(*use)
    for entry, numbers in count_air(reading, ids).items():
        found[entry] = _air(reading.units, [numbers])
    return found


def water_given(reading: Reading, readings: Mapping[int, WaterReading]) -> dict[int, str]:
    """What entries say of water, given or measured, by entry id; out of band is marked."""
    targets = read_water_targets(reading, readings) if readings else {}
    return {
        entry: measured_words(water, reading.units, targets.get(entry, ()))
        for entry, water in readings.items()
    }


def measured_words(reading: WaterReading, units: Units, targets: Iterable[WaterTarget] = ()) -> str:
    """Say what was given or measured: "300 ml each, pH 7.4 (high, wanted 5.5 to 6.5)"."""
    marks: dict[WaterThing, str] = {}
    for target in targets:
        for mark in water_marks(reading, target):
            if mark.side != "in":
                marks.setdefault(mark.what, f" ({mark.side}, wanted {mark.band.words})")
    parts = []
    if reading.millilitres is not None:
        each = f"{volume_words(reading.millilitres, units)} each"
        parts.append(each + marks.get("amount", ""))
    if reading.ph is not None:
        parts.append(f"pH {number_words(reading.ph, 2)}" + marks.get("pH", ""))
    if reading.ec is not None:
        parts.append(f"EC {number_words(reading.ec, 2)} mS/cm" + marks.get("EC", ""))
    return ", ".join(parts)


def _air(units: Units, counts: Collection[AirCount]) -> str:
    many = sum(one.readings for one in counts)
    coldest, warmest = min(one.coldest for one in counts), max(one.warmest for one in counts)
    driest, dampest = min(one.driest for one in counts), max(one.dampest for one in counts)

    def span(low: str, high: str) -> str:
        return low if low == high else f"{low} to {high}"

    degrees = span(temperature_words(coldest, units), temperature_words(warmest, units))
    damp = span(f"{number_words(driest)} %", f"{number_words(dampest)} %")
    return f"{'' if many == 1 else plural(many, 'reading') + ', '}{degrees}, {damp}"


def without_feeds(
    reading: Reading, entries: Sequence[StoredEntry]
) -> tuple[list[StoredEntry], dict[int, str]]:
    """Put what a feed wrote, entry after entry, into the last one of them, and say how many.

    Gives the entries that are left and the words of those that stand for several.
    """
    fed = [entry for entry in entries if entry.chore == FEED and entry.struck_by is None]
    if len(fed) < 2:
        return list(entries), {}
    counts = count_air(reading, [entry.id for entry in fed])
    last = fed[-1].id
    dropped = {entry.id for entry in fed} - {last}
    words = f"{_air(reading.units, counts.values())} (in {plural(len(fed), 'entry', 'entries')}; kind air shows each)"
    kept = [
        replace(entry, place_id=_one_place(fed)) if entry.id == last else entry
        for entry in entries
        if entry.id not in dropped
    ]
    return kept, {last: words}


def _one_place(entries: Sequence[StoredEntry]) -> int | None:
    places = {entry.place_id for entry in entries}
    return next(iter(places)) if len(places) == 1 else None
