"""The trays that names mean: "23", "23@2027-03-07", "b12". The one place that says so."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of, day_words
from logbook.growing.keys import TrayNumber
from logbook.growing.numbers import (
    LARGEST,
    batch_named,
    life_named,
    name_words,
    numbers_words,
    on_day,
)
from logbook.growing.trays.tray_now import StoredTray
from logbook.store.reads import trays as reads
from logbook.store.rows import LARGEST_ID, Rows
from logbook.text import Refused, listed, plural

MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class OtherLife:
    """Another tray that had the number of this one, before it or since."""

    tray: TrayNumber
    """What it is called by: its number with the day on which it was sown."""
    template: str
    start: datetime
    """When it was sown, or is planned to be."""
    end: datetime | None
    """When it was cut or discarded; null while it grows."""

    def span(self, now: datetime, zone: ZoneInfo) -> str:
        """Say what it was and when: "radish, 1 Mar to 10 Mar"."""
        today = day_of(now, zone)
        days = [day_words(day_of(at, zone), today) for at in (self.start, self.end) if at]
        ended = " to ".join(dict.fromkeys(days)) if self.end else f"since {days[0]}"
        return f"{self.template}, {ended}"

    def words(self, now: datetime, zone: ZoneInfo) -> str:
        """As span(), with its name: "radish, 1 Mar to 10 Mar, 23@2027-03-01"."""
        return f"{self.span(now, zone)}, {name_words(self.tray)}"


def other_lives(reading: Rows, tray: StoredTray, zone: ZoneInfo) -> tuple[OtherLife, ...]:
    """The other trays that had the number of one, the oldest first."""
    return lives_under(reading, tray.number, zone, tray.id)


def lives_under(
    reading: Rows, number: int, zone: ZoneInfo, but: int | None = None
) -> tuple[OtherLife, ...]:
    """The trays that had a number, all but one (id), the oldest first."""
    return tuple(
        OtherLife(
            on_day(each.number, day_of(each.start, zone)), each.template, each.start, each.end
        )
        for each in reads.lives_of(reading, number)
        if each.tray != but and each.start is not None
    )


def who_then(reading: Rows, tray: StoredTray, when: datetime, now: datetime, zone: ZoneInfo) -> str:
    """Say which other tray had the number of one at a moment; '' for none."""
    for each in other_lives(reading, tray, zone):
        if each.start <= when and (each.end is None or when <= each.end):
            return f" Tray {tray.number} was then {each.words(now, zone)}."
    return ""


def every_life(reading: Rows, name: int, zone: ZoneInfo) -> list[int]:
    """The ids of the trays that a name means: of a bare number all that had it."""
    mine = [each.id for each in trays_named(reading, [name], zone)]
    return reads.trays_numbered(reading, name) if name in range(1, LARGEST + 1) else mine


def trays_named(
    reading: Rows, names: Collection[int], zone: ZoneInfo, *, newest: bool = True
) -> list[StoredTray]:
    """The trays that names mean, in their order, each once; days are those of a zone.

    A number is the tray that grows under it, or else the newest that had it; with a day the one
    that had it then. A batch is those of its trays that wait for numbers, or else those in use, or
    else all. Raises Refused for a name that no tray has, and unless `newest` will do for a number
    under which none grows and several did.
    """
    bare = reads.newest_trays_numbered(
        reading, [each for each in names if -LARGEST_ID < each <= LARGEST]
    )
    found: dict[int, list[StoredTray]] = {}
    for name in names:
        found[name] = [bare[name]] if name in bare else list(_named(reading, name, zone))
        if name in bare and not newest and not bare[name].live:
            _refuse_several(reading, bare[name], zone)
    unknown = [name for name, trays in found.items() if not trays]
    if unknown:
        days = _days(reading, life_named(unknown[0])[0], zone) if unknown[0] > LARGEST else []
        growing = [tray.number for tray in reads.read_live_trays(reading)]
        known = f" Trays in use: {numbers_words(growing)}." if growing else " No tray is in use."
        if days:
            known = f" There is {listed(days[-MOST_NAMED:])}."
        there = "There is no tray" if len(unknown) == 1 else "There are no trays"
        raise Refused(f"{there} {numbers_words(unknown)[:200]}.{known[:200]}")
    trays = {tray.id: tray for name in names for tray in found[name]}
    return list(trays.values())


def _days(reading: Rows, number: int, zone: ZoneInfo) -> list[str]:
    """The trays that had a number, each by the day on which it was sown."""
    return [name_words(each.tray) for each in lives_under(reading, number, zone)]


def _refuse_several(reading: Rows, tray: StoredTray, zone: ZoneInfo) -> None:
    """Raise Refused where a number that is free now was that of several trays."""
    lives = _days(reading, tray.number, zone)
    if len(lives) > 1:
        many = f"of the last {MOST_NAMED}" if len(lives) > MOST_NAMED else "of them"
        raise Refused(
            f"No tray {tray.number} is in use now, and {len(lives)} had that number. Which {many}: "
            f"{listed(lives[-MOST_NAMED:], joint='or')}?"
        )


def _named(reading: Rows, name: int, zone: ZoneInfo) -> Iterator[StoredTray]:
    if batch := batch_named(name):
        yield from _of_batch(reading, *batch)
    number, tray, day = life_named(name)
    if day is not None:
        tray = _then(reads.lives_of(reading, number), day, zone)
    if tray is not None:
        yield from reads.read_trays(reading, [tray])


def _of_batch(reading: Rows, batch: int, some: int | None) -> list[StoredTray]:
    every = reads.read_trays_of_batch(reading, batch)
    live = [tray for tray in every if tray.live]
    trays = [tray for tray in live if tray.number < 0] or live or every
    if some is not None and some > len(trays):
        raise Refused(f"b{batch} has {plural(len(trays), 'tray')}, not {some}.")
    return trays[:some]


def _then(lives: Collection[reads.Life], day: date, zone: ZoneInfo) -> int | None:
    """The tray that had the number on a day: the one sown on it, else the one in use then."""
    begun = [each for each in lives if each.start and day_of(each.start, zone) == day]
    if len(begun) > 1:
        which = listed(
            [f"{one.template} (tray {one.number}, {_ended(one, zone)})" for one in begun]
        )
        raise Refused(f"Two trays {begun[0].number} were sown on {day}: {which}. Name the batch.")
    spans = (
        each.tray
        for each in reversed(list(lives))
        if each.start
        and day_of(each.start, zone) <= day
        and (each.end is None or day <= day_of(each.end, zone))
    )
    return begun[0].tray if begun else next(spans, None)


def _ended(one: reads.Life, zone: ZoneInfo) -> str:
    return f"ended {day_words(day_of(one.end, zone))}" if one.end else "in use"
