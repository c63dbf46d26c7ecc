"""The drawing of the racks on the screen, with a cursor that goes from slot to slot."""

from typing import Literal

from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from logbook.actions.trays.rack_views import Racks
from logbook.ui.rack_drawing import Cell, Drawing, Piece, draw_racks


class RackMap(ScrollView, can_focus=True):
    """Draws line by line; a step of the cursor repaints two slots and nothing else."""

    BINDINGS = [
        Binding("left", "go('beside', -1)", "left", show=False),
        Binding("right", "go('beside', 1)", "right", show=False),
        Binding("up", "go('across', -1)", "up", show=False),
        Binding("down", "go('across', 1)", "down", show=False),
        Binding("pageup", "go('across', -4)", "far up", show=False),
        Binding("pagedown", "go('across', 4)", "far down", show=False),
        Binding("home", "end(0)", "first", show=False),
        Binding("end", "end(-1)", "last", show=False),
    ]
    COMPONENT_CLASSES = {
        f"rack--{tone}"
        for tone in ("head", "shelf", "past", "number", "plain", "calm", "wants", "cursor")
    }

    class Moved(Message):
        """The cursor is on another slot, or its slot has changed."""

    def __init__(self) -> None:
        super().__init__()
        self.drawing = Drawing({}, (), 0)
        self.marked: set[int] = set()
        self._racks: Racks | None = None
        self._drawn_for = Size(0, 0)
        self._key = ""
        self._lines: dict[int, list[Cell]] = {}

    @property
    def cell(self) -> Cell | None:
        return self.drawing.find(self._key)

    def show(self, racks: Racks) -> None:
        """Draw the racks. The cursor stays on its tray or slot, else near the same spot."""
        self._racks, self._drawn_for = racks, self.outer_size
        width = self.outer_size.width or self.app.size.width
        before = self.cell
        self.drawing = draw_racks(racks, max(LEAST_WIDTH, width - 2), self.outer_size.height)
        self.marked &= {cell.tray.number for cell in self.drawing.cells if cell.tray is not None}
        self._lines = {}
        for cell in self.drawing.cells:
            for line in range(cell.y, cell.y + len(cell.pieces)):
                self._lines.setdefault(line, []).append(cell)
        self._measure()
        if self.cell is None:
            near = self.drawing.nearest(before.x, before.y) if before else self.drawing.first()
            self._key = near.key if near else ""
        self.refresh()
        self._scroll_to_cursor()
        self.post_message(self.Moved())

    def _measure(self) -> None:
        """Say how large the whole is, and whether it scrolls, in one go: one layout, one paint."""
        width, height = self.outer_size
        self.show_vertical_scrollbar = self.drawing.height > height
        self.virtual_size = Size(width - 1, max(self.drawing.height, height))

    def on_resize(self) -> None:
        if self._racks is not None and self._drawn_for != self.outer_size:
            self.show(self._racks)
            return
        self._measure()
        self._scroll_to_cursor()

    def render_line(self, y: int) -> Strip:
        """A line in view; a space has the style of the text before, for each change costs bytes."""
        line = y + self.scroll_offset.y
        plain = self.get_component_rich_style("rack--plain")
        segments = [Segment(" ", plain)]
        for piece in self.drawing.headings.get(line, ()):
            self._put(segments, piece, 1, self._tone(piece))
        for cell in self._lines.get(line, ()):
            self._put_cell(segments, cell, line - cell.y, plain)
        return Strip(segments).adjust_cell_length(self.size.width, plain).simplify()

    def _tone(self, piece: Piece) -> Style:
        return self.get_component_rich_style(f"rack--{piece.tone}")

    @staticmethod
    def _put(segments: list[Segment], piece: Piece, x: int, style: Style) -> None:
        """Add a piece, whose column counts from `x`; the gap before it goes to what stands there."""
        at = sum(segment.cell_length for segment in segments)
        if gap := " " * (x + piece.x - at):
            text, before, _ = segments.pop()
            segments.append(Segment(text + gap, before))
        segments.append(Segment(piece.text, style))

    def _put_cell(self, segments: list[Segment], cell: Cell, line: int, plain: Style) -> None:
        pieces = list(cell.pieces[line])
        if line == 0 and cell.tray is not None and cell.tray.number in self.marked:
            pieces.insert(0, Piece(0, "*", "wants"))
        if cell.key != self._key:
            for piece in pieces:
                self._put(segments, piece, cell.x + 1, self._tone(piece))
            return
        over = self.get_component_rich_style("rack--cursor")
        for piece in (Piece(0, "", ""), *pieces, Piece(cell.width, "", "")):
            self._put(segments, piece, cell.x + 1, over)
        self._put(segments, Piece(cell.width, " ", ""), cell.x + 1, plain)

    def put_cursor(self, cell: Cell) -> None:
        before = self.cell
        if cell.key == self._key:
            return
        self._key = cell.key
        self._repaint(*(each for each in (before, cell) if each is not None))
        self._scroll_to_cursor()
        self.post_message(self.Moved())

    def toggle_mark(self) -> bool:
        cell = self.cell
        if cell is None or cell.tray is None:
            return False
        self.marked ^= {cell.tray.number}
        self._repaint(cell)
        self.post_message(self.Moved())
        return True

    def _repaint(self, *cells: Cell) -> None:
        """Paint slots anew; those on one line together, for a line is sent from its beginning."""
        top = self.scroll_offset.y
        regions = [Region(cell.x + 1, cell.y - top, cell.width, len(cell.pieces)) for cell in cells]
        if len({region.y for region in regions}) == 1:
            regions = [Region.from_union(regions)]
        self.refresh(*regions)

    def _scroll_to_cursor(self) -> None:
        cell = self.cell
        if cell is None:
            return
        end = cell.y + len(cell.pieces)
        top = max(cell.top, end - max(len(cell.pieces), self.size.height))
        self.scroll_to_region(Region(0, top, 1, end - top), animate=False, immediate=True)

    def action_go(self, way: Literal["beside", "across"], by: int) -> None:
        """Go by so many cells in reading order, or by so many rows of slots."""
        if self.cell is not None:
            self.put_cursor(getattr(self.drawing, way)(self.cell, by))

    def action_end(self, place: int) -> None:
        if self.drawing.cells:
            self.put_cursor(self.drawing.cells[place])


LEAST_WIDTH = 14
