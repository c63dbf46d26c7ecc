"""The round on paper, and back: lines with codes are kept, and what comes back is written at once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.odd import odd_water
from logbook.actions.room.upkeep import check
from logbook.actions.together import Joined, together
from logbook.actions.trays.doing import did, unsaid_soak
from logbook.actions.trays.lots import knows_lots
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.round import the_round
from logbook.actions.trays.weighing import weigh
from logbook.growing.days import day_bounds, day_of, day_words, moment_words, wall
from logbook.growing.measures import grams_words, hours_words
from logbook.growing.numbers import life, of_these
from logbook.growing.quantities import CUT
from logbook.growing.room.upkeep import DueDuty, sort_of
from logbook.growing.room.water import WaterReading
from logbook.growing.trays import sheet as paper
from logbook.growing.trays.chores import BOTH, chore_named
from logbook.growing.trays.looks import Look
from logbook.growing.trays.round import Round, RoundLine
from logbook.growing.trays.soaking import Soaked, read_soaked
from logbook.store.reads.upkeep import read_duty_name
from logbook.store.rows import moment, stored
from logbook.text import Refused, clean_name
from logbook.ways import Way

MOST_DAYS = 31


@dataclass(frozen=True, slots=True)
class Sheet:
    """The round to come, as it goes onto paper."""

    keys: ClassVar = "printed_at room lines"

    printed_at: datetime
    room: str
    lines: tuple[paper.SheetLine, ...]


def print_sheet(book: Book, days: int = 1, first: date | None = None) -> Sheet:
    """The round of so many days from `first` (today); the codes of its lines are kept in the book.

    Raises Refused for no days, more than 31, or days that are past.
    """
    if not 1 <= days <= MOST_DAYS:
        raise Refused(f"A sheet covers 1 to {MOST_DAYS} days, not {days}.")
    start = first or book.today()
    rounds = [the_round(book, start + timedelta(days=each)) for each in range(days)]
    planned = [(each, line) for each in rounds for line in each.whole()]
    with book.writing() as act:
        newest = act.reading.value("SELECT max(id) FROM sheet_line") or 0
        codes = paper.codes(newest + 1, len(planned))
        lines = [_line(book, *each, code) for each, code in zip(planned, codes, strict=True)]
        for line in lines:
            act.add(
                "sheet_line", printed_at=act.now, code=line.code, chore=line.chore, at=line.at,
                trays=" ".join(map(str, [line.duty] if line.duty else line.trays)),
            )  # fmt: skip
        return Sheet(act.now, book.about.name, tuple(lines))


def _line(book: Book, today: Round, line: RoundLine | DueDuty, code: str) -> paper.SheetLine:
    about = []
    if isinstance(line, DueDuty):
        asked = "showed: ______" if line.duty.sort.reads else line.duty.how
        return paper.SheetLine(
            code, today.day, line.walk_at, paper.UPKEEP, line.words, line.place, "", (), (), asked,
            line.duty.entry,
        )  # fmt: skip
    if line.chore in ("soak", "sow") and line.seed_grams is not None:
        about.append(f"{grams_words(line.seed_grams * len(line.trays), book.units)} seed")
    if line.chore == "sow":
        about.append("lot ______")
    if line.stage:
        about.append(f"day {line.day_number}")
    if line.mould_words:
        about.append(line.mould_words)
    day, timed = today.day, line.chore in ("soak", "sow")
    at = max(line.walk_at, wall(day, 0 if timed else book.hours.start, book.zone))
    if day_of(at, book.zone) != day:  # a cut of a window that is best on a later day
        at = wall(day, book.hours.start, book.zone)
    return paper.SheetLine(
        code, today.day, at, line.chore, line.words, line.place, line.crop, line.numbers,
        tuple(tray.tray for tray in line.trays), ", ".join(about),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Kept:
    code: str
    chore: str
    at: datetime
    trays: str


@dataclass(frozen=True, slots=True)
class Entry:
    """A line that came back, as it was understood, or why it can't be written."""

    keys: ClassVar = "text words notices refusal"

    text: str
    words: str = ""
    notices: tuple[str, ...] = ()
    refusal: str = ""


@dataclass(frozen=True, slots=True)
class SheetRead:
    """What came back on paper. It is written whole or not at all."""

    keys: ClassVar = "act=act_id lines by written"

    lines: tuple[Entry, ...]
    by: str
    act_id: int | None = None

    @property
    def written(self) -> bool:
        """Whether it is in the book now."""
        return self.act_id is not None

    @property
    def refused(self) -> int:
        """How many lines can't be written as they are."""
        return sum(bool(each.refusal) for each in self.lines)


class _Seen(Exception):  # noqa: N818 - it only ends an act that was tried
    pass


def enter_sheet(
    book: Book, lines: Iterable[str], by: str = "", *, printed: date | None = None,
    write: bool = False,
) -> SheetRead:  # fmt: skip
    """What the lines of a sheet say, in the paper's order; written in one act where all are right.

    Without `write` it is tried and taken back. `by` are the initials of who had the paper,
    `printed` the day of an older sheet.
    """
    texts = [text for text in (line.strip() for line in lines) if text]
    if not texts:
        raise Refused("Give a line from the sheet, like RB 7:30 1-14 not 6.")
    by = clean_name(by, "initials") if by else book.by
    read, act_id = list[Entry](), None
    try:
        with together(book, by) as joined:
            entering = _Entering(joined, printed)
            read = [entering.line(text) for text in texts]
            if not write or any(each.refusal for each in read):
                raise _Seen
            act_id = joined.act_id
    except _Seen:
        pass
    return SheetRead(tuple(read), by, act_id)


class _Entering:
    """Writes line after line; a line without a day is of the day of the line before."""

    def __init__(self, book: Joined, printed: date | None) -> None:
        self.book = book
        with book.reading() as reading:
            self.kept = _kept(reading, printed)
            self.older = {} if printed else _older(reading)
        self.day = book.today()

    def line(self, text: str) -> Entry:
        try:
            duty = self.kept.get(text.split(maxsplit=1)[0].upper())
            if duty is not None and duty.chore == paper.UPKEEP:
                return self._upkeep(text, duty)
            told = paper.read_line(text)
            kept = self.kept.get(told.code)
            if kept is not None:
                return self._entered(text, told, kept)
            if told.code in self.older:
                on = self.older[told.code]
                raise Refused(
                    f"{told.code} isn't on the newest sheet, but on one printed "
                    f"{day_words(on, self.book.today())}. To enter that one, use "
                    f"{Way.SHEET_OF.of(on)}."
                )
            return self._beside(text, told)
        except Refused as refusal:
            return Entry(text, refusal=str(refusal))

    def _entered(self, text: str, told: paper.Told, kept: _Kept) -> Entry:
        zone = self.book.zone
        self.day = day_of(kept.at, zone)
        at = self._at(told) or kept.at
        with self.book.reading() as reading:
            ids = list(map(int, kept.trays.split()))
            found = list(reading.rows_of("SELECT number, id FROM tray WHERE id IN (ids)", ids))
        names = told.names([life(number, tray) for number, tray in sorted(found)])
        return self._write(text, kept.chore, names, at, told)

    def _upkeep(self, text: str, kept: _Kept) -> Entry:
        """A cleaning, whose rest is a note, or a check, whose rest is what it showed."""
        self.day = day_of(kept.at, self.book.zone)
        clock, rest = paper.rest_of(text)
        at = kept.at if clock is None else self._clock(clock)
        with self.book.reading() as reading:
            name, place = read_duty_name(reading, int(kept.trays))
            spot = reading.places.path(place)
        if (reads := sort_of(name).reads) is None:
            done = use_solution(self.book, UseDraft(name, "", place=spot, note=rest, at=at))
        else:
            done = check(self.book, name, reads.read(rest, self.book.units), spot, at=at)
        return Entry(text, done.words, done.notices)

    def _beside(self, text: str, told: paper.Told) -> Entry:
        """A line written by hand below the others: a chore and its trays."""
        at = self._at(told)
        chore = "jot" if told.code.casefold() in ("jot", "note") else _chore(told.code)
        if at is None or not told.only:
            raise Refused(f'Which trays, and when? Write it like "{told.code} 7:30 101-104".')
        return self._write(text, chore, told.names(told.only), at, told)

    def _at(self, told: paper.Told) -> datetime | None:
        return None if told.at is None else self._clock(told.at)

    def _clock(self, at: time) -> datetime:
        return wall(self.day, at.hour * 60 + at.minute, self.book.zone)

    def _write(
        self, text: str, chore: str, names: Sequence[int], at: datetime, told: paper.Told
    ) -> Entry:
        if not names:
            raise Refused(f"No trays are left on {told.code}.")
        if told.grams and chore != "cut":
            raise Refused(f"{told.code} is not a cut, so it takes no weights.")
        asked = ""
        if chore == BOTH and told.note:  # what was seen in passing is a look then
            watered = self._write(text, "water", names, at, replace(told, note=""))
            looked = self._write(text, "look", names, at, replace(told, amount_ml=None))
            words, notices = f"{watered.words}; {looked.words}", (*watered.notices, *looked.notices)
            return Entry(text, words, notices)
        if chore == "look":
            seen, note = _seen(told.note)
            done = look(self.book, names, seen, note, at, mouldy=names if seen.mould else ())
        elif chore == "jot":
            self.book.said_at = at
            done = jot(self.book, names, told.note)
            self.book.said_at = None
        elif told.grams:
            return self._weighed(text, told, names, at)
        else:
            note, lot = _lot_behind(told.note) if chore == "sow" else (told.note, None)
            soaked, note = self._soaked(chore, names, note, at)
            if chore == "sow" and lot is None and self._known(note):
                lot, note = note, ""
            part, keep, note = _kept_words(note) if chore == "cut" else (False, False, note)
            if told.amount_ml is not None:
                given = WaterReading(millilitres=told.amount_ml)
                asked = odd_water(self.book, given, names, at=at)
            done = did(
                self.book, chore, names, at, amount_ml=told.amount_ml, soaked=soaked, lot=lot,
                part=part, keep=keep, note=note,
            )  # fmt: skip
        return Entry(text, done.words, tuple(filter(None, (asked, *done.notices))))

    def _known(self, note: str) -> bool:
        """Whether what is left of a sowing's words is a seed lot of the book."""
        with self.book.reading() as reading:
            return bool(note) and knows_lots(reading, note)

    def _soaked(
        self, chore: str, names: Sequence[int], note: str, at: datetime
    ) -> tuple[Soaked | None, str]:
        """What the words behind a sowing say of its soak, and the rest of them."""
        seconds = unsaid_soak(self.book, names) if chore == "sow" else 0
        head, _, rest = note.partition(" ")
        if seconds and head.casefold() == "dry":
            return "dry", rest
        if seconds and head.casefold() == "soaked" and rest:
            since = read_soaked(rest, at, self.book.zone)
            if isinstance(since, datetime) and since > at:
                since -= timedelta(days=1)
            return since, ""
        if seconds:
            raise Refused(
                f"When did the soak begin? The template has {hours_words(seconds / 3600)}. Write "
                "it after the "
                'trays: "soaked 14:00", or "dry".'
            )
        return None, note

    def _weighed(self, text: str, told: paper.Told, names: Sequence[int], at: datetime) -> Entry:
        units, (part, keep, note) = self.book.units, _kept_words(told.note)
        grams = {of_these([name], names)[0]: CUT.read(said, units) for name, said in told.grams}
        written = [
            weigh(self.book, [name], grams[name], at=at, part=part, keep=keep, note=note)[0]
            for name in names
        ]
        said = ", ".join(f"{each.number} {grams_words(each.grams, units)}" for each in written)
        asked = tuple(each.question for each in written if each.question)
        how = "part cut" if part else "cut, grows again" if keep else "cut"
        return Entry(
            text, f"{how}: {said}, {moment_words(at, self.book.now(), self.book.zone)}", asked
        )


def _lot_behind(note: str) -> tuple[str, str | None]:
    """A note without the seed lot that stands behind "lot" in it, and that lot."""
    said = re.search(r"\blot[:\s]\s*(\S.*)$", note, re.IGNORECASE)
    return (note[: said.start()].strip(), said[1]) if said else (note, None)


def _kept_words(note: str) -> tuple[bool, bool, str]:
    """Whether a cut was a part, or left the tray to grow again, and the rest of its note."""
    head, _, rest = note.partition(" ")
    part, keep = head.casefold() == "part", head.casefold() in ("keep", "kept")
    return part, keep, rest if part or keep else note


def _seen(note: str) -> tuple[Look, str]:
    """What the words of a look say: "mould spot left corner" is mould on all trays of the line."""
    head, _, rest = note.partition(" ")
    if head.casefold() not in ("mould", "mold"):
        return Look(), note
    mould, _, where = rest.partition(" ")
    if mould.casefold() in ("spot", "spread"):
        return Look(mould=mould.casefold(), mould_where=where), ""
    return Look(mould="spot", mould_where=rest), ""


def _chore(words: str) -> str:
    try:
        return chore_named(words)
    except Refused:
        raise Refused(
            f'"{words[:20]}" is neither a code on the newest sheet nor a chore. Check the paper.'
        ) from None


def _kept(reading: Reading, printed: date | None) -> dict[str, _Kept]:
    """The lines by code of all that was printed on a day, by default the newest sheet's."""
    newest = reading.value("SELECT max(printed_at) FROM sheet_line")
    if printed is None and newest is not None:
        printed = day_of(moment(newest), reading.zone)
    kept = reading.make(
        _Kept,
        "SELECT code, chore, at, trays FROM sheet_line WHERE printed_at >= ? AND printed_at < ? "
        "ORDER BY id",
        tuple(map(stored, day_bounds(printed or reading.today, reading.zone))),
    )
    if printed is not None and not kept:
        raise Refused(f"No sheet was printed on {day_words(printed, reading.today)}.")
    return {line.code: line for line in kept}


def _older(reading: Reading) -> dict[str, date]:
    """When the newest sheet with each code was printed."""
    found = reading.rows("SELECT code, max(printed_at) FROM sheet_line GROUP BY code")
    return {code: day_of(moment(at), reading.zone) for code, at in found}
