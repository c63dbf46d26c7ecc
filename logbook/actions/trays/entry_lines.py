"""Entries as they are shown: what was done or seen, in words and in numbers."""

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass, fields, replace
from typing import ClassVar

from logbook.actions.reading import Reading
from logbook.actions.trays.entry_says import Said, says
from logbook.actions.trays.entry_words import change_words, done_words
from logbook.growing.kinds import kind_of
from logbook.growing.trays.chores import RoomHours
from logbook.store.reads.entries import StoredEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(StoredEntry):
    """One entry of the book: what was done or seen, in words and in numbers."""

    keys: ClassVar = """
        id kind at trays by note struck replaced_by replaces words written_at clock_in_doubt
        place=stands grams=said.grams part=said.part keep=said.keep pack_lot=said.pack_lot *water=said.water
        *look=said.look *air=said.air mean_ppfd=said.light.mean min_ppfd=said.light.least
        max_ppfd=said.light.most light_spots=said.light.count
    """

    words: str
    place: str
    said: Said
    hours: RoomHours
    """The day of the room that it speaks of."""
    folded: tuple[int, ...] = ()
    """The entries (ids) that are shown by it, where it is more than one."""

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


def fold_lines(lines: Iterable[Line], opened: Container[int | str] = ()) -> list[Line]:
    """Lines with bare waterings and looks of one act as one line, but those whose ids are `opened`."""
    found: list[Line] = []
    for line in lines:
        before = found[-1] if found else None
        if before is None or line.id in opened or before.id in opened or not _folds(before, line):
            found.append(line)
            continue
        said = before.words.split(", ")
        words = before.words if line.words in said else f"{before.words}, {line.words}"
        found[-1] = replace(
            before, words=words, folded=(*(before.folded or (before.id,)), line.id),
            trays=tuple(dict.fromkeys(before.trays + line.trays)),
            tray_ids=tuple(dict.fromkeys(before.tray_ids + line.tray_ids)),
            names=tuple(dict.fromkeys(before.names + line.names)),
        )  # fmt: skip
    return found


def _folds(before: Line, line: Line) -> bool:
    """Whether a line may stand in the one before it: it says nothing but that it was done then."""
    alike = ("at", "by", "written_at", "clock_in_doubt")
    acts = {each.act_id or each.id for each in (before, line)}
    return (
        len(acts) == 1
        and not (before.struck or line.struck or before.note or line.note)
        and before.kind in _BARE
        and line.kind in _BARE
        and line.words == kind_of(line.kind).done
        and all(getattr(before, each) == getattr(line, each) for each in alike)
        and (before.trays == line.trays or before.words == line.words)
    )


_BARE = ("water", "look", "glance")
