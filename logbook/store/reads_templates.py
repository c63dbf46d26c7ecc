"""Reading crop templates, their versions, and what they want."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.bands import Band
from logbook.growing.targets import LightTarget, Targets
from logbook.growing.templates import CropTemplate, CutWindow, Stage
from logbook.growing.water import WaterTarget
from logbook.store.rows import Rows


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


_VERSION = """
SELECT v.id, t.name, v.number, v.crop, v.variety, v.seed_grams, v.tray_length_mm, v.tray_width_mm,
       v.soak_seconds, v.soak_ph, v.medium, v.cut_from_seconds, v.cut_best_seconds,
       v.cut_by_seconds, v.sign_to_cut, v.expected_grams, v.spread_percent, v.mucilage, v.guess,
       v.notes
FROM template_version v JOIN template t ON t.id = v.template_id
"""


def read_versions(reading: Rows, ids: Collection[int]) -> dict[int, CropTemplate]:
    """Template versions by their ids."""
    found: dict[int, CropTemplate] = {}
    targets = read_targets(reading, ids)
    stages: dict[int, list[Stage]] = {}
    for version, *stage in reading.rows_of(
        "SELECT version_id, name, seconds, cover, light, water, water_per_day, looks_per_day "
        "FROM stage WHERE version_id IN (ids) ORDER BY version_id, position",
        ids,
    ):
        stages.setdefault(version, []).append(Stage(*stage))
    for row in reading.rows_of(f"{_VERSION} WHERE v.id IN (ids)", ids):
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


def read_targets(reading: Rows, versions: Collection[int]) -> dict[int, Targets]:
    """The targets of template versions (ids) that have any."""
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


def read_templates(reading: Rows) -> list[StoredTemplate]:
    """The newest version of every template, by name; retired ones too."""
    rows = reading.rows(
        "SELECT t.id, v.id, t.retired, max(v.number) FROM template t "
        "JOIN template_version v ON v.template_id = t.id GROUP BY t.id, t.retired ORDER BY t.name_key"
    )
    versions = read_versions(reading, [version for _, version, _, _ in rows])
    return [
        StoredTemplate(template, version, bool(retired), versions[version])
        for template, version, retired, _ in rows
    ]


def read_version_notes(reading: Rows, template_id: int) -> list[VersionNote]:
    """The versions of a template, newest first."""
    return reading.make(
        VersionNote,
        'SELECT id AS version_id, number, made_at, "by", why FROM template_version '
        "WHERE template_id = ? ORDER BY number DESC",
        (template_id,),
    )


def template_of_versions(reading: Rows, versions: Collection[int]) -> dict[int, int]:
    """The template id of each version id."""
    return dict(
        reading.rows_of("SELECT id, template_id FROM template_version WHERE id IN (ids)", versions)
    )
