"""Reading crop templates, their versions, and what they want."""

import sqlite3
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_fields import columns_of, from_columns
from logbook.growing.crops.templates import CropTemplate, Stage
from logbook.store.rows import Rows, grouped


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


def read_versions(reading: Rows, ids: Collection[int]) -> dict[int, CropTemplate]:
    """Template versions by their ids."""
    targets = read_targets(reading, ids)
    rows = reading.rows_of(
        f"SELECT version_id, {', '.join(columns_of(Stage))} FROM stage "
        "WHERE version_id IN (ids) ORDER BY version_id, position",
        ids,
    )
    stages = grouped((version, from_columns(Stage, row)) for version, *row in rows)
    found = {
        version: from_columns(
            CropTemplate, row, name=name, version=number, stages=tuple(stages.get(version, ())),
            targets=targets.get(version, Targets()),
        )
        for version, name, number, *row in reading.rows_of(
            f"SELECT v.id, t.name, number, {', '.join(columns_of(CropTemplate))} "
            "FROM template_version v JOIN template t ON t.id = template_id WHERE v.id IN (ids)",
            ids,
        )
    }  # fmt: skip
    if any(each not in found or not found[each].stages for each in ids):
        raise sqlite3.DatabaseError("malformed: a template version is not there or has no stage")
    return found


def read_targets(reading: Rows, versions: Collection[int]) -> dict[int, Targets]:
    """The targets of template versions (ids) that have any."""
    columns = ", ".join(columns_of(Targets))
    sql = f"SELECT version_id, {columns} FROM template_target WHERE version_id IN (ids)"
    return {version: from_columns(Targets, row) for version, *row in reading.rows_of(sql, versions)}


def read_templates(reading: Rows) -> list[StoredTemplate]:
    """The newest version of every template, by name; retired ones too."""
    rows = reading.rows(
        "SELECT t.id, v.id, t.retired FROM template t JOIN template_version v "
        "ON v.template_id = t.id WHERE v.number = (SELECT max(number) FROM template_version "
        "WHERE template_id = t.id) ORDER BY t.name_key"
    )
    versions = read_versions(reading, [version for _, version, _ in rows])
    return [
        StoredTemplate(template, version, bool(retired), versions[version])
        for template, version, retired in rows
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
    sql = "SELECT id, template_id FROM template_version WHERE id IN (ids)"
    return dict(reading.rows_of(sql, versions))
