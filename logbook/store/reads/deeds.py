"""Reading deeds: the standing entries that the states of trays are made of."""

from collections.abc import Collection, Iterable

from logbook.growing.kinds import KINDS
from logbook.growing.trays.life import Deed, in_their_order
from logbook.store.reads.standing import ROOT, STANDS
from logbook.store.rows import Row, Rows, maybe_moment, moment, quoted

_MAKING_STATE = quoted(name for name, kind in KINDS.items() if kind.makes_state)
_WATERING = quoted(name for name, kind in KINDS.items() if kind.answers == "water")
_DEEDS = f"""
SELECT et.tray_id, {ROOT}, e.kind, e.at, e.stage, e.chore, p.place_id, p.slot, w.grams, w.part,
       w.keep, w.shared, l.sign_seen, l.mould, CASE e.kind WHEN 'plan' THEN b.planned_for END,
       e.clock_in_doubt = 1 AND e.at = e.written_at
FROM tray t
CROSS JOIN entry_tray et
JOIN entry e ON e.id = et.entry_id
LEFT JOIN batch b ON b.id = e.batch_id
LEFT JOIN tray_place p ON p.entry_id = e.id AND p.tray_id = et.tray_id
LEFT JOIN weight w ON w.entry_id = e.id AND w.tray_id = et.tray_id
LEFT JOIN look l ON l.entry_id = e.id
WHERE et.tray_id = t.id AND {STANDS} AND e.kind IN ({_MAKING_STATE})
"""
"""The CROSS JOIN makes SQLite begin at the few trays asked for, not at millions of entries
(sqlite.org/optoverview.html, "Manual Control Of Query Plans Using CROSS JOIN")."""


def read_deeds(
    reading: Rows, trays: Collection[int] | None = None, *, watered: bool = True
) -> dict[int, list[Deed]]:
    """The standing deeds of trays, or of all live trays, by tray id; waterings only if they are wanted."""
    sql = _DEEDS if watered else f"{_DEEDS} AND e.kind NOT IN ({_WATERING})"
    if trays is None:
        return _deeds(reading.rows(f"{sql} AND t.live = 1"))
    return _deeds(reading.rows_of(f"{sql} AND t.id IN (ids)", trays))


def _deeds(rows: Iterable[Row]) -> dict[int, list[Deed]]:
    """Sort deeds by tray; one that was done to several trays alike is made once for all."""
    found: dict[int, list[Deed]] = {}
    made: dict[Row, Deed] = {}
    for tray, *facts in rows:
        key = tuple(facts)
        deed = made.get(key) or made.setdefault(key, _deed(key))
        found.setdefault(tray, []).append(deed)
    doubtful = any(deed.untold for deed in made.values())
    return {tray: in_their_order(deeds) for tray, deeds in found.items()} if doubtful else found


def _deed(facts: Row) -> Deed:
    entry, kind, at, stage, chore, place, slot, grams, part, keep, shared, *rest = facts
    sign, mould, planned_for, untold = rest
    return Deed(
        entry, kind, moment(at), stage, chore, place, slot, grams, bool(part), bool(keep),
        bool(shared), bool(sign),
        mould or "", maybe_moment(planned_for), bool(untold),
    )  # fmt: skip


Newest = tuple[int, float]

_NEWEST = """
SELECT t.id, e.id, e.written_at FROM tray t
CROSS JOIN entry e ON e.id = (SELECT max(entry_id) FROM entry_tray WHERE tray_id = t.id)
"""


def read_newest(reading: Rows, trays: Collection[int] | None = None) -> dict[int, Newest]:
    """The id of the newest entry of trays, or of all live trays, and when it was written.

    Entries are never changed, and a strike is an entry on the trays of what it strikes: while the
    newest entry of a tray is the same, so are its standing deeds. The moment tells apart what a
    restored book has written anew under the same id.
    """
    if trays is None:
        rows: Iterable[Row] = reading.rows(f"{_NEWEST} WHERE t.live = 1")
    else:
        rows = reading.rows_of(f"{_NEWEST} WHERE t.id IN (ids)", trays)
    return {tray: (entry, written_at) for tray, entry, written_at in rows}
