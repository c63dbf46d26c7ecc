"""Crop templates, their versions, stages and wishes."""

from datetime import datetime

from sqlalchemy import Index
from sqlmodel import Field

from logbook.store.tables.base import Moment, Numbered, Table


class TemplateRow(Numbered, table=True):
    """A crop template's name; `name_key` is the folded name, unique."""

    __tablename__ = "template"
    name: str
    name_key: str = Field(unique=True)
    retired: bool = False


class TemplateVersionRow(Numbered, table=True):
    """One version of a template; never changed once written. SI units: g, mm, s."""

    __tablename__ = "template_version"
    __table_args__ = (Index("uq_template_version_number", "template_id", "number", unique=True),)
    template_id: int = Field(foreign_key="template.id")
    number: int
    made_at: datetime = Field(sa_type=Moment)
    by: str = ""
    why: str = ""
    crop: str
    variety: str = ""
    seed_grams: float | None = None
    tray_length_mm: float
    tray_width_mm: float
    soak_seconds: int = 0
    soak_ph: float | None = None
    medium: str = ""
    cut_from_seconds: int
    cut_best_seconds: int
    cut_by_seconds: int
    sign_to_cut: str = ""
    expected_grams: float | None = None
    regrow_seconds: int | None = None
    regrow_grams: float | None = None
    keeping_days: float | None = None
    allergens: str | None = None
    spread_percent: float
    mucilage: bool = False
    guess: bool = False
    notes: str = ""


class StageRow(Numbered, table=True):
    """A stage of a template version, in the order of `position` from 0."""

    __tablename__ = "stage"
    __table_args__ = (Index("uq_stage_position", "version_id", "position", unique=True),)
    version_id: int = Field(foreign_key="template_version.id")
    position: int
    name: str
    seconds: int | None = None
    cover: str
    light: str
    water: str
    water_per_day: float = 0.0
    looks_per_day: float = 0.0


class TemplateTargetRow(Table, table=True):
    """What a template version wants of light, air and water; None has no wish.

    Daily light in mol m⁻² d⁻¹, lit hours a day, °C, % relative humidity, mS/cm, ml a tray.
    """

    __tablename__ = "template_target"
    version_id: int = Field(foreign_key="template_version.id", primary_key=True)
    light_low: float | None = None
    light_high: float | None = None
    lit_hours: float | None = None
    celsius_low: float | None = None
    celsius_high: float | None = None
    humidity_low: float | None = None
    humidity_high: float | None = None
    ph_low: float | None = None
    ph_high: float | None = None
    ec_low: float | None = None
    ec_high: float | None = None
    water_low_ml: float | None = None
    water_high_ml: float | None = None
