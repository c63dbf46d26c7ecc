"""One line to type into, as wide as its place whatever is typed."""

from __future__ import annotations

from textual.events import Key
from textual.geometry import Size
from textual.reactive import Reactive
from textual.widgets import Input


class LineInput(Input):
    """An input that lays the screen out anew for no key.

    Textual does so for each, because the text might be what gives a widget its size.
    """

    virtual_size = Reactive(Size(0, 0), layout=False)
    cursor_blink = Reactive(False, init=False)

    def passes(self, character: str | None) -> bool:
        """Whether a key is no text here, but left to the screen."""
        return False

    def check_consume_key(self, key: str, character: str | None) -> bool:
        return super().check_consume_key(key, character) and not self.passes(character)

    def on_key(self, event: Key) -> None:
        if event.is_printable and self.passes(event.character):
            event.prevent_default()
