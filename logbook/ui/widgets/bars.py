"""The lines above and below every screen: head, rule, what was said, foot."""

from collections.abc import Sequence
from itertools import accumulate
from textwrap import wrap

from textual.content import Content
from textual.widgets import Static

from logbook.ui.columns import spread
from logbook.ui.command import Command


def show_once(line: Static, text: Content, *, layout: bool = False) -> None:
    """Draw a line's text, if it is not what stands there already; `layout` where it may grow."""
    stands = line.content
    if not (isinstance(stands, Content) and stands.is_same(text)):
        line.update(text, layout=layout)


class Head(Static):
    """The top line: when it is, which screen this is, and what counts."""

    def show(self, when: Sequence[str], screen: str, counts: str, late: str = "") -> None:
        """Draw the longest of `when` that leaves room for the name, which stays, counts and what is late."""
        width = max(10, self.app.size.width - 2)
        name, right = Content(screen), Content.assemble(counts, (late, "bold $warning"))
        for words in (*when, ""):
            left = Content.assemble(words, "   ", name) if words else name
            if left.cell_length + (right.cell_length + 2 if counts else 0) <= width:
                break
        right = right.truncate(max(1, width - left.cell_length - 2), ellipsis=True)
        whole = spread(left, right, width) if counts else left.truncate(width, ellipsis=True)
        show_once(self, whole)


class Rule(Static):
    """A thin line; a warning that holds for the whole screen takes its place."""

    warning = ""

    def warn(self, words: str) -> None:
        """Show a warning instead of the line, or the line again for ''."""
        self.warning = words
        self.set_class(bool(words), "wants")
        self.on_resize()

    def on_resize(self) -> None:
        """Draw it as long as the screen is wide; a warning may take a second line."""
        width = max(1, self.size.width)
        lines = wrap(self.warning, width)[:2] or ["─" * width]
        if self.styles.height is None or self.styles.height.value != len(lines):
            self.styles.height = len(lines)
        show_once(self, Content("\n".join(lines)))


class Pane(Static):
    """What stands beside the list on a broad screen: all about what the cursor is on."""


class Foot(Static):
    """The bottom line: the keys that matter most here; the rest are behind ?."""

    drawn: tuple[int, Sequence[Command]] = (0, ())
    """For which width and which commands."""

    def show(self, commands: Sequence[Command]) -> None:
        """Draw as many as fit, the last one always."""
        width = max(10, self.app.size.width - 2)
        if self.drawn == (width, commands):
            return
        self.drawn = (width, commands)
        *words, last = [
            Content.assemble((each.key_words, "bold $foreground"), f" {each.words}")
            for each in commands
        ]
        used = accumulate((each.cell_length + 3 for each in words), initial=last.cell_length)
        shown = [each for each, up_to in zip(words, [*used][1:], strict=True) if up_to <= width]
        show_once(self, Content("   ").join([*shown, last]))


MOST_LINES = 5


class Sentence(Static):
    """The line that answers the last key; it grows when a caution needs more room."""

    def say(self, words: str, *, wants: bool = False) -> None:
        """Show a sentence; `wants` for one that asks for attention."""
        self.set_class(wants, "wants")
        show_once(self, Content(words))
        self.on_resize()

    def on_resize(self) -> None:
        """Take as many lines as the sentence fills at this width, five or a third of all at most.

        On a few lines it leaves room for what is typed.
        """
        shown = self.content
        if not isinstance(shown, Content):
            return
        height, width = self.app.size.height, self.app.size.width - 2
        most = max(1, min(max(MOST_LINES, height // 3), height - 6))
        lines = min(most, len(shown.wrap(max(10, width))) or 1)
        if self.styles.height is None or self.styles.height.value != lines:
            self.styles.height = lines
