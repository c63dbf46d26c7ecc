"""Going back to a copy: what it would lose, and doing it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import ClassVar

from logbook.actions.book import open_book
from logbook.clock import Clock, SystemClock
from logbook.growing.kinds import kind_of
from logbook.growing.numbers import numbers_words
from logbook.store.file.copies import Progress, plain_copy
from logbook.store.file.health import looking
from logbook.store.file.restoring import Contents, Loss, check_copy, loss_of, put_back
from logbook.store.reads.entries import read_entry
from logbook.store.rows import Rows
from logbook.text import Refused, listed, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class RestorePlan:
    """What going back to a copy comes to: what the copy holds and what the book would lose.

    `loss` is None where the present book is too damaged to be compared, `present` False where
    there is none. `lost_lines` are the newest of the entries that would be lost, in words.
    """

    book: Path
    copy: Path
    holds: Contents
    present: bool
    loss: Loss | None
    lost_lines: tuple[str, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """Say it in sentences."""
        newest = f", the newest of {_words(self.holds.newest)}" if self.holds.newest else ""
        lines = [f"The copy {self.copy} is whole: {_entries(self.holds.entries)}{newest}."]
        if not self.present:
            return (*lines, f"There is no book at {self.book} now; nothing will be lost.")
        if self.loss is None:
            lines.append(
                "The current book is too damaged to compare: everything written after the copy "
                "will be missing. The damaged file will be kept."
            )
            return tuple(lines)
        if not self.loss.entries and not self.loss.rows:
            return (
                *lines,
                "The copy has everything that the current book has; nothing will be lost.",
            )
        span = ""
        if self.loss.first and self.loss.last:
            span = f", written {_words(self.loss.first)} to {_words(self.loss.last)}"
        lines.append(
            f"Going back to it loses {_entries(self.loss.entries)}{span}{_more(self.loss)}."
        )
        if self.loss.entries > len(self.lost_lines):
            lines.append(f"The last {len(self.lost_lines)} of them are:")
        lines += [f"  {line}" for line in self.lost_lines]
        lines.append("The current book will be kept beside it, whole.")
        return tuple(lines)


@dataclass(frozen=True, slots=True)
class Restored:
    """What was done: the plan, and where the book that was there before is kept."""

    keys: ClassVar = """
        copy=plan.copy entries=plan.holds.entries newest_entry_at=plan.holds.newest
        lost_entries=plan.loss.entries lost_from=plan.loss.first lost_to=plan.loss.last
        lost_rows=plan.loss.rows restored aside
    """

    plan: RestorePlan
    aside: Path | None
    """Where the book is that was there before."""
    restored: bool = True
    """False where it was only asked what would be lost."""


_TABLES = {
    "batch": ("batch", "batches"), "tray": ("tray", None), "place": ("place", None),
    "template": ("template", None), "template_version": ("template version", None),
}  # fmt: skip


def _words(at: datetime) -> str:
    return f"{at:%Y-%m-%d %H:%M} UTC"


def _entries(count: int) -> str:
    return plural(count, "entry", "entries")


def _more(loss: Loss) -> str:
    parts = [plural(loss.rows[table], *words) for table, words in _TABLES.items()
             if table in loss.rows]  # fmt: skip
    return f", with {listed(parts)}" if parts else ""


def restore_preview(book: Path, copy: Path) -> RestorePlan:
    """Check a copy and say what going back to it would lose; nothing is written.

    Raises Refused where the copy is not there, no book, of a newer program, damaged, or the book.
    """
    if copy.exists() and book.exists() and copy.samefile(book):
        raise Refused(f"{copy} is the book itself; name one of its copies.")
    if not copy.exists():
        raise Refused(f"There is no copy at {copy}; {Way.RESTORE} alone lists them.")
    present = book.exists()
    with plain_copy(copy, book) as plain:
        holds = check_copy(plain, copy)
        loss = loss_of(book, plain) if present else None
    lines = tuple(_lines(book, loss.newest_ids)) if loss else ()
    return RestorePlan(book, copy, holds, present, loss, lines)


def _lines(book: Path, ids: Iterable[int]) -> Iterable[str]:
    with looking(book) as connection:
        for each in ids:
            entry = read_entry(Rows(connection), each)
            if entry is None:
                continue
            words = " ".join([kind_of(entry.kind).noun, numbers_words(entry.trays)]).strip()
            note = f": {entry.note.splitlines()[0][:60]}" if entry.note else ""
            yield f"{entry.id}  {_words(entry.at)}  {entry.by}  {words}{note}"


def restore(
    book: Path, copy: Path, clock: Clock | None = None, by: str = "",
    progress: Progress | None = None, plan: RestorePlan | None = None,
) -> Restored:  # fmt: skip
    """Put a copy in the book's place; the present book is kept beside it.

    `plan` is what the preview of it said, if there was one. The copy itself stays. That the book was restored, and from what, is written into it. Raises
    Refused where the copy is not good, there is no room, or another program keeps the book.
    """
    clock = clock or SystemClock()
    book = book.resolve()
    plan = plan or restore_preview(book, copy)
    stamp = f"{clock.now():%Y%m%dT%H%M%SZ}"
    aside = book.with_name(f"{book.name}.aside-{stamp}")
    put_back(copy, book, aside, progress)
    opened = open_book(book, clock, by)
    with opened.writing() as act:
        kept = f"; what was here before is kept in {aside.name}" if plan.present else ""
        lost = f" ({_entries(plan.loss.entries)} more)" if plan.loss else ""
        act.entry("jot", (), act.done_now, note=f"Restored from the copy {copy.name}{kept}{lost}.")
    return Restored(plan, aside if plan.present else None)
