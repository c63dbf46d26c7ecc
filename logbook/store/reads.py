"""Reading the book: plain SQL in, frozen values of growing out. Nothing here commits."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from logbook.growing.chores import RoomHours
from logbook.growing.days import zone_named
from logbook.growing.kinds import KINDS
from logbook.growing.life import Deed
from logbook.growing.looks import Look
from logbook.growing.measures import Units
from logbook.growing.numbers import PAST
from logbook.growing.places import Place, PlaceKind
from logbook.growing.targets import Targets
from logbook.growing.templates import CropTemplate, CutWindow, Stage
from logbook.growing.yields import OwnWeights
from logbook.store.rows import Rows, chunks, moment, stored
from logbook.store.search import held_by

_IN_FORCE = "NOT EXISTS (SELECT 1 FROM entry u WHERE u.strikes_id = s.id)"
"""A strike `s` that no undo has taken back."""
_STANDS = f"NOT EXISTS (SELECT 1 FROM entry s WHERE s.strikes_id = e.id AND {_IN_FORCE})"
BATCHES_A_LOT = 100
LARGEST_ID = 2**63
"""No row's id reaches this: SQLite's integers end before it."""


def maybe_moment(text: str | None) -> datetime | None:
    """Give a stored moment that may be missing."""
    return None if text is None else moment(text)


STANDS = _STANDS
"""For SQL on an entry named e: nothing strikes it."""
WEIGHED_TOGETHER = (
    "SELECT 1 FROM entry_tray et CROSS JOIN weight w CROSS JOIN entry e WHERE et.tray_id = t.id "
    "AND w.entry_id = et.entry_id AND w.tray_id = et.tray_id AND w.shared = 1 "
    f"AND e.id = w.entry_id AND {STANDS}"
)
"""For SQL on a tray named t: its standing weights that were weighed together with others'."""


def _marks(values: Collection[object]) -> str:
    return ",".join("?" * len(values))


@dataclass(frozen=True, slots=True)
class About:
    """The book's own row. `day_start` and `day_end` are minutes after midnight."""

    name: str
    zone: str
    units: Units
    first_day: int
    day_start: int
    day_end: int
    made_at: datetime

    @property
    def hours(self) -> RoomHours:
        """The room's day."""
        return RoomHours(zone_named(self.zone), self.day_start, self.day_end, self.first_day)


@dataclass(frozen=True, slots=True)
class StoredTemplate:
    """A template's newest version with its ids."""

    id: int
    version_id: int
    retired: bool
    template: CropTemplate


@dataclass(frozen=True, slots=True)
class VersionNote:
    """Who made a version of a template, when and why."""

    version_id: int
    number: int
    made_at: datetime
    by: str
    why: str


@dataclass(frozen=True, slots=True)
class StoredTray:
    """A tray with what its batch says of it."""

    id: int
    number: int
    batch_id: int
    version_id: int
    colour: str
    live: bool
    lot: str
    grams_per_tray: float | None
    planned_for: datetime | None
    ended_at: datetime | None = None
    cut_grams: float | None = None


@dataclass(frozen=True, slots=True)
class StoredEntry:
    """An entry with the numbers of its trays.

    `struck_by` is the strike in force against it, `replaced_by` the entry that stands in its
    place, `strikes_id` what a strike strikes, or whose place an entry has taken.
    """

    id: int
    kind: str
    at: datetime
    written_at: datetime
    by: str
    note: str
    chore: str
    stage: int | None
    batch_id: int | None
    place_id: int | None
    strikes_id: int | None
    act_id: int | None
    struck_by: int | None
    replaced_by: int | None
    clock_in_doubt: bool = False
    trays: tuple[int, ...] = ()
    tray_ids: tuple[int, ...] = ()

    @property
    def replaces(self) -> int | None:
        """The entry whose place this one has taken."""
        return None if self.kind == "strike" else self.strikes_id


def read_about(reading: Rows) -> About:
    """The book's own row."""
    rows = reading.make(
        About, "SELECT name, zone, units, first_day, day_start, day_end, made_at FROM book"
    )
    if not rows:
        raise sqlite3.DatabaseError("malformed: the book has no row of its own")
    return rows[0]


def read_places(reading: Rows) -> list[Place]:
    """Give all places in walking order, retired ones too."""
    rows = reading.rows(
        "SELECT id, parent_id, kind, name, position, slots, lamp_on, lamp_off, retired FROM place"
    )
    known = {row[0]: row for row in rows}
    made: dict[int, Place] = {}
    places = [_place(row, known, made) for row in rows]
    return sorted(places, key=lambda place: place.walk)


_PlaceRow = tuple[int, int | None, str, str, int, int, int, int, int]


def _place(row: _PlaceRow, known: dict[int, _PlaceRow], made: dict[int, Place]) -> Place:
    """Make a place, and those above it that are not made yet."""
    if row[0] in made:
        return made[row[0]]
    above = _place(known[row[1]], known, made) if row[1] is not None else None
    path = row[3] if above is None or above.kind == "room" else f"{above.path}/{row[3]}"
    walk = (*(above.walk if above else ()), row[4], row[0])
    kind: PlaceKind = "room" if row[2] == "room" else "rack" if row[2] == "rack" else "shelf"
    retired = bool(row[8]) or (above is not None and above.retired)
    made[row[0]] = Place(row[0], kind, row[3], path, walk, row[1], row[5], row[6], row[7], retired)
    return made[row[0]]


_VERSION = """
SELECT v.id, t.name, v.number, v.crop, v.variety, v.seed_grams, v.tray_length_mm, v.tray_width_mm,
       v.soak_seconds, v.soak_ph, v.medium, v.cut_from_seconds, v.cut_best_seconds,
       v.cut_by_seconds, v.sign_to_cut, v.expected_grams, v.spread_percent, v.mucilage, v.guess,
       v.notes
FROM template_version v JOIN template t ON t.id = v.template_id
"""


def read_versions(reading: Rows, ids: Collection[int]) -> dict[int, CropTemplate]:
    """Give template versions by their ids."""
    from logbook.store.reads_room import read_targets

    found: dict[int, CropTemplate] = {}
    targets = read_targets(reading, ids)
    for some in chunks(ids):
        stages: dict[int, list[Stage]] = {}
        for row in reading.rows(
            "SELECT version_id, name, seconds, cover, light, water, water_per_day, looks_per_day "
            f"FROM stage WHERE version_id IN ({_marks(some)}) ORDER BY version_id, position",
            some,
        ):
            stages.setdefault(row[0], []).append(Stage(*row[1:]))
        for row in reading.rows(f"{_VERSION} WHERE v.id IN ({_marks(some)})", some):
            found[row[0]] = CropTemplate(
                name=row[1],
                version=row[2],
                crop=row[3],
                variety=row[4],
                seed_grams=row[5],
                tray_length_mm=row[6],
                tray_width_mm=row[7],
                soak_seconds=row[8],
                soak_ph=row[9],
                medium=row[10],
                cut=CutWindow(row[11], row[12], row[13]),
                sign_to_cut=row[14],
                expected_grams=row[15],
                spread_percent=row[16],
                mucilage=bool(row[17]),
                guess=bool(row[18]),
                notes=row[19],
                stages=tuple(stages.get(row[0], ())),
                targets=targets.get(row[0], Targets()),
            )
    if any(each not in found or not found[each].stages for each in ids):
        raise sqlite3.DatabaseError("malformed: a template version is not there or has no stage")
    return found


def read_templates(reading: Rows) -> list[StoredTemplate]:
    """Give the newest version of every template, by name; retired ones too."""
    rows = reading.rows(
        "SELECT t.id, t.retired, max(v.number), v.id FROM template t "
        "JOIN template_version v ON v.template_id = t.id GROUP BY t.id, t.retired ORDER BY t.name_key"
    )
    versions = read_versions(reading, [row[3] for row in rows])
    return [StoredTemplate(row[0], row[3], bool(row[1]), versions[row[3]]) for row in rows]


def read_version_notes(reading: Rows, template_id: int) -> list[VersionNote]:
    """Give the versions of a template, newest first."""
    rows = reading.rows(
        'SELECT id, number, made_at, "by", why FROM template_version WHERE template_id = ? '
        "ORDER BY number DESC",
        (template_id,),
    )
    return [VersionNote(row[0], row[1], moment(row[2]), row[3], row[4]) for row in rows]


_TRAY = """
SELECT t.id, t.number, t.batch_id, t.version_id, t.colour, t.live, b.lot, b.grams_per_tray,
       b.planned_for, t.ended_at, t.cut_grams
FROM tray t JOIN batch b ON b.id = t.batch_id
"""


def _tray(row: Sequence[Any]) -> StoredTray:
    values: list[Any] = [*row[:5], bool(row[5]), *row[6:8]]
    values += [maybe_moment(row[8]), maybe_moment(row[9]), row[10]]
    return StoredTray(*values)


def read_live_trays(reading: Rows) -> list[StoredTray]:
    """Give the trays that are planned or growing, by number."""
    rows = reading.rows(f"{_TRAY} WHERE t.live = 1 ORDER BY t.number, t.id")
    return [_tray(row) for row in rows]


def read_trays(reading: Rows, ids: Collection[int]) -> list[StoredTray]:
    """Give trays by their ids."""
    found = []
    for some in chunks(ids):
        found += [
            _tray(row) for row in reading.rows(f"{_TRAY} WHERE t.id IN ({_marks(some)})", some)
        ]
    return found


def read_trays_of_batch(reading: Rows, batch_id: int) -> list[StoredTray]:
    """Give the trays of a batch, by number."""
    rows = reading.rows(f"{_TRAY} WHERE t.batch_id = ? ORDER BY t.number", (batch_id,))
    return [_tray(row) for row in rows]


def read_recent_lots(reading: Rows, most: int) -> list[str]:
    """Give the seed lots of the newest batches, each once; older batches are not looked at."""
    rows = reading.rows(
        "SELECT lot FROM (SELECT id, lot FROM batch WHERE lot <> '' ORDER BY id DESC LIMIT ?) newest "
        "GROUP BY lot ORDER BY max(id) DESC LIMIT ?",
        (most * BATCHES_A_LOT, most),
    )
    return [row[0] for row in rows]


_LOTS = "SELECT id, lot FROM batch WHERE lot <> ''"


def read_lots(reading: Rows, batches: Collection[int] | None = None) -> dict[int, str]:
    """Give the seed lots of batches, or of all that name one, by batch id; all oldest first."""
    if batches is None:
        return dict(reading.rows(f"{_LOTS} ORDER BY id"))
    found: dict[int, str] = {}
    for some in chunks(batches):
        found.update(reading.rows(f"{_LOTS} AND id IN ({_marks(some)})", some))
    return found


def newest_trays_numbered(reading: Rows, numbers: Collection[int]) -> dict[int, StoredTray]:
    """Give, for each number, the live tray of it or else the newest that had it.

    A tray whose sowing was struck, so that it never was, comes after all others of its number.
    """
    found: dict[int, Sequence[Any]] = {}
    for some in chunks(numbers):
        for row in reading.rows(
            f"{_TRAY} WHERE t.number IN ({_marks(some)}) ORDER BY t.live, "
            "t.ended_at IS NOT NULL, t.id",
            some,
        ):
            found[row[1]] = row
    return {number: _tray(row) for number, row in found.items()}


def live_numbers(reading: Rows) -> set[int]:
    """Give the numbers that are on trays in use."""
    return {row[0] for row in reading.rows("SELECT number FROM tray WHERE live = 1")}


def last_used_number(reading: Rows) -> int | None:
    """Give the number of the tray that was written last.

    Struck sowings do not count, nor do trays of the past. The + keeps SQLite from the index of
    the numbers, which would sort them all; the newest few rows are enough.
    """
    row = reading.row(
        "SELECT number FROM tray WHERE +number < ? AND (live = 1 OR ended_at IS NOT NULL) "
        "ORDER BY id DESC LIMIT 1",
        (PAST,),
    )
    return None if row is None else int(row[0])


def last_past_number(reading: Rows) -> int | None:
    """Give the number of the tray of the past that was written last."""
    row = reading.row("SELECT number FROM tray WHERE number >= ? ORDER BY id DESC LIMIT 1", (PAST,))
    return None if row is None else int(row[0])


@dataclass(frozen=True, slots=True)
class PastCut:
    """A cut of a batch whose trays are of the past: sown, cut, trays, g in all."""

    batch_id: int
    template_id: int
    sown_at: datetime
    cut_at: datetime
    trays: int
    grams: float


def read_past_cuts(reading: Rows) -> list[PastCut]:
    """Give the standing cuts of trays that were cut before the book began."""
    rows = reading.rows(
        "SELECT b.id, v.template_id, s.at, e.at, count(*), sum(w.grams) FROM entry e "
        "JOIN weight w ON w.entry_id = e.id JOIN tray t ON t.id = w.tray_id "
        "JOIN batch b ON b.id = t.batch_id JOIN template_version v ON v.id = b.version_id "
        "JOIN entry s ON s.batch_id = b.id AND s.kind = 'sow' "
        f"WHERE t.number >= ? AND {_STANDS} GROUP BY e.id, s.id ORDER BY e.id",
        (PAST,),
    )
    return [PastCut(row[0], row[1], moment(row[2]), moment(row[3]), *row[4:]) for row in rows]


_ROOT = """
CASE WHEN e.strikes_id IS NULL THEN e.id ELSE (
  WITH RECURSIVE chain(id, above) AS (
    SELECT e.id, e.strikes_id
    UNION ALL SELECT p.id, p.strikes_id FROM entry p JOIN chain ON p.id = chain.above)
  SELECT min(id) FROM chain) END
"""
"""The first entry of a chain of replacements: a replacement keeps its place in the order."""

_MAKING_STATE = ", ".join(f"'{kind.name}'" for kind in KINDS.values() if kind.makes_state)
_DEEDS = f"""
SELECT et.tray_id, {_ROOT}, e.kind, e.at, e.stage, e.chore, p.place_id, p.slot, w.grams, w.part,
       l.sign_seen, l.mould, b.planned_for
FROM tray t
CROSS JOIN entry_tray et
JOIN entry e ON e.id = et.entry_id
LEFT JOIN batch b ON b.id = e.batch_id
LEFT JOIN tray_place p ON p.entry_id = e.id AND p.tray_id = et.tray_id
LEFT JOIN weight w ON w.entry_id = e.id AND w.tray_id = et.tray_id
LEFT JOIN look l ON l.entry_id = e.id
WHERE et.tray_id = t.id AND {_STANDS} AND e.kind IN ({_MAKING_STATE})
"""
"""The CROSS JOIN makes SQLite begin at the few trays asked for, not at millions of entries
(sqlite.org/optoverview.html, "Manual Control Of Query Plans Using CROSS JOIN")."""


def _deeds(rows: Iterable[Sequence[Any]], into: dict[int, list[Deed]]) -> None:
    """Sort deeds by tray; one that was done to several trays alike is made once for all."""
    made: dict[Sequence[Any], Deed] = {}
    for row in rows:
        facts = row[1:]
        deed = made.get(facts)
        if deed is None:
            deed = made[facts] = _deed(*facts)
        into.setdefault(row[0], []).append(deed)


def _deed(
    entry: int,
    kind: str,
    at: str,
    stage: int | None,
    chore: str,
    place: int | None,
    slot: int | None,
    grams: float | None,
    part: int | None,
    sign: int | None,
    saw: str | None,
    planned: str | None,
) -> Deed:
    return Deed(
        entry,
        kind,
        moment(at),
        stage,
        chore,
        place,
        slot,
        grams,
        bool(part),
        bool(sign),
        saw or "",
        maybe_moment(planned) if kind == "plan" else None,
    )


def read_deeds(reading: Rows, trays: Collection[int] | None = None) -> dict[int, list[Deed]]:
    """Give the standing deeds of trays, or of all live trays, by tray id."""
    found: dict[int, list[Deed]] = {}
    if trays is None:
        _deeds(reading.rows(f"{_DEEDS} AND t.live = 1"), found)
        return found
    for some in chunks(trays):
        _deeds(reading.rows(f"{_DEEDS} AND t.id IN ({_marks(some)})", some), found)
    return found


Newest = tuple[int, str]

_NEWEST = """
SELECT t.id, e.id, e.written_at FROM tray t
CROSS JOIN entry e ON e.id = (SELECT max(entry_id) FROM entry_tray WHERE tray_id = t.id)
"""


def read_newest(reading: Rows, trays: Collection[int] | None = None) -> dict[int, Newest]:
    """Give the id of the newest entry of trays, or of all live trays, and when it was written.

    Entries are never changed, and a strike is an entry on the trays of what it strikes: while the
    newest entry of a tray is the same, so are its standing deeds. The moment tells apart what a
    restored book has written anew under the same id.
    """
    if trays is None:
        return {row[0]: row[1:] for row in reading.rows(f"{_NEWEST} WHERE t.live = 1")}
    found: dict[int, Newest] = {}
    for some in chunks(trays):
        for row in reading.rows(f"{_NEWEST} WHERE t.id IN ({_marks(some)})", some):
            found[row[0]] = row[1:]
    return found


def recent_weights(
    reading: Rows,
    template_ids: Collection[int],
    most: int = 40,
    before: datetime | None = None,
) -> dict[int, OwnWeights]:
    """Give the newest cut weights of each template's trays, in g, at most `most` of each.

    With `before` only those of trays cut before that moment.
    """
    until = "9999-12-31" if before is None else stored(before)
    found: dict[int, OwnWeights] = {}
    for template in template_ids:
        weights: list[tuple[float, int]] = []
        versions = reading.rows(
            "SELECT id FROM template_version WHERE template_id = ? ORDER BY number DESC",
            (template,),
        )
        for (version,) in versions:
            if len(weights) >= most:
                break
            weights += reading.rows(
                f"SELECT t.cut_grams, EXISTS ({WEIGHED_TOGETHER}) FROM tray t "
                "WHERE t.version_id = ? AND t.ended_at < ? AND t.cut_grams IS NOT NULL "
                "ORDER BY t.ended_at DESC LIMIT ?",
                (version, until, most - len(weights)),
            )
        found[template] = OwnWeights(
            tuple(grams for grams, shared in weights if not shared),
            tuple(grams for grams, shared in weights if shared),
        )
    return found


def template_of_versions(reading: Rows, versions: Collection[int]) -> dict[int, int]:
    """Give the template id of each version id."""
    found: dict[int, int] = {}
    for some in chunks(versions):
        found.update(
            reading.rows(
                f"SELECT id, template_id FROM template_version WHERE id IN ({_marks(some)})",
                some,
            )
        )
    return found


_ENTRY = f"""
SELECT e.id, e.kind, e.at, e.written_at, e."by", e.note, e.chore, e.stage, e.batch_id, e.place_id,
       e.strikes_id, e.act_id,
       (SELECT max(s.id) FROM entry s WHERE s.strikes_id = e.id AND s.kind = 'strike'
        AND {_IN_FORCE}),
       (SELECT max(s.id) FROM entry s WHERE s.strikes_id = e.id AND s.kind <> 'strike'
        AND EXISTS (SELECT 1 FROM entry k WHERE k.strikes_id = e.id AND k.act_id = s.act_id
                    AND k.kind = 'strike'
                    AND NOT EXISTS (SELECT 1 FROM entry u WHERE u.strikes_id = k.id))),
       e.clock_in_doubt
FROM entry e
"""


def _entries(reading: Rows, where: str, values: Sequence[object]) -> list[StoredEntry]:
    rows = reading.rows(f"{_ENTRY} {where}", values)
    trays: dict[int, list[tuple[int, int]]] = {}
    for some in chunks(row[0] for row in rows):
        for entry, number, tray in reading.rows(
            "SELECT et.entry_id, t.number, t.id FROM entry_tray et JOIN tray t ON t.id = et.tray_id "
            f"WHERE et.entry_id IN ({_marks(some)}) ORDER BY t.number",
            some,
        ):
            trays.setdefault(entry, []).append((number, tray))
    found = []
    for row in rows:
        columns: list[Any] = [
            row[0],
            row[1],
            moment(row[2]),
            moment(row[3]),
            *row[4:14],
            bool(row[14]),
        ]
        mine = trays.get(row[0], [])
        found.append(
            replace(
                StoredEntry(*columns),
                trays=tuple(number for number, _ in mine),
                tray_ids=tuple(tray for _, tray in mine),
            )
        )
    return found


def read_entries(
    reading: Rows,
    start: datetime | None = None,
    end: datetime | None = None,
    *,
    tray_id: int | None = None,
    batch_id: int | None = None,
    crop_key: str = "",
    kind: str = "",
    words: str = "",
    newest: int | None = None,
) -> list[StoredEntry]:
    """Give entries that fit all that is asked, oldest first by when they happened.

    `words` are folded words, all of them to be held in any order, as parts of words too (see
    store/search.py); `crop_key` is looked for in the folded template name.
    With `newest` only so many of the last.
    """
    tests: list[str] = []
    values: list[object] = []
    few = False
    if start is not None:
        tests.append("e.at >= ?")
        values.append(stored(start))
    if end is not None:
        tests.append("e.at < ?")
        values.append(stored(end))
    if kind:
        tests.append("e.kind = ?")
        values.append(kind)
    if words:
        held, each, few = held_by(reading, words)
        tests.append(held)
        values += each
    if tray_id is not None:
        tests.append("e.id IN (SELECT entry_id FROM entry_tray WHERE tray_id = ?)")
        values.append(tray_id)
    if batch_id is not None:
        tests.append(
            "e.id IN (SELECT et.entry_id FROM entry_tray et JOIN tray t ON t.id = et.tray_id "
            "WHERE t.batch_id = ?)"
        )
        values.append(batch_id)
    if crop_key:
        tests.append(
            "EXISTS (SELECT 1 FROM entry_tray et JOIN tray t ON t.id = et.tray_id "
            "JOIN template_version v ON v.id = t.version_id "
            "JOIN template c ON c.id = v.template_id "
            "WHERE et.entry_id = e.id AND instr(c.name_key, ?) > 0)"
        )
        values.append(crop_key)
    where = f"WHERE {' AND '.join(tests)}" if tests else ""
    if newest is not None:
        order = f"ORDER BY {'+' if few else ''}e.at DESC, e.id DESC"
        ids = f"SELECT e.id FROM entry e {where} {order} LIMIT ?"
        where, values = f"WHERE e.id IN ({ids})", [*values, newest]
    return _entries(reading, f"{where} ORDER BY e.at, e.id", values)


def read_entry(reading: Rows, entry_id: int) -> StoredEntry | None:
    """Give one entry."""
    return next(iter(_entries(reading, "WHERE e.id = ?", (entry_id,))), None)


def read_act(reading: Rows, act_id: int) -> list[StoredEntry]:
    """Give the entries of one act, as they were written."""
    return _entries(reading, "WHERE e.act_id = ? ORDER BY e.id", (act_id,))


def last_standing_act(reading: Rows, by: str) -> int | None:
    """Give the act that this person wrote last and that stands; an undo is never undone.

    A strike that came with a replacement goes with that one, whoever struck it since.
    """
    found: int | None = reading.value(
        f"SELECT e.act_id FROM entry e WHERE e.\"by\" = ? AND {_STANDS} AND NOT (e.kind = 'strike' "
        "AND (e.chore = 'undo' OR EXISTS (SELECT 1 FROM entry n WHERE n.act_id = e.act_id "
        "AND n.strikes_id = e.strikes_id AND n.kind <> 'strike'))) ORDER BY e.id DESC LIMIT 1",
        (by,),
    )
    return found


def read_root(reading: Rows, entry_id: int) -> int:
    """Give the first entry of the chain of replacements that an entry ends."""
    return int(reading.value(f"SELECT {_ROOT} FROM entry e WHERE e.id = ?", (entry_id,)))


def read_sown_batches(reading: Rows, trays: Collection[int]) -> dict[int, tuple[int, int]]:
    """Give the batch and template version that the newest standing sowing or plan puts trays in."""
    found: dict[int, tuple[int, int]] = {}
    for some in chunks(trays):
        for tray, batch, version, _ in reading.rows(
            "SELECT et.tray_id, b.id, b.version_id, max(e.id) FROM entry_tray et "
            "JOIN entry e ON e.id = et.entry_id JOIN batch b ON b.id = e.batch_id "
            f"WHERE et.tray_id IN ({_marks(some)}) AND e.kind IN ('plan', 'sow') AND {_STANDS} "
            "GROUP BY et.tray_id",
            some,
        ):
            found[tray] = (batch, version)
    return found


def batches_instead(reading: Rows, batch_id: int) -> list[str]:
    """Name the batches that hold the trays of a batch whose sowing was corrected."""
    rows = reading.rows(
        "SELECT DISTINCT t.batch_id FROM entry e JOIN entry_tray et ON et.entry_id = e.id "
        "JOIN tray t ON t.id = et.tray_id WHERE e.batch_id = ? ORDER BY t.batch_id",
        (batch_id,),
    )
    return [str(row[0]) for row in rows]


def numbers_twice(reading: Rows, trays: Collection[int]) -> list[int]:
    """Give the numbers of these trays that another tray in use has too."""
    found: set[int] = set()
    for some in chunks(trays):
        found |= {
            row[0]
            for row in reading.rows(
                "SELECT DISTINCT t.number FROM tray t JOIN tray o ON o.number = t.number "
                f"AND o.id <> t.id AND o.live = 1 WHERE t.id IN ({_marks(some)})",
                some,
            )
        }
    return sorted(found)


def read_weights(
    reading: Rows, entries: Collection[int]
) -> dict[int, list[tuple[int, float, bool, bool]]]:
    """Give the weights of entries: tray id, g, part, shared."""
    found: dict[int, list[tuple[int, float, bool, bool]]] = {}
    for some in chunks(entries):
        for row in reading.rows(
            f"SELECT entry_id, tray_id, grams, part, shared FROM weight WHERE entry_id IN ({_marks(some)})",
            some,
        ):
            found.setdefault(row[0], []).append((row[1], row[2], bool(row[3]), bool(row[4])))
    return found


def read_looks(reading: Rows, entries: Collection[int]) -> dict[int, Look]:
    """Give what the looks of entries saw."""
    found: dict[int, Look] = {}
    for some in chunks(entries):
        for row in reading.rows(
            "SELECT entry_id, emerged_percent, height_mm, mould, mould_where, wilting, "
            "cotyledons_open, true_leaves, stem_colour, hulls_on, uneven, sign FROM look "
            f"WHERE entry_id IN ({_marks(some)})",
            some,
        ):
            yes = [None if value is None else bool(value) for value in row]
            values: list[Any] = [*row[1:5], *yes[5:8], row[8], yes[9], *row[10:12]]
            found[row[0]] = Look(*values)
    return found


def read_spots(
    reading: Rows, entries: Collection[int]
) -> dict[int, list[tuple[int, int | None, int | None]]]:
    """Give where entries put trays: tray id, place id, slot."""
    found: dict[int, list[tuple[int, int | None, int | None]]] = {}
    for some in chunks(entries):
        for row in reading.rows(
            f"SELECT entry_id, tray_id, place_id, slot FROM tray_place WHERE entry_id IN ({_marks(some)})",
            some,
        ):
            found.setdefault(row[0], []).append((row[1], row[2], row[3]))
    return found
