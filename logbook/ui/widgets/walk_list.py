"""A list to walk through: headings that the cursor passes over, lines that it stops at.

Drawn line by line: moving the cursor repaints two rows, not the list, which a slow line thanks us
for. A row may have several lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from rich.segment import Segment
from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.style import Style

REVERSED = Style(reverse=True)
"""Textual leaves it out of the style of a part of a widget."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row; without a key it is a heading."""

    text: Content
    key: str = ""
    of: Any = field(default=None, compare=False)
    """What the row shows, for whoever asks what the cursor is on."""

    @classmethod
    def head(cls, words: str, tone: str = "bold $primary") -> Row:
        return cls(Content.styled(words, tone))

    def is_same(self, other: Row) -> bool:
        """Whether it looks the same; `==` leaves out the styles, as Textual's Content does."""
        return self.key == other.key and self.text.is_same(other.text)


class WalkList(ScrollView, can_focus=True):
    """Rows one under the other, with a cursor that keeps its place when the rows change."""

    COMPONENT_CLASSES = {"walk-list--row", "walk-list--heading", "walk-list--cursor"}
    BINDINGS = [
        Binding("up", "step(-1)", "up"),
        Binding("down", "step(1)", "down"),
        Binding("pageup", "page(-1)", "page up"),
        Binding("pagedown", "page(1)", "page down"),
        Binding("home", "end(-1)", "first"),
        Binding("end", "end(1)", "last"),
        Binding("enter", "select", "open"),
    ]

    @dataclass
    class Moved(Message):
        """The cursor came to another row."""

        key: str

    @dataclass
    class Selected(Message):
        """Enter, or a click, on a row."""

        key: str

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, classes=classes)
        self.rows: tuple[Row, ...] = ()
        self.highlighted: int | None = None
        self._lines: list[tuple[int, Content]] = []
        self._starts: list[int] = []

    def show(self, rows: Sequence[Row]) -> None:
        """Put the rows in. The cursor stays on its key, else near the same place."""
        fresh = tuple(rows)
        if len(fresh) == len(self.rows) and all(map(Row.is_same, fresh, self.rows)):
            self.rows = fresh  # it looks the same, but may be of another reading
            return
        key, place = self.key, self.highlighted or 0
        old_lines = self._lines
        self.rows = fresh
        self._lines, self._starts = [], []
        for number, row in enumerate(fresh):
            self._starts.append(len(self._lines))
            self._lines += [(number, line) for line in row.text.split("\n", allow_blank=True)]
        keys = [row.key for row in fresh]
        before = self.highlighted
        self.highlighted = keys.index(key) if key and key in keys else self._stop_near(place)
        self._measure()
        if len(old_lines) != len(self._lines) and self.styles.auto_dimensions:
            self.refresh(layout=True)
        self._refresh_changed(old_lines, before)
        self._keep_in_view()
        if self.key != key:
            self.post_message(self.Moved(self.key))

    def watch_show_vertical_scrollbar(self, shows: bool) -> None:
        """Put a bar that comes up where the list stands: what was scrolled without it, it missed."""
        if shows:
            self.vertical_scrollbar.position = self.scroll_y

    def _measure(self) -> None:
        """Say how large the whole is; at least the view, so that a short list lays out nothing."""
        lines = max(len(self._lines), self.size.height)
        size = Size(self.scrollable_content_region.width, lines)
        if size != self.virtual_size:
            self.virtual_size = size

    def _refresh_changed(self, old: list[tuple[int, Content]], cursor: int | None) -> None:
        changed = [
            y
            for y in range(max(len(old), len(self._lines)))
            if y >= len(old) or y >= len(self._lines) or not old[y][1].is_same(self._lines[y][1])
            or (old[y][0] == cursor) != (self._lines[y][0] == self.highlighted)
        ]  # fmt: skip
        self._refresh_lines(changed)

    def _refresh_lines(self, lines: Sequence[int]) -> None:
        top, width = self.scroll_offset.y, self.size.width
        height = self.size.height
        for y in lines:
            if 0 <= y - top < height:
                self.refresh(Region(0, y - top, width, 1))

    def _stop_near(self, place: int) -> int | None:
        after = range(place, len(self.rows))
        before = range(min(place, len(self.rows)) - 1, -1, -1)
        return next((each for each in (*after, *before) if self.rows[each].key), None)

    @property
    def key(self) -> str:
        """The key of the row that the cursor is on; '' for none."""
        at = self.highlighted
        return "" if at is None or at >= len(self.rows) else self.rows[at].key

    @property
    def under(self) -> Any:
        """What the row under the cursor is of; None for nothing."""
        at = self.highlighted
        return None if at is None or at >= len(self.rows) else self.rows[at].of

    def _ends(self, row: int) -> tuple[int, int]:
        after = self._starts[row + 1] if row + 1 < len(self._starts) else len(self._lines)
        return self._starts[row], after

    def _read_on(self, by: int) -> bool:
        """Scroll within a row of which only a part is in view; give whether there was more of it."""
        assert self.highlighted is not None  # noqa: S101 - asked of a cursor only
        start, end = self._ends(self.highlighted)
        top, height = self.scroll_offset.y, self.size.height
        if by > 0 and start < top + height < end:
            y = min(top + max(1, height - 1), end - height)
        elif by < 0 and start < top < end:
            y = max(top - max(1, height - 1), start)
        else:
            return False
        self.scroll_to(y=y, animate=False, immediate=True, force=True)
        return True

    def go_to(self, row: int | None) -> None:
        """Put the cursor on a row that has a key."""
        if row is None or row == self.highlighted or not self.rows[row].key:
            return
        old, self.highlighted = self.highlighted, row
        self._refresh_lines(
            [y for y, (number, _) in enumerate(self._lines) if number in (old, row)]
        )
        self._keep_in_view()
        self.post_message(self.Moved(self.key))

    def go_to_key(self, key: str) -> None:
        self.go_to(next((at for at, row in enumerate(self.rows) if row.key == key), None))

    def _keep_in_view(self) -> None:
        """Scroll so that the cursor's row is seen, with the heading above it."""
        if self.highlighted is None or not self.size.height:
            return
        row = self.highlighted
        start, end = self._ends(row)
        while row > 0 and not self.rows[row - 1].key:
            row -= 1
            start = self._starts[row]
        top, height = self.scroll_offset.y, self.size.height
        if start < top:
            self.scroll_to(y=start, animate=False, immediate=True, force=True)
        elif end > top + height:
            self.scroll_to(y=min(end - height, start), animate=False, immediate=True, force=True)

    def action_step(self, by: int) -> None:
        """Go to the next row that the cursor stops at; past the end it stays."""
        if self.highlighted is None or self._read_on(by):
            return
        at = self.highlighted + by
        while 0 <= at < len(self.rows) and not self.rows[at].key:
            at += by
        if 0 <= at < len(self.rows):
            self.go_to(at)
        else:
            self.scroll_to(y=0 if by < 0 else self.max_scroll_y, animate=False)

    def action_page(self, by: int) -> None:
        if self.highlighted is None or self._read_on(by):
            return
        line = self._starts[self.highlighted] + by * max(1, self.size.height - 2)
        line = min(max(line, 0), len(self._lines) - 1)
        row = self._stop_near(self._lines[line][0])
        if row == self.highlighted:  # one that is higher than a page
            self.action_step(by)
        else:
            self.go_to(row)

    def action_end(self, by: int) -> None:
        if self.rows:
            self.go_to(self._stop_near(0 if by < 0 else len(self.rows)))

    def action_select(self) -> None:
        if self.key:
            self.post_message(self.Selected(self.key))

    def on_click(self, event: events.Click) -> None:
        y = event.y + self.scroll_offset.y
        if 0 <= y < len(self._lines):
            row = self._lines[y][0]
            if row == self.highlighted:
                self.action_select()
            else:
                self.go_to(row)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many lines as there are, for a list that is as high as its rows."""
        return len(self._lines)

    def on_resize(self) -> None:
        self._measure()
        self._keep_in_view()

    def render_line(self, y: int) -> Strip:
        width = self.size.width
        at = y + self.scroll_offset.y
        if at >= len(self._lines):
            return Strip.blank(width, self.visual_style.rich_style)
        number, text = self._lines[at]
        name = "row" if self.rows[number].key else "heading"
        if number == self.highlighted:
            name = "cursor"
        style = self.get_visual_style(f"walk-list--{name}")
        if self.get_component_styles(f"walk-list--{name}").text_style.reverse:
            style += REVERSED
            text = Content(text.plain).truncate(self._room - 1, ellipsis=True)
            text = text.truncate(self._room - 1, pad=True)
        return self._strip(text, width, style)

    @property
    def _room(self) -> int:
        """How many cells a line may take: up to the scrollbar."""
        return max(2, self.scrollable_content_region.width)

    def _strip(self, text: Content, width: int, style: Style) -> Strip:
        """Draw a line one space in from the left, on one line whatever it holds.

        Textual's own drawing gives each piece of text a style of its own, which says where the
        piece stands, for selecting with the mouse; without it pieces share styles and what is
        computed for them.
        """
        text = Content.assemble(" ", text).truncate(self._room, ellipsis=True)
        pieces = [Segment(piece, painted.rich_style) for piece, painted in text.render(style, "")]
        line = Strip(pieces, text.cell_length)
        return line.extend_cell_length(width, style.rich_style).simplify()


class ShortList(WalkList):
    """A list above a page: its page keys belong to the page, what its screen shows below it."""

    BINDINGS = [
        Binding("pagedown", "screen.further", "further"),
        Binding("pageup", "screen.nearer", "nearer"),
    ]
