"""Making a new book."""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import ClassVar, Literal

from logbook.actions.book import Book, open_book
from logbook.actions.country import country_of_zone
from logbook.clock import Clock, SystemClock, ToldClock
from logbook.growing.currencies import OF_COUNTRY, UNSET, currency_code
from logbook.growing.days import zone_named
from logbook.growing.keys import WallTime
from logbook.growing.quantities import RACKS, SHELVES, SLOTS
from logbook.growing.room.places import place_name
from logbook.growing.trays.chores import RoomHours
from logbook.growing.wall_reading import checked_lamp_hours
from logbook.store.reads.book import About
from logbook.store.server.address import Address
from logbook.store.writer import Writer
from logbook.text import Refused, clean_name, fold
from logbook.ways import Way

LAMPS_ON, LAMPS_OFF = 6 * 60, 22 * 60


@dataclass(frozen=True, slots=True)
class BeginDraft:
    """What a new book is asked: its name, zone, units and the racks of the room.

    Lamp hours are minutes after midnight by the wall, the same for all shelves to begin with.
    """

    name: str = "Grow room"
    zone: str = "UTC"
    racks: int = 2
    shelves: int = 4
    slots: int = 4
    units: str = "metric"
    lamp_on: WallTime | None = LAMPS_ON
    lamp_off: WallTime | None = LAMPS_OFF
    first_day: int = 1
    currency: str | None = None


@dataclass(frozen=True, slots=True)
class Begun:
    """The book that was made."""

    keys: ClassVar = """
        book name=about.name zone=about.zone racks=draft.racks shelves=draft.shelves
        slots=draft.slots units=about.units lamp_on=draft.lamp_on lamp_off=draft.lamp_off
        first_day=about.first_day currency=about.currency
    """

    book: str
    about: About
    draft: BeginDraft


def local_zone_name() -> str:
    """The machine's time zone by name: $TZ, /etc/timezone, /etc/localtime, else UTC."""
    from zoneinfo import ZoneInfo

    candidates = [os.environ.get("TZ", "").lstrip(":")]
    with suppress(OSError, UnicodeDecodeError):
        candidates.append(Path("/etc/timezone").read_text(encoding="ascii").strip())
    candidates.append(str(Path("/etc/localtime").resolve()).partition("zoneinfo/")[2])
    for name in candidates:
        if name and not name.startswith("/"):
            try:
                ZoneInfo(name)
            except (KeyError, ValueError, OSError):
                continue
            return "UTC" if name in ("Etc/UTC", "Etc/GMT") else name
    return "UTC"


def currency_of_zone(zone: str) -> str | None:
    """The currency of the country of a time zone; None where there is none, or more than one."""
    return OF_COUNTRY.get(country_of_zone(zone))


def guess_words(zone: str, guessed: str | None) -> str:
    """Say which currency was guessed from a zone."""
    if guessed is None:
        return UNSET.unset_words
    return f"Money is in {guessed}, guessed from {zone}; {Way.CURRENCY.of('CODE')} changes it."


def checked_begin(draft: BeginDraft) -> BeginDraft:
    """The draft, its lamp hours put right; raises Refused with the first thing that cannot be."""
    clean_name(draft.name, "name of the room")
    zone_named(draft.zone)
    RACKS.checked(draft.racks)
    SHELVES.checked(draft.shelves)
    SLOTS.checked(draft.slots)
    if fold(place_name(draft.name)) in {
        *(f"rack {number}" for number in range(1, draft.racks + 1)),
        *(f"shelf {number}" for number in range(1, draft.shelves + 1)),
    }:
        raise Refused("Racks and shelves get names like that; choose a different one for the room.")
    if draft.units not in ("metric", "us"):
        raise Refused(f'Units "{draft.units[:20]}" are unknown; use metric or us.', "units")
    code = None if draft.currency is None else currency_code(draft.currency)
    on, off = checked_lamp_hours(draft.lamp_on, draft.lamp_off)
    if draft.first_day not in (0, 1):
        raise Refused("The sowing day is day 0 or day 1.")
    return replace(draft, lamp_on=on, lamp_off=off, currency=code)


def begin_book(
    where: Path | Address, draft: BeginDraft, clock: Clock | None = None, by: str = "",
    begun_as: Literal["", "sample"] = "",
) -> Book:  # fmt: skip
    """Make a new book with its room, racks, shelves and starting templates, and open it.

    With a clock that was told the time it is a rehearsal.

    It appears whole or not at all; a file is readable by its owner alone. Raises Refused where there
    is already something there, or the draft cannot be.
    """
    from logbook.actions.crops.templates import write_version
    from logbook.growing.crops.starters import starters

    draft = checked_begin(draft)
    clock = clock or SystemClock()
    by = clean_name(by or "grower", "initials")
    hours = RoomHours(zone_named(draft.zone))
    with _new_book(where) as writer:
        writer.add(
            "book", name=clean_name(draft.name), made_at=clock.now(), units=draft.units,
            first_day=draft.first_day, currency=draft.currency,
            begun_as=begun_as or ("rehearsal" if isinstance(clock, ToldClock) else ""),
        )  # fmt: skip
        room = writer.add(
            "place", kind="room", name=place_name(draft.name), position=1,
            zone=draft.zone, day_start=hours.start, day_end=hours.end,
        )  # fmt: skip
        for at in range(1, draft.racks + 1):
            rack = writer.add("place", parent_id=room, kind="rack", name=f"Rack {at}", position=at)
            shelf = {
                "parent_id": rack, "kind": "shelf", "slots": draft.slots,
                "lamp_on": draft.lamp_on, "lamp_off": draft.lamp_off,
            }  # fmt: skip
            numbers = range(1, draft.shelves + 1)
            writer.put("place", ({**shelf, "name": f"Shelf {n}", "position": n} for n in numbers))
        for template in starters():
            write_version(writer, template, by=by, now=clock.now(), why="starting guess")
    return open_book(where, clock, by)


@contextmanager
def _new_book(where: Path | Address) -> Iterator[Writer]:
    if isinstance(where, Address):
        from logbook.store.server.making import new_server_book

        with new_server_book(where) as writer:
            yield writer
        return
    from logbook.store.file.opening import new_book_file

    if where.is_dir():
        raise Refused(f"{where} is a folder; name a file in it, like {where}/room.book.")
    if where.exists():
        raise Refused(f"There is already a file at {where}; it was not touched.")
    with new_book_file(where) as file, file.writing() as writer:
        yield writer
