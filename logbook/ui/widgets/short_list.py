"""A short list above a page: Page Up and Page Down move the page, the arrows the list."""

from __future__ import annotations

from textual.binding import Binding

from logbook.ui.widgets.walk_list import WalkList


class ShortList(WalkList):
    """A list whose page keys belong to what its screen shows below it."""

    BINDINGS = [
        Binding("pagedown", "screen.further", "further"),
        Binding("pageup", "screen.nearer", "nearer"),
    ]
