"""The tables: what was said and done, and nothing computed but the trays' rebuildable summary."""

from __future__ import annotations

from datetime import date, datetime
from typing import ClassVar

from sqlalchemy import Index, MetaData, false, text
from sqlmodel import Field, SQLModel

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Table(SQLModel):
    """The base of all tables; constraint names follow one convention from the first day on."""

    metadata: ClassVar[MetaData] = MetaData(naming_convention=NAMING)
    model_config = {"defer_build": True}
    """Rows are made from checked drafts and never validated: what would do it isn't built."""


class BookRow(Table, table=True):
    """The book itself: one row. `day_start` and `day_end` are minutes after midnight."""

    __tablename__ = "book"
    id: int | None = Field(default=None, primary_key=True)
    name: str
    zone: str
    units: str = "metric"
    first_day: int = 1
    day_start: int = 420
    day_end: int = 1140
    made_at: datetime


class PlaceRow(Table, table=True):
    """A room, rack or shelf; `position` orders it among its siblings."""

    __tablename__ = "place"
    id: int | None = Field(default=None, primary_key=True)
    parent_id: int | None = Field(default=None, foreign_key="place.id", index=True)
    kind: str
    name: str
    position: int = 0
    slots: int = 0
    lamp_on: int | None = None
    lamp_off: int | None = None
    retired: bool = False


class TemplateRow(Table, table=True):
    """A crop template's name; `name_key` is the folded name, unique."""

    __tablename__ = "template"
    id: int | None = Field(default=None, primary_key=True)
    name: str
    name_key: str = Field(unique=True)
    retired: bool = False


class TemplateVersionRow(Table, table=True):
    """One version of a template; never changed once written. SI units: g, mm, s."""

    __tablename__ = "template_version"
    __table_args__ = (Index("uq_template_version_number", "template_id", "number", unique=True),)
    id: int | None = Field(default=None, primary_key=True)
    template_id: int = Field(foreign_key="template.id")
    number: int
    made_at: datetime
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
    spread_percent: float = 20.0
    mucilage: bool = False
    guess: bool = False
    notes: str = ""


class StageRow(Table, table=True):
    """A stage of a template version, in the order of `position` from 0."""

    __tablename__ = "stage"
    __table_args__ = (Index("uq_stage_position", "version_id", "position", unique=True),)
    id: int | None = Field(default=None, primary_key=True)
    version_id: int = Field(foreign_key="template_version.id")
    position: int
    name: str
    seconds: int | None = None
    cover: str = "none"
    light: str = "dark"
    water: str = "none"
    water_per_day: float = 0.0
    looks_per_day: float = 0.0


class BatchRow(Table, table=True):
    """Trays sown together from one seed lot and one template version."""

    __tablename__ = "batch"
    id: int | None = Field(default=None, primary_key=True)
    version_id: int = Field(foreign_key="template_version.id", index=True)
    lot: str = ""
    grams_per_tray: float | None = None
    planned_for: datetime | None = None


class TrayRow(Table, table=True):
    """A tray under one number, from its sowing to its cut.

    `live`, `ended_at` and `cut_grams` sum up the fold over the tray's entries, `batch_id` and
    `version_id` what the newest standing sowing or plan says; they are written in the same
    transaction as an entry and can be rebuilt from the entries at any time.
    """

    __tablename__ = "tray"
    __table_args__ = (
        Index(
            "uq_tray_number_live",
            "number",
            unique=True,
            sqlite_where=text("live = 1"),
            postgresql_where=text("live"),
        ),
        Index("ix_tray_batch_id", "batch_id"),
        Index("ix_tray_number", "number"),
        Index("ix_tray_version_ended", "version_id", "ended_at"),
    )
    id: int | None = Field(default=None, primary_key=True)
    number: int
    batch_id: int = Field(foreign_key="batch.id")
    version_id: int = Field(foreign_key="template_version.id")
    colour: str = ""
    live: bool = True
    ended_at: datetime | None = None
    cut_grams: float | None = None


class EntryRow(Table, table=True):
    """One line in the book; written once, struck by a later entry, never changed.

    `at` is when it happened, `written_at` when it was written. `stage` is the stage that a change
    led into or a skipped one would have, `chore` the chore that a change or a skip was. Entries of
    one act (one press of a key, one command) share `act_id`, the id of the first of them, and are
    undone together.
    `clock_in_doubt` marks what was written while the machine's clock could not be believed.
    """

    __tablename__ = "entry"
    __table_args__ = (Index("ix_entry_at", "at"), Index("ix_entry_strikes_id", "strikes_id"))
    id: int | None = Field(default=None, primary_key=True)
    kind: str
    at: datetime
    written_at: datetime
    by: str = ""
    note: str = ""
    chore: str = ""
    stage: int | None = None
    batch_id: int | None = Field(default=None, foreign_key="batch.id", index=True)
    place_id: int | None = Field(default=None, foreign_key="place.id", index=True)
    strikes_id: int | None = Field(default=None, foreign_key="entry.id")
    act_id: int | None = Field(default=None, foreign_key="entry.id", index=True)
    clock_in_doubt: bool = Field(default=False, sa_column_kwargs={"server_default": false()})


class EntryWordsRow(Table, table=True):
    """The folded words that an entry is found by; derived, see store/search.py."""

    __tablename__ = "entry_words"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    words: str


class EntryTrayRow(Table, table=True):
    """Which trays an entry speaks of."""

    __tablename__ = "entry_tray"
    __table_args__ = (Index("ix_entry_tray_tray_id", "tray_id"),)
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)


class TrayPlaceRow(Table, table=True):
    """Where a sowing or a move put a tray."""

    __tablename__ = "tray_place"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)
    place_id: int | None = Field(default=None, foreign_key="place.id")
    slot: int | None = None


class WeightRow(Table, table=True):
    """A cut weight of one tray; `part` when more is to come, `shared` when weighed together."""

    __tablename__ = "weight"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)
    grams: float
    part: bool = False
    shared: bool = False


class WateringRow(Table, table=True):
    """Water as it was given or measured: ml a tray, pH, EC in mS/cm; None was not measured."""

    __tablename__ = "watering"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    amount_ml: float | None = None
    ph: float | None = None
    ec: float | None = None


class LookRow(Table, table=True):
    """What a look saw; None or '' was not looked at."""

    __tablename__ = "look"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    emerged_percent: float | None = None
    height_mm: float | None = None
    mould: str = ""
    mould_where: str = ""
    wilting: bool | None = None
    cotyledons_open: bool | None = None
    true_leaves: bool | None = None
    stem_colour: str = ""
    hulls_on: bool | None = None
    uneven: str = ""
    sign: str = ""
    sign_seen: bool = False


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


class LampSetRow(Table, table=True):
    """The lamps of a shelf from an entry of kind "lamps" on; `lamps` 0 says that they are off it.

    Watts and amperes are those of one lamp; `height_mm` is from the shelf to the lamp.
    """

    __tablename__ = "lamp_set"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    lamps: int
    kind: str = ""
    light: str = ""
    watts: float = 0.0
    amps: float | None = None
    volts: float | None = None
    height_mm: float | None = None
    bought: date | None = None


class LampHoursRow(Table, table=True):
    """Lamp hours of a shelf from an entry of kind "hours" on, and those that held before it.

    Minutes after midnight by the wall; None for no lamp hours.
    """

    __tablename__ = "lamp_hours"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    lamp_on: int | None = None
    lamp_off: int | None = None
    was_on: int | None = None
    was_off: int | None = None


class CircuitRow(Table, table=True):
    """A circuit as an entry of kind "circuit" says; `other_amps` is what else hangs on it.

    The newest standing entry of a `name_key` holds; `gone` says that there is no such circuit.
    """

    __tablename__ = "circuit"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    name: str
    name_key: str = Field(index=True)
    breaker_amps: float
    volts: float
    share_percent: float = 80.0
    other_amps: float = 0.0
    gone: bool = False


class CircuitShelfRow(Table, table=True):
    """Which shelves' lamps hang on a circuit."""

    __tablename__ = "circuit_shelf"
    entry_id: int = Field(foreign_key="circuit.entry_id", primary_key=True)
    place_id: int = Field(foreign_key="place.id", primary_key=True)


class TariffRow(Table, table=True):
    """A price per kWh from a day on, as an entry of kind "tariff" says."""

    __tablename__ = "tariff"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    since: date
    per_kwh: float


class TariffHoursRow(Table, table=True):
    """Hours of a tariff at another price; minutes after midnight by the wall."""

    __tablename__ = "tariff_hours"
    entry_id: int = Field(foreign_key="tariff.entry_id", primary_key=True)
    position: int = Field(primary_key=True)
    starts: int
    ends: int
    per_kwh: float


class LightSurveyRow(Table, table=True):
    """One walk round a shelf with a meter; `lux_lamp` names the lamp of an estimate from lux.

    `height_mm` is from the trays to the lamp.
    """

    __tablename__ = "light_survey"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    spot_rows: int
    spot_columns: int
    height_mm: float | None = None
    lux_lamp: str = ""


class LightSpotRow(Table, table=True):
    """A reading at a spot: row 1 is the front, column 1 the left; PPFD in µmol m⁻² s⁻¹."""

    __tablename__ = "light_spot"
    entry_id: int = Field(foreign_key="light_survey.entry_id", primary_key=True)
    spot_row: int = Field(primary_key=True)
    spot_column: int = Field(primary_key=True)
    ppfd: float
    lux: float | None = None


class AirReadingRow(Table, table=True):
    """Temperature and humidity at a place; a feed's entry has as many as were held."""

    __tablename__ = "air_reading"
    __table_args__ = (Index("ix_air_reading_place_at", "place_id", "at"),)
    id: int | None = Field(default=None, primary_key=True)
    entry_id: int = Field(foreign_key="entry.id", index=True)
    place_id: int = Field(foreign_key="place.id")
    at: datetime
    celsius: float
    humidity: float
    still: bool | None = None


class SolutionUseRow(Table, table=True):
    """A solution that was used, or a cleaning: what, with which product and method, how strong."""

    __tablename__ = "solution_use"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    purpose: str
    method: str
    product: str = ""
    stock_percent: float | None = None
    want_percent: float | None = None
    volume_ml: float | None = None


class TrialRow(Table, table=True):
    """A side-by-side comparison, as its set-up (`entry_id`) said; it stands while that does.

    `thing` is what differs between its arms, `version_id` the template version that its trays are
    sown from, `measures` what is measured, in words apart by spaces. `repeats` are trays per arm
    in each block, `blocks` is '', shelf or week, `weeks` how many were meant. `seed` draws the
    layout.
    """

    __tablename__ = "trial"
    id: int | None = Field(default=None, primary_key=True)
    entry_id: int = Field(foreign_key="entry.id", index=True)
    name: str
    name_key: str
    question: str = ""
    thing: str
    version_id: int = Field(foreign_key="template_version.id")
    measures: str = "grams"
    repeats: int = 1
    blocks: str = ""
    weeks: int = 0
    seed: int


class TrialArmRow(Table, table=True):
    """An arm of a trial, in the order of `position` from 0.

    `setting` is its value of the one thing ("28 g", "8h"), `version_id` the variant of the
    template that its trays are sown from, `place_id` the shelf that the arm is.
    """

    __tablename__ = "trial_arm"
    __table_args__ = (Index("uq_trial_arm_position", "trial_id", "position", unique=True),)
    id: int | None = Field(default=None, primary_key=True)
    trial_id: int = Field(foreign_key="trial.id")
    position: int
    name: str
    setting: str = ""
    colour: str = ""
    version_id: int | None = Field(default=None, foreign_key="template_version.id")
    place_id: int | None = Field(default=None, foreign_key="place.id")


class TrialBlockRow(Table, table=True):
    """A shelf on which every arm of a trial has trays, in the order of `position` from 0."""

    __tablename__ = "trial_block"
    __table_args__ = (Index("uq_trial_block_position", "trial_id", "position", unique=True),)
    id: int | None = Field(default=None, primary_key=True)
    trial_id: int = Field(foreign_key="trial.id")
    position: int
    place_id: int = Field(foreign_key="place.id")


class TrialTrayRow(Table, table=True):
    """That a tray is in an arm of a trial, in a block and a run from 1, since this entry.

    The newest standing row of a tray decides. `left_out` says why it must not count, '' when it
    does.
    """

    __tablename__ = "trial_tray"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    arm_id: int = Field(foreign_key="trial_arm.id")
    block_id: int | None = Field(default=None, foreign_key="trial_block.id")
    run: int = 1
    left_out: str = ""


class TrialCriterionRow(Table, table=True):
    """How much a criterion counts in weighing a trial up; the newest standing entry decides."""

    __tablename__ = "trial_criterion"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    name: str = Field(primary_key=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    weight: float


class TrialDecisionRow(Table, table=True):
    """What was decided on a trial and what to try next; `version_id` is what was adopted."""

    __tablename__ = "trial_decision"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    arm_id: int | None = Field(default=None, foreign_key="trial_arm.id")
    version_id: int | None = Field(default=None, foreign_key="template_version.id")
    decided: str
    try_next: str = ""


class TastingRow(Table, table=True):
    """A blind tasting of a trial's arms. `seed` draws codes and orders; `ranks`: 1 is best."""

    __tablename__ = "tasting"
    id: int | None = Field(default=None, primary_key=True)
    entry_id: int = Field(foreign_key="entry.id", index=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    ranks: bool = False
    seed: int


class TastingAnswerRow(Table, table=True):
    """What one taster said of one arm under one aspect: a score (1–9) or rank, and own words."""

    __tablename__ = "tasting_answer"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    arm_id: int = Field(foreign_key="trial_arm.id", primary_key=True)
    aspect: str = Field(primary_key=True)
    tasting_id: int = Field(foreign_key="tasting.id", index=True)
    taster: str
    score: float | None = None
    words: str = ""


class TriangleRow(Table, table=True):
    """A triangle test of two arms: how many tasters, how many found the odd one."""

    __tablename__ = "triangle"
    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    first_arm_id: int = Field(foreign_key="trial_arm.id")
    second_arm_id: int = Field(foreign_key="trial_arm.id")
    tasters: int
    found: int
