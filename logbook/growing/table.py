"""Figures in columns under heads: declared once by columns, for screens and plain commands alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
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
    below = [([one.head, one.unit, *texts], one) for one, texts in said]
    beside = [([one.head, *texts], one) for one, texts in said]
    gaps, kept = _fitted(beside, width, cells)
    closer, shown = _fitted(below, width, cells)
    if closer and any(one.unit for _, one in shown) and len(shown) >= len(kept) - 1:
        drawn = _set(shown, 2, closer, width, cells)
        return Table(drawn.heads, drawn.rows, len(shown) == len(said) and drawn.whole)
    if not gaps:
        gaps, widths = _snug(kept), _widths(kept, cells)
        named = 2 if len(kept) > 2 and not kept[1][1].right and sum(widths[:2]) < width else 1
        if sum(widths[named:]) + sum(gaps[named + 1 :]) > width - 2:
            gaps = _close(kept)
    drawn = _set(kept, 1, gaps, width, cells)
    words = ", ".join(one.titled for _, one in kept if one.unit)
    fits = len(kept) == len(said) and drawn.whole
    return Table((*_folded(words, width, cells), *drawn.heads), drawn.rows, fits, bool(words))


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


def _fitted(
    columned: Sequence[tuple[list[str], Column[Of]]], width: int, cells: Cells
) -> tuple[list[int], list[tuple[list[str], Column[Of]]]]:
    """Gaps before columns, and those that stay; no gaps where not even what can't be spared fits."""
    kept = list(columned)
    while True:
        room = width - sum(_widths(kept, cells))
        spare = max(kept, key=lambda each: each[1].spare)
        gaps = [_wide(kept), _snug(kept), *([] if spare[1].spare else [_close(kept)])]
        found = next((each for each in gaps if sum(each) <= room), [])
        if found or not spare[1].spare:
            return found, kept
        kept.remove(spare)


def _close(columned: Sequence[tuple[list[str], Column[Of]]]) -> list[int]:
    return [0, *[1] * (len(columned) - 1)]


def _wide(columned: Sequence[tuple[list[str], Column[Of]]]) -> list[int]:
    return [0, *[2] * (len(columned) - 1)]


def _snug(columned: Sequence[tuple[list[str], Column[Of]]]) -> list[int]:
    """Gaps before columns of one cell, but two between figures and words after them."""
    right = [one.right and bool(at) for at, (_, one) in enumerate(columned)]
    return [0, *(2 if before and not this else 1 for before, this in pairwise(right))]


def _set(
    columned: Sequence[tuple[list[str], Column[Of]]], heads: int, gaps: Sequence[int], width: int,
    cells: Cells,
) -> Table:  # fmt: skip
    widths = _widths(columned, cells)
    over = cut = sum(widths) + sum(gaps) - width
    words = len(columned) > 1 and not columned[-1][1].right
    spare = max(0, widths[-1] - SHORTEST_LAST) if words else 0
    apart = over > spare and len(columned) > 1
    named = 1
    if apart:
        over = sum(widths[1:]) + sum(gaps[2:]) - (width - 2)
        second = widths[1] + gaps[1]
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
        name, figures = (
            _spaced(said, gaps, part) for part in (range(named), range(named, len(said)))
        )
        if apart:
            lines.append(
                f"{name.rstrip()}\n  {padded(figures.rstrip(), width - 2, cells).rstrip()}"
            )
        else:
            lines.append(_spaced(said, gaps, range(len(said))).rstrip())
    return Table(tuple("\n".join(lines[:heads]).split("\n")), tuple(lines[heads:]), cut <= 0)


def _spaced(said: Sequence[str], gaps: Sequence[int], part: range) -> str:
    return "".join(" " * (gaps[at] if at > part.start else 0) + said[at] for at in part)


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
