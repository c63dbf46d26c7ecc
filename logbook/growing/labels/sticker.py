"""What stands on a label or a tape, line by line, before it is known what it is printed on."""

import textwrap
from dataclasses import dataclass

TOGETHER = "\xa0"
"""A space at which a line is not broken."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of it: `scale` is its height beside a plain line's."""

    text: str
    scale: float = 1.0
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Sticker:
    """Lines, and the text of its code square."""

    lines: tuple[Line, ...]
    code: str

    def plain(self, columns: int) -> list[str]:
        """Its lines for a label printer of so many columns."""
        return [
            part.replace(TOGETHER, " ")
            for line in self.lines
            for part in textwrap.wrap(line.text, columns)
        ]
