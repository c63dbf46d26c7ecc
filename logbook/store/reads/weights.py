"""Reading weights that were cut."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.crops.yields import OwnWeights
from logbook.store.reads.standing import WEIGHED_TOGETHER
from logbook.store.rows import Rows, grouped, stored


@dataclass(frozen=True, slots=True)
class StoredWeight:
    """What an entry weighed of a tray; `shared` where it was weighed together with others."""

    entry_id: int
    tray_id: int
    grams: float
    part: bool
    shared: bool


def read_weights(reading: Rows, entries: Collection[int]) -> dict[int, list[StoredWeight]]:
    """The weights of entries, by entry id."""
    sql = "SELECT entry_id, tray_id, grams, part, shared FROM weight WHERE entry_id IN (ids)"
    weights = reading.make_of(StoredWeight, sql, entries)
    return grouped((weight.entry_id, weight) for weight in weights)


def recent_weights(
    reading: Rows, template_ids: Collection[int], most: int = 40, before: datetime | None = None
) -> dict[int, OwnWeights]:
    """The newest cut weights of each template's trays, in g, at most `most` of each.

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
