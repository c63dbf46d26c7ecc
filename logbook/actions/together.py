"""Several acts as one: they stand or fall together, and undo takes all of them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from logbook.actions.book import Book

if TYPE_CHECKING:
    from logbook.actions.reading import Reading
    from logbook.actions.writing import Act
    from logbook.store.writer import Writer


@dataclass
class Joined(Book):
    """A book whose acts join the one that is being written."""

    writer: Writer | None = None
    act_id: int | None = None
    """The first entry of the act; None before there is one."""

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        """The book with what the act has written so far."""
        assert self.writer is not None  # noqa: S101 - together() gives it
        yield self.read(self.writer.connection)

    @contextmanager
    def writing(self) -> Iterator[Act]:
        """One more action of the act."""
        from logbook.actions.writing import Act

        assert self.writer is not None  # noqa: S101 - together() gives it
        act = Act(self.writer, self.clock, self.by, self.folds, self.said_at)
        act.act_id = self.act_id
        yield act
        act.settle()
        self.act_id = act.act_id


@contextmanager
def together(book: Book, by: str = "") -> Iterator[Joined]:
    """A book for several actions in one act, by `by` or the book's own person.

    What is raised inside takes all of it back, and is raised as it was.
    """
    with book.writing() as act:
        own = {each.name: getattr(book, each.name) for each in fields(Book) if each.init}
        joined = Joined(**{**own, "by": by or book.by}, writer=act.writer)
        yield joined
        act.act_id = joined.act_id
