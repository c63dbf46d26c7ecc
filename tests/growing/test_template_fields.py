"""A field of a crop template is declared once; what TOML, form, columns, comparison and schema need
of it derives from that.
"""  # noqa: D205

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest

from logbook.cli.shapes import TEMPLATE
from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_changes import what_changed
from logbook.growing.crops.template_fields import (
    Leaf,
    Record,
    columns_of,
    from_columns,
    from_lines,
    leaves,
    mapping_of,
    to_columns,
)
from logbook.growing.crops.template_text import template_from
from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.measures import Units
from logbook.store.tables import Table
from logbook.store.tables.crops import (
    StageRow,
    TemplateRow,
    TemplateTargetRow,
    TemplateVersionRow,
)
from logbook.ui.forms.stage_fields import STAGES, stage_from
from logbook.ui.screens.crops.template import TemplateScreen
from tests.room import DAY, field_test

TABLES: dict[type[Record], tuple[type[Table], set[str]]] = {
    CropTemplate: (TemplateVersionRow, {"id", "template_id", "number", "made_at", "by", "why"}),
    Stage: (StageRow, {"id", "version_id", "position"}),
    Targets: (TemplateTargetRow, {"version_id"}),
}
"""Where the fields of a class are kept, and the columns there that are not of a field."""

FULL = replace(
    field_test(),
    name="a name of its own",
    variety="pink stem",
    seed_grams=34.25,
    tray=(500.0, 250.5),
    soak_ph=6.1,
    medium="coir",
    sign_to_cut="first true leaves",
    expected_grams=287.6,
    regrow_seconds=10 * DAY,
    regrow_grams=120.5,
    spread_percent=12.5,
    guess=True,
    keeping_days=5.5,
    allergens="celery, mustard",
    notes="of two\nlines",
    targets=Targets(
        Band(8, 12),
        16.5,
        Band(18, 24),
        Band(None, 65),
        Band(5.5, 6.5),
        Band(0.8, 1.4),
        Band(250, None),
    ),
)
"""A template that holds something in every field that can."""

LEAVES = leaves(CropTemplate)


@pytest.mark.parametrize("record", [CropTemplate, Stage, CutWindow, Targets])
def test_every_attribute_is_told(record: type[Any]) -> None:
    told = {each.attribute for each in record.fields}
    assert {each.name for each in fields(record)} - told <= {"version"}


@pytest.mark.parametrize("record", TABLES, ids=lambda record: record.__name__)
def test_every_field_has_its_columns_and_every_column_its_field(record: type[Record]) -> None:
    table, others = TABLES[record]
    there = set(table.model_fields)
    missing = [column for column in columns_of(record) if column not in there]
    assert not missing, (
        f"{record.__name__} tells fields that {table.__name__} in store/tables/ has no column for: "
        f"{', '.join(missing)}. Add it there and write a migration."
    )
    assert there - others == set(columns_of(record)), "a column that no field is told for"


def test_what_has_no_column_is_kept_elsewhere() -> None:
    assert [each.attribute for each in CropTemplate.fields if not each.columns] == [
        "name",
        "stages",
        "targets",
    ]
    assert "name" in TemplateRow.model_fields


@pytest.mark.parametrize("leaf", LEAVES, ids=lambda leaf: leaf.name)
def test_a_field_is_in_toml_schema_columns_form_and_comparison(leaf: Leaf) -> None:
    value = leaf.of(FULL)
    assert value not in (None, "")
    # TOML and schema
    held: Any = mapping_of(FULL)
    schema: Any = TEMPLATE
    record: type[Any] = CropTemplate
    for step in leaf.path:
        told = next(each for each in record.fields if each.attribute == step)
        held, schema = held[told.key], schema["properties"][told.key]
        record = getattr(told.kind, "record", record)
    assert held not in (None, "")
    assert schema.get("type") or schema["enum"]
    # the lines of the form
    names = {line.name for line in TemplateScreen().lines_of(FULL, "metric")}
    assert leaf.name in names or (leaf.name == "stages" and STAGES[0] in names)
    # what differs between two versions
    plain = replace(field_test(), stages=(Stage("light", None),))
    other = replace(plain, **{leaf.path[0]: getattr(FULL, leaf.path[0])})
    said = [line.partition(":")[0] for line in what_changed(plain, other)]
    label = "stage 1" if leaf.name == "stages" else leaf.told.label
    assert (label in said) == (leaf.of(plain) != value)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_form_gives_back_what_it_began_with(units: Units) -> None:
    lines = TemplateScreen().lines_of(FULL, units)
    values = {line.name: line.value(line.start) for line in lines if line.shown}
    stages = tuple(filter(None, (stage_from(values, name) for name in STAGES)))
    made = from_lines(CropTemplate, {**values, "stages": stages})
    assert replace(made, name=FULL.name) == FULL


def test_columns_give_back_what_was_put_into_them() -> None:
    row = tuple(to_columns(FULL).values())
    assert tuple(to_columns(FULL)) == columns_of(CropTemplate)
    elsewhere = {"name": FULL.name, "stages": FULL.stages, "targets": FULL.targets}
    assert from_columns(CropTemplate, row, **elsewhere) == FULL
    assert from_columns(Targets, tuple(to_columns(Targets()).values())) == Targets()


def test_what_changed_between_two_versions_is_said() -> None:
    before = field_test()
    after = replace(
        before,
        soak_seconds=8 * 3600,
        variety="pink",
        notes="other",
        cut=replace(before.cut, best_seconds=3 * DAY),
        stages=before.stages[1:],
    )
    assert what_changed(before, before) == []
    assert what_changed(before, after) == [
        "variety: pink, was none",
        "soak: 8h, was 4h",
        "stage 1: blackout: 1d, lid, dark, was weighted: 4d, weight, dark, mist 1, look 1",
        "stage 2: light: open, lit, bottom 1, was blackout: 1d, lid, dark",
        "stage 3: none, was light: open, lit, bottom 1",
        "cut best: 3d, was 60h",
        "notes: changed",
    ]


OLD_FILE = {
    "crop": "radish", "seed_grams": 36, "tray": "508x254mm", "soak": "4h", "expected_grams": 290,
    "spread_percent": 9, "mucilage": False, "guess": False,
    "stages": [
        {"name": "dark", "length": "3d", "cover": "weight", "light": "dark", "water": "mist",
         "water_per_day": 1, "looks_per_day": 1},
        {"name": "light", "cover": "none", "light": "lit", "water": "bottom", "water_per_day": 2,
         "looks_per_day": 0},
    ],
    "cut": {"from": "2d", "best": "60h", "by": "4d"},
    "targets": {"light": "8 to 100", "lit_hours": "16 h", "temperature": "18 to 24 C",
                "water": "at least 200 ml"},
}  # fmt: skip


def test_a_file_of_an_earlier_version_is_read() -> None:
    crop = template_from(OLD_FILE)
    assert crop.targets.light == Band(8, 100)
    assert crop.targets.millilitres == Band(200, None)
    assert {**mapping_of(crop), "name": None} == {**OLD_FILE, "name": None}
    assert mapping_of(Targets()) == {}
