"""Entries as they are shown: what was done or seen, in words and in numbers."""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import ClassVar

from logbook.actions.reading import Reading
from logbook.actions.trays.entry_says import Said, says
from logbook.actions.trays.entry_words import change_words, done_words
from logbook.growing.trays.chores import RoomHours
from logbook.store.reads.entries import StoredEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(StoredEntry):
    """One entry of the book: what was done or seen, in words and in numbers."""

    keys: ClassVar = """
        id kind at trays by note struck replaced_by replaces words written_at clock_in_doubt
        place=stands grams=said.grams part=said.part keep=said.keep *water=said.water
        *look=said.look *air=said.air mean_ppfd=said.light.mean min_ppfd=said.light.least
        max_ppfd=said.light.most light_spots=said.light.count
    """

    words: str
    place: str
    said: Said
    hours: RoomHours
    """The day of the room that it speaks of."""

    @property
    def stands(self) -> str:
        """Path of the place that it speaks of, or where its trays were put; empty for neither."""
        return self.place or self.said.to


def lines_of(
    reading: Reading,
    entries: Sequence[StoredEntry],
    tray_id: int | None = None,
    *,
    name_lots: bool = False,
) -> list[Line]:
    """Entries as they are shown; on the page of a tray (its id) its own share of a joint weight."""
    said = says(reading, entries, tray_id, name_lots=name_lots)
    hours = reading.hours_said(entries)
    changes = change_words(reading, entries)
    lines = []
    for entry in entries:
        mine = said.get(entry.id, Said())
        doubt = ", clock in doubt" if entry.clock_in_doubt else ""
        words = f"{done_words(entry, mine.words, changes)}{doubt}"
        stored = {each.name: getattr(entry, each.name) for each in fields(StoredEntry)}
        place = reading.places.path(entry.place_id)
        lines.append(Line(**stored, words=words, place=place, said=mine, hours=hours[entry.id]))
    return lines
