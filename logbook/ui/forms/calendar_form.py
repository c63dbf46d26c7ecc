"""The question about the calendar's file: into which file, how many weeks, with deliveries or not."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from logbook.actions.book import Book
from logbook.exchange.calendar_file import WEEKS, write_calendar
from logbook.growing.quantities import PLAN_WEEKS
from logbook.text import yes_no
from logbook.ui.drafts import answer_to
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.forms.label_form import file_named
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import Field


def calendar_form(folder: Path) -> AskForm[Mapping[str, Any]]:
    """Ask for the calendar's file; it is put into `folder` where no other is typed."""
    fields = (
        Field("out", "file", "for a calendar program", str(folder / "room.ics"), file_named),
        Field("weeks", "weeks", "how many ahead", str(WEEKS), PLAN_WEEKS.read),
        Field("deliveries", "deliveries", "y: with the customers' names", "n",
              lambda text: bool(yes_no(text, "Deliveries"))),
    )  # fmt: skip
    return AskForm("Coming up, for your calendar", fields, lambda values: values, "write")


async def ask_calendar(screen: LogScreen) -> None:
    """Ask for the calendar's file, and write it."""

    def write(book: Book, said: Mapping[str, Any]) -> str:
        return write_calendar(book, **said)[1]

    words = await screen.ask_to_write(calendar_form(Path.home()), write, answer_to("calendar"))
    if words is not None:
        screen.say(words)
