"""One line to type into, as wide as its place whatever is typed."""

from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from textual.events import Key, Paste
from textual.geometry import Size
from textual.message import Message
from textual.reactive import Reactive
from textual.widgets import Input

BEGINS = frozenset("/0123456789#.,+-−½¼¾⅓⅔⅛")
"""What begins a text. A / does too, though elsewhere it searches: one typed once more than a
question wanted must not take a weight along to another screen."""


class LineInput(Input):
    """An input that lays the screen out anew for no key.

    Textual does so for each, because the text might be what gives a widget its size.
    """

    virtual_size = Reactive(Size(0, 0), layout=False)
    cursor_blink = Reactive(False, init=False)

    def passes(self, character: str | None) -> bool:
        """Whether a key is no text here, but left to the screen."""
        return False

    def goes_on(self, event: Key | Paste) -> AbstractSet[str]:
        """The groups of work during which it takes a key or a paste all the same."""
        return frozenset()

    def check_consume_key(self, key: str, character: str | None) -> bool:
        return super().check_consume_key(key, character) and not self.passes(character)

    def on_key(self, event: Key) -> None:
        if event.is_printable and self.passes(event.character):
            event.prevent_default()


class TillInput(LineInput):
    """An input that a weight can begin, taken out by Enter at once; other keys pass while empty."""

    @dataclass
    class Entered(Message):
        """A line was entered."""

        text: str

    def __init__(self) -> None:
        super().__init__(select_on_focus=False)

    def passes(self, character: str | None) -> bool:
        return not self.value and character is not None and character not in BEGINS

    def goes_on(self, event: Key | Paste) -> AbstractSet[str]:
        """The next weight is typed while one is written; commands, and arrows to the next, wait."""
        typed = isinstance(event, Paste) or (
            event.character is not None and not self.passes(event.character)
        )
        return frozenset({"weigh"}) if typed else frozenset()

    async def action_submit(self) -> None:
        """Hand the text over and begin anew."""
        text = self.value
        self.value = ""
        self.post_message(self.Entered(text))

    def put_back(self, text: str) -> bool:
        """Put a text back that was not written; False when something new stands there already."""
        if self.value:
            return False
        self.value = text
        self.cursor_position = len(text)
        return True
