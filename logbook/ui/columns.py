"""Text in columns, measured in terminal cells: wide letters and emoji take two."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content


def one_line(text: str) -> str:
    """The words of a text on one line, one space between any two."""
    return " ".join(text.split())


def fit(text: str, width: int) -> str:
    """Cut a text to so many cells, with … where something is left out."""
    return Content(text).truncate(max(1, width), ellipsis=True).plain


def column(text: str, width: int) -> str:
    """Cut or pad a text to exactly so many cells, with a space at the end."""
    return Content(fit(text, width - 1)).truncate(width, pad=True).plain


def spread(left: Content, right: Content, width: int) -> Content:
    """Put two texts at the ends of a line; the left one is cut when they do not fit."""
    room = max(1, width - right.cell_length - 1)
    left = left.truncate(room, ellipsis=True)
    return Content.assemble(left, " " * max(1, width - left.cell_length - right.cell_length), right)


def apart(left: Content, right: Content, width: int) -> Content:
    """Put two texts at the ends of a line, whole: the right one goes below where both do not fit."""
    if left.cell_length + right.cell_length + 2 <= width:
        return spread(left, right, width)
    lines = [*left.wrap(width), Content.assemble("  ", right.truncate(width - 2, ellipsis=True))]
    return Content("\n").join(lines)


def shared(
    needs: Sequence[int], least: Sequence[int], room: int, *, first: Sequence[int]
) -> tuple[int, ...]:
    """Widths of columns that share so many cells.

    Each has what it needs; those `first` are cut to the least where that is too much, and what is left
    over goes between all, four cells at most.
    """
    widths = [max(need, least[at]) for at, need in enumerate(needs)]
    for at in (*first, *range(len(widths))):
        over = sum(widths) - room
        widths[at] -= min(max(0, over), widths[at] - least[at])
    spare = min(4, max(0, room - sum(widths)) // max(1, len(widths) - 1))
    return (*(width + spare for width in widths[:-1]), widths[-1])


def wrapped(text: str, width: int) -> list[str]:
    """Break a text into lines of at most so many cells, keeping its own line breaks."""
    lines: list[str] = []
    for line in text.split("\n"):
        lines += [part.plain for part in Content(line).wrap(max(4, width))] or [""]
    return lines


def whole_hints(text: str, width: int) -> str:
    """Break hints, which three spaces part, so that none is cut in two where a line can hold it."""
    lines: list[str] = []
    for hint in text.split("   "):
        longer = f"{lines[-1]}   {hint}" if lines else hint
        if lines and cell_len(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(hint)
    return "\n".join(lines)


def range_bar(low: float, high: float, most: float, width: int) -> str:
    """Draw a range as a bar that is dense up to its low end and light from there to its high one."""
    if high <= 0 or most <= 0:
        return ""
    sure, whole = (round(width * min(1.0, each / most)) for each in (low, high))
    return "█" * sure + "░" * max(0 if sure else 1, whole - sure)
