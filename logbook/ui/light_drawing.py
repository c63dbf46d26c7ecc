"""A shelf with its light readings as a drawing: shades for the eye, numbers for everybody.

Pure: takes spots and the room on the screen. The back row is on top, the front row below, as one
stands before the shelf.
"""

import math
from collections.abc import Sequence

from logbook.growing.room.light import DEPTHS, Grid, Spot

SHADES = "░▒▓█"
STEPS = (0.6, 0.75, 0.9)
LABEL = 7


def shade(ppfd: float, most: float) -> str:
    """The shade of a reading by its share of the brightest spot of its shelf: the densest is it."""
    share = ppfd / most if most > 0 else 0.0
    return SHADES[sum(share >= step for step in STEPS)]


def scale_words(most: float) -> str:
    """The shades with the PPFD that each begins at, the darkest first: the same in every theme."""
    starts = (0, *(math.ceil(most * step) for step in STEPS))
    return "   ".join(f"{sign} {start}+" for sign, start in zip(SHADES, starts, strict=True))


def row_name(row: int, grid: Grid) -> str:
    """Name a row: front, middle and back where there are up to three, else its number."""
    if row == 1:
        return DEPTHS[0]
    if row == grid.rows:
        return DEPTHS[2]
    return DEPTHS[1] if grid.rows == 3 else f"row {row}"


def spot_name(row: int, column: int, grid: Grid) -> str:
    """Name a spot for a question: "front", or "front, 2 of 4 from the left"."""
    name = row_name(row, grid) if grid.rows > 1 else ""
    if grid.columns == 1:
        return name or "the spot"
    across = f"{column} of {grid.columns} from the left"
    return f"{name}, {across}" if name else across


def shelf_drawing(grid: Grid, spots: Sequence[Spot], width: int) -> list[str]:
    """Draw the spots of a shelf, a line for each row; columns that find no room are counted."""
    known = {(spot.row, spot.column): spot.ppfd for spot in spots}
    most = max(known.values(), default=0.0)
    cell = 8 if LABEL + grid.columns * 8 <= width else 6
    fitting = max(1, min(grid.columns, (width - LABEL) // cell))
    lines = []
    for row in range(grid.rows, 0, -1):
        read = [known.get((row, column)) for column in range(1, fitting + 1)]
        cells = [
            "·".center(cell - 1)
            if ppfd is None
            else f"{shade(ppfd, most) * (cell - 5)}{ppfd:>4.0f}"
            for ppfd in read
        ]
        lines.append(f"{row_name(row, grid):<{LABEL}}{' '.join(cells)}".rstrip())
    if fitting < grid.columns:
        lines.append(f"{'':<{LABEL}}{grid.columns - fitting} more to the right")
    if most > 0:
        scale = scale_words(most)
        gap = "   " if LABEL + len(scale) <= width else " "
        lines.append(f"{'PPFD':<{LABEL}}{scale.replace('   ', gap)}")
    return lines
