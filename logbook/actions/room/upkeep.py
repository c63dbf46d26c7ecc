"""Cleaning and checks that come round: set, asked for on the round, done or put off."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.days import day_bounds
from logbook.growing.quantities import TEMPERATURE
from logbook.growing.room.upkeep import (
    SORTS,
    DueDuty,
    Duty,
    Interval,
    LastTime,
    due_words,
    late_from,
    next_due,
    read_interval,
    sort_of,
)
from logbook.store.reads.air import last_air
from logbook.store.reads.upkeep import last_time, read_duties
from logbook.text import Refused, clean_name, clean_words, fold, listed, nearest


@dataclass(frozen=True, slots=True)
class DutyDraft:
    """A cleaning or check as it is set; None leaves what it was, or takes what is usual.

    `instead` is one that it takes the place of, under another name or elsewhere too.
    """

    name: str
    interval: Interval | None = None
    place: str = ""
    how: str | None = None
    known_grams: float | None = None
    instead: Duty | None = None


def set_duty(book: Book, draft: DutyDraft) -> Done:
    """Write how often something is cleaned or checked at a place, or in the room; raises Refused."""
    name = clean_name(draft.name, "name of the cleaning or check")
    sort = sort_of(name)
    with book.writing() as act:
        reading = act.reading
        place = _spot(reading, draft.place)
        old = draft.instead or next(
            (
                each
                for each in read_duties(reading)
                if (fold(each.name), each.place) == (fold(name), place)
            ),
            None,
        )
        every = draft.interval or (old.interval if old else read_interval(sort.every))
        if not every.every_days and old is None:
            raise Refused(_none_such(reading, name))
        how = draft.how if draft.how is not None else old.how if old else sort.how
        known = draft.known_grams or (old.known_grams if old else None)
        if sort is SORTS["scale"] and not known:
            raise Refused("What weight do you check the scale with? Give it, like 100g.", "known")
        duty = Duty(0, name, place, every, clean_words(how, "method"), known, act.now)
        words = _put(act, duty)
        if old and (fold(old.name), old.place) != (fold(name), place):
            _put(act, replace(old, interval=Interval(0.0)))
        return done_of(act, words, ())


def _put(act: Act, duty: Duty) -> str:
    """Write a duty as it is from now on; returns it in words."""
    words = due_words(duty, act.reading.places.path(duty.place))
    entry = act.entry("upkeep", (), note=words, place=duty.place)
    act.put(
        "upkeep", entry, name=duty.name, name_key=fold(duty.name), weekdays=duty.interval.weekdays,
        every_days=duty.interval.every_days, how=duty.how, known_grams=duty.known_grams,
    )  # fmt: skip
    return words


def _none_such(reading: Reading, name: str) -> str:
    names = list(dict.fromkeys(each.name for each in read_duties(reading)))
    has = f"They are: {listed(names)}." if names else "No upkeep is set yet."
    return f'"{name}" is not a cleaning or check here.{nearest(name, names)} {has}'


def _spot(reading: Reading, place: str) -> int | None:
    """A place's id; None for none and for the first room, which is what no place means."""
    found = reading.places.find(place) if place else None
    return None if found is None or found is reading.places.room else found.id


def duty_named(reading: Reading, name: str, place: str = "") -> Duty | None:
    """The duty of a name at a place, by default the room's or the only one; None for none.

    Raises Refused where it is one of several places'.
    """
    found = [each for each in read_duties(reading) if fold(each.name) == fold(name)]
    spot = _spot(reading, place)
    here = next((each for each in found if each.place == spot), None)
    if here is not None or place:
        return here
    if len(found) > 1:
        paths = [reading.places.path(each.place) for each in found]
        raise Refused(f'"{name}" comes round at {listed(paths)}; say which place.', "place")
    return found[0] if found else None


def is_duty(book: Book, name: str, place: str = "") -> bool:
    """Whether something of this name comes round, at a place where one is said."""
    with book.reading() as reading:
        return duty_named(reading, name, place) is not None


def due_duties(reading: Reading, day: date | None = None) -> tuple[DueDuty, ...]:
    """What is to be cleaned or checked now or next today, or all of a day; in walking order."""
    first, end = day_bounds(day or reading.today, reading.zone)
    found = []
    for due in every_duty(reading):
        if day is None:
            found += [due] * (due.walk_at < end)
        else:
            found += [each for each in _of_days(reading, due, end) if each.walk_at >= first]
    return tuple(sorted(found, key=lambda each: (each.walk, each.due_at, each.duty.entry)))


def every_duty(reading: Reading) -> Iterator[DueDuty]:
    """Every duty at a standing place, with when it is due next."""
    for duty in read_duties(reading):
        place = reading.places.get(duty.place) or reading.places.room
        if place is not None and not place.retired:
            yield _due(reading, duty, _last(reading, duty))


def _of_days(reading: Reading, due: DueDuty, end: datetime) -> Iterator[DueDuty]:
    """What a duty asks up to a moment, each done when it is due; what is due already at the next walk."""
    hours = reading.hours_of(due.duty.place)
    due = replace(due, walk_at=max(due.walk_at, hours.walk_at(reading.now)))
    while due.walk_at < end:
        yield due
        done = LastTime(max(due.walk_at, reading.now))
        due = replace(_due(reading, due.duty, done), last_at=due.last_at)


def _last(reading: Reading, duty: Duty) -> LastTime | None:
    """When it was done last; a temperature also when it was read at its place, by a feed too."""
    last = last_time(reading, duty)
    if duty.sort.reads is TEMPERATURE and duty.place is not None:
        since = reading.now - timedelta(days=7)
        for air in last_air(reading, duty.place, since, reading.now, 1):
            if last is None or air.at > last.at:
                return LastTime(air.at, air.celsius)
    return last


def _due(reading: Reading, duty: Duty, last: LastTime | None) -> DueDuty:
    place = reading.places.get(duty.place) or reading.places.room
    hours, now = reading.hours_of(duty.place), reading.now
    due = next_due(duty, last, hours, reading.units)
    wrong = ""
    if last is not None and last.value is not None:
        fault = duty.sort.fault(last.value, duty.known_grams, reading.units)
        wrong = fault and duty.sort.shown(last.value, duty.known_grams, reading.units)
    walk = hours.walk_at(due)
    return DueDuty(
        duty, place.path if place else "", place.id if place else None, place.walk if place else (),
        hours.zone, last.at if last else None, wrong, due, walk,
        now >= late_from(duty, walk, wrong=bool(wrong)), walk > now,
    )  # fmt: skip


def check(
    book: Book, name: str, value: float, place: str = "", note: str = "", at: datetime | None = None
) -> Done:
    """Write what a check showed; what is wrong with it comes back as a notice. Raises Refused."""
    sort = sort_of(name)
    if sort.reads is None:
        raise Refused(f'"{name}" is a cleaning, so it takes no value.')
    with book.writing() as act:
        reading = act.reading
        duty = duty_named(reading, name, place)
        spot = duty.place if duty else _spot(reading, place)
        known = duty.known_grams if duty else None
        when = act.moment(at, "A check")
        entry = act.entry("check", (), when, note=note, place=spot)
        sort.reads.checked(value, reading.units)
        keep_done(act, entry, name, value, known)
        words = f"checked: {sort.name}, {sort.shown(value, known, reading.units)}"
        fault = sort.fault(value, known, reading.units)
        return done_of(act, words, (), [fault] if fault else [])


def put_off(book: Book, due: DueDuty, why: str) -> Done:
    """Leave a duty until tomorrow, with the reason."""
    duty = due.duty
    with book.writing() as act:
        entry = act.entry("skip", (), note=why, chore=duty.name, place=duty.place)
        keep_done(act, entry, duty.name)
        return done_of(act, f"skipped: {due.words}; asked again tomorrow", ())


def keep_done(
    act: Act, entry: int, name: str, value: float | None = None, known: float | None = None
) -> None:
    """Write beside an entry which cleaning or check it was, and what it showed."""
    act.put(
        "upkeep_done", entry, name=name, name_key=fold(name), value=value, known_grams=known
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Upkeep:
    """The cleanings and checks that come round, with when each is due next, in walking order."""

    keys: ClassVar = "duties"

    duties: tuple[DueDuty, ...]


def upkeep(book: Book) -> Upkeep:
    """All that comes round."""
    with book.reading() as reading:
        found = sorted(every_duty(reading), key=lambda each: (each.walk, each.due_at))
        return Upkeep(tuple(found))
