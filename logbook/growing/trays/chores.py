"""Chores: what falls due on trays, what they are called, and when daily ones come round."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Annotated
from zoneinfo import ZoneInfo

from logbook.growing.crops.templates import CropTemplate, Stage
from logbook.growing.days import DAY, day_number, day_of, wall
from logbook.growing.kinds import KINDS
from logbook.text import Refused, fold, nearest

CHANGES = ("weight_on", "weight_off", "light_on", "light_off", "lid_on", "lid_off")
RECURRING = ("water", "look")
BOTH = "water_look"
"""Water and a look that the same trays want at the same walk: done with one key."""
CHORES = ("soak", "sow", *CHANGES, BOTH, *RECURRING, "cut")
Chore = Annotated[str, CHORES]

WORDS = {chore: chore.replace("_", " ") for chore in CHORES}
WORDS |= {"light_on": "under lights", "light_off": "to the dark", BOTH: "water, look"}
_FORMER = {"to the light": "light_on"}
"""What a chore was once called, still taken."""
NOUNS = WORDS | {chore: KINDS[chore].noun for chore in CHORES if chore in KINDS}
NOUNS |= {BOTH: NOUNS["water"]}
"""How a chore is named in a sentence: "the watering"."""


def parts_of(chore: str) -> tuple[str, ...]:
    """The chores that one stands for."""
    return RECURRING if chore == BOTH else (chore,)


@dataclass(frozen=True, slots=True)
class RoomHours:
    """The hours by the wall in which a room is worked, from `start` to `end` (minutes).

    `first_day` is the day number of the sowing day (1 or 0). `evening` is when the last daily
    chore of several is due; None for two hours before the end.
    """

    zone: ZoneInfo
    start: int = 7 * 60
    end: int = 19 * 60
    first_day: int = 1
    evening: int | None = None

    @property
    def last_round(self) -> int:
        """When the last daily chore of several is due, in minutes."""
        if self.evening is not None:
            return self.evening
        return max(self.end - 120, (self.start + self.end) // 2)

    def walk_at(self, at: datetime) -> datetime:
        """The first walk at or after a moment: itself while the room is worked, else the next start."""
        day = day_of(at, self.zone)
        if at >= wall(day, self.end, self.zone):
            return wall(day + timedelta(days=1), self.start, self.zone)
        return max(at, wall(day, self.start, self.zone))

    def day_number(self, sown: datetime, at: datetime) -> int:
        """The number of a moment's day in the life of a tray."""
        return day_number(sown, at, self.zone, self.first_day)


@dataclass(frozen=True, slots=True)
class Change:
    """What going from one stage to the next asks of the hands; `parts` may be empty."""

    parts: tuple[str, ...]

    @property
    def chore(self) -> str:
        """Name the most telling part: weight before light before lid; '' when there is none."""
        return next((part for part in CHANGES if part in self.parts), "")

    @property
    def words(self) -> str:
        """Name all parts: what comes off, what goes on, then the light."""
        order = ("weight_off", "lid_off", "weight_on", "lid_on", "light_on", "light_off")
        return ", ".join(WORDS[part] for part in order if part in self.parts)


def change_between(before: Stage, after: Stage) -> Change:
    """The change that leads from one stage into the next."""
    covers = ((before.cover, "off"), (after.cover, "on")) if before.cover != after.cover else ()
    parts = [f"{cover}_{way}" for cover, way in covers if cover != "none"]
    if before.light != after.light:
        parts.append("light_on" if after.light == "lit" else "light_off")
    return Change(tuple(parts))


def change_into(template: CropTemplate, stage: int) -> Change:
    """The change into stage number `stage` (0 is the sowing: no parts)."""
    return Change(()) if stage == 0 else change_between(*template.stages[stage - 1 : stage + 1])


def _words(text: str) -> str:
    return " ".join(re.split(r"[-_,\s]+", fold(text)))


def chore_named(text: str) -> str:
    """The chore of a name or its words ("weight off", "weight-off", "water,look"); raise Refused."""
    folded = _words(text)
    if folded in _FORMER:
        return _FORMER[folded]
    for chore in CHORES:
        if folded in (_words(chore), _words(WORDS[chore])):
            return chore
    raise Refused(
        f'There is no chore "{text[:40]}".{nearest(text, list(CHORES))} '
        f"The chores are {', '.join(CHORES)}."
    )


@lru_cache(maxsize=64)
def times_of_day(per_day: float, hours: RoomHours) -> tuple[int, ...]:
    """The wall times (minutes) of a chore so many times a day: morning, evening, some between."""
    count, length = max(1, round(per_day)), hours.last_round - hours.start
    return tuple(hours.start + round(length * step / max(1, count - 1)) for step in range(count))


def slots(per_day: float, since: datetime, after: datetime, hours: RoomHours) -> Iterator[datetime]:
    """Yield without end a daily chore's moments after `after`; every second day from `since`."""
    if per_day <= 0:
        return
    step = 1 if per_day >= 1 else max(1, round(1 / per_day))
    first_day = day_of(since, hours.zone)
    after = max(after, since)
    day = day_of(after, hours.zone)
    while True:
        if step == 1 or ((day - first_day).days > 0 and (day - first_day).days % step == 0):
            for minute in times_of_day(per_day, hours):
                moment = wall(day, minute, hours.zone)
                if moment > after:
                    yield moment
        day += timedelta(days=1)


def gap_seconds(per_day: float) -> float:
    """The usual seconds between two of a daily chore."""
    return DAY / per_day if per_day > 0 else float(DAY)


def early_seconds(per_day: float) -> float:
    """How early a daily chore may be done and still count: a quarter gap, 3 h at most."""
    return min(gap_seconds(per_day) / 4, 3 * 3600)
