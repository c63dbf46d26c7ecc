"""Trays of one batch that live through the same: what the season keeps of them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime

from logbook.growing.chores import RoomHours
from logbook.growing.life import Deed, TrayState, step
from logbook.growing.templates import CropTemplate
from sample_db.dice import Dice
from sample_db.mishaps import MISHAPS, Mishap, What
from sample_db.shelves import Spot
from sample_db.sowings import Habit


@dataclass
class Cohort:
    """Trays with one state. `age` is how many days before today they were sown.

    `trays` are tray ids with their spots; `luck` is what the whole batch gives against the usual.
    `held` keeps trays from being cut at all, `held_until` up to a moment; `cut_before` holds the
    grams of an earlier part cut. `own_dice` decides the luck of its trays, where it is not the
    room's: what a trial shows must not hang on the rest of the room.
    """

    habit: Habit
    age: int
    batch: int
    template: CropTemplate
    luck: float
    trays: dict[int, Spot | None]
    state: TrayState = field(default_factory=TrayState)
    held: bool = False
    held_until: datetime | None = None
    cut_before: float = 0.0
    own_dice: Dice | None = None

    def mishaps(self) -> list[Mishap]:
        """Give what befalls this batch."""
        return [
            mishap for mishap in MISHAPS if (mishap.crop, mishap.age) == (self.habit.crop, self.age)
        ]

    def befallen(self, what: What, *, ago: int | None = None, chore: str = "") -> Mishap | None:
        """Give the mishap of a kind, on a day or with a chore, if there is one."""
        for mishap in self.mishaps():
            if mishap.what == what and mishap.chore == chore and ago in (None, mishap.ago):
                return mishap
        return None

    def waits(self, when: datetime) -> bool:
        """Whether its trays are not to be cut at a moment though they are ripe."""
        return self.held or (self.held_until is not None and when < self.held_until)

    @property
    def youngest(self) -> bool:
        """Whether it is the newest batch of its habit."""
        return self.age == self.habit.age

    @property
    def ids(self) -> list[int]:
        """The ids of its trays."""
        return list(self.trays)

    @property
    def spots(self) -> list[Spot]:
        """The slots that its trays hold."""
        return [spot for spot in self.trays.values() if spot is not None]

    def live_through(self, hours: RoomHours, deed: Deed) -> None:
        """Take a deed into the state, by the rules of the trade."""
        self.state = step(self.state, self.template, deed, hours)

    def part_off(self, count: int) -> Cohort:
        """Give the first trays as a cohort of their own."""
        mine = dict(list(self.trays.items())[:count])
        for tray in mine:
            del self.trays[tray]
        return replace(self, trays=mine)
