"""Sheets of labels or tapes, written to a file for an office printer."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.labels.labels import LabelDraft, label_of
from logbook.actions.labels.tapes import tapes_of
from logbook.actions.made_files import mark_of, write_made, written_to
from logbook.growing.crops.allergens import Law
from logbook.growing.labels.sheets import Paper, grid_named, letters_mm, sheet_page, small_words
from logbook.growing.labels.sticker import Sticker
from logbook.growing.numbers import names_trays, parse_numbers
from logbook.text import plural

MADE_BY = "logbook label"


@dataclass(frozen=True, slots=True)
class SheetDraft:
    """Where to and on which paper; `skip` labels of the first sheet are used up, `copies` is of each."""

    page: Path
    grid: str = ""
    paper: Paper | None = None
    skip: int = 0
    copies: int = 1


@dataclass(frozen=True, slots=True)
class SheetMade:
    """What was written, and what is worth knowing of it."""

    words: str
    notices: tuple[str, ...]


def write_sheet(
    book: Book, stickers: Sequence[Sticker], on: SheetDraft, law: Law | None = None
) -> SheetMade:
    """Write stickers as a page, unless a file that is not ours is there; raise Refused for what doesn't fit.

    `law` is what says how high their letters must be, if one does.
    """
    grid = grid_named(on.paper or ("letter" if book.units == "us" else "a4"), on.grid)
    small = small_words([letters_mm(each, grid) for each in stickers], law)
    every = [each for each in stickers for _ in range(on.copies)]
    title = f"labels: {stickers[0].lines[0].text}"
    mark = mark_of(MADE_BY)
    write_made(on.page, sheet_page(every, grid, title, mark, on.skip), mark)
    sheets = plural(-(-(len(every) + on.skip) // grid.count), "sheet")
    return SheetMade(
        f"{plural(len(every), 'label')} on {sheets} {written_to(on.page)} Print it at 100 %, with no margins.",
        (small,) if small else (),
    )


def sheet_of(book: Book, of: LabelDraft, on: SheetDraft) -> SheetMade:
    """Write labels of a lot, or tapes where trays are named instead ("101-104")."""
    if names_trays(of.what):
        tapes = tapes_of(book, parse_numbers(of.what)).tapes
        return write_sheet(book, [each.sticker for each in tapes], on)
    view = label_of(book, of)
    made = write_sheet(book, [view.label.sticker], on, view.label.law)
    return replace(made, notices=(*view.notices, *made.notices))
