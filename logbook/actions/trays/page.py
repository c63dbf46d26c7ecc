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
    """The entries of a day, or of several, oldest first."""

    day: date
    """The first of them."""
    last_day: date
    entries: tuple[Line, ...]


def page(
    book: Book, day: date | None = None, *, last: date | None = None, tray: int | None = None,
    crop: str = "", kind: str = "",
) -> list[Line]:  # fmt: skip
    """The entries of a day, or from it to a last one, and what was written then of earlier days.

    Oldest first, narrowed to a tray, a crop or a kind.
    """
    kinds = FILTERS[known_kind(kind)] if kind else ()
    with book.reading() as reading:
        versions, which = _versions_of(reading, crop), day or reading.today
        end = last or which
        starts = [day_bounds(which, hours.zone)[0] for hours in reading.rooms]
        ends = [day_bounds(end, hours.zone)[1] for hours in reading.rooms]
        entries = read_entries(
            reading, min(starts), max(ends), tray_ids=_ids(reading, tray), versions=versions,
            written=True,
        )  # fmt: skip
        entries = [entry for entry in entries if not kinds or entry.kind in kinds]
        if len(starts) > 1:
            entries = _of_days(reading, entries, which, end)
        if kinds == FILTERS["air"]:
            return lines_of(reading, entries)
        entries, fed = without_feeds(reading, entries)
        lines = lines_of(reading, entries, name_lots=True)
        return [
            replace(line, words=fed[line.id].words, said=fed[line.id]) if line.id in fed else line
            for line in lines
        ]


def _of_days(
    reading: Reading, entries: Sequence[StoredEntry], first: date, last: date
) -> list[StoredEntry]:
    """Those that happened or were written on days of the room that they speak of."""
    zones = {entry: hours.zone for entry, hours in reading.hours_said(entries).items()}
    return [
        each
        for each in entries
        if any(first <= day_of(at, zones[each.id]) <= last for at in (each.at, each.written_at))
    ]


def search(
    book: Book, words: str, most: int = 200, *, tray: int | None = None, crop: str = ""
) -> list[Line]:
    """The newest entries that hold all the words or parts of words in any order, oldest first."""
    wanted = fold(words)
    if not wanted:
        raise Refused("What are you looking for? Type a word.")
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
