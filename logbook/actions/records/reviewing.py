"""Once a week somebody looks through the records and signs them.

21 CFR 112.161(b) asks for it within a reasonable time (from memory); a week is common practice, no source.
"""

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.entry_lines import Line
from logbook.actions.trays.page import page
from logbook.growing.days import day_bounds, day_of, day_words
from logbook.growing.kinds import KINDS
from logbook.growing.room.upkeep import sort_of
from logbook.store.reads.records import (
    RecordEntry,
    SaidReview,
    read_record_entries,
    read_reviews,
)
from logbook.store.reads.upkeep import read_checks
from logbook.store.rows import grouped
from logbook.text import Refused, plural

REVIEWED = (
    "clean",
    "check",
    "skip",
    "measure",
    "seed",
    "hold",
    "release",
    "discard",
    "pack",
    "lot_out",
)
"""The kinds of entries that a review looks at."""
WEEKS = 8


@dataclass(frozen=True, slots=True)
class ReviewWeek:
    """A week from its Monday: how many records of each kind it has, and who reviewed them."""

    keys: ClassVar = "week records wrong reviewed_by=review.by reviewed_at=review.at since words"

    week: date
    counts: tuple[tuple[str, int], ...]
    wrong: int
    """Checks that were out of their limit."""
    review: SaidReview | None
    """The newest review."""
    since: int
    """Records written after it."""

    @property
    def unsigned(self) -> bool:
        """Whether it has records that nobody reviewed."""
        return bool(self.counts) and (self.review is None or bool(self.since))

    @property
    def records(self) -> int:
        """How many records it has."""
        return sum(count for _, count in self.counts)

    @property
    def words(self) -> str:
        """What is in it: "3 cleanings, 9 checks, 1 out of its limit"."""
        said = [_counted(count, KINDS[kind].noun) for kind, count in self.counts]
        said += [f"{self.wrong} out of {'its' if self.wrong == 1 else 'their'} limit"] * bool(
            self.wrong
        )
        return ", ".join(said) or "no records"


def _counted(count: int, noun: str) -> str:
    """Say how many: "4 purchases of seed"."""
    head, of, rest = noun.partition(" of ")
    return f"{plural(count, head)}{of}{rest}"


@dataclass(frozen=True, slots=True)
class Reviews:
    """The last weeks, the newest first."""

    keys: ClassVar = "weeks"

    weeks: tuple[ReviewWeek, ...]


def monday(day: date) -> date:
    """The Monday of a day's week."""
    return day - timedelta(days=day.weekday())


def review_weeks(book: Book, count: int = WEEKS) -> Reviews:
    """The last weeks with their records, and who reviewed each."""
    with book.reading() as reading:
        newest = monday(reading.today)
        first = newest - timedelta(weeks=count - 1)
        start, end = day_bounds(first, reading.zone)[0], reading.now + timedelta(days=1)
        entries = read_record_entries(reading, _known(), start, end)
        by_week = grouped((monday(day_of(each.at, reading.zone)), each) for each in entries)
        wrong = Counter(
            monday(day_of(each.at, reading.zone))
            for each in read_checks(reading, start, end)
            if each.value is not None
            and sort_of(each.name).fault(each.value, each.known_grams, reading.units)
        )
        reviews = {each.week: each for each in read_reviews(reading, first)}
        weeks = (newest - timedelta(weeks=ago) for ago in range(count))
        return Reviews(
            tuple(
                _week(week, by_week.get(week, []), wrong[week], reviews.get(week)) for week in weeks
            )
        )


def week_records(book: Book, day: date) -> tuple[Line, ...]:
    """The records of a day's week, as a review reads them, oldest first."""
    begun, known = monday(day), _known()
    lines = page(book, begun, last=begun + timedelta(days=6))
    return tuple(
        line
        for line in lines
        if line.kind in known
        and not line.struck
        and begun <= day_of(line.at, line.hours.zone) < begun + timedelta(days=7)
    )


def _known() -> tuple[str, ...]:
    return tuple(kind for kind in REVIEWED if kind in KINDS)


def _week(
    week: date, entries: list[RecordEntry], wrong: int, review: SaidReview | None
) -> ReviewWeek:
    counts = Counter(each.kind for each in entries)
    since = 0
    if review is not None:
        since = sum(each.written_at > review.written_at for each in entries)
    ordered = tuple((kind, counts[kind]) for kind in _known() if counts[kind])
    return ReviewWeek(week, ordered, wrong, review, since)


def review(book: Book, week: date | None = None, note: str = "") -> Done:
    """Write that the records of a day's week (this one) were looked through; raises Refused."""
    with book.writing() as act:
        reading: Reading = act.reading
        begun = monday(week or reading.today)
        if begun > reading.today:
            raise Refused(
                f"The week from {day_words(begun, reading.today)} is still to come.", "week"
            )
        entry = act.entry("review", (), note=note)
        act.put("review", entry, week=begun)
        return done_of(act, f"reviewed: the week from {day_words(begun, reading.today)}", ())
