"""Moving a book from a file to a server, or back: an export, an import, and a second export compared."""

from pathlib import Path
from tempfile import TemporaryDirectory

from logbook.actions.book import Book
from logbook.clock import Clock
from logbook.exchange.exporting import Tell, export_book, quiet
from logbook.exchange.importing import import_book
from logbook.exchange.manifest import Manifest
from logbook.store.server.address import Address
from logbook.text import Refused


def move(
    book: Book, where: Path | Address, clock: Clock, by: str, tell: Tell = quiet
) -> tuple[Book, Manifest]:
    """The same book in another place, where there is none yet, and what was moved.

    `tell` hears of three passes over the rows. Raises Refused where there is something already, or
    the two books don't say the same.
    """
    if isinstance(where, Path) and where.exists():
        raise Refused(f"There is already a file at {where}; it was not touched.")
    with TemporaryDirectory(prefix="logbook-move-") as folder:
        first, again = Path(folder) / "from.zip", Path(folder) / "to.zip"
        manifest = export_book(book, first, lambda done, whole: tell(done, 3 * whole))
        made, _ = import_book(
            first, where, clock, by, lambda done, whole: tell(whole + done, 3 * whole)
        )
        export_book(made, again, lambda done, whole: tell(2 * whole + done, 3 * whole))
        if first.read_bytes() != again.read_bytes():
            raise Refused(
                f"{made.file.name} doesn't say the same as {book.file.name}: leave it, and go on with "
                "the old one."
            )
    return made, manifest
