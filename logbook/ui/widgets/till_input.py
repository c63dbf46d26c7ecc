"""The line of the weigh-in: letters are keys while it is empty, and text once it is not."""

from __future__ import annotations

from dataclasses import dataclass

from textual.message import Message

from logbook.ui.widgets.line_input import LineInput

BEGINS = frozenset("/0123456789#.,+-−½¼¾⅓⅔⅛")
"""What begins a text. A / does too, though elsewhere it searches: one typed once more than a
question wanted must not take a weight along to another screen."""


class TillInput(LineInput):
    """An input that a weight can begin; other keys pass by while nothing is typed.

    Enter takes the text out at once, so that the next weight can be typed while it is written.
    """

    @dataclass
    class Entered(Message):
        """A line was entered."""

        text: str

    def __init__(self) -> None:
        super().__init__(select_on_focus=False)

    def passes(self, character: str | None) -> bool:
        return not self.value and character is not None and character not in BEGINS

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
