"""The lines above and below every screen: head, rule, what was said, foot."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from logbook.ui.commands import Command


def show_once(line: Static, text: Content) -> None:
    """Draw a line's text, if it is not what stands there already."""
    if line.content != text:
        line.update(text, layout=False)


class Head(Static):
    """The top line: when it is, which screen this is, and what counts."""

    def show(self, left: str, middle: str, right: str) -> None:
        """Draw the three parts over the width; the right one goes first when it is narrow."""
        width = max(self.size.width, self.app.size.width - 2)
        parts = [part for part in (left, middle, right) if part]
        while len(parts) > 1 and sum(len(part) + 2 for part in parts) > width:
            parts.pop(1 if len(parts) == 3 else 0)
        if len(parts) == 3:
            gap = max(2, width - sum(len(part) for part in parts) - 3)
            text = Content.assemble(parts[0], "   ", parts[1], " " * gap, parts[2])
        elif len(parts) == 2:
            gap = max(2, width - sum(len(part) for part in parts))
            text = Content.assemble(parts[0], " " * gap, parts[1])
        else:
            text = Content(parts[0][:width] if parts else "")
        show_once(self, text)


class Rule(Static):
    """A thin line; a warning that holds for the whole screen takes its place."""

    warning = ""

    def warn(self, words: str) -> None:
        """Show a warning instead of the line, or the line again for ''."""
        self.warning = words
        self.set_class(bool(words), "wants")
        self.on_resize()

    def on_resize(self) -> None:
        """Draw it as long as the screen is wide."""
        width = max(1, self.size.width)
        show_once(self, Content((self.warning or "─" * width)[:width]))


class Foot(Static):
    """The bottom line: the keys that matter most here; the rest are behind ?."""

    def show(self, commands: Sequence[Command]) -> None:
        """Draw as many as fit, the last one always."""
        width = max(10, self.app.size.width - 2)
        words = [(command.key_words, command.words) for command in commands]
        last = words.pop()
        used = len(last[0]) + len(last[1]) + 1
        shown = []
        for key, text in words:
            need = len(key) + len(text) + 4
            if used + need > width:
                break
            shown.append((key, text))
            used += need
        pieces: list[Content | str] = []
        for key, text in [*shown, last]:
            if pieces:
                pieces.append("   ")
            pieces += [Content.styled(key, "bold $foreground"), " ", text]
        show_once(self, Content.assemble(*pieces))


class Said(Static):
    """The line that answers the last key; it grows when a caution needs more room."""

    def say(self, words: str, *, wants: bool = False) -> None:
        """Show a sentence; `wants` for one that asks for attention."""
        width = max(10, self.app.size.width - 2)
        lines = min(5, sum(1 + max(0, len(line) - 1) // width for line in words.split("\n")) or 1)
        if self.styles.height is None or self.styles.height.value != lines:
            self.styles.height = lines
        self.set_class(wants, "wants")
        show_once(self, Content(words))
