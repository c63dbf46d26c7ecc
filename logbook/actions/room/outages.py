"""Power that was off in the room: writing it, and what the book has of it."""

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.room.lamps import above, shelf_pasts
from logbook.actions.trays.done import Done, done_of
from logbook.growing.measures import hours_words
from logbook.growing.room.outages import LONGEST
from logbook.growing.step_functions import seconds_of
from logbook.store.reads.lamps import read_outages
from logbook.text import Refused, plural


@dataclass(frozen=True, slots=True)
class Outage:
    """A time in which the power was off at a place."""

    keys: ClassVar = "entry place from=start to=end hours"

    entry: int
    place: str
    """The room, or the rack or shelf."""
    start: datetime
    end: datetime

    @property
    def hours(self) -> float:
        """How long it was, in hours."""
        return (self.end - self.start).total_seconds() / 3600


def list_outages(book: Book) -> list[Outage]:
    """All that stand, oldest first."""
    with book.reading() as reading:
        path = reading.places.path
        return [
            Outage(one.entry, path(one.place), one.at, one.until) for one in read_outages(reading)
        ]


def write_outage(
    book: Book, start: datetime, end: datetime | None = None, place: str = "", note: str = ""
) -> Done:
    """Write that the power was off, no lamp lit, from start to end (now), at a place or in all."""
    with book.writing() as act:
        reading = act.reading
        found = reading.places.find(place) if place else reading.places.by_id[reading.about.room]
        start, end = act.moment(start, "A power cut"), act.moment(end, "The end of a power cut")
        times = f"{reading.when(start)} to {reading.when(end)}"
        if end <= start:
            raise Refused(f"From {times}? The power must go off before it comes back.", "to")
        if end - start > LONGEST:
            raise Refused(f"From {times}? That is more than {LONGEST.days} days.", "to")
        pasts = [
            past
            for shelf, past in shelf_pasts(reading).items()
            if found.id in above(reading, reading.places.by_id[shelf])
        ]
        lost = [lit for past in pasts if (lit := seconds_of(past.lit(start, end)) / 3600)]
        again = any(low < end and start < high for past in pasts for low, high in past.outages)
        entry = act.entry("outage", (), start, place=found.id, note=note)
        act.put("outage", entry, until=end)
        notices = []
        if lost:
            shelves, most = plural(len(lost), "shelf", "shelves"), hours_words(max(lost))
            notices.append(f"{shelves} lost up to {most} of light.")
        if again:
            notices.append("It overlaps a power cut already in the book; each minute counts once.")
        elif not lost:
            notices.append("No lamp would have been lit then: no light was lost.")
        long = hours_words((end - start).total_seconds() / 3600)
        words = f"power off in {found.path}: {times}, {long}"
        return done_of(act, words, (), notices)
