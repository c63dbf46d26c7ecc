"""The questions of a new book, shown when there is none."""

import asyncio
from collections.abc import Mapping
from typing import Any

from textual.content import Content

from logbook.actions.care.begin import (
    BeginDraft,
    checked_begin,
    currency_of_zone,
    guess_words,
    local_zone_name,
)
from logbook.growing.currencies import currency_code
from logbook.growing.days import zone_named
from logbook.growing.quantities import RACKS, SHELVES, SLOTS
from logbook.growing.wall_reading import lamp_hours
from logbook.text import Refused, clean_name, plural
from logbook.ui.command import words_of_key
from logbook.ui.forms.asking import AskYes
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.widgets.form_lines import Field
from logbook.ways import on_screens


class BeginScreen(FormScreen):
    """Asks for the room and makes its book."""

    heading = "a new book"
    purpose = "The logbook keeps a record of what is sown, done, seen and cut in your grow room, and tells you each morning what every tray needs. It begins with your racks; you can change all of this later except the time zone."
    kind = "begin"
    save_words = "make the book"
    view: tuple[str, tuple[str, ...]] | None = None

    def find(self) -> tuple[str, tuple[str, ...]]:
        """The machine's time zone and the names of all zones; there is no book to read."""
        from zoneinfo import available_timezones

        return local_zone_name(), tuple(sorted(available_timezones()))

    def fields(self) -> tuple[Field, ...]:
        here, zones = self.view or ("", ())
        return (
            Field("name", "name", "what the room is called", "Grow room",
                  lambda text: clean_name(text, "name of the room")),
            Field("zone", "time zone", "like Europe/London", here, zone_read, zones, pick=True),
            Field("racks", "racks", "how many are in the room", "2", RACKS.read),
            Field("shelves", "shelves", "per rack", "4", SHELVES.read),
            Field("slots", "slots", "trays that fit on a shelf", "4", SLOTS.read),
            Field("units", "units", "metric or us", "metric", offers=("metric", "us"), pick=True),
            Field("currency", "currency", "like EUR; empty: the zone's", "", currency_code,
                  optional=True),
            Field("lamps", "lamp hours", "or none", "06:00-22:00", lamp_hours),
        )  # fmt: skip

    def preview(self, values: Mapping[str, Any]) -> Preview:
        trays = values["racks"] * values["shelves"] * values["slots"]
        path, key = self.logbook.new_path, words_of_key(self.logbook.commands["handbook"].keys[-1])
        lines = [self.purpose, "", f"There will be room for {plural(trays, 'tray')}."]
        if values["currency"] is None:
            said = guess_words(values["zone"], currency_of_zone(values["zone"]))
            lines.append(on_screens(said, self.keyed))
        lines += [] if path is None else [f"The book is one file: {path}"]
        lines.append(f"The first day, step by step: {key} opens the handbook.")
        return Preview(tuple(Content(self.spoken(words)) for words in lines))

    async def write(self, values: Mapping[str, Any]) -> str:
        make = self.logbook.begin
        if make is None:
            raise Refused("This logbook was not told where to put a book.")
        on, off = values["lamps"]
        rest = {name: value for name, value in values.items() if name != "lamps"}
        rest["currency"] = rest["currency"] or currency_of_zone(rest["zone"])
        draft = checked_begin(BeginDraft(**rest, lamp_on=on, lamp_off=off))
        self.say("Making the book …")
        book = await asyncio.to_thread(make, draft)
        self.logbook.use_book(book)
        return (
            f"The book of {book.about.name} is ready: {self.keyed('{sow} sows the first batch.')}"
        )

    async def after_saving(self, words: str) -> None:
        """Say it on the round, where one is by now."""
        self.app.call_later(self._say_there, words)

    async def may_leave(self) -> bool:
        yes = await self.app.push_screen_wait(AskYes("Close without making a book?"))
        return yes is True


def zone_read(text: str) -> str:
    """Read a time zone's name; raise Refused."""
    if not text.strip():
        raise Refused("Which time zone? Type part of its name, like London.")
    return zone_named(text.strip()).key
