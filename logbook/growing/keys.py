"""Kinds of values in views that JSON writes in a way of its own.

A view is a frozen dataclass. Its `keys`, where it has some, name what JSON says of it and in which
order: `tray` is the attribute of that name, `from=window.start` one behind another (of each, where
there are several), `*use` all that JSON says of that one. Without `keys` it is every field.
"""

from typing import Annotated

AS_TEXT = "as text"
"""Marks a number that only names something: JSON writes it as a text."""
AS_TRAY = "as a tray's name"
"""Marks a tray's name: JSON writes it as people do."""
WALL = "by the wall"
"""Marks minutes after midnight: JSON writes them as 06:00."""
LEFT_OUT = "left out"
"""Marks a key that is left out where there is nothing to say."""

TrayNumber = Annotated[int, AS_TRAY]
"""A tray's number, or what else it is named by (see growing/numbers.py)."""
BatchNumber = Annotated[int, AS_TEXT]
"""A batch's number."""
WallTime = Annotated[int, WALL]
"""Minutes after midnight by the wall clock."""
DayNumber = Annotated[
    int, "Calendar days since sowing; the sowing day is 1, or 0 if the room says so."
]
"""A mark that is a sentence says in the schema what every such value is."""
