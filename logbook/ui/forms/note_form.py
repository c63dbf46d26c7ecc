"""The question about a delivery note: whose, of which delivery, into which file."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from logbook.actions.book import Book
from logbook.exchange.note_file import write_note
from logbook.ui.drafts import answer_to
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.forms.label_form import file_named
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import Field


def note_form(
    customer: str, day: str, names: Sequence[str], folder: Path
) -> AskForm[Mapping[str, Any]]:
    """Ask for the note's file; it is put into `folder` where no other is typed."""
    fields = (
        Field("customer", "customer", "right completes", customer, offers=names),
        Field("day", "delivery of", "empty: the last one packed", day),
        Field("out", "file", "for the printer", str(folder / "note.html"), file_named),
    )
    return AskForm("Delivery note", fields, lambda values: values, "write")


async def ask_note(screen: LogScreen, customer: str, day: str, names: Sequence[str]) -> None:
    """Ask for the note's file, and write it."""

    def write(book: Book, said: Mapping[str, Any]) -> str:
        return write_note(book, **said)[1]

    form = note_form(customer, day, names, Path.home())
    words = await screen.ask_to_write(form, write, answer_to("delivery note"))
    if words is not None:
        screen.say(words)
