"""The room itself: its name, units, the number of the sowing day and the hours of its day."""

from collections.abc import Mapping
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.growing.currencies import currency_code
from logbook.growing.labels.gs1 import prefix_read
from logbook.growing.labels.maker import address_read
from logbook.growing.numbers import parse_pool, pool_words
from logbook.growing.quantities import LOSS, STACK, SURE, WORK_HOURS
from logbook.growing.wall_hours import lamp_words, wall_words
from logbook.growing.wall_reading import chore_hours, wall_time
from logbook.growing.when import parse_day_ahead
from logbook.text import Refused, clean_name
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.widgets.form_lines import Field


class RoomScreen(FormScreen):
    """The form of the room."""

    heading = "the room"
    purpose = "Change the room's name, units and currency, whether the sowing day is day 1 or day 0, the working hours, and when the evening's chores are due."
    kind = "room"

    def load(self, book: Book) -> Any:
        return book.about

    def fields(self) -> tuple[Field, ...]:
        about = self.view or self.book.about
        evening = wall_words(about.hours.last_round)

        def changed(text: str) -> int | None:
            return None if text == evening else wall_time(text, "evening")

        return (
            Field("name", "name", "what it is called", about.name,
                  lambda text: clean_name(text, "name of the room")),
            Field("units", "units", "metric or us", about.units, offers=("metric", "us"), pick=True),
            Field("first_day", "sowing day", "day 1 or day 0", str(about.first_day), _first_day),
            Field("day", "daily chores", "from when to when",
                  lamp_words(about.day_start, about.day_end), chore_hours),
            Field("evening", "evening", "when the last of several is due", evening, changed),
            Field("pool", "tray numbers", "the tape's, like 1-200, or none", pool_words(about.pool),
                  parse_pool),
            Field("stack", "stack height", "trays under weight in one slot", str(about.stack),
                  STACK.read),
            Field("currency", "currency", "of all prices, like EUR", about.currency or "", currency_code,
                  optional=True, empty=""),
            Field("maker", "maker", "the name on labels", about.maker or "", optional=True, empty=""),
            Field("address", "address", "street; postcode and town", about.address or "", address_read,
                  optional=True, empty=""),
            Field("phone", "phone", "of the maker", about.phone or "", optional=True, empty=""),
            Field("certificate", "certificate", "organic: number, certifier", about.certificate or "",
                  optional=True, empty=""),
            Field("certified_until", "certified until", "like 2027-03-31", f"{about.certified_until or ''}",
                  lambda text: parse_day_ahead(text, self.book.now(), self.book.zone), optional=True),
            Field("gs1_prefix", "GS1 prefix", "only where you have one", about.gs1_prefix or "", prefix_read,
                  optional=True, empty=""),
            Field("sure", "sureness", "% of deliveries that are complete", f"{100 * about.sure:g}", SURE.read),
            Field("loss", "trimming loss", "% of a cut", f"{about.loss_percent or 0:g}", LOSS.read),
            Field("work", "hours of work", "sowing and cutting per day; 0: no limit",
                  f"{about.work_hours or 0:g}", WORK_HOURS.read),
        )  # fmt: skip

    def preview(self, values: Mapping[str, Any]) -> Preview:
        zone = self.book.about.zone
        return Preview(
            (
                Content("Nothing written changes; it is shown in these units and days."),
                Content("Another currency converts nothing: prices keep their numbers."),
                Content(f"The time zone stays {zone}: day numbers and lamp hours go by it."),
            )
        )

    async def write(self, values: Mapping[str, Any]) -> str:
        start, end = values["day"]
        draft = RoomDraft(values["name"], values["units"], values["first_day"], start, end,
                          values["evening"], values["pool"], values["stack"],
                          values["currency"], values["sure"], values["loss"], values["work"],
                          values["maker"], values["address"], values["gs1_prefix"],
                          values["phone"], values["certificate"],
                          values["certified_until"])  # fmt: skip
        about = await self.write_book(change_room, draft)
        return f"{about.name} is changed."


def _first_day(text: str) -> int:
    if text.strip() not in ("0", "1"):
        raise Refused("Write 1 when the sowing day is day 1, or 0.")
    return int(text)
