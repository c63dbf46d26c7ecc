"""Reading what templates want, and which trays lived when: plain SQL in, values of growing out."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import datetime

from logbook.growing.bands import Band
from logbook.growing.targets import LightTarget, Targets
from logbook.growing.water import WaterTarget
from logbook.store.reads import STANDS, StoredTray, read_trays
from logbook.store.rows import Rows, moment, stored


def read_targets(reading: Rows, versions: Collection[int]) -> dict[int, Targets]:
    """Give the targets of template versions (ids) that have any."""
    found: dict[int, Targets] = {}
    for row in reading.rows_of(
        "SELECT version_id, light_low, light_high, lit_hours, celsius_low, celsius_high, "
        "humidity_low, humidity_high, ph_low, ph_high, ec_low, ec_high, water_low_ml, "
        "water_high_ml FROM template_target WHERE version_id IN (ids)",
        versions,
    ):
        found[row[0]] = Targets(
            light=None if row[1] is None else LightTarget(row[1], row[2]),
            lit_hours=row[3],
            celsius=_band(row[4:6]),
            humidity=_band(row[6:8]),
            water=WaterTarget(_band(row[8:10]), _band(row[10:12]), _band(row[12:14])),
        )
    return found


def _band(ends: Sequence[float | None]) -> Band | None:
    low, high = ends
    return None if low is None and high is None else Band(low, high)


def batches_cut_last(reading: Rows, most: int) -> list[int]:
    """Give the batches whose trays were cut last, the newest first."""
    rows = reading.rows(
        "SELECT batch_id, max(ended_at) AS last FROM tray WHERE cut_grams IS NOT NULL "
        "AND ended_at IS NOT NULL GROUP BY batch_id ORDER BY last DESC, batch_id DESC LIMIT ?",
        (most,),
    )
    return [row[0] for row in rows]


def first_sowings(reading: Rows, batches: Collection[int]) -> list[datetime]:
    """When each of these batches was first sown; those that are not give nothing."""
    return [
        moment(row[0])
        for row in reading.rows_of(
            "SELECT min(e.at) FROM entry e JOIN entry_tray et ON et.entry_id = e.id "
            "JOIN tray t ON t.id = et.tray_id "
            f"WHERE e.kind = 'sow' AND {STANDS} AND t.batch_id IN (ids) GROUP BY t.batch_id",
            batches,
        )
    ]


def read_trays_since(reading: Rows, start: datetime) -> list[StoredTray]:
    """Give the trays that live, or ended after a moment."""
    rows = reading.rows("SELECT id FROM tray WHERE live = 1 OR ended_at >= ?", (stored(start),))
    return read_trays(reading, [row[0] for row in rows])
