"""Tables on a screen: heads that the cursor passes over, and a line for each row."""

from collections.abc import Callable, Sequence
from typing import TypeVar

from rich.cells import cell_len
from textual.content import Content

from logbook.growing.table import Column, table
from logbook.ui.widgets.walk_list import Row

Of = TypeVar("Of")


def table_rows(
    columns: Sequence[Column[Of]], things: Sequence[Of], width: int, key: Callable[[Of], str],
    tone: Callable[[Of], str] = lambda _: "",
) -> list[Row]:  # fmt: skip
    """Rows of a list that carry the things; nothing for none. `tone` is a row's colour."""
    drawn = table(columns, things, width, cell_len)
    if not things:
        return []
    rows = zip(drawn.rows, things, strict=True)
    return [
        *(Row.head(line, "$text-past") for line in drawn.heads),
        *(Row(Content.styled(line, tone(one)), key(one), one) for line, one in rows),
    ]
