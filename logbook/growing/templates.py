"""Crop templates: how one crop is grown here, as ordered stages and a cut window."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

from logbook.growing.quantities import EXPECTED, SEED, SOAK_PH, SPREAD, TRAY_SIDE
from logbook.growing.targets import Targets
from logbook.text import Refused

Cover = Literal["none", "lid", "weight"]
Light = Literal["dark", "lit"]
Water = Literal["none", "mist", "top", "bottom"]

COVERS: tuple[Cover, ...] = get_args(Cover)
LIGHTS: tuple[Light, ...] = get_args(Light)
WATERS: tuple[Water, ...] = get_args(Water)

TRAY_MM = (508.0, 254.0)
MOST_STAGES = 12
LONGEST_LIFE = 365 * 86_400


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of a tray's life with one cover, one light state and one watering habit.

    `seconds` is elapsed time; None is allowed for the last stage alone, which ends with the cut.
    Times a day may be a fraction: 0.5 is every second day.
    """

    name: str
    seconds: int | None
    cover: Cover = "none"
    light: Light = "dark"
    water: Water = "none"
    water_per_day: float = 0.0
    looks_per_day: float = 0.0


@dataclass(frozen=True, slots=True)
class CutWindow:
    """From, best and by, in seconds after the last stage began."""

    from_seconds: int
    best_seconds: int
    by_seconds: int


@dataclass(frozen=True, slots=True)
class CropTemplate:
    """One version of a crop template.

    Weights in g, lengths in mm, soak in s; `expected_grams` is cut weight per tray and
    `spread_percent` its standard deviation as a share of it. `guess` marks the numbers that came
    with the program and that a room's own trays have not replaced. `targets` is what the crop
    wants of light, air and water.
    """

    name: str
    crop: str
    stages: tuple[Stage, ...]
    cut: CutWindow
    variety: str = ""
    seed_grams: float | None = None
    tray_length_mm: float = TRAY_MM[0]
    tray_width_mm: float = TRAY_MM[1]
    soak_seconds: int = 0
    soak_ph: float | None = None
    medium: str = ""
    sign_to_cut: str = ""
    expected_grams: float | None = None
    spread_percent: float = 20.0
    mucilage: bool = False
    guess: bool = False
    notes: str = ""
    targets: Targets = field(default_factory=Targets)
    version: int = field(default=0, compare=False)

    def planned_seconds(self) -> int:
        """Give the elapsed seconds from sowing to the start of the last stage."""
        return sum(stage.seconds or 0 for stage in self.stages[:-1])

    def label(self) -> str:
        """Give crop and variety in one line."""
        return f"{self.crop}, {self.variety}" if self.variety else self.crop


def checked(template: CropTemplate) -> CropTemplate:
    """Give the template back, or raise Refused with the first thing that cannot be."""
    if not template.stages:
        raise Refused("A template needs at least one stage.")
    if len(template.stages) > MOST_STAGES:
        raise Refused(f"A template takes up to {MOST_STAGES} stages; this one has more.")
    for place, stage in enumerate(template.stages):
        try:
            _check_stage(stage, last=place == len(template.stages) - 1)
        except Refused as refused:
            raise Refused(str(refused), f"stage {place + 1}") from refused
    for about, quantity, value in (
        ("seed", SEED, template.seed_grams),
        ("expected", EXPECTED, template.expected_grams),
        ("spread", SPREAD, template.spread_percent),
        ("soak_ph", SOAK_PH, template.soak_ph),
        ("tray", TRAY_SIDE, template.tray_length_mm),
        ("tray", TRAY_SIDE, template.tray_width_mm),
    ):
        if value is not None:
            quantity.checked(value, about=about)
    if template.soak_seconds > 7 * 86_400:
        raise Refused("The soak is longer than a week; write it like 8h.", "soak")
    if template.mucilage and template.soak_seconds:
        raise Refused(
            "Seed with mucilage is not soaked: it turns to jelly. Set the soak to 0h or take the "
            "mucilage mark off.",
            "soak",
        )
    cut = template.cut
    if not 0 <= cut.from_seconds <= cut.best_seconds <= cut.by_seconds:
        raise Refused("The cut window must run from, best, by in this order.", "cut")
    if template.planned_seconds() + cut.by_seconds > LONGEST_LIFE:
        raise Refused("From sowing to the end of the cut window is more than a year.", "cut")
    return template


def _check_stage(stage: Stage, *, last: bool) -> None:
    where = f'Stage "{stage.name}"'
    if stage.seconds is None and not last:
        raise Refused(f"{where} has no length; only the last stage may go without one.")
    if stage.seconds is not None and stage.seconds <= 0:
        raise Refused(f"{where} has a length of nothing or less; write it like 36h or 2.5d.")
    for what, value, choices in (
        ("cover", stage.cover, COVERS),
        ("light", stage.light, LIGHTS),
        ("water", stage.water, WATERS),
    ):
        if value not in choices:
            raise Refused(f'{where}: {what} "{value}" is unknown; use {", ".join(choices)}.')
    for what, times in (("watering", stage.water_per_day), ("looks", stage.looks_per_day)):
        if times and not 0.1 <= times <= 12:
            raise Refused(f"{where}: {what} {times:g} times a day; use 0, or 0.1 to 12.")
    if stage.water == "none" and stage.water_per_day:
        raise Refused(f"{where} has waterings but no way of watering: use mist, top or bottom.")
