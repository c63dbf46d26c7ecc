"""The drawing of the racks on the screen, with a cursor that goes from slot to slot."""

from __future__ import annotations

from collections.abc import Iterable

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from logbook.actions.viewing import Racks
from logbook.ui.rack_drawing import Cell, Drawing, Piece, draw_racks


class RackMap(ScrollView, can_focus=True):
    """Draws line by line; a step of the cursor repaints two slots and nothing else."""

    BINDINGS = [
        Binding("left", "beside(-1)", "left", show=False),
        Binding("right", "beside(1)", "right", show=False),
        Binding("up", "across(-1)", "up", show=False),
        Binding("down", "across(1)", "down", show=False),
        Binding("pageup", "across(-4)", "far up", show=False),
        Binding("pagedown", "across(4)", "far down", show=False),
        Binding("home", "end(0)", "first", show=False),
        Binding("end", "end(-1)", "last", show=False),
    ]
    COMPONENT_CLASSES = {
        "rack--head",
        "rack--shelf",
        "rack--past",
        "rack--number",
        "rack--plain",
        "rack--calm",
        "rack--wants",
        "rack--cursor",
    }
    DEFAULT_CSS = """
    RackMap {
        height: 1fr; background: $background; color: $foreground; scrollbar-size-vertical: 1;
        & > .rack--head { color: $primary; text-style: bold; }
        & > .rack--shelf { color: $secondary; }
        & > .rack--past { color: $text-past; }
        & > .rack--number { text-style: bold; }
        & > .rack--calm { color: $primary; }
        & > .rack--wants { color: $warning; text-style: bold; }
        & > .rack--cursor { background: $primary; color: $background; text-style: bold; }
    }
    .-ansi-colors RackMap > .rack--cursor {
        background: ansi_default; color: ansi_default; text-style: bold reverse;
    }
    """

    class Moved(Message):
        """The cursor is on another slot, or its slot has changed."""

    def __init__(self) -> None:
        super().__init__()
        self.drawing = Drawing({}, (), 0)
        self.marked: set[int] = set()
        self._key = ""
        self._lines: dict[int, list[Cell]] = {}

    @property
    def cell(self) -> Cell | None:
        """The slot that the cursor is on."""
        return self.drawing.find(self._key)

    def show(self, racks: Racks) -> None:
        """Draw the racks. The cursor stays on its tray or slot, else near the same spot."""
        width = self.outer_size.width or self.app.size.width
        before = self.cell
        self.drawing = draw_racks(racks, max(LEAST_WIDTH, width - 2), self.outer_size.height)
        self.marked &= {cell.tray.number for cell in self.drawing.cells if cell.tray is not None}
        self._lines = {}
        for cell in self.drawing.cells:
            for line in range(cell.y, cell.y + len(cell.pieces)):
                self._lines.setdefault(line, []).append(cell)
        self.virtual_size = Size(width - 1, self.drawing.height)
        if self.cell is None:
            near = self.drawing.nearest(before.x, before.y) if before else self.drawing.first()
            self._key = near.key if near else ""
        self.refresh()
        self._scroll_to_cursor()
        self.post_message(self.Moved())

    def render_line(self, y: int) -> Strip:
        """Draw one line of what is in view."""
        line = y + self.scroll_offset.y
        plain = self.get_component_rich_style("rack--plain")
        width = self.size.width
        segments: list[Segment] = [Segment(" ", plain)]
        at = 0
        for piece in self.drawing.headings.get(line, ()):
            at = self._put(segments, piece.x, at, piece.text, self._tone(piece), plain)
        for cell in self._lines.get(line, ()):
            at = self._put_cell(segments, cell, line - cell.y, at, plain)
        return Strip(segments).adjust_cell_length(width, plain)

    def _tone(self, piece: Piece) -> Style:
        return self.get_component_rich_style(f"rack--{piece.tone}")

    @staticmethod
    def _put(
        segments: list[Segment], x: int, at: int, text: str, style: Style, between: Style
    ) -> int:
        if x > at:
            segments.append(Segment(" " * (x - at), between))
        segments.append(Segment(text, style))
        return max(x, at) + cell_len(text)

    def _put_cell(
        self, segments: list[Segment], cell: Cell, line: int, at: int, plain: Style
    ) -> int:
        cursor = cell.key == self._key
        over = self.get_component_rich_style("rack--cursor")
        marked = line == 0 and cell.tray is not None and cell.tray.number in self.marked
        pieces: Iterable[Piece] = cell.pieces[line]
        if marked:
            pieces = (Piece(0, "*", "wants"), *pieces)
        between = over if cursor else plain
        if cell.x > at:
            segments.append(Segment(" " * (cell.x - at), plain))
            at = cell.x
        for piece in pieces:
            style = over if cursor else self._tone(piece)
            at = self._put(segments, cell.x + piece.x, at, piece.text, style, between)
        end = cell.x + cell.width
        if at < end:
            segments.append(Segment(" " * (end - at), between))
        return max(at, end)

    # the cursor

    def put_cursor(self, cell: Cell) -> None:
        """Set the cursor on a slot."""
        before = self.cell
        if cell.key == self._key:
            return
        self._key = cell.key
        for each in (before, cell):
            if each is not None:
                self._repaint(each)
        self._scroll_to_cursor()
        self.post_message(self.Moved())

    def toggle_mark(self) -> bool:
        """Mark the tray under the cursor or take its mark off; False where there is no tray."""
        cell = self.cell
        if cell is None or cell.tray is None:
            return False
        self.marked ^= {cell.tray.number}
        self._repaint(cell)
        self.post_message(self.Moved())
        return True

    def clear_marks(self) -> None:
        """Take all marks off."""
        if self.marked:
            self.marked.clear()
            self.refresh()

    def _repaint(self, cell: Cell) -> None:
        self.refresh(
            Region(cell.x + 1, cell.y - self.scroll_offset.y, cell.width, len(cell.pieces))
        )

    def _scroll_to_cursor(self) -> None:
        cell = self.cell
        if cell is None:
            return
        end = cell.y + len(cell.pieces)
        top = max(cell.top, end - max(len(cell.pieces), self.size.height))
        self.scroll_to_region(Region(0, top, 1, end - top), animate=False, immediate=True)

    def action_beside(self, step: int) -> None:
        """Go so many slots on."""
        if self.cell is not None:
            self.put_cursor(self.drawing.beside(self.cell, step))

    def action_across(self, rows: int) -> None:
        """Go so many rows of slots down, or up."""
        if self.cell is not None:
            self.put_cursor(self.drawing.across(self.cell, rows))

    def action_end(self, place: int) -> None:
        """Go to the first slot or the last."""
        if self.drawing.cells:
            self.put_cursor(self.drawing.cells[place])


LEAST_WIDTH = 14
