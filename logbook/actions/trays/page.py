"""A day's page, and a search. Nothing is written."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.entry_lines import Line, lines_of
from logbook.actions.trays.entry_says import without_feeds
from logbook.actions.trays.named import OtherLife, every_life, lives_under
from logbook.growing.days import day_bounds, day_of
from logbook.growing.page_filter import KINDS as FILTERS
from logbook.growing.page_filter import known_kind
from logbook.store.reads.entries import StoredEntry, read_entries
from logbook.text import Refused, fold, nearest


@dataclass(frozen=True, slots=True)
class Page:
    """A day's entries, oldest first."""

    day: date
    entries: tuple[Line, ...]


def page(
    book: Book, day: date | None = None, *, tray: int | None = None, crop: str = "", kind: str = ""
) -> list[Line]:
    """A day's entries, and what was written that day of earlier ones, oldest first, narrowed."""
    kinds = FILTERS[known_kind(kind)] if kind else ()
    with book.reading() as reading:
        versions, which = _versions_of(reading, crop), day or reading.today
        starts, ends = zip(*(day_bounds(which, hours.zone) for hours in reading.rooms), strict=True)
        entries = read_entries(
            reading, min(starts), max(ends), tray_ids=_ids(reading, tray), versions=versions,
            written=True,
        )  # fmt: skip
        entries = [entry for entry in entries if not kinds or entry.kind in kinds]
        if len(starts) > 1:
            entries = _of_day(reading, entries, which)
        if kinds == FILTERS["air"]:
            return lines_of(reading, entries)
        entries, fed = without_feeds(reading, entries)
        lines = lines_of(reading, entries, name_lots=True)
        return [
            replace(line, words=fed[line.id].words, said=fed[line.id]) if line.id in fed else line
            for line in lines
        ]


def _of_day(reading: Reading, entries: Sequence[StoredEntry], day: date) -> list[StoredEntry]:
    """Those that happened or were written on a day of the room that they speak of."""
    zones = {entry: hours.zone for entry, hours in reading.hours_said(entries).items()}
    return [
        each
        for each in entries
        if day in (day_of(each.at, zones[each.id]), day_of(each.written_at, zones[each.id]))
    ]


def search(
    book: Book, words: str, most: int = 200, *, tray: int | None = None, crop: str = ""
) -> list[Line]:
    """The newest entries that hold all the words or parts of words in any order, oldest first."""
    wanted = fold(words)
    if not wanted:
        raise Refused("What to look for? Write a word.")
    with book.reading() as reading:
        entries = read_entries(
            reading, tray_ids=_ids(reading, tray), versions=_versions_of(reading, crop),
            words=wanted, newest=most,
        )  # fmt: skip
        return lines_of(reading, entries, name_lots=True)


def _versions_of(reading: Reading, crop: str) -> list[int] | None:
    """Versions (ids) with this in name, crop, variety or label (cut short too); None for ''."""
    if not crop:
        return None
    wanted = fold(crop.rstrip("… "))
    sql = (
        "SELECT v.id, c.name, v.crop, v.variety FROM template_version v "
        "JOIN template c ON c.id = v.template_id"
    )
    named = {
        version: (name, f"{crop}, {variety}" if variety else crop)
        for version, name, crop, variety in reading.rows(sql)
    }
    found = [version for version, names in named.items() if any(wanted in fold(x) for x in names)]
    if not found:
        known = sorted({name for names in named.values() for name in names})
        raise Refused(f'No crop is called "{crop[:40]}".{nearest(crop, known)}')
    return found


def lives(book: Book, tray: int | None) -> tuple[OtherLife, ...]:
    """All the trays that had a number, where there are several; () for no bare number."""
    if tray is None:
        return ()
    with book.reading() as reading:
        found = lives_under(reading, tray, reading.zone)
        return found if len(found) > 1 else ()


def _ids(reading: Reading, tray: int | None) -> list[int] | None:
    """The trays (ids) that are asked for: all that had a number; None for all."""
    return None if tray is None else every_life(reading, tray, reading.zone)
