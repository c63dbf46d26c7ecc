"""Three months in one transaction: acts join it, what is done to trays goes in as rows in bulk."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.writing import Act
from logbook.store.writer import Writer


@dataclass
class Months(Book):
    """A book whose acts all join one transaction, at the moment and by the hand that are set."""

    writer: Writer = field(kw_only=True)

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        """The book as it is so far."""
        yield self.read(self.writer.connection)

    @contextmanager
    def writing(self) -> Iterator[Act]:
        """An act that is committed with all the others."""
        act = Act(self.writer, self.clock, self.by, self.folds)
        yield act
        act.finish()
