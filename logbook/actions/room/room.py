"""The room itself: its name, its units, the number of the sowing day, the hours of its day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from logbook.actions.book import Book
from logbook.growing.room.places import Place, place_name
from logbook.growing.wall_hours import wall_words
from logbook.store.reads.book import About
from logbook.text import Refused, clean_name, fold


@dataclass(frozen=True, slots=True)
class RoomDraft:
    """What can be changed of a room; None leaves it. The day's hours are minutes after midnight.

    Entries stay as they are: weights and lengths are stored in SI, days by the calendar.
    """

    name: str | None = None
    units: str | None = None
    first_day: int | None = None
    day_start: int | None = None
    day_end: int | None = None


@dataclass(frozen=True, slots=True)
class RoomView:
    """The room as it is now."""

    keys: ClassVar = """
        name=about.name zone=about.zone units=about.units first_day=about.first_day
        day_start=about.day_start day_end=about.day_end book
    """

    about: About
    book: Path
    """The book's file."""


def change_room(book: Book, draft: RoomDraft) -> About:
    """Change the room; its row among the places goes by the new name too."""
    from logbook.store.tables import BookRow

    if draft.units not in (None, "metric", "us"):
        raise Refused(f'Units "{draft.units[:20]}" are unknown; use metric or us.', "units")
    if draft.first_day not in (None, 0, 1):
        raise Refused("The sowing day is day 0 or day 1.", "first_day")
    with book.writing() as act:
        row = act.session.get_one(BookRow, 1)
        about = act.reading.about
        start = about.day_start if draft.day_start is None else draft.day_start
        end = about.day_end if draft.day_end is None else draft.day_end
        if not 0 <= start < end <= 1440:
            raise Refused(
                "The day of the room goes from an earlier to a later time, like 07:00-19:00.", "day"
            )
        if draft.name is not None:
            name = clean_name(draft.name, "name of the room")
            places, was = act.reading.places, place_name(row.name)
            rooms = [place for place in places if place.kind == "room" and place.name == was]
            if name != row.name:
                _check_name(name, [place for place in places if place not in rooms])
            for place in rooms:
                act.place(place.id).name = place_name(name)
            row.name = name
        row.units = draft.units or row.units
        row.first_day = row.first_day if draft.first_day is None else draft.first_day
        room = act.place(about.room)
        room.day_start, room.day_end = start, end
        before, about = about, act.reading.about
        if about != before:
            act.settings(f"the room: {room_words(about)}", about.room)
    book.about = about
    return about


def _check_name(name: str, others: Sequence[Place]) -> None:
    for place in others:
        if not place.retired and fold(place.name) == fold(place_name(name)):
            raise Refused(
                f"{place.path} has that name; give the room another, so that a name means one "
                "place.",
                "name",
            )


def day_hours(about: About) -> str:
    """Write the hours of the room's day: "07:00-19:00"."""
    return f"{wall_words(about.day_start)}-{wall_words(about.day_end)}"


def room_words(about: About) -> str:
    """Say what the room is, in one line."""
    return (
        f"{about.name}: times in {about.zone}, {about.units} units, the sowing day is day "
        f"{about.first_day}, daily chores from {wall_words(about.day_start)} to "
        f"{wall_words(about.day_end)}."
    )
