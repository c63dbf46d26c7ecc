"""Trays of one batch that live through the same: what the season keeps of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.trays.life import TrayState
from sample_db.dice import Dice
from sample_db.mishaps import MISHAPS, Mishap, What
from sample_db.sowings import Habit

Spot = tuple[int, int]
"""A shelf's id and a slot on it."""
NEVER = datetime.max.replace(tzinfo=UTC)


@dataclass
class Cohort:
    """Trays with one state. `age` is how many days before today they were sown.

    `trays` are tray ids with their spots; `luck` is what the whole batch yields against the usual.
    No tray is cut before `held_until`; `cut_before` holds the grams of an earlier part cut.
    `own_dice` decides the luck of its trays, where it is not the room's: what a trial shows must
    not hang on the rest of the room. `arms` are those of its trial, which stand side by
    side.
    """

    habit: Habit
    age: int
    batch: int
    template: CropTemplate
    luck: float
    trays: dict[int, Spot | None]
    state: TrayState = field(default_factory=TrayState)
    held_until: datetime | None = None
    cut_before: float = 0.0
    own_dice: Dice | None = None
    arms: Sequence[Cohort] = ()

    def mishaps(self) -> list[Mishap]:
        """What befalls this batch."""
        mine = (self.habit.crop, self.age)
        return [mishap for mishap in MISHAPS if (mishap.crop, mishap.age) == mine]

    def befallen(self, what: What, *, ago: int | None = None, chore: str = "") -> Mishap | None:
        """The mishap of a kind, on a day or with a chore, if there is one."""
        for mishap in self.mishaps():
            if mishap.what == what and mishap.chore == chore and ago in (None, mishap.ago):
                return mishap
        return None

    @property
    def ids(self) -> list[int]:
        """The ids of its trays."""
        return list(self.trays)

    @property
    def spots(self) -> list[Spot]:
        """The slots that its trays hold."""
        return [spot for spot in self.trays.values() if spot is not None]

    def part_off(self, count: int) -> Cohort:
        """The first trays as a cohort of their own."""
        mine = {tray: self.trays.pop(tray) for tray in self.ids[:count]}
        return replace(self, trays=mine)
