"""The record of what was cleaned, how, with what."""

from dataclasses import asdict, dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.room.upkeep import duty_named, keep_done
from logbook.actions.room.water import lately
from logbook.actions.trays.done import Done, done_of
from logbook.growing.measures import volume_words
from logbook.growing.room.solution_use import Use
from logbook.growing.room.upkeep import sort_of
from logbook.store.reads.upkeep import StoredCheck, read_checks
from logbook.store.reads.uses import StoredUse, read_uses
from logbook.text import clean_name, clean_words


@dataclass(frozen=True, slots=True)
class UseDraft(Use):
    """A cleaning or a use of a solution as it is said."""

    place: str = ""
    note: str = ""
    at: datetime | None = None


def use_solution(book: Book, draft: UseDraft) -> Done:
    """Write that something was cleaned or a solution used; its cautions come back as notices."""
    purpose = clean_name(draft.purpose, "purpose (what was cleaned or soaked)")
    with book.writing() as act:
        duty = duty_named(act.reading, purpose, draft.place)
        used = Use(
            purpose,
            clean_name(draft.method or (duty.how if duty else ""), "method (how it was done)"),
            clean_words(draft.product, "product"),
            *(draft.stock_percent, draft.want_percent, draft.volume_ml),
        )
        made = used.dilution
        when = act.moment(draft.at, "A cleaning")
        spot = act.reading.places.find(draft.place).id if draft.place else None
        spot = duty.place if duty else spot
        entry = act.entry("clean", (), when, note=draft.note, place=spot)
        act.put("solution_use", entry, **asdict(used))
        if duty is not None:
            keep_done(act, entry, duty.name)
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
class CheckLine:
    """One check as it is shown; value in °C, E. coli in 100 ml, or g."""

    keys: ClassVar = """
        entry=check.entry at=check.at by=check.by place name=check.name value=check.value
        known_grams=check.known_grams note=check.note words wrong
    """

    check: StoredCheck
    place: str
    words: str
    wrong: bool
    """Whether it was out of its limit."""


@dataclass(frozen=True, slots=True)
class CleaningRecord:
    """What was cleaned and checked in so many days, how and with what, oldest first."""

    days: int
    uses: tuple[UseLine, ...]
    checks: tuple[CheckLine, ...] = ()


def list_uses(book: Book, days: int = 365) -> list[UseLine]:
    """The uses of so many days, oldest first."""
    lines = []
    with book.reading() as reading:
        for use in read_uses(reading, *lately(reading, days)):
            volume = use.volume_ml
            much = "" if volume is None else f", {volume_words(volume, reading.units)}"
            lines.append(UseLine(use, reading.places.path(use.place), f"{use.what}{much}"))
    return lines


def list_checks(book: Book, days: int = 365) -> list[CheckLine]:
    """The checks of so many days, oldest first."""
    with book.reading() as reading:
        return [
            CheckLine(
                each,
                reading.places.path(each.place),
                each.words(reading.units),
                each.value is not None
                and bool(sort_of(each.name).fault(each.value, each.known_grams, reading.units)),
            )
            for each in read_checks(reading, *lately(reading, days))
        ]
