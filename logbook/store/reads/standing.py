"""What stands in the book, as pieces of SQL on rows named as they say."""

from collections.abc import Collection
from dataclasses import fields, is_dataclass
from functools import cache
from typing import TypeVar, get_type_hints

from logbook.store.rows import Rows, Values

Said = TypeVar("Said")

IN_FORCE = """
NOT EXISTS (SELECT 1 FROM entry u WHERE u.strikes_id = s.id
            AND NOT EXISTS (SELECT 1 FROM entry r WHERE r.strikes_id = u.id))
"""
"""Of a strike `s`: no undo has taken it back that no redo has taken back in its turn."""

OF_ACT = "(SELECT :act UNION ALL SELECT id FROM entry WHERE act_id = :act AND act_id <> id)"
"""The ids of the entries of an act, which has the id of its first; the others are in an index."""

STANDS = f"NOT EXISTS (SELECT 1 FROM entry s WHERE s.strikes_id = e.id AND {IN_FORCE})"
"""Of an entry `e`: nothing strikes it."""

STANDING_TRAY = "(t.live = 1 OR t.ended_at IS NOT NULL)"
"""Of a tray `t`: its sowing was not struck."""

ROOT = """
CASE WHEN e.strikes_id IS NULL THEN e.id ELSE (
  WITH RECURSIVE chain(id, above) AS (
    SELECT e.id, e.strikes_id
    UNION ALL SELECT p.id, p.strikes_id FROM entry p JOIN chain ON p.id = chain.above)
  SELECT min(id) FROM chain) END
"""
"""Of an entry `e`: the first of its chain of replacements, whose place in the order it keeps."""

WEIGHED_TOGETHER = f"""
SELECT 1 FROM weight w CROSS JOIN entry e
WHERE w.tray_id = t.id AND w.shared = 1 AND e.id = w.entry_id AND {STANDS}
"""
"""Of a tray `t`: its standing weights that were weighed together with others'."""

KEPT = f"""
SELECT 1 FROM weight w CROSS JOIN entry e
WHERE w.tray_id = t.id AND w.keep = 1 AND e.id = w.entry_id AND {STANDS}
"""
"""Of a tray `t`: its standing weights after which it was left to grow again."""

LAST_PLACE = """
(SELECT p.place_id FROM tray_place p WHERE p.tray_id = t.id ORDER BY p.entry_id DESC LIMIT 1)
"""
"""Where a tray `t` was put last (place id)."""

_OF_ENTRY = {
    "entry": "id", "place": "place_id", "at": "at", "written_at": "written_at", "by": "by",
    "note": "note", "act": "act_id",
}  # fmt: skip


@cache
def said_columns(shape: type, but: tuple[str, ...] = ()) -> str:
    """The columns of what an entry `e` says in a narrow table `x`, as a shape's fields name them."""
    hints, columns = get_type_hints(shape), list[str]()
    for name in (each.name for each in fields(shape) if each.name not in but):
        if name in _OF_ENTRY:
            columns.append(f'e."{_OF_ENTRY[name]}" AS "{name}"')
        elif is_dataclass(hints[name]):
            columns += [f'x."{own.name}" AS "{name}.{own.name}"' for own in fields(hints[name])]
        else:
            columns.append(f'x."{name}"')
    return ", ".join(columns)


def standing(
    reading: Rows, shape: type[Said], table: str, where: str = "", values: Values = (), *,
    order: str = "e.at, e.id", but: tuple[str, ...] = (),
) -> list[Said]:  # fmt: skip
    """What standing entries say in a narrow table, oldest first; fields `but` some are not in it."""
    columns = said_columns(shape, but)  # type: ignore[arg-type]  # types are hashable
    return reading.make(
        shape,
        f"SELECT {columns} FROM {table} x CROSS JOIN entry e "
        f"WHERE e.id = x.entry_id AND {STANDS} {where} ORDER BY {order}",
        values,
    )


def said_by(
    reading: Rows, shape: type[Said], table: str, entries: Collection[int]
) -> dict[int, Said]:
    """What entries say in a narrow table, by entry id; of struck ones too."""
    sql = (
        f"SELECT x.entry_id, {said_columns(shape)} FROM {table} x JOIN entry e ON e.id = x.entry_id "  # type: ignore[arg-type]  # types are hashable
        "WHERE x.entry_id IN (ids)"
    )
    return reading.make_by(shape, sql, entries)
