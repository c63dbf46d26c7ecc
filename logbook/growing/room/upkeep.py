"""Cleaning and checks that come round: chores about a place or the room, not about trays."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar
from zoneinfo import ZoneInfo

from logbook.growing import quantities
from logbook.growing.days import clock_words, day_of, wall
from logbook.growing.measures import Units, ago_words, grams_words, number_words, temperature_words
from logbook.growing.orders.weekdays import falls_on, read_weekdays, weekdays_words
from logbook.growing.quantities import Quantity
from logbook.growing.trays.chores import RoomHours, early_seconds, slots
from logbook.growing.trays.forecast import LATE_AFTER, ROUND_TAKES
from logbook.text import Refused, clean, fold

COLDEST_RAW = 5.0
"""°C that cut greens and sprouts may have at most, 41 °F (FDA Food Code 3-501.16, from memory)."""
SCALE_OFF = 0.01
"""The share by which a scale may be off (common practice, no source)."""
AGAIN = timedelta(hours=1)
"""So long after a check that wasn't right it is asked for again (common practice, no source)."""
MOST_DAYS = 366
MOST_A_DAY = 6


def _cold(celsius: float, _known: float | None, units: Units) -> str:
    if celsius <= COLDEST_RAW:
        return ""
    return (
        f"{temperature_words(celsius, units)} is above 5 °C (41 °F): bacteria grow faster on raw greens. "
        "Find out why and since when, decide what may still be sold, and check again within the hour."
    )


def _water(count: float, _known: float | None, _units: Units) -> str:
    if not count:
        return ""
    return (
        "E. coli was found: don't use this water on sprouts, on what is cut or for washing until it is "
        "put right and tested again (21 CFR 112.44 and 112.45, from memory)."
    )


def _scale(grams: float, known: float | None, units: Units) -> str:
    if not known or abs(grams - known) <= SCALE_OFF * known:
        return ""
    off = number_words(100 * abs(grams - known) / known)
    return (
        f"The scale is {off} % off, {grams_words(grams, units)} for {grams_words(known, units)}: set it "
        "or have it set before you sell by it. For trade, local rules ask for an approved scale."
    )


@dataclass(frozen=True, slots=True)
class Sort:
    """What is known of a cleaning or check by its name; one that isn't in SORTS is a cleaning.

    `every` is how often by default (common practice, no source); `reads` what a check shows, of
    which `fault` says what is wrong.
    """

    name: str
    words: str
    every: str
    how: str = ""
    reads: Quantity | None = None
    asked: str = ""
    fault: Callable[[float, float | None, Units], str] = lambda *_: ""

    def shown(self, value: float, known: float | None, units: Units) -> str:
        """What a check showed: "3.4 °C", "99.8 g for 100 g", "0 E. coli in 100 ml"."""
        assert self.reads is not None  # noqa: S101 - a check reads something
        words = self.reads.text(value, units)
        words += f" for {grams_words(known, units)}" if known else ""
        return f"{words} E. coli in 100 ml" if self.reads is quantities.ECOLI else words


SORTS = {
    sort.name: sort
    for sort in (
        Sort("racks", "clean racks", "weekly", "wash, rinse, sanitise"),
        Sort("trays", "clean trays", "weekly", "wash, rinse, sanitise, dry"),
        Sort("cold store", "check cold store", "2 a day", "", quantities.TEMPERATURE,
             "What does the cold store's thermometer show? At most 5 °C (41 °F)", _cold),
        Sort("water test", "test water", "90 days", "", quantities.ECOLI,
             "How many E. coli were found in 100 ml? 0 for none", _water),
        Sort("scale", "check scale", "weekly", "", quantities.SHOWN,
             "What does the scale show for the known weight?", _scale),
    )
}  # fmt: skip
"""The cleanings and checks that are known by name."""


def sort_of(name: str) -> Sort:
    """What is known of a name."""
    return SORTS.get(fold(name)) or Sort(name, f"clean {name}", "weekly", "clean")


@dataclass(frozen=True, slots=True)
class Interval:
    """How often something comes round: every so many days, or on days of the week; 0 for never."""

    every_days: float
    weekdays: str = ""

    @property
    def words(self) -> str:
        """Say it: "every 7 days", "2 times a day", "on Tue, Fri"."""
        if self.weekdays:
            on = weekdays_words(self.weekdays)
            return on if on == "every day" else f"on {on}"
        if self.every_days >= 1:
            days = round(self.every_days)
            return "every day" if days == 1 else f"every {days} days"
        return f"{round(1 / self.every_days)} times a day" if self.every_days else "no longer"


_NAMED = {"daily": 1.0, "weekly": 7.0, "monthly": 30.0, "yearly": 365.0, "none": 0.0, "never": 0.0}
_NAMED |= {"every day": 1.0, "twice a day": 0.5}
_DAYS = re.compile(r"(?:every )?(\d{1,3}) ?(?:d|days?)?")
_A_DAY = re.compile(r"(\d{1,2})(?: ?times)? ?(?:a|per|/) ?day")


def read_interval(text: str) -> Interval:
    """Read "7 days", "weekly", "2 a day", "tue,fri", or "none"; raise Refused."""
    words = fold(clean(text, lines=False)).removeprefix("on ")
    if words in _NAMED:
        return Interval(_NAMED[words])
    if (days := _DAYS.fullmatch(words)) and 1 <= int(days[1]) <= MOST_DAYS:
        return Interval(float(days[1]))
    if (times := _A_DAY.fullmatch(words)) and 1 <= int(times[1]) <= MOST_A_DAY:
        return Interval(1 / int(times[1]))
    try:
        weekdays = read_weekdays(words)
    except Refused:
        weekdays = ""
    if not weekdays:
        raise Refused(
            f'"{clean(text, lines=False)[:40]}" isn\'t how often. Write it like 7 days, weekly, 2 a day or '
            f"tue,fri; none for no longer. At most {MOST_A_DAY} a day, at least once in {MOST_DAYS} days.",
            "every",
        )
    return Interval(7.0, weekdays)


@dataclass(frozen=True, slots=True)
class Duty:
    """A cleaning or check that comes round, as it was set."""

    keys: ClassVar = "name every=interval.words every_days=interval.every_days how known_grams"

    entry: int
    name: str
    place: int | None
    interval: Interval
    how: str
    known_grams: float | None
    set_at: datetime

    @property
    def sort(self) -> Sort:
        """What is known of it by its name."""
        return sort_of(self.name)


@dataclass(frozen=True, slots=True)
class LastTime:
    """When a duty was done, or put off; `value` is what a check showed."""

    at: datetime
    value: float | None = None
    put_off: bool = False


@dataclass(frozen=True, slots=True)
class DueDuty:
    """A cleaning or check as the round has it; moments as those of a line of chores."""

    keys: ClassVar = """
        name=duty.name words place every=duty.interval.words last_at shown due_at walk_at late later
        at_most_celsius
    """

    duty: Duty
    place: str
    place_id: int | None
    walk: tuple[int, ...]
    zone: ZoneInfo
    last_at: datetime | None
    """When it was done last; null for never."""
    shown: str
    """What the last check showed, where it wasn't right."""
    due_at: datetime
    walk_at: datetime
    late: bool
    later: bool
    """Whether it comes later than now."""

    @property
    def words(self) -> str:
        """What is to be done."""
        return self.duty.sort.words

    @property
    def chore(self) -> str:
        """What it is among chores."""
        return "upkeep"

    @property
    def key(self) -> tuple[object, ...]:
        """What tells it from other lines of a round."""
        return (self.chore, self.duty.entry, self.later)

    @property
    def said(self) -> str:
        """What is due and where."""
        return f"{self.words}, {self.place}"

    @property
    def at_most_celsius(self) -> float | None:
        """The warmest that is right, where it is a temperature."""
        return COLDEST_RAW if self.duty.sort.reads is quantities.TEMPERATURE else None

    def when_words(self, now: datetime) -> str:
        """Say when it was done last, or is due: "last Mon 3 Nov", "not done yet", "at 17:00"."""
        was = f"was {self.shown}" if self.shown else ""
        if self.later:
            return f"{clock_words(self.walk_at, self.zone)} {was}".strip()
        if was:
            return f"late, {was}" if self.late else was
        if self.last_at is None:
            return "not done yet"
        ago = f"last {ago_words((now - self.last_at).total_seconds())} ago"
        return f"late, {ago}" if self.late else ago


def next_due(duty: Duty, last: LastTime | None, hours: RoomHours, units: Units) -> datetime:
    """When a duty is due after it was last done: never before the room's day begins.

    What was left undone doesn't pile up. A check that wasn't right is asked for again in an hour.
    """
    if last is None:
        return duty.set_at
    every, day = duty.interval.every_days, day_of(last.at, hours.zone)
    if last.value is not None and duty.sort.fault(last.value, duty.known_grams, units):
        return last.at + AGAIN
    if last.put_off:
        return wall(day + timedelta(days=1), hours.start, hours.zone)
    if duty.interval.weekdays:
        ahead = (day + timedelta(days=each) for each in range(1, 8))
        on = next(each for each in ahead if falls_on(duty.interval.weekdays, each))
        return wall(on, hours.start, hours.zone)
    if every >= 1:
        return wall(day + timedelta(days=round(every)), hours.start, hours.zone)
    early = timedelta(seconds=early_seconds(1 / every))
    return next(slots(1 / every, last.at, last.at + early, hours))


def late_from(duty: Duty, walk_at: datetime, *, wrong: bool = False) -> datetime:
    """When it is called late: what comes round within a day as water is, the rest a day after."""
    if wrong:
        return walk_at + LATE_AFTER
    return walk_at + (ROUND_TAKES if duty.interval.every_days <= 1 else timedelta(days=1))


def due_words(duty: Duty, place: str) -> str:
    """Say what was set: "clean racks (Rack 1) every 7 days: wash, rinse, sanitise"."""
    at = f" ({place})" if place else ""
    if not duty.interval.every_days:
        return f"{duty.sort.words}{at} no longer comes round"
    how = f": {duty.how}" if duty.how else ""
    return f"{duty.sort.words}{at} {duty.interval.words}{how}"
