"""Several acts as one: they stand or fall together, and undo takes all of them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from logbook.actions.book import Book
from logbook.store.file.book_file import raw_connection

if TYPE_CHECKING:
    from sqlmodel import Session

    from logbook.actions.reading import Reading
    from logbook.actions.writing import Act


@dataclass
class _Joined(Book):
    """A book whose acts join the one that is being written."""

    session: Session | None = None
    act_id: int | None = None

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        assert self.session is not None  # noqa: S101 - together() gives it
        self.session.flush()
        yield self.read(raw_connection(self.session))

    @contextmanager
    def writing(self) -> Iterator[Act]:
        from logbook.actions.writing import Act

        assert self.session is not None  # noqa: S101 - together() gives it
        act = Act(self.session, self.clock, self.by, self.folds, self.said_at)
        act.act_id = self.act_id
        yield act
        act.finish()
        self.act_id = act.act_id


@contextmanager
def together(book: Book, by: str = "") -> Iterator[Book]:
    """A book for several actions in one act, by `by` or the book's own person.

    What is raised inside takes all of it back, and is raised as it was.
    """
    with book.writing() as act:
        own = {each.name: getattr(book, each.name) for each in fields(Book) if each.init}
        yield _Joined(**{**own, "by": by or book.by}, session=act.session)
