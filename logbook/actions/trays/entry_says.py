"""What entries say beside their kind and note: each thing that they carry, in words and in numbers."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from logbook.actions.reading import Reading
from logbook.growing import measures
from logbook.growing.crops.seed_lots import lots_words
from logbook.growing.crops.targets import Targets
from logbook.growing.days import moment_words
from logbook.growing.kinds import Carried, kind_of
from logbook.growing.room.air import FEED
from logbook.growing.room.light import Uniformity, uniformity
from logbook.growing.room.water import WaterReading, WaterThing, water_marks
from logbook.growing.trays.looks import Look, look_words
from logbook.store.entry_details import read_details
from logbook.store.reads.air import AirCount, count_air, count_together
from logbook.store.reads.entries import StoredEntry
from logbook.store.reads.lots import read_lots
from logbook.store.reads.said import StoredSpot, StoredWeight
from logbook.store.reads.water import read_water_targets
from logbook.text import listed, plural


@dataclass(frozen=True, slots=True)
class Said:
    """What an entry says; `to` is the path of the place where its trays were put."""

    words: str = ""
    to: str = ""
    grams: float | None = None
    """Cut weight: of the tray asked for, or of all its trays together."""
    part: bool | None = None
    keep: bool | None = None
    """Whether more is to be cut from the trays; null where nothing was cut."""
    pack_lot: str = ""
    """The codes of the pack lots that a cut went into."""
    water: WaterReading | None = None
    look: Look | None = None
    air: AirCount | None = None
    light: Uniformity | None = None


@dataclass(frozen=True, slots=True)
class Context:
    """What is known beside an entry: the tray whose page it is on, lots by batch, water wanted."""

    reading: Reading
    tray_id: int | None
    lots: Mapping[int, str]
    wanted: Mapping[int, Sequence[Targets]]

    @property
    def units(self) -> measures.Units:
        """The units of the room."""
        return self.reading.units


def says(
    reading: Reading,
    entries: Sequence[StoredEntry],
    tray_id: int | None = None,
    *,
    name_lots: bool = False,
) -> dict[int, Said]:
    """What entries say, by entry id; nothing for those that say no more than their kind."""
    details = read_details(reading, {entry.id: entry.kind for entry in entries})
    sown = [entry.batch_id for entry in entries if "lot" in kind_of(entry.kind).carries]
    named = [each for each in sown if each is not None] if name_lots else []
    lots = {
        batch: lots_words(each, reading.units) for batch, each in read_lots(reading, named).items()
    }
    watered = details.get("watering", {})
    wanted = read_water_targets(reading, watered) if watered else {}
    context = Context(reading, tray_id, lots, wanted)
    return {
        entry.id: SAY[carried](context, entry, details[carried][entry.id])
        for entry in entries
        for carried in kind_of(entry.kind).carries
        if entry.id in details.get(carried, ())
    }


def _weights(context: Context, _entry: StoredEntry, weights: Sequence[StoredWeight]) -> Said:
    grams = sum(each.grams for each in weights)
    total = measures.grams_words(grams, context.units)
    own = [each.grams for each in weights if each.tray_id == context.tray_id]
    part, keep, shared = weights[0].part, weights[0].keep, weights[0].shared
    words = f"{total} together" if shared else total
    if shared and own:
        grams = own[0]
        words = f"{measures.grams_words(grams, context.units)}, shared out of {total}"
    words += ", part cut" if part else ", grows again" if keep else ""
    lots = listed(list(dict.fromkeys(each.lot for each in weights if each.lot)))
    return Said(words, grams=grams, part=part, keep=keep, pack_lot=lots)


def _watering(context: Context, entry: StoredEntry, water: WaterReading) -> Said:
    words = measured_words(water, context.units, context.wanted.get(entry.id, ()))
    return Said(words, water=water)


def _placing(context: Context, entry: StoredEntry, spots: Sequence[StoredSpot]) -> Said:
    places = context.reading.places.by_id
    to = ", ".join(sorted({places[each.place_id].path for each in spots if each.place_id}))
    kind = kind_of(entry.kind)
    lot = context.lots.get(entry.batch_id or 0) if "lot" in kind.carries else ""
    parts = (f"from lot {lot}" if lot else "", f"{kind.puts} {to}" if to else "")
    return Said(" ".join(part for part in parts if part), to)


def _light(_context: Context, _entry: StoredEntry, ppfds: Sequence[float]) -> Said:
    even = uniformity(ppfds)
    words = f"PPFD {measures.number_words(even.mean, 0)} µmol/m²/s of {plural(even.count, 'spot')}"
    return Said(words, light=even)


def _outage(context: Context, entry: StoredEntry, until: datetime) -> Said:
    hours = measures.hours_words((until - entry.at).total_seconds() / 3600)
    return Said(
        f"until {moment_words(until, entry.at, context.reading.hours_of(entry.place_id).zone)}, {hours}"
    )


SAY: dict[Carried, Callable[[Context, StoredEntry, Any], Said]] = {
    "weights": _weights,
    "look": lambda room, _, look: Said(look_words(look, room.units), look=look),
    "watering": _watering,
    "placing": _placing,
    "lamps": lambda room, _, lamps: Said(lamps.words(room.units)),
    "hours": lambda _room, _, hours: Said("none" if hours is None else hours.words),
    "tariff": lambda _room, _, tariff: Said(tariff.words),
    "circuit": lambda _room, _, circuit: Said(circuit),
    "light": _light,
    "air": lambda room, _, count: Said(air_words(room.units, count), air=count),
    "outage": _outage,
    "bag": lambda room, _, bag: Said(
        f"{measures.grams_words(bag.grams, room.units)} of {bag.crop}, lot {bag.lot}"
    ),
    "seed count": lambda _room, _, count: Said(f"lot {count.lot}, {count.words}"),
    "seed weight": lambda room, _, left: Said(
        f"lot {left.lot}, {measures.grams_words(left.grams, room.units)} left"
    ),
    "use": lambda _room, _, use: Said(use.what),
    "check": lambda room, _, check: Said(check.words(room.units)),
    "held": lambda _room, _, name: Said(name),
    "recall": lambda room, _, kept: Said(kept.words(room.units)),
}
"""How each thing that an entry may carry is said."""


def measured_words(
    reading: WaterReading, units: measures.Units, targets: Iterable[Targets] = ()
) -> str:
    """What was given or measured: "300 ml each, pH 7.4 (high, wanted 5.5 to 6.5)"."""
    marks: dict[WaterThing, str] = {}
    for target in targets:
        for mark in water_marks(reading, target):
            if mark.side != "in":
                marks.setdefault(mark.what, f" ({mark.side}, wanted {mark.band.words})")
    parts = []
    if reading.millilitres is not None:
        each = f"{measures.volume_words(reading.millilitres, units)} each"
        parts.append(each + marks.get("amount", ""))
    if reading.ph is not None:
        parts.append(f"pH {measures.number_words(reading.ph, 2)}" + marks.get("pH", ""))
    if reading.ec is not None:
        parts.append(f"EC {measures.number_words(reading.ec, 2)} mS/cm" + marks.get("EC", ""))
    return ", ".join(parts)


def air_words(units: measures.Units, air: AirCount) -> str:
    """What air readings span: "12 readings, 20 to 22 °C, 55 %"."""

    def span(low: str, high: str) -> str:
        return low if low == high else f"{low} to {high}"

    degrees = span(
        measures.temperature_words(air.coldest, units),
        measures.temperature_words(air.warmest, units),
    )
    damp = span(f"{measures.number_words(air.driest)} %", f"{measures.number_words(air.dampest)} %")
    many = "" if air.readings == 1 else f"{plural(air.readings, 'reading')}, "
    return f"{many}{degrees}, {damp}"


def without_feeds(
    reading: Reading, entries: Sequence[StoredEntry]
) -> tuple[list[StoredEntry], dict[int, Said]]:
    """Put what a feed wrote, entry after entry, into the last one; says what each stands for."""
    fed = [entry for entry in entries if entry.chore == FEED and not entry.struck]
    if len(fed) < 2:
        return list(entries), {}
    air = count_together(count_air(reading, [entry.id for entry in fed]).values())
    last = fed[-1].id
    dropped = {entry.id for entry in fed} - {last}
    many = plural(len(fed), "entry", "entries")
    words = f"air: {air_words(reading.units, air)} (in {many}; kind air shows each)"
    kept = [
        replace(entry, place_id=_one_place(fed)) if entry.id == last else entry
        for entry in entries
        if entry.id not in dropped
    ]
    return kept, {last: Said(words, air=air)}


def _one_place(entries: Sequence[StoredEntry]) -> int | None:
    places = {entry.place_id for entry in entries}
    return next(iter(places)) if len(places) == 1 else None
