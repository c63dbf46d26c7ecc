"""The book says of itself what its tables hold: units, zones, and which column leads where."""

import re
from collections.abc import Iterator

from logbook.handbook import chapter_text
from logbook.store.rows import Connection

_COLUMN = re.compile(r"- `(\w+)` — (.+)")


def describe(connection: Connection) -> None:
    """Write the handbook's chapter of the tables into the table `about`, in the caller's transaction."""
    connection.execute("DELETE FROM about")
    connection.executemany("INSERT INTO about (name, says) VALUES (?, ?)", list(descriptions()))


def descriptions() -> Iterator[tuple[str, str]]:
    """What is said of the file, of each table ("entry") and of each column ("entry.at")."""
    head, *tables = chapter_text("tables").split("\n## ")
    yield "", _prose(head.partition("\n")[2])
    for text in tables:
        name, _, body = text.partition("\n")
        yield name, _prose(body.partition("\n- ")[0])
        for column, says in _COLUMN.findall(body):
            yield f"{name}.{column}", says


def _prose(text: str) -> str:
    return "\n\n".join(" ".join(part.split()) for part in text.strip().split("\n\n"))
