"""What is to come as a calendar that any calendar program reads (RFC 5545)."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import ClassVar
from zoneinfo import ZoneInfo

from logbook.actions.book import Book
from logbook.actions.made_files import write_made, written_to
from logbook.actions.trays.agenda import Coming, agenda
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.quantities import PLAN_WEEKS
from logbook.text import plural

WEEKS = 8
"""So many weeks ahead, where nothing else is said."""
_MINUTES = {"cut": 30, "delivery": 30}
_USUAL_MINUTES = 15
MAKER = "-//growroom logbook//calendar//EN"


@dataclass(frozen=True, slots=True)
class Calendar:
    """What is to be done in weeks to come, in the order of time."""

    keys: ClassVar = "events"

    events: tuple[Coming, ...]
    text: str
    """The same as a calendar's file, with CR LF at the end of each line."""


def calendar_of(book: Book, weeks: int = WEEKS, *, deliveries: bool = False) -> Calendar:
    """The calendar of so many weeks; an event keeps its UID for as long as it is to come."""
    PLAN_WEEKS.checked(weeks)
    coming = tuple(agenda(book, 7 * weeks, deliveries=deliveries))
    with book.reading() as reading:
        made = reading.value("SELECT made_at FROM book")
    owner = sha256(f"{made}".encode()).hexdigest()[:16]
    text = calendar_file(coming, book.about.name, owner, book.now(), book.zone, book.units)
    return Calendar(coming, text)


def write_calendar(
    book: Book, out: Path, weeks: int = WEEKS, *, deliveries: bool = False
) -> tuple[Calendar, str]:
    """Write the calendar to a file, unless one that isn't ours is there; says how much is in it."""
    found = calendar_of(book, weeks, deliveries=deliveries)
    write_made(out, found.text, MAKER)
    return found, f"{plural(len(found.events), 'event')} {written_to(out)}"


def calendar_file(
    coming: Iterable[Coming], name: str, owner: str, now: datetime, zone: ZoneInfo,
    units: Units = "metric",
) -> str:  # fmt: skip
    """Events in a zone, with its rules in the file; `owner` tells their UIDs from another book's."""
    import icalendar

    calendar = icalendar.Calendar()
    calendar.add("prodid", MAKER)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", name)
    calendar.add("x-wr-calname", name)
    calendar.add("refresh-interval", timedelta(hours=1), parameters={"VALUE": "DURATION"})
    for each in coming:
        event = icalendar.Event()
        event.add("uid", f"{each.name}@{owner}.logbook")
        event.add("dtstamp", now.astimezone(UTC))
        event.add("dtstart", each.at.astimezone(zone))
        event.add("duration", timedelta(minutes=_MINUTES.get(each.what, _USUAL_MINUTES)))
        event.add("summary", summary(each))
        if each.place:
            event.add("location", each.place)
        if about := "\n".join(_about(each, zone, units)):
            event.add("description", about)
        event.add("categories", [each.what])
        event.add("transp", "TRANSPARENT")
        calendar.add_component(event)
    calendar.add_missing_timezones()
    return bytes(calendar.to_ical()).decode()


def summary(one: Coming) -> str:
    """What is to be done in one line: "lid off: radish 101–104"."""
    return " ".join(filter(None, (one.words + ":" * bool(one.crop), one.crop, _trays(one))))


def _trays(one: Coming) -> str:
    waiting = [number for number in one.numbers if number < 0]
    named = numbers_words(number for number in one.numbers if number > 0)
    more = f"{len(waiting)} trays without a number" if waiting else ""
    return " and ".join(filter(None, (named, more)))


def _about(one: Coming, zone: ZoneInfo, units: Units) -> list[str]:
    found = [one.about] if one.about else []
    if one.seed_grams:
        found.append(f"seed: {grams_words(one.seed_grams, units)} dry")
    if one.window is not None:
        start, by = (
            at.astimezone(zone).strftime("%Y-%m-%d %H:%M")
            for at in (one.window.start, one.window.by)
        )
        found.append(f"cut from {start}, by {by}")
    return found
