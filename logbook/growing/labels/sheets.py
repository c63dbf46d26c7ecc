"""Sheets of stickers for an office printer: grids of bought sheets, and the page as HTML with SVG in it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import Literal, NamedTuple

from logbook.growing.crops.allergens import Law
from logbook.growing.labels.sticker import TOGETHER, Sticker
from logbook.text import Refused, listed

Paper = Literal["a4", "letter"]
PAPERS: dict[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height, mm (ISO 216; ANSI/ASME Y14.1)."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A bought sheet: columns and rows, a label's width and height and the gap between columns, mm.

    What is left over of the paper is its margins, alike on both sides.
    """

    paper: Paper
    columns: int
    rows: int
    width: float
    height: float
    gap: float

    @property
    def name(self) -> str:
        """How it is asked for: "3x7"."""
        return f"{self.columns}x{self.rows}"

    @property
    def count(self) -> int:
        """Labels on a sheet."""
        return self.columns * self.rows

    def corner(self, at: int) -> tuple[float, float]:
        """Left and top of a label, mm; they go along the rows."""
        wide, high = PAPERS[self.paper]
        left = (wide - self.columns * self.width - (self.columns - 1) * self.gap) / 2
        top = (high - self.rows * self.height) / 2
        row, column = divmod(at, self.columns)
        return left + column * (self.width + self.gap), top + row * self.height


GRIDS = (
    Grid("a4", 3, 7, 63.5, 38.1, 2.5), Grid("a4", 3, 8, 63.5, 33.9, 2.5),
    Grid("a4", 2, 7, 99.1, 38.1, 2.5), Grid("a4", 2, 4, 99.1, 67.7, 2.5),
    Grid("letter", 2, 5, 101.6, 50.8, 4.7625), Grid("letter", 2, 7, 101.6, 33.8667, 4.7625),
    Grid("letter", 3, 10, 66.675, 25.4, 3.175),
)  # fmt: skip
"""Sizes that sheets of labels are sold in (common practice, no source)."""


def grid_named(paper: Paper, name: str = "") -> Grid:
    """A paper's grid by its name, the first without one; raise Refused with those that there are."""
    of_paper = [each for each in GRIDS if each.paper == paper]
    found = next((each for each in of_paper if not name or each.name == name), None)
    if found is None:
        known = ", ".join(each.name for each in of_paper)
        raise Refused(f'"{name[:20]}" isn\'t a sheet of {paper} labels here; use {known}.', "grid")
    return found


EDGE = 2.0
"""Left free on all sides of a label, mm: printers are off by as much."""
MOST_CODE = 17.0
QUIET = 4
"""Modules left white round a code (ISO/IEC 18004)."""
SIZES = (6.0, 5.0, 4.2, 3.6, 3.1, 2.7, 2.35, 2.05, 1.75)
"""Heights of a plain line's letters, mm, of which the largest that fits is taken."""
LOWER = 0.52
"""The height of a small o beside that of its letters, in common sans-serif fonts."""
LEADING = 1.17
SQUEEZED = 1.1
"""How much wider a word may be than its room: it is drawn narrower."""
_WIDE, _SLIM = frozenset("mwMWOQGD@%&—…"), frozenset("ijltfrI.,:;'|!()[]/ -1")


def _letters(text: str, bold: bool) -> float:
    """About how wide a text is, in heights of its letters (widths of common sans-serif fonts, rounded up)."""
    wide = sum(
        0.9 if each in _WIDE else 0.36 if each in _SLIM else 0.72 if each.isupper() else 0.58
        for each in text
    )
    return wide * (1.06 if bold else 1.0)


class Placed(NamedTuple):
    """A line that has its place: its baseline, mm below the label's top, the height of its letters, its room."""

    text: str
    baseline: float
    size: float
    bold: bool
    room: float

    @property
    def width(self) -> float:
        """About how wide it is, mm."""
        return _letters(self.text, self.bold) * self.size


def _laid_out(sticker: Sticker, grid: Grid, plain: float) -> Iterator[Placed]:
    """Lines in letters of a height, broken between words; what is below the code has the whole width."""
    whole, below, top = grid.width - 2 * EDGE, EDGE + code_side(grid), EDGE
    for line in sticker.lines:
        size = plain * line.scale
        words = line.text.split(" ")
        while words:
            room = whole if top >= below else whole - EDGE - code_side(grid)
            fits = (
                n
                for n in range(len(words), 1, -1)
                if _letters(" ".join(words[:n]), line.bold) * size <= room
            )
            most = next(fits, 1)
            yield Placed(
                " ".join(words[:most]), top + size * (LEADING - 0.25), size, line.bold, room
            )
            words = words[most:]
            top += size * LEADING


def placed(sticker: Sticker, grid: Grid) -> list[Placed]:
    """Lines in the largest letters that fit; raise Refused where even the smallest do not."""
    for size in SIZES:
        found = list(_laid_out(sticker, grid, size))
        last = found[-1].baseline + 0.25 * found[-1].size
        if last <= grid.height - EDGE and all(each.width <= SQUEEZED * each.room for each in found):
            return found
    larger = [
        each.name
        for each in GRIDS
        if each.paper == grid.paper and each.width * each.height > grid.width * grid.height
    ]
    advice = f"Take a larger label ({', '.join(larger)}) or" if larger else "Take"
    raise Refused(
        f'"{sticker.lines[0].text[:40]}" with all that belongs below it doesn\'t fit on a label of '
        f"{grid.width:g} × {grid.height:g} mm. {advice} shorter names.",
        "grid",
    )


def letters_mm(sticker: Sticker, grid: Grid) -> float:
    """How high a small o of a plain line is on a label, mm."""
    return LOWER * min(each.size for each in placed(sticker, grid))


def small_words(heights: Sequence[float], law: Law | None) -> str:
    """Say that letters are lower than the law of the place asks for; '' where they are not."""
    lowest = min(heights, default=0.0)
    if law is None or not heights or lowest >= law.letters_mm:
        return ""
    return (
        f"A small o is {lowest:.1f} mm high on this label; in {listed(law.where)} it must be "
        f"{law.letters_mm:.1f} mm, except on a small pack. A larger label has larger letters."
    )


def code_side(grid: Grid) -> float:
    """The side of the code square on a label, mm, with the white round it."""
    return min(MOST_CODE, 0.45 * grid.height)


def code_path(code: str) -> tuple[int, str]:
    """A code square as an SVG path: modules a side with the white round them, and the dark ones.

    QR code of ISO/IEC 18004 with error correction M; a text of other than Latin letters is UTF-8.
    """
    import segno

    matrix = segno.make_qr(code, error="m").matrix
    dark = "".join(
        f"M{x + QUIET} {y + QUIET}h1v1h-1z"
        for y, row in enumerate(matrix)
        for x, on in enumerate(row)
        if on
    )
    return len(matrix) + 2 * QUIET, dark


def sheet_page(
    stickers: Sequence[Sticker], grid: Grid, title: str, mark: str, skip: int = 0
) -> str:
    """Stickers as one HTML page that needs nothing else, to be printed at 100 %; `skip` labels are used up."""
    wide, high = PAPERS[grid.paper]
    drawn = {each: _sticker(each, grid) for each in dict.fromkeys(stickers)}
    cells = [*[None] * skip, *stickers]
    pages = []
    for first in range(0, len(cells), grid.count):
        body = "".join(
            f'<g transform="translate({grid.corner(at)[0]:.2f} {grid.corner(at)[1]:.2f})">{drawn[each]}</g>'
            for at, each in enumerate(cells[first : first + grid.count])
            if each is not None
        )
        pages.append(
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
            f'viewBox="0 0 {wide} {high}">{body}</svg>'
        )
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">{mark}<title>{escape(title)}</title>'
        f"<style>@page {{ size: {wide}mm {high}mm; margin: 0 }} body {{ margin: 0 }} "
        "svg { display: block; break-after: page; font-family: Arial, Helvetica, sans-serif }</style>"
        f"</head><body>{''.join(pages)}</body></html>\n"
    )


def _sticker(sticker: Sticker, grid: Grid) -> str:
    parts = []
    for each in placed(sticker, grid):
        tight = each.width > each.room
        narrower = f' textLength="{each.room:.2f}" lengthAdjust="spacingAndGlyphs"' if tight else ""
        weight = ' font-weight="bold"' if each.bold else ""
        parts.append(
            f'<text x="{EDGE}" y="{each.baseline:.2f}" font-size="{each.size:.2f}"{weight}{narrower}>'
            f"{escape(each.text.replace(TOGETHER, ' '))}</text>"
        )
    modules, dark = code_path(sticker.code)
    side = code_side(grid)
    left = grid.width - EDGE - side
    parts.append(
        f'<path transform="translate({left:.2f} {EDGE}) scale({side / modules:.4f})" d="{dark}"/>'
    )
    return "".join(parts)
