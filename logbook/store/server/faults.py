"""What a server or its driver complains of, as sentences for the grower; never its password."""

from __future__ import annotations

from logbook.store.file.faults import CannotWrite, NoBook, NotABook
from logbook.store.server.address import Address, driver
from logbook.text import Refused

_STATES: tuple[tuple[tuple[str, ...], type[Refused], str], ...] = (
    (("28P01", "28000"), NotABook, "The server of the book {at} doesn't take this name or password."),
    (("3D000",), NoBook, "There is no database {at}; whoever looks after the server makes it."),
    (("42501", "25006"), CannotWrite, "The book {at} can only be read by this name: nothing was written."),
    (("55P03",), CannotWrite,
     "Another program is still writing to the book{unwritten}. Try again."),
    (("53100", "53200"), CannotWrite, "The server of the book {at} is full: nothing was written."),
    (("53300",), CannotWrite, "The server of the book {at} has too many visitors. Try again."),
    (("57014",), CannotWrite, "The server of the book {at} took too long{unwritten}. Try again."),
    (("42P01", "42703"), NotABook, "{at} is not a book of this program."),
)  # fmt: skip
"""PostgreSQL's codes (its documentation's appendix A), and what is said of them."""
_SAID: tuple[tuple[str, type[Refused], str], ...] = (
    ("password authentication failed", NotABook,
     "The server of the book {at} doesn't take this name or password."),
    ("no password supplied", NotABook,
     "The server of the book {at} wants a password; put it in PGPASSWORD or in ~/.pgpass."),
    ("does not exist", NoBook,
     "The server has no such database or user as in {at}; whoever looks after it makes them."),
    ("ssl", NotABook,
     "The server of the book {at} and this program don't agree on encryption (sslmode)."),
)  # fmt: skip
"""What is said of those that come before the server has taken one in."""


def gone_words(address: Address, *, reading: bool) -> Refused:
    """The sentence for a server that does not answer."""
    unwritten = "" if reading else " Nothing was written; what you typed is still here."
    return CannotWrite(
        f"The server of the book {address} doesn't answer: is it on, and the network there?{unwritten}"
    )


def unsure_words(address: Address) -> Refused:
    """The sentence where a server was lost between the order to keep an act and its answer."""
    return CannotWrite(
        f"The server of the book {address} was lost while it kept this: it may have been written. "
        "Look when it answers again, before you write it once more."
    )


def server_words(fault: Exception, address: Address, *, reading: bool = False) -> Refused:
    """The sentence for a fault of a server, which `reading` met where nothing was to be written."""
    said = {"at": address.words, "unwritten": "" if reading else ": nothing was written"}
    state = getattr(fault, "sqlstate", None)
    for states, kind, sentence in _STATES:
        if state in states:
            return kind(sentence.format(**said))
    words, lost = str(fault).casefold(), driver().OperationalError
    if (state is None and isinstance(fault, lost)) or (state or "")[:2] in ("08", "57"):
        for sign, kind, sentence in _SAID:
            if sign in words:
                return kind(sentence.format(**said))
        return gone_words(address, reading=reading)
    return CannotWrite(
        f"The book {address} could not be used ({type(fault).__name__}); nothing was written."
    )
