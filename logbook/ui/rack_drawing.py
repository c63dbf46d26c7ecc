"""The racks as a drawing in cells of the terminal: what stands where, where the cursor can go."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import NamedTuple

from rich.cells import cell_len

from logbook.actions.trays.rack_views import Racks, RackShelf, RackTray, RackView
from logbook.text import clean, plural
from logbook.ui.columns import fit

LEAST_CELL, MOST_CELL = 13, 24
LONG_DAY_FROM = 15
RACK_WIDTH, BRIEF = 52, 42
"""Cells of the narrowest rack that has others beside it, and below which a shelf says less."""
GAP = 2

SHORT = {
    "cut": "cut", "weight_on": "weight on", "weight_off": "weight off", "light_on": "light",
    "light_off": "dark", "lid_on": "lid on", "lid_off": "lid off", "water": "water", "look": "look",
}  # fmt: skip
"""What is due, in the fewest words; the most pressing first."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Text at a column. `tone` is head, shelf, past, number, plain, calm or wants."""

    x: int
    text: str
    tone: str


@dataclass(frozen=True, slots=True)
class Cell:
    """A slot where it is drawn, with its tray or free.

    `pieces` holds one row of pieces for each of its lines; `top` is the line from which its
    headings are in view.
    """

    key: str
    x: int
    y: int
    width: int
    top: int
    pieces: tuple[tuple[Piece, ...], ...]
    place: str
    slot: int | None
    tray: RackTray | None


@dataclass(frozen=True, slots=True)
class Drawing:
    """Headings by line, cells in reading order, and how many lines there are."""

    headings: dict[int, tuple[Piece, ...]]
    cells: tuple[Cell, ...]
    height: int

    @property
    def text(self) -> str:
        pieces = [(y, piece.x, piece.text) for y, row in self.headings.items() for piece in row]
        pieces += [
            (cell.y + down, cell.x + piece.x, piece.text)
            for cell in self.cells
            for down, row in enumerate(cell.pieces)
            for piece in row
        ]
        lines = [""] * self.height
        for y, x, text in sorted(pieces):
            lines[y] += " " * (x - cell_len(lines[y])) + text
        return "\n".join(lines)

    def find(self, key: str) -> Cell | None:
        """The cell with this key; None when its tray or slot is gone."""
        return next((cell for cell in self.cells if cell.key == key), None)

    def first(self) -> Cell | None:
        trays = (cell for cell in self.cells if cell.tray is not None)
        return next(trays, self.cells[0] if self.cells else None)

    def nearest(self, x: int, y: int) -> Cell | None:
        return min(self.cells, key=lambda cell: (abs(cell.y - y), abs(cell.x - x)), default=None)

    def beside(self, cell: Cell, step: int) -> Cell:
        """The cell so many steps on in reading order; the ends hold."""
        place = self.cells.index(cell) + step
        return self.cells[min(max(place, 0), len(self.cells) - 1)]

    def across(self, cell: Cell, rows: int) -> Cell:
        """The cell so many rows of slots down (up when negative), straight or nearly so."""
        lines = sorted({each.y for each in self.cells})
        place = min(max(lines.index(cell.y) + rows, 0), len(lines) - 1)
        row = [each for each in self.cells if each.y == lines[place]]
        return min(row, key=lambda each: abs(each.x - cell.x))


def _due(tray: RackTray) -> list[str]:
    words = [short for chore, short in SHORT.items() if chore in tray.due]
    words = ["on hold", *words] if tray.held else words
    return ["mould", *words] if tray.mould_seen else words


def due_words(tray: RackTray, width: int) -> str:
    """Say what is due on a tray within a width; what is left out is counted: "cut +1 more"."""
    words = _due(tray)
    if not words:
        return fit("ready", width) if tray.ready == "ready" else ""
    for shown in range(len(words), 0, -1):
        left = len(words) - shown
        text = ", ".join(words[:shown])
        for more in (f" +{left} more", f" +{left}") if left else ("",):
            if len(text + more) <= width:
                return text + more
    first, left = words[0].split()[0], len(words) - 1
    more = f" +{left}" if left else ""
    more = more if len(first + more) <= width else more.strip()
    return fit(first, width - len(more)) + more


def crop_words(crop: str, width: int) -> str:
    """A crop's name within a width: without its variety, then cut."""
    crop = clean(crop, lines=False)
    return crop if cell_len(crop) <= width else fit(crop.partition(",")[0], width)


class _Slot(NamedTuple):
    place: str
    slot: int | None
    tray: RackTray | None


def _slots(shelf: RackShelf) -> list[_Slot]:
    """The slots of a shelf in order.

    A tray without a slot of its own takes the last free one, as it does when trays are sown;
    where there is none it stands past the end.
    """
    path, numbers = shelf.place.path, range(1, shelf.place.slots + 1)
    held: dict[int, list[RackTray]] = {}
    rest: list[RackTray] = []
    for tray in shelf.trays:
        if tray.slot is not None and tray.slot in numbers:
            held.setdefault(tray.slot, []).append(tray)
        else:
            rest.append(tray)
    free = [slot for slot in numbers if slot not in held]
    while rest and free:
        held[free.pop()] = [rest.pop()]
    slots = [_Slot(path, slot, tray) for slot in numbers for tray in held.get(slot, [None])]
    return slots + [_Slot(path, None, tray) for tray in rest]


class _Grid(NamedTuple):
    """How cells stand in a rack's width: so many in a line, each so wide."""

    most: int
    cell: int

    def lines(self, slots: Sequence[_Slot]) -> Iterator[Sequence[_Slot]]:
        rows = -(-len(slots) // self.most)
        each = -(-len(slots) // rows) if rows else 1
        for start in range(0, len(slots), each):
            yield slots[start : start + each]


def _grid(rack: RackView, width: int) -> _Grid:
    longest = max((max(shelf.place.slots, shelf.used, 1) for shelf in rack.shelves), default=1)
    room = width + 1  # the last cell of a line needs no gap behind it
    rows = -(-longest // max(1, min(longest, room // LEAST_CELL)))
    most = -(-longest // rows)
    return _Grid(most, min(MOST_CELL, room // most))


_FREE: tuple[tuple[Piece, ...], ...] = ((Piece(1, "·", "past"),),)


def _tray_pieces(tray: RackTray, width: int) -> tuple[tuple[Piece, ...], ...]:
    inner = width - 1
    number = fit(str(tray.number), inner - 1)
    at = len(number) + 2
    day, due = f"day {tray.day_number}", _due(tray)
    least = len(due[0].split()[0]) + len("+2") if due else 0
    if width < LONG_DAY_FROM or inner - len(day) - 2 < least:
        day = f"d{tray.day_number}"
    of = f" of {tray.cut_day}"
    said = ", ".join(_due(tray)) or ("ready" if tray.ready == "ready" else "")
    if len(day + of) + (2 + len(said) if said else 0) <= inner:
        day += of
    words = due_words(tray, inner - len(day) - 2)
    tone = "wants" if tray.late or tray.mould_seen or "cut" in tray.due else "calm"
    return (
        (Piece(1, number, "number"), Piece(at, crop_words(tray.crop, inner - at), "plain")),
        (
            Piece(0, "▌" if tray.late else " ", "wants"),
            Piece(1, day, "number"),
            Piece(len(day) + 2, words, tone),
        ),
    )


def _cell(slot: _Slot, x: int, y: int, width: int, top: int) -> Cell:
    key, pieces = f"{slot.place}/{slot.slot}", _FREE
    if slot.tray is not None:
        key, pieces = f"tray {slot.tray.number}", _tray_pieces(slot.tray, width)
    return Cell(key, x, y, width - 1, top, pieces, *slot)


def shelf_words(shelf: RackShelf, width: int) -> str:
    """Name a shelf, its lamp hours and how full it is, within a width."""
    place = shelf.place
    name = clean(place.name, lines=False)
    rest = ["retired"] if place.retired else []
    dark = shelf.in_the_dark
    lamps = f"no light for {len(dark.numbers)}" if dark else place.hours_words
    rest += [lamps, f"{shelf.slots_used} of {plural(place.slots, 'slot')}"]
    if cell_len("   ".join([name, *rest])) > width:
        rest[-1] = f"{shelf.slots_used} of {place.slots}"
    tail = "  ".join(rest) if width < BRIEF else "   ".join(rest)
    gap = " " * (2 if width < BRIEF else 3)
    return fit(name, width - len(tail) - len(gap)) + gap + tail


class _Pen:
    def __init__(self, airy: bool) -> None:
        self.airy = airy
        self.y = 0
        self.headings: dict[int, tuple[Piece, ...]] = {}
        self.cells: list[Cell] = []

    def head(self, pieces: Iterable[Piece]) -> None:
        self.headings[self.y] = tuple(pieces)
        self.y += 1

    def rows(self, columns: Sequence[tuple[int, _Grid, Sequence[_Slot]]], top: int) -> None:
        """Draw slots of racks that stand side by side, so that their rows are level."""
        for rows in zip_longest(*(grid.lines(slots) for _, grid, slots in columns), fillvalue=()):
            for (x, grid, _), row in zip(columns, rows, strict=True):
                self.cells += [
                    _cell(slot, x + place * grid.cell, self.y, grid.cell, top)
                    for place, slot in enumerate(row)
                ]
            full = any(slot.tray is not None for row in rows for slot in row)
            self.y += 2 if full else 1

    def racks(self, racks: Sequence[RackView], width: int, xs: Sequence[int]) -> None:
        """Draw racks side by side, shelf beside shelf."""
        top = self.y
        beside = list(zip(xs, racks, strict=False))
        self.head(Piece(x, fit(clean(rack.name, lines=False), width), "head") for x, rack in beside)
        grids = [(x, _grid(rack, width)) for x, rack in beside]
        for level, shelves in enumerate(zip_longest(*(rack.shelves for rack in racks))):
            here = [(*at, shelf) for at, shelf in zip(grids, shelves, strict=True) if shelf]
            if level:
                top = self.y
            self.head(Piece(x, shelf_words(shelf, width), "shelf") for x, _, shelf in here)
            self.rows([(x, grid, _slots(shelf)) for x, grid, shelf in here], top)
            if self.airy:
                self.y += 1


def draw_racks(racks: Racks, width: int, height: int) -> Drawing:
    """Draw the racks for a width; with empty lines between shelves when the height allows it."""
    airy = _draw(racks, width, airy=True)
    return airy if airy.height <= height else _draw(racks, width, airy=False)


def _draw(racks: Racks, width: int, *, airy: bool) -> Drawing:
    pen = _Pen(airy)
    beside = max(1, min(len(racks.racks), width // RACK_WIDTH))
    each = (width - GAP * (beside - 1)) // beside
    xs = [place * (each + GAP) for place in range(beside)]
    for start in range(0, len(racks.racks), beside):
        pen.racks(racks.racks[start : start + beside], each, xs)
    if racks.loose:
        top = pen.y
        pen.head([Piece(0, "On no shelf", "head")])
        loose = [_Slot("", None, tray) for tray in racks.loose]
        pen.rows([(0, _Grid(max(1, width // 16), 16), loose)], top)
    if not pen.cells and not pen.headings:
        pen.head([Piece(0, fit("No shelves yet: F10 adds racks and shelves.", width), "plain")])
    height = pen.y - 1 if airy and not racks.loose and pen.cells else pen.y
    return Drawing(pen.headings, tuple(pen.cells), height)
