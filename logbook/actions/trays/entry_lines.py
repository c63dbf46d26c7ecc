"""Entries as they are shown: what was done or seen, in words and in numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.reading import Reading
from logbook.actions.trays.entry_words import change_words, done_words
from logbook.growing.keys import TrayNumber
from logbook.growing.kinds import KindName
from logbook.growing.room.light import Uniformity
from logbook.growing.room.water import WaterReading
from logbook.growing.trays.looks import Look
from logbook.store.reads.air import AirCount
from logbook.store.reads.entries import StoredEntry


@dataclass(frozen=True, slots=True)
class Line:
    """One entry of the book: what was done or seen, in words and in numbers."""

    keys: ClassVar = """
        id kind at trays by note struck replaced_by replaces words written_at clock_in_doubt
        place=stands grams part keep *water *look *air
        mean_ppfd=light.mean min_ppfd=light.least max_ppfd=light.most light_spots=light.count
    """

    id: int
    """The entry's number."""
    kind: KindName
    at: datetime
    """When it happened."""
    written_at: datetime
    by: str
    """Who wrote it."""
    trays: tuple[TrayNumber, ...]
    words: str
    note: str
    """The person's own text."""
    struck: bool
    """Whether it was struck; it stays in the record."""
    place: str = ""
    replaced_by: int | None = None
    """The entry in the place of this struck one."""
    replaces: int | None = None
    """The entry whose place this one has taken."""
    clock_in_doubt: bool = False
    """Whether the machine's clock was in doubt when it was written."""
    to: str = ""
    grams: float | None = None
    """Cut weight: of the tray asked for, or of all its trays together."""
    part: bool | None = None
    keep: bool | None = None
    """Whether more is to be cut from the trays; null where nothing was cut."""
    water: WaterReading | None = None
    look: Look | None = None
    air: AirCount | None = None
    light: Uniformity | None = None
    names: tuple[int, ...] = ()
    """What its trays are called by, whoever has their numbers by now."""

    @property
    def stands(self) -> str:
        """Path of the place that it speaks of, or where its trays were put; empty for neither."""
        return self.place or self.to


def lines_of(
    reading: Reading,
    entries: Sequence[StoredEntry],
    tray_id: int | None = None,
    *,
    name_lots: bool = False,
) -> list[Line]:
    """Entries as they are shown; on the page of a tray (its id) its own share of a joint weight."""
    from logbook.actions.trays.entry_says import Said, says

    said = says(reading, entries, tray_id, name_lots=name_lots)
    changes = change_words(reading, entries)
    places = reading.places.by_id
    lines = []
    for entry in entries:
        mine = said.get(entry.id, Said())
        doubt = ", clock in doubt" if entry.clock_in_doubt else ""
        lines.append(
            Line(
                id=entry.id,
                kind=entry.kind,
                at=entry.at,
                written_at=entry.written_at,
                by=entry.by,
                trays=entry.trays,
                words=f"{done_words(entry, mine.words, changes)}{doubt}",
                note=entry.note,
                struck=entry.struck_by is not None,
                place=places[entry.place_id].path if entry.place_id in places else "",
                replaced_by=entry.replaced_by,
                replaces=entry.replaces,
                clock_in_doubt=entry.clock_in_doubt,
                to=mine.to,
                grams=mine.grams,
                part=mine.part,
                keep=mine.keep,
                water=mine.water,
                look=mine.look,
                air=mine.air,
                light=mine.light,
                names=entry.names,
            )
        )
    return lines
