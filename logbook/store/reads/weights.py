"""Reading weights that were cut."""

from collections.abc import Collection
from datetime import UTC, datetime
from functools import reduce

from logbook.growing.crops.luck import BatchWeights, batch_weights
from logbook.growing.crops.yields import NEWEST_BATCHES, NEWEST_TRAYS
from logbook.growing.trays.cuts import Harvest
from logbook.growing.trays.life import after_deed
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.standing import KEPT, WEIGHED_TOGETHER
from logbook.store.rows import Rows, moment, stored

NEWEST_REGROWN = 80
"""So many of a template's trays that were kept to grow again are looked at."""
Weight = tuple[datetime, int, float, bool]
"""When it was cut, its batch (id), g, and whether it is a share of trays weighed together."""


def recent_weights(
    reading: Rows, harvests: Collection[tuple[int, int]], most: int = NEWEST_TRAYS,
    before: datetime | None = None,
) -> dict[tuple[int, int], tuple[BatchWeights, ...]]:  # fmt: skip
    """The newest weights of harvests (template id, number from 1), by batch.

    Of each at most `most` trays and NEWEST_BATCHES, with `before` of those cut before it. A harvest
    of which more is to come is none yet.
    """
    found = {}
    regrown = _regrown(reading, {template for template, _ in harvests})
    for template, number in harvests:
        weights = [
            (each.at, batch, each.grams, each.shared)
            for batch, each in regrown[template]
            if each.number == number and (before is None or each.at < before)
        ]
        if number == 1:
            weights += _cut_once(reading, template, most, before)
        weights.sort(key=lambda each: each[0], reverse=True)
        newest = set(
            list(dict.fromkeys(batch for _, batch, grams, _ in weights[:most] if grams > 0))[
                :NEWEST_BATCHES
            ]
        )
        found[template, number] = batch_weights(
            (batch, grams, shared) for _, batch, grams, shared in weights[:most] if batch in newest
        )
    return found


def _cut_once(reading: Rows, template: int, most: int, before: datetime | None) -> list[Weight]:
    """The newest weights of trays that never grew again."""
    until = stored(before or datetime.max.replace(tzinfo=UTC))
    weights: list[Weight] = []
    versions = reading.rows(
        "SELECT id FROM template_version WHERE template_id = ? ORDER BY number DESC", (template,)
    )
    for (version,) in versions:
        if len(weights) >= most:
            break
        rows = reading.rows(
            f"SELECT t.ended_at, t.batch_id, t.cut_grams, EXISTS ({WEIGHED_TOGETHER}) FROM tray t "
            "WHERE t.version_id = ? AND t.ended_at < ? AND t.cut_grams IS NOT NULL "
            f"AND NOT EXISTS ({KEPT}) ORDER BY t.ended_at DESC LIMIT ?",
            (version, until, most - len(weights)),
        )
        weights += [(moment(at), batch, grams, bool(shared)) for at, batch, grams, shared in rows]
    return weights


def _regrown(reading: Rows, templates: Collection[int]) -> dict[int, list[tuple[int, Harvest]]]:
    """The harvests, with their batch, of templates' newest trays that were kept to grow again, by template id.

    The search begins at the weights that were kept (CROSS JOIN), few beside all trays of a crop.
    """
    newest = f"""
    SELECT tray_id, template_id, batch_id FROM (
      SELECT w.tray_id, v.template_id, t.batch_id,
             row_number() OVER (PARTITION BY v.template_id ORDER BY w.tray_id DESC) AS nth
      FROM weight w CROSS JOIN tray t ON t.id = w.tray_id
      CROSS JOIN template_version v ON v.id = t.version_id
      WHERE w.keep = 1 AND v.template_id IN (ids) GROUP BY w.tray_id)
    WHERE nth <= {NEWEST_REGROWN}
    """
    rows = reading.rows_of(newest, templates)
    template = {tray: (found, batch) for tray, found, batch in rows}
    found: dict[int, list[tuple[int, Harvest]]] = {each: [] for each in templates}
    for tray, deeds in read_deeds(reading, template).items():
        if any(deed.keep for deed in deeds):
            deeds.sort(key=lambda deed: (deed.at, deed.entry))
            none: tuple[Harvest, ...] = ()
            of, batch = template[tray]
            harvests = reduce(after_deed, deeds, none)
            found[of] += [(batch, each) for each in harvests if each.done and each.weighed]
    return found
