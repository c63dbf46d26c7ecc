"""What the book keeps of a trial: its set-up, its trays, what was said and decided."""

from dataclasses import dataclass, field
from datetime import datetime
from typing import ClassVar


def planned_per_arm(replicates: int, shelves: int, weeks: int) -> int:
    """Trays per arm that a set-up plans, in all blocks and weeks."""
    return replicates * max(1, shelves) * max(1, weeks)


@dataclass(frozen=True, slots=True)
class TrialArm:
    """An arm of a trial: its setting of the factor, its mark, its variant or its shelf."""

    trial_id: int
    id: int
    name: str
    setting: str
    colour: str
    version_id: int | None
    place_id: int | None


@dataclass(frozen=True, slots=True)
class PlannedEnd:
    """That the planned end takes so many trays per arm."""

    trial_id: int
    per_arm: int


@dataclass(frozen=True, slots=True)
class Trial:
    """A trial whose set-up stands. `shelves` are (block id, place id) in their order.

    `ends` are the planned ends that were said after the set-up, the newest last; `planned_anew` is
    when any was written, those that were undone too: what was looked at meanwhile stays seen.
    """

    id: int
    entry_id: int
    name: str
    question: str
    factor: str
    version_id: int
    measures: str
    replicates: int
    blocks: str
    weeks: int
    layout_number: int
    made_at: datetime
    by: str
    arms: tuple[TrialArm, ...] = ()
    shelves: tuple[tuple[int, int], ...] = ()
    ends: tuple[PlannedEnd, ...] = ()
    planned_anew: tuple[datetime, ...] = ()

    @property
    def per_arm(self) -> int:
        """Trays per arm at the planned end, in all blocks and weeks; 1 is no planned end."""
        if self.ends:
            return self.ends[-1].per_arm
        return planned_per_arm(self.replicates, len(self.shelves), self.weeks)

    def arm(self, arm_id: int) -> TrialArm:
        """One of its arms."""
        return next(arm for arm in self.arms if arm.id == arm_id)


@dataclass(frozen=True, slots=True)
class TrialTray:
    """A tray of a trial: its arm, block and run; `left_out` is why it does not count, or ''.

    `at` is when it joined.
    """

    tray_id: int
    arm_id: int
    block_id: int | None
    run: int
    left_out: str
    at: datetime


@dataclass(slots=True)
class Happenings:
    """What standing entries say of one tray, besides what makes its state.

    `water_ml` is ml in all, None where an amount is missing; `discarded` is why it was.
    """

    sown_by: str = ""
    cut_by: str = ""
    waterings: int = 0
    water_ml: float | None = 0.0
    shared: bool = False
    height_mm: float | None = None
    discarded: str = ""
    stems: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Tasting:
    """A tasting of a trial whose set-up stands."""

    id: int
    entry_id: int
    ranks: bool
    seed: int
    at: datetime


@dataclass(frozen=True, slots=True)
class Answer:
    """What a taster said of an arm under an aspect."""

    tasting_id: int
    taster: str
    arm_id: int
    aspect: str
    score: float | None
    words: str


@dataclass(frozen=True, slots=True)
class TriangleTest:
    """A triangle test of two arms."""

    first_arm_id: int
    second_arm_id: int
    tasters: int
    found: int


@dataclass(frozen=True, slots=True)
class Decision:
    """A decision on a trial; `version_id` is the template version that it made."""

    keys: ClassVar = "decided try_next at by"

    entry_id: int
    arm_id: int | None
    version_id: int | None
    decided: str
    try_next: str
    at: datetime
    by: str
