"""Reading entries with the numbers of their trays."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import datetime

from logbook.growing.keys import TrayNumber
from logbook.growing.kinds import KindName
from logbook.growing.numbers import life
from logbook.growing.room.air import FEED
from logbook.store.reads.standing import IN_FORCE, OF_ACT, ROOT, STANDS
from logbook.store.rows import Rows, Values, grouped, stored
from logbook.store.search import held_by


@dataclass(frozen=True, slots=True)
class StoredEntry:
    """An entry with the numbers of its trays.

    `struck_by` is the strike in force against it, `strikes_id` what a strike strikes, or whose
    place an entry has taken.
    """

    id: int
    """The entry's number."""
    kind: KindName
    at: datetime
    """When it happened."""
    written_at: datetime
    by: str
    """Who wrote it."""
    note: str
    """The person's own text."""
    chore: str
    stage: int | None
    batch_id: int | None
    place_id: int | None
    strikes_id: int | None
    act_id: int | None
    struck_by: int | None
    replaced_by: int | None
    """The entry in the place of this struck one."""
    clock_in_doubt: bool = False
    """Whether the machine's clock was in doubt when it was written."""
    trays: tuple[TrayNumber, ...] = ()
    tray_ids: tuple[int, ...] = ()
    names: tuple[int, ...] = ()
    """What its trays are called by, whoever has their numbers by now."""

    @property
    def struck(self) -> bool:
        """Whether it was struck; it stays in the record."""
        return self.struck_by is not None

    @property
    def replaces(self) -> int | None:
        """The entry whose place this one has taken."""
        return None if self.kind == "strike" else self.strikes_id


_ENTRY = f"""
SELECT e.id, e.kind, e.at, e.written_at, e."by", e.note, e.chore, e.stage, e.batch_id, e.place_id,
       e.strikes_id, e.act_id,
       (SELECT max(s.id) FROM entry s WHERE s.strikes_id = e.id AND s.kind = 'strike'
        AND {IN_FORCE}) AS struck_by,
       (SELECT max(s.id) FROM entry s WHERE s.strikes_id = e.id AND s.kind <> 'strike'
        AND EXISTS (SELECT 1 FROM entry k WHERE k.strikes_id = e.id AND k.act_id = s.act_id
                    AND k.kind = 'strike' AND {IN_FORCE.replace("s.id", "k.id")}))
       AS replaced_by,
       e.clock_in_doubt
FROM entry e
"""

_TRAYS = "FROM entry_tray et JOIN tray t ON t.id = et.tray_id"


def _entries(reading: Rows, where: str, values: Values) -> list[StoredEntry]:
    found = reading.make(StoredEntry, f"{_ENTRY} {where}", values)
    sql = f"SELECT et.entry_id, t.number, t.id, t.live {_TRAYS} WHERE et.entry_id IN (ids) ORDER BY t.number"
    rows = reading.rows_of(sql, [each.id for each in found])
    trays = grouped((entry, (number, tray, live)) for entry, number, tray, live in rows)
    return [
        replace(
            each,
            trays=tuple(number for number, *_ in trays[each.id]),
            tray_ids=tuple(tray for _, tray, _ in trays[each.id]),
            names=tuple(n if live else life(n, tray) for n, tray, live in trays[each.id]),
        )
        if each.id in trays
        else each
        for each in found
    ]


def read_entries(
    reading: Rows, start: datetime | None = None, end: datetime | None = None, *,
    tray_ids: Collection[int] | None = None, batch_id: int | None = None,
    versions: Collection[int] | None = None, kind: str = "", words: str = "",
    newest: int | None = None, written: bool = False,
) -> list[StoredEntry]:  # fmt: skip
    """Entries that fit all that is asked, oldest first by when they happened.

    With `written` also those of an earlier day that people wrote between `start` and `end`.

    `words` are folded words, all of them to be held in any order, as parts of words too (see
    store/search.py); `versions` are ids of the template versions that trays of
    theirs have. With `newest` only so many of the last.
    """
    asked: tuple[tuple[str, object], ...] = (
        ("e.at >= ?", (start and not written and stored(start)) or None),
        ("e.at < ?", end and stored(end)),
        ("e.kind = ?", kind or None),
        (f"e.id IN (SELECT et.entry_id {_TRAYS} WHERE t.batch_id = ?)", batch_id),
    )
    tests = [test for test, value in asked if value is not None]
    values = [value for _, value in asked if value is not None]
    if tray_ids is not None:
        ids = ", ".join(str(int(each)) for each in tray_ids)
        tests.append(f"e.id IN (SELECT entry_id FROM entry_tray WHERE tray_id IN ({ids}))")
    if versions is not None:
        ids = ", ".join(str(int(each)) for each in versions)
        tests.append(
            f"EXISTS (SELECT 1 {_TRAYS} WHERE et.entry_id = e.id AND t.version_id IN ({ids}))"
        )
    if written and start and end:
        since = stored(start)
        # as a list of ids: an OR would make SQLite read all that ever happened
        tests.append(
            "e.id IN (SELECT id FROM entry WHERE at >= ? AND at < ? UNION ALL SELECT id FROM entry "
            "WHERE id >= ? AND id < ? AND written_at >= ? AND chore <> ?)"
        )
        first, beyond = _first_written(reading, start), _first_written(reading, end)
        values += [since, stored(end), first, beyond, since, FEED]
    few = False
    if words:
        held, each, few = held_by(reading, words)
        tests.append(held)
        values += each
    where = f"WHERE {' AND '.join(tests)}" if tests else ""
    if newest is not None:
        order = f"ORDER BY {'+' if few else ''}e.at DESC, e.id DESC"
        ids = f"SELECT e.id FROM entry e {where} {order} LIMIT ?"
        where, values = f"WHERE e.id IN ({ids})", [*values, newest]
    return _entries(reading, f"{where} ORDER BY e.at, e.id", values)


def _first_written(reading: Rows, since: datetime) -> int:
    """The first entry written at or after a moment: ids grow as entries are written."""
    low, high = 1, int(reading.value("SELECT max(id) FROM entry") or 0) + 1
    while low < high:
        middle = (low + high) // 2
        written = reading.value(
            "SELECT written_at FROM entry WHERE id >= ? ORDER BY id LIMIT 1", (middle,)
        )
        low, high = (low, middle) if written >= stored(since) else (middle + 1, high)
    return low


def read_entry(reading: Rows, entry_id: int) -> StoredEntry | None:
    """One entry; None where there is none."""
    return next(iter(_entries(reading, "WHERE e.id = ?", (entry_id,))), None)


def newest_ids(reading: Rows, most: int) -> list[int]:
    """The ids of the entries that were written last, the newest first."""
    return [
        each for (each,) in reading.rows("SELECT id FROM entry ORDER BY id DESC LIMIT ?", (most,))
    ]


def read_act(reading: Rows, act_id: int) -> list[StoredEntry]:
    """The entries of one act, as they were written."""
    return _entries(reading, f"WHERE e.id IN {OF_ACT} ORDER BY e.id", {"act": act_id})


def read_ahead(reading: Rows, now: datetime) -> list[StoredEntry]:
    """Standing entries, no plans, that say that they happened later than now.

    Of the newest 200 also those that say that they were written later.
    """
    return _entries(
        reading,
        "WHERE (e.at > ? OR (e.written_at > ? AND e.id > (SELECT max(id) - 200 FROM entry))) "
        f"AND e.kind NOT IN ('plan', 'strike') AND {STANDS} ORDER BY e.id",
        (stored(now), stored(now)),
    )


_TAKING = "('undo', 'redo')"


def last_standing_act(reading: Rows, by: str) -> int | None:
    """The act that this person wrote last and that stands; an undo is never undone.

    A strike that came with a replacement goes with that one, whoever struck it since.
    """
    found: int | None = reading.value(
        f"SELECT e.act_id FROM entry e WHERE e.\"by\" = ? AND {STANDS} AND NOT (e.kind = 'strike' "
        f"AND (e.chore IN {_TAKING} OR EXISTS (SELECT 1 FROM entry n WHERE n.act_id = e.act_id "
        "AND n.strikes_id = e.strikes_id AND n.kind <> 'strike'))) ORDER BY e.id DESC LIMIT 1",
        (by,),
    )
    return found


def last_undo(reading: Rows, by: str) -> int | None:
    """The act of this person's last undo that stands, if they have written nothing since.

    None too where somebody has written since on the trays that it took something back from.
    """
    own = f'e."by" = ? AND {{}}e.chore IN {_TAKING}'
    newest = f"SELECT e.id FROM entry e WHERE {own.format('NOT ')} ORDER BY e.id DESC LIMIT 1"
    found: int | None = reading.value(
        f"SELECT e.act_id FROM entry e WHERE e.id > ? AND e.\"by\" = ? AND e.chore = 'undo' "
        f"AND {STANDS} ORDER BY e.id DESC LIMIT 1",
        (reading.value(newest, (by,)) or 0, by),
    )
    trays = "SELECT et.tray_id FROM entry_tray et JOIN entry u ON u.id = et.entry_id"
    others = reading.value(
        f"SELECT count(*) FROM entry e JOIN entry_tray o ON o.entry_id = e.id WHERE e.id > :act "
        f"AND NOT ({own.format('').replace('?', ':by')}) "
        f"AND o.tray_id IN ({trays} WHERE u.id IN {OF_ACT})",
        {"act": found, "by": by},
    )
    return None if others else found


def read_root(reading: Rows, entry_id: int) -> int:
    """The first entry of the chain of replacements that an entry ends."""
    return int(reading.value(f"SELECT {ROOT} FROM entry e WHERE e.id = ?", (entry_id,)))
