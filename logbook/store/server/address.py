"""Where a book on a server is, in PostgreSQL's own form: postgresql://user@host:port/database."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from logbook.paths import state_folder
from logbook.text import Refused
from logbook.ways import Way

if TYPE_CHECKING:
    import psycopg

SCHEMES = ("postgresql", "postgres")
_ADDRESS = re.compile(r"(?:postgresql|postgres)(?:\+\w+)?://", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Address:
    """The address of a server's database that holds a book, or is to hold one."""

    given: str = field(repr=False)
    """As it was given: it may hold a password, so it is never shown."""
    words: str
    """The address without its password and options."""

    @property
    def home(self) -> Path:
        """Where this machine keeps what it knows of the book: drafts, when it was looked after."""
        key = hashlib.sha256(self.words.encode()).hexdigest()[:16]
        return state_folder() / "servers" / key

    def __str__(self) -> str:
        return self.words


def is_address(text: str) -> bool:
    """Whether a text is meant as the address of a server."""
    return _ADDRESS.match(text) is not None


def driver() -> Any:
    """The module that speaks to PostgreSQL; raises Refused where the extra is missing."""
    try:
        import psycopg
    except ImportError as fault:
        raise Refused(
            'A book on a server needs the extra "postgres": run pip install ".[postgres]" in the '
            "folder of the program."
        ) from fault
    return psycopg


def address_of(text: str) -> Address:
    """The address that a text gives; raises Refused where it is none, or the extra is missing."""
    psycopg = driver()
    from psycopg.conninfo import conninfo_to_dict

    given = _ADDRESS.sub("postgresql://", text, count=1)
    try:
        parts = conninfo_to_dict(given)
    except psycopg.ProgrammingError:
        raise Refused(
            "That isn't an address of a server's book; write it like "
            "postgresql://grower@host:5432/database."
        ) from None
    host, port = (str(parts.get(name) or "") for name in ("host", "port"))
    user = f"{parts['user']}@" if parts.get("user") else ""
    port = f":{port}" if port else ""
    return Address(given, f"postgresql://{user}{host}{port}/{parts.get('dbname') or ''}")


def only_files(where: Address) -> Refused:
    """The sentence for what is done with the file of a book alone."""
    return Refused(
        f"The book {where} is on a server: whoever looks after that keeps its copies. {Way.EXPORT} "
        "writes all of the book to files."
    )


def connect(address: Address, seconds: int) -> psycopg.Connection[Any]:
    """A new connection, in autocommit; raises psycopg's errors. It gives up after so many seconds."""
    found: psycopg.Connection[Any] = driver().connect(
        address.given, autocommit=True, connect_timeout=seconds, application_name="logbook"
    )
    return found
