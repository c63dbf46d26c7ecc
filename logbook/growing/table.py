"""Figures in columns under heads: declared once by columns, for screens and plain commands alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

Of = TypeVar("Of")
Cells = Callable[[str], int]
"""How many cells of a terminal a text takes."""
SHORTEST_LAST = 8
"""To so many cells a last column of words is cut before anything else gives way."""


@dataclass(frozen=True, slots=True)
class Column(Generic[Of]):
    """A column: its head, what it says of a row, the unit that all of its figures have.

    Of columns with a `spare` above 0 those with the highest go first where there is no room.
    """

    head: str
    what: Callable[[Of], str]
    unit: str = ""
    right: bool = True
    spare: int = 0

    @property
    def titled(self) -> str:
        """Its head with its unit: "PPFD µmol/m²/s"."""
        return f"{self.head} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class Table:
    """Lines that fit a width: the heads, with the units once, and each row.

    Where a name leaves the figures no room they are on a second line below it; a second column of
    words stays with the name where that helps.
    """

    heads: tuple[str, ...]
    rows: tuple[str, ...]
    whole: bool = True
    """Whether no column was left out and nothing was cut."""
    folded: bool = False
    """Whether the units are told in lines above, as they had no room below the heads."""

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it; nothing where there are no rows."""
        return (*self.heads, *self.rows) if self.rows else ()


def table(
    columns: Sequence[Column[Of]], things: Sequence[Of], width: int, cells: Cells = len
) -> Table:
    """Set things in columns, their units under the heads, or where that is too wide in a line.

    Columns that say nothing of any thing are left out.
    """
    said = [(one, [one.what(thing) for thing in things]) for one in columns]
    said = [(one, texts) for one, texts in said if any(texts) or one is columns[0]]
    if any(one.unit for one, _ in said):
        columned = [([one.head, one.unit, *texts], one) for one, texts in said]
        if sum(_widths(columned, cells)) + 2 * (len(columned) - 1) <= width:
            return _set(columned, 2, 2, width, cells)
    columned = [([one.head, *texts], one) for one, texts in said]
    gap = 2 if sum(_widths(columned, cells)) + 2 * (len(columned) - 1) <= width else 1
    whole = len(columned)
    while sum(_widths(columned, cells)) + gap * (len(columned) - 1) > width:
        first = max(columned, key=lambda each: each[1].spare)
        if first[1].spare == 0:
            break
        columned.remove(first)
    drawn = _set(columned, 1, gap, width, cells)
    units = ", ".join(one.titled for _, one in columned if one.unit)
    fits = whole == len(columned) and drawn.whole
    return Table((*_folded(units, width, cells), *drawn.heads), drawn.rows, fits, bool(units))


def turned(
    columns: Sequence[Column[Of]], things: Sequence[Of], width: int, cells: Cells = len
) -> Table:
    """The same with a thing in each column and a figure in each row, with its unit beside it."""
    name, *figures = columns
    said = [(one, [one.what(thing) for thing in things]) for one in figures]
    rows = [(one.titled, texts) for one, texts in said if any(texts)]
    names = [name.what(thing) for thing in things]
    heads: list[Column[tuple[str, list[str]]]] = [
        Column(name.head, lambda row: row[0], right=False),
        *(
            Column(head, lambda row, at=at: row[1][at])  # type: ignore[misc]
            for at, head in enumerate(names)
        ),
    ]
    return table(heads, rows, width, cells)


def _widths(columned: Sequence[tuple[list[str], Column[Of]]], cells: Cells) -> list[int]:
    return [max(map(cells, texts)) for texts, _ in columned]


def _set(
    columned: Sequence[tuple[list[str], Column[Of]]], heads: int, gap: int, width: int, cells: Cells
) -> Table:
    widths = _widths(columned, cells)
    over = cut = sum(widths) + gap * (len(widths) - 1) - width
    words = len(columned) > 1 and not columned[-1][1].right
    spare = max(0, widths[-1] - SHORTEST_LAST) if words else 0
    apart = over > spare and len(columned) > 1
    named = 1
    if apart:
        over = sum(widths[1:]) + gap * (len(widths) - 2) - (width - 2)
        second = widths[1] + gap
        stays = not columned[1][1].right and widths[0] + second <= width
        if over > 0 and len(columned) > 2 and stays:
            over, named = over - second, 2
    widths[-1] -= min(max(0, over), spare)
    widths[0] = min(widths[0], width)
    lines = []
    for line in range(len(columned[0][0])):
        said = [
            padded(texts[line], room, cells, right=one.right and bool(at))
            for at, ((texts, one), room) in enumerate(zip(columned, widths, strict=True))
        ]
        name, figures = ((" " * gap).join(part) for part in (said[:named], said[named:]))
        if apart:
            lines.append(
                f"{name.rstrip()}\n  {padded(figures.rstrip(), width - 2, cells).rstrip()}"
            )
        else:
            lines.append(f"{name}{' ' * gap}{figures}".rstrip())
    return Table(tuple("\n".join(lines[:heads]).split("\n")), tuple(lines[heads:]), cut <= 0)


def padded(text: str, width: int, cells: Cells = len, *, right: bool = False) -> str:
    """Fill a text up to a width, or cut it to that with an ellipsis."""
    while text and cells(text) > width:
        text = f"{text.removesuffix('…')[:-1]}…"
    space = " " * (width - cells(text))
    return space + text if right else text + space


def _folded(text: str, width: int, cells: Cells) -> list[str]:
    lines: list[str] = []
    for part in filter(None, text.split(", ")):
        if lines and cells(f"{lines[-1]}, {part}") <= width:
            lines[-1] += f", {part}"
        else:
            lines.append(part)
    return lines
