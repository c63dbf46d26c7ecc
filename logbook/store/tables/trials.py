"""Trials, their arms and trays, what was tasted and decided."""

from sqlalchemy import Index
from sqlmodel import Field

from logbook.store.tables.base import LINK, Numbered, OfEntry


class TrialRow(Numbered, table=True):
    """A side-by-side comparison, as its set-up (`entry_id`) said; it stands while that does.

    `thing` is what differs between its arms, `version_id` the template version that its trays are
    sown from, `measures` what is measured, in words apart by spaces. `repeats` are trays per arm
    in each block, `blocks` is '', shelf or week, `weeks` how many were meant. `seed` draws the
    layout.
    """

    __tablename__ = "trial"
    entry_id: int = Field(foreign_key="entry.id", index=True)
    name: str
    name_key: str
    question: str = ""
    thing: str
    version_id: int = Field(foreign_key="template_version.id")
    measures: str
    repeats: int
    blocks: str = ""
    weeks: int = 0
    seed: int


class TrialArmRow(Numbered, table=True):
    """An arm of a trial, in the order of `position` from 0.

    `setting` is its value of the one thing ("28 g", "8h"), `version_id` the variant of the
    template that its trays are sown from, `place_id` the shelf that the arm is.
    """

    __tablename__ = "trial_arm"
    __table_args__ = (Index("uq_trial_arm_position", "trial_id", "position", unique=True),)
    trial_id: int = Field(foreign_key="trial.id")
    position: int
    name: str
    setting: str = ""
    colour: str = ""
    version_id: int | None = Field(default=None, foreign_key="template_version.id")
    place_id: int | None = Field(default=None, foreign_key="place.id")


class TrialBlockRow(Numbered, table=True):
    """A shelf on which every arm of a trial has trays, in the order of `position` from 0."""

    __tablename__ = "trial_block"
    __table_args__ = (Index("uq_trial_block_position", "trial_id", "position", unique=True),)
    trial_id: int = Field(foreign_key="trial.id")
    position: int
    place_id: int = Field(foreign_key="place.id")


class TrialTrayRow(OfEntry, table=True):
    """That a tray is in an arm of a trial, in a block and a run from 1, since this entry.

    The newest standing row of a tray decides. `left_out` says why it must not count, '' when it
    does.
    """

    __tablename__ = "trial_tray"
    __table_args__ = LINK
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    arm_id: int = Field(foreign_key="trial_arm.id")
    block_id: int | None = Field(default=None, foreign_key="trial_block.id")
    run: int
    left_out: str = ""


class TrialEndRow(OfEntry, table=True):
    """How many trays per arm the planned end of a trial takes; the newest standing one decides."""

    __tablename__ = "trial_end"
    trial_id: int = Field(foreign_key="trial.id", index=True)
    per_arm: int


class TrialCriterionRow(OfEntry, table=True):
    """How much a criterion counts in weighing a trial up; the newest standing entry decides."""

    __tablename__ = "trial_criterion"
    __table_args__ = LINK
    name: str = Field(primary_key=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    weight: float


class TrialDecisionRow(OfEntry, table=True):
    """What was decided on a trial and what to try next; `version_id` is what was adopted."""

    __tablename__ = "trial_decision"
    trial_id: int = Field(foreign_key="trial.id", index=True)
    arm_id: int | None = Field(default=None, foreign_key="trial_arm.id")
    version_id: int | None = Field(default=None, foreign_key="template_version.id")
    decided: str
    try_next: str = ""


class TastingRow(Numbered, table=True):
    """A blind tasting of a trial's arms. `seed` draws codes and orders; `ranks`: 1 is best."""

    __tablename__ = "tasting"
    entry_id: int = Field(foreign_key="entry.id", index=True)
    trial_id: int = Field(foreign_key="trial.id", index=True)
    ranks: bool = False
    seed: int


class TastingAnswerRow(OfEntry, table=True):
    """What one taster said of one arm under one aspect: a score (1–9) or rank, and own words."""

    __tablename__ = "tasting_answer"
    __table_args__ = LINK
    arm_id: int = Field(foreign_key="trial_arm.id", primary_key=True)
    aspect: str = Field(primary_key=True)
    tasting_id: int = Field(foreign_key="tasting.id", index=True)
    taster: str
    score: float | None = None
    words: str = ""


class TriangleRow(OfEntry, table=True):
    """A triangle test of two arms: how many tasters, how many found the odd one."""

    __tablename__ = "triangle"
    trial_id: int = Field(foreign_key="trial.id", index=True)
    first_arm_id: int = Field(foreign_key="trial_arm.id")
    second_arm_id: int = Field(foreign_key="trial_arm.id")
    tasters: int
    found: int
