"""What stands in the book, as pieces of SQL on rows named as they say."""

from __future__ import annotations

IN_FORCE = """
NOT EXISTS (SELECT 1 FROM entry u WHERE u.strikes_id = s.id
            AND NOT EXISTS (SELECT 1 FROM entry r WHERE r.strikes_id = u.id))
"""
"""Of a strike `s`: no undo has taken it back that no redo has taken back in its turn."""

OF_ACT = "(SELECT :act UNION ALL SELECT id FROM entry WHERE act_id = :act AND act_id <> id)"
"""The ids of the entries of an act, which has the id of its first; the others are in an index."""

STANDS = f"NOT EXISTS (SELECT 1 FROM entry s WHERE s.strikes_id = e.id AND {IN_FORCE})"
"""Of an entry `e`: nothing strikes it."""

ROOT = """
CASE WHEN e.strikes_id IS NULL THEN e.id ELSE (
  WITH RECURSIVE chain(id, above) AS (
    SELECT e.id, e.strikes_id
    UNION ALL SELECT p.id, p.strikes_id FROM entry p JOIN chain ON p.id = chain.above)
  SELECT min(id) FROM chain) END
"""
"""Of an entry `e`: the first of its chain of replacements, whose place in the order it keeps."""

WEIGHED_TOGETHER = f"""
SELECT 1 FROM entry_tray et CROSS JOIN weight w CROSS JOIN entry e
WHERE et.tray_id = t.id AND w.entry_id = et.entry_id AND w.tray_id = et.tray_id
AND e.id = w.entry_id AND {STANDS} AND w.shared = 1
"""
"""Of a tray `t`: its standing weights that were weighed together with others'."""

KEPT = f"""
SELECT 1 FROM weight w CROSS JOIN entry e
WHERE w.tray_id = t.id AND w.keep = 1 AND e.id = w.entry_id AND {STANDS}
"""
"""Of a tray `t`: its standing weights after which it was left to grow again."""
