"""Reading weights that were cut."""

from collections.abc import Callable, Collection, Mapping
from datetime import UTC, datetime
from functools import reduce
from typing import NamedTuple

from logbook.growing.crops.luck import BatchWeights, batch_weights
from logbook.growing.crops.yields import NEWEST_BATCHES, NEWEST_TRAYS
from logbook.growing.trays.cuts import Harvest
from logbook.growing.trays.life import after_deed
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.standing import KEPT, LAST_PLACE, WEIGHED_TOGETHER
from logbook.store.rows import Rows, moment, stored

NEWEST_REGROWN = 80
"""So many of a template's trays that were kept to grow again are looked at."""
Scale = Callable[[int, Collection[int]], Mapping[int, float]]
"""By what the weights of a template's (id) trays (ids) are divided before they are compared."""


class Weight(NamedTuple):
    """A weight: when it was cut, of which batch and tray (ids), g, whether it is a share of several's."""

    at: datetime
    batch: int
    grams: float
    shared: bool
    tray: int


def recent_weights(
    reading: Rows, harvests: Collection[tuple[int, int]], most: int = NEWEST_TRAYS,
    before: datetime | None = None, scale: Scale = lambda _, __: {},
) -> dict[tuple[int, int], tuple[BatchWeights, ...]]:  # fmt: skip
    """The newest weights of harvests (template id, number from 1), by batch.

    Of each at most `most` trays and NEWEST_BATCHES, with `before` of those cut before it. A harvest
    of which more is to come is none yet. First harvests are divided by what `scale` says of them.
    """
    found = {}
    regrown = _regrown(reading, {template for template, _ in harvests})
    for template, number in harvests:
        weights = [
            Weight(each.at, batch, each.grams, each.shared, tray)
            for tray, batch, each in regrown[template]
            if each.number == number and (before is None or each.at < before)
        ]
        if number == 1:
            weights += cut_once(reading, template, most, before)
        weights.sort(key=lambda each: each.at, reverse=True)
        batches = list(dict.fromkeys(one.batch for one in weights[:most] if one.grams > 0))
        newest = [one for one in weights[:most] if one.batch in batches[:NEWEST_BATCHES]]
        by = scale(template, [one.tray for one in newest]) if number == 1 else {}
        found[template, number] = batch_weights(
            (one.batch, one.grams / by.get(one.tray, 1.0), one.shared) for one in newest
        )
    return found


def cut_once(
    reading: Rows, template: int, most: int, before: datetime | None = None
) -> list[Weight]:
    """The newest weights of a template's (id) trays that never grew again, the newest version's first."""
    until = stored(before or datetime.max.replace(tzinfo=UTC))
    weights: list[Weight] = []
    versions = reading.rows(
        "SELECT id FROM template_version WHERE template_id = ? ORDER BY number DESC", (template,)
    )
    for (version,) in versions:
        if len(weights) >= most:
            break
        rows = reading.rows(
            f"SELECT t.ended_at, t.batch_id, t.cut_grams, EXISTS ({WEIGHED_TOGETHER}), t.id FROM tray t "
            "WHERE t.version_id = ? AND t.ended_at < ? AND t.cut_grams IS NOT NULL "
            f"AND NOT EXISTS ({KEPT}) ORDER BY t.ended_at DESC LIMIT ?",
            (version, until, most - len(weights)),
        )
        weights += [
            Weight(moment(at), batch, grams, bool(shared), tray)
            for at, batch, grams, shared, tray in rows
        ]
    return weights


class Had(NamedTuple):
    """Where a tray stood last, its template version (ids), and its seed in g where that was said."""

    place_id: int | None
    version_id: int
    grams_per_tray: float | None


def read_had(reading: Rows, trays: Collection[int]) -> dict[int, Had]:
    """What trays (ids) had, by tray id."""
    rows = reading.rows_of(
        f"SELECT t.id, {LAST_PLACE} AS place_id, t.version_id, b.grams_per_tray "
        "FROM tray t CROSS JOIN batch b WHERE t.id IN (ids) AND b.id = t.batch_id",
        trays,
    )
    return {tray: Had(*had) for tray, *had in rows}


def _regrown(
    reading: Rows, templates: Collection[int]
) -> dict[int, list[tuple[int, int, Harvest]]]:
    """The harvests, with their tray and batch, of templates' newest trays that were kept to grow again, by template id.

    The search begins at the weights that were kept (CROSS JOIN), few beside all trays of a crop.
    """
    newest = f"""
    SELECT tray_id, template_id, batch_id FROM (
      SELECT w.tray_id, v.template_id, t.batch_id,
             row_number() OVER (PARTITION BY v.template_id ORDER BY w.tray_id DESC) AS nth
      FROM weight w CROSS JOIN tray t ON t.id = w.tray_id
      CROSS JOIN template_version v ON v.id = t.version_id
      WHERE w.keep = 1 AND v.template_id IN (ids)
      GROUP BY w.tray_id, v.template_id, t.batch_id) regrown
    WHERE nth <= {NEWEST_REGROWN}
    """
    rows = reading.rows_of(newest, templates)
    template = {tray: (found, batch) for tray, found, batch in rows}
    found: dict[int, list[tuple[int, int, Harvest]]] = {each: [] for each in templates}
    for tray, deeds in read_deeds(reading, template).items():
        if any(deed.keep for deed in deeds):
            deeds.sort(key=lambda deed: (deed.at, deed.entry))
            none: tuple[Harvest, ...] = ()
            of, batch = template[tray]
            harvests = reduce(after_deed, deeds, none)
            found[of] += [(tray, batch, each) for each in harvests if each.done and each.weighed]
    return found
