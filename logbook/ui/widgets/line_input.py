"""One line to type into, as wide as its place whatever is typed."""

from __future__ import annotations

from textual.geometry import Size
from textual.reactive import Reactive
from textual.widgets import Input


class LineInput(Input):
    """An input that lays the screen out anew for no key.

    Textual does so for each, because the text might be what gives a widget its size.
    """

    virtual_size = Reactive(Size(0, 0), layout=False)
