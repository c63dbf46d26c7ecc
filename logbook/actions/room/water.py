"""Water and cleaning: pH and EC of what is given, and the record of what was cleaned, how, with what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of, numbers_of
from logbook.growing.keys import TrayNumber
from logbook.growing.measures import number_words, volume_words
from logbook.growing.numbers import numbers_words
from logbook.growing.room.solutions import Use
from logbook.growing.room.water import WaterReading, out_of_band
from logbook.store.reads.water import StoredUse, read_uses, read_water
from logbook.text import Refused, clean_name, clean_words


def measure_water(
    book: Book, reading: WaterReading, numbers: Sequence[int] = (), place: str = "",
    at: datetime | None = None, note: str = "",
) -> Done:  # fmt: skip
    """Write a pH or EC that was measured: of the water for some trays, at a place, or in the tank."""
    from logbook.store.tables import WateringRow

    if reading.ph is None and reading.ec is None:
        raise Refused("Give the pH or the EC that was measured, like pH 6.1 or EC 1.2.")
    with book.writing() as act:
        when = act.moment(at, "A water reading")
        trays = act.reading.trays(numbers) if numbers else []
        numbers = numbers_of(trays)
        spot = act.reading.places.find(place).id if place else None
        ids = [known.stored.id for known in trays]
        entry = act.entry("measure", ids, when, note=note, place=spot)
        act.session.add(
            WateringRow(entry_id=entry, amount_ml=reading.millilitres, ph=reading.ph, ec=reading.ec)
        )
        where = numbers_words(numbers) or place or "the room"
        notices = out_of_band(reading, [known.template for known in trays])
        return done_of(act, f"water, {where}: {water_words(reading)}", numbers, notices)


def water_words(reading: WaterReading) -> str:
    """Say what was measured: "pH 6.1, EC 1.2 mS/cm"."""
    ph = "" if reading.ph is None else f"pH {number_words(reading.ph, 2)}"
    ec = "" if reading.ec is None else f"EC {number_words(reading.ec, 2)} mS/cm"
    return ", ".join(filter(None, (ph, ec)))


@dataclass(frozen=True, slots=True)
class WaterLine:
    """One measurement as it is shown, with what lies outside the bands of its trays' templates."""

    keys: ClassVar = """
        at by trays place ph=reading.ph ec_ms_cm=reading.ec
        millilitres_per_tray=reading.millilitres water_ml=reading.millilitres
        out_of_band=marks
    """

    at: datetime
    by: str
    trays: tuple[TrayNumber, ...]
    place: str
    reading: WaterReading
    marks: tuple[str, ...]
    """What is outside of what the crop wants."""

    @property
    def where(self) -> str:
        """The trays it was for, else where it was measured."""
        return numbers_words(self.trays) or self.place or "room"


@dataclass(frozen=True, slots=True)
class WaterRecord:
    """What was measured of the water in so many days, oldest first."""

    days: int
    readings: tuple[WaterLine, ...]


def list_water(book: Book, days: int = 30) -> list[WaterLine]:
    """What was measured of the water in so many days, oldest first."""
    lines = []
    with book.reading() as reading:
        for one in read_water(reading, *_lately(reading, days)):
            place, templates = reading.places.path(one.place), reading.versions(one.versions)
            marks = tuple(out_of_band(one.reading, list(templates.values())))
            lines.append(WaterLine(one.at, one.by, one.trays, place, one.reading, marks))
    return lines


def _lately(reading: Reading, days: int) -> tuple[datetime, datetime]:
    if not 1 <= days <= 3660:
        raise Refused(f"{days} days? Give 1 to 3660.")
    return reading.now - timedelta(days=days), reading.now + timedelta(minutes=10)


@dataclass(frozen=True, slots=True)
class UseDraft(Use):
    """A cleaning or a use of a solution as it is said."""

    place: str = ""
    note: str = ""
    at: datetime | None = None


def use_solution(book: Book, draft: UseDraft) -> Done:
    """Write that something was cleaned or a solution used; its cautions come back as notices."""
    from logbook.store.tables import SolutionUseRow

    used = Use(
        clean_name(draft.purpose, "purpose (what was cleaned or soaked)"),
        clean_name(draft.method, "method (how it was done)"),
        clean_words(draft.product, "product"),
        *(draft.stock_percent, draft.want_percent, draft.volume_ml),
    )
    made = used.dilution
    with book.writing() as act:
        when = act.moment(draft.at, "A cleaning")
        spot = act.reading.places.find(draft.place).id if draft.place else None
        entry = act.entry("clean", (), when, note=draft.note, place=spot)
        act.session.add(SolutionUseRow(entry_id=entry, **asdict(used)))
        poured = [made.words(book.units)] if made else []
        return done_of(act, f"cleaned: {used.what}", (), [*poured, *used.cautions])


@dataclass(frozen=True, slots=True)
class UseLine:
    """One use as it is shown."""

    keys: ClassVar = """
        entry=use.entry at=use.at by=use.by place purpose=use.purpose method=use.method
        product=use.product stock_percent=use.stock_percent want_percent=use.want_percent
        volume_ml=use.volume_ml note=use.note words
    """

    use: StoredUse
    place: str
    words: str


@dataclass(frozen=True, slots=True)
class CleaningRecord:
    """What was cleaned in so many days, how and with what, oldest first."""

    days: int
    uses: tuple[UseLine, ...]


def list_uses(book: Book, days: int = 365) -> list[UseLine]:
    """The uses of so many days, oldest first."""
    lines = []
    with book.reading() as reading:
        for use in read_uses(reading, *_lately(reading, days)):
            volume = use.volume_ml
            much = "" if volume is None else f", {volume_words(volume, reading.units)}"
            lines.append(UseLine(use, reading.places.path(use.place), f"{use.what}{much}"))
    return lines
