"""What `logbook tray`, `batch` and `lot` list where none is named."""

from collections.abc import Callable
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.trays.lists import LotLine, TrayLine
from logbook.cli.printing import width
from logbook.growing.measures import weighing
from logbook.growing.numbers import name_words
from logbook.growing.table import Column, table
from logbook.store.reads.batch_lines import BatchLine

EVERY = "List all of them, not only those with trays in use."

TRAYS: tuple[Column[TrayLine], ...] = (
    Column("tray", lambda one: name_words(one.number), right=False),
    Column("crop", lambda one: one.crop, right=False),
    Column("batch", lambda one: one.batch),
    Column("day", lambda one: "" if one.day_number is None else str(one.day_number)),
    Column("stage", lambda one: one.stage or one.status.words, right=False),
    Column("mark", lambda one: one.colour, right=False, spare=1),
    Column("place", lambda one: one.place, right=False),
)


def tray_lines(found: list[TrayLine]) -> tuple[str, ...]:
    """The trays that are planned or growing, a line each."""
    return table(TRAYS, found, width()).lines or ("No trays are planned or growing.",)


def _when(book: Book) -> Callable[[datetime | None], str]:
    return lambda at: "" if at is None else book.when(at)


def batch_lines(found: list[BatchLine], book: Book) -> tuple[str, ...]:
    """The batches, a line each."""
    when, of = _when(book), weighing(book.units)

    def sown(one: BatchLine) -> str:
        planned = f"planned for {when(one.planned_for)}" if one.planned_for else "planned"
        return when(one.sown_at) or planned

    columns: tuple[Column[BatchLine], ...] = (
        Column("batch", lambda one: str(one.batch)),
        Column("crop", lambda one: one.template, right=False),
        Column("version", lambda one: str(one.version), spare=2),
        Column("seed lot", lambda one: one.lot, right=False, spare=1),
        Column("trays", lambda one: str(one.trays)),
        Column("in use", lambda one: str(one.in_use)),
        Column("cut", lambda one: of.figure(one.cut_grams) if one.cut_grams else "", of.unit),
        Column("sown", sown, right=False),
    )
    return table(columns, found, width()).lines or ("No batches have trays in use; add --all.",)


def lot_lines(found: list[LotLine], book: Book) -> tuple[str, ...]:
    """The seed lots, a line each."""
    when = _when(book)
    columns: tuple[Column[LotLine], ...] = (
        Column("seed lot", lambda one: one.lot, right=False),
        Column("batches", lambda one: str(one.batches)),
        Column("trays in use", lambda one: str(one.in_use)),
        Column("last sown", lambda one: when(one.last_sown_at), right=False),
    )
    return table(columns, found, width()).lines or ("No seed lot has trays in use; add --all.",)
