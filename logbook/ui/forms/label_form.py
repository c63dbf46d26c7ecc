"""The question about labels: of which lot or trays, on which sheet, into which file."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from logbook.actions.book import Book
from logbook.actions.labels.labels import LabelDraft
from logbook.actions.labels.sheets import SheetDraft, SheetMade, sheet_of
from logbook.growing.labels.sheets import GRIDS
from logbook.growing.measures import Units
from logbook.growing.numbers import numbers_words
from logbook.growing.quantities import COPIES, PACK, SKIPPED
from logbook.text import Refused, clean
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import TraceSubject
from logbook.ui.widgets.form_lines import Field, measured

OF_WHAT = "Which pack lot, or which trays? Type a code, or numbers like 101-104."


@dataclass(frozen=True, slots=True)
class AskedLabels:
    """What was said: what is labelled, and on which sheet."""

    of: LabelDraft
    on: SheetDraft


def label_form(what: str, units: Units, folder: Path) -> AskForm[AskedLabels]:
    """Ask for labels of `what`; the file is put into `folder` where no other is typed."""
    paper = "letter" if units == "us" else "a4"
    grids = [each.name for each in GRIDS if each.paper == paper]
    fields = (
        Field("what", "lot or trays", "a code, or 101-104", what, needed=OF_WHAT),
        measured("size", "weight of a pack", PACK, "for a lot; empty: left blank", None, units),
        Field("copies", "copies", "of each label", "1", COPIES.read),
        Field(
            "grid", "sheet", f"{paper.capitalize()}: labels across and down", grids[0], offers=grids
        ),
        Field("skip", "used up", "labels on the first sheet", "0", SKIPPED.read),
        Field("file", "file", "for the printer", str(folder / "labels.html"), file_named),
    )

    def make(values: Mapping[str, Any]) -> AskedLabels:
        return AskedLabels(
            LabelDraft(values["what"], grams=values["size"]),
            SheetDraft(values["file"], values["grid"], None, values["skip"], values["copies"]),
        )

    return AskForm("Labels for packs, or tapes for trays", fields, make, "write")


def file_named(text: str) -> Path:
    """Read the name of a file; raise Refused where there can be none."""
    try:
        path = Path(clean(text, lines=False)).expanduser()
    except RuntimeError as fault:
        raise Refused(f'"{text[:60]}" is not a file name.') from fault
    if not path.name:
        raise Refused("Which file? Type its name.")
    return path


async def ask_labels(screen: LogScreen) -> None:
    """Ask for labels of what the cursor is on, and write the sheet."""
    numbers, _ = screen.here()
    subject = screen.subject
    code = subject.code if isinstance(subject, TraceSubject) else screen.traced()
    what = "" if " " in code else code
    if numbers:
        what = numbers_words(numbers).replace("–", "-")
    form = label_form(what, screen.book.units, Path.home())

    def write(book: Book, asked: AskedLabels) -> SheetMade:
        return sheet_of(book, asked.of, asked.on)

    screen.tell(await screen.ask_to_write(form, write), "")
