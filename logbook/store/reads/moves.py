"""Reading what moved trays: sown, changed, moved; of a time, or of some trays, whichever is less."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from datetime import datetime

from logbook.growing.trays.life import Deed
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.standing import ROOT, STANDS
from logbook.store.rows import Row, Rows, moment, stored

_MOVED = f"""
SELECT e.id, {ROOT}, e.kind, e.at, e.stage, p.place_id, e.clock_in_doubt = 1 AND e.at = e.written_at,
       e."by", group_concat(CAST(et.tray_id AS TEXT), ',')
"""
_PLACED = "LEFT JOIN tray_place p ON p.entry_id = e.id AND p.tray_id = et.tray_id"
_KINDS = f"e.kind IN ('sow', 'change', 'move') AND {STANDS}"
_NOT_WHOLE = f"""
SELECT w.tray_id, w.shared, w.part = 1 OR w.keep = 1 FROM weight w CROSS JOIN entry e
WHERE (w.part = 1 OR w.keep = 1 OR w.shared = 1) AND e.id = w.entry_id AND {STANDS}
"""


@dataclass(frozen=True, slots=True)
class Moves:
    """By tray (id) its sowings, changes and moves, and who sowed it; those whose weight isn't one whole cut."""

    deeds: dict[int, tuple[Deed, ...]] = field(default_factory=dict)
    """Of trays that moved alike the same tuple."""
    sowers: dict[int, str] = field(default_factory=dict)
    shared: set[int] = field(default_factory=set)
    """Trays that were weighed together with others."""
    several: set[int] = field(default_factory=set)
    """Trays that were cut more than once."""


def read_moves(reading: Rows, start: datetime, end: datetime) -> Moves:
    """What moved trays in a time, of the trays that were sown in it."""
    time = (stored(start), stored(end))
    rows = reading.rows(
        f"{_MOVED} FROM entry e CROSS JOIN entry_tray et ON et.entry_id = e.id {_PLACED} "
        f"WHERE e.at >= ? AND e.at < ? AND {_KINDS} GROUP BY e.id, p.place_id ORDER BY e.id, p.place_id",
        time,
    )
    return _moves(reading, rows, reading.rows(_NOT_WHOLE))


def first_sown(reading: Rows, start: datetime, until: datetime) -> datetime | None:
    """When the first of trays was sown that left the rack in a time, or still grow; None for none."""
    first = reading.value(
        "SELECT min(e.at) FROM entry_tray et CROSS JOIN entry e ON e.id = et.entry_id "
        "WHERE et.tray_id IN (SELECT t.id FROM template_version v CROSS JOIN tray t "
        "WHERE t.version_id = v.id AND t.ended_at >= ? AND t.ended_at < ? "
        "UNION ALL SELECT id FROM tray WHERE live = 1) AND e.kind = 'sow'",
        (stored(start), stored(until)),
    )
    return None if first is None else moment(first)


def read_moves_of(reading: Rows, trays: Collection[int]) -> Moves:
    """What moved these trays (ids)."""
    rows = reading.rows_of(
        f"{_MOVED} FROM entry_tray et CROSS JOIN entry e ON e.id = et.entry_id {_PLACED} "
        f"WHERE et.tray_id IN (ids) AND {_KINDS} GROUP BY e.id, p.place_id ORDER BY e.id, p.place_id",
        trays,
    )
    weights = reading.rows_of(f"{_NOT_WHOLE} AND w.tray_id IN (ids)", trays)
    return _moves(reading, rows, weights)


def _moves(reading: Rows, rows: Iterable[Row], weights: Iterable[Row]) -> Moves:
    found: dict[int, list[Deed]] = {}
    sowers: dict[int, str] = {}
    doubtful: set[int] = set()
    for _, entry, kind, at, stage, place, untold, by, ids in rows:
        deed = Deed(entry, kind, moment(at), stage, place=place)
        trays = [int(each) for each in ids.split(",")]
        for tray in trays:
            found.setdefault(tray, []).append(deed)
        if kind == "sow":
            sowers |= dict.fromkeys(trays, str(by))
        if untold:
            doubtful.update(trays)
    deeds = {tray: found[tray] for tray in sowers}
    for tray, each in read_deeds(reading, doubtful & sowers.keys()).items():
        deeds[tray] = [one for one in each if one.kind in ("sow", "change", "move")]
    alike: dict[tuple[int, ...], tuple[Deed, ...]] = {}
    told = {
        tray: alike.setdefault(tuple(map(id, each)), tuple(each)) for tray, each in deeds.items()
    }
    shared, several = set[int](), set[int]()
    for tray, together, more in weights:
        shared.update([tray] if together else ())
        several.update([tray] if more else ())
    return Moves(told, sowers, shared, several)
