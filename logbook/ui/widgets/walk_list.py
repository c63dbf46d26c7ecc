"""A list to walk through: headings that the cursor passes over, lines that it stops at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option


@dataclass(frozen=True, slots=True)
class Row:
    """One row; without a key it is a heading."""

    text: Content
    key: str = ""


class WalkList(OptionList, inherit_bindings=True):
    """An option list that keeps its place when its rows change."""

    def show(self, rows: Sequence[Row]) -> None:
        """Put the rows in. The cursor stays on its key, else near the same place.

        Rows of the same keys are changed where they differ. What was on top stays on top as long
        as the cursor is in view.
        """
        if [option.id for option in self.options] == [row.key or None for row in rows]:
            for place, (option, row) in enumerate(zip(self.options, rows, strict=True)):
                if not (isinstance(option.prompt, Content) and option.prompt.is_same(row.text)):
                    self.replace_option_prompt_at_index(place, row.text)
            return
        before, top = self.highlighted, self.scroll_offset.y
        key = self.key
        self.clear_options()
        self.add_options(
            [Option(row.text, id=row.key or None, disabled=not row.key) for row in rows]
        )
        self.scroll_to(y=top, animate=False)
        keys = [row.key for row in rows]
        if key and key in keys:
            self.highlighted = keys.index(key)
        else:
            self.highlighted = self._stop_near(keys, before or 0)

    def scroll_to_highlight(self, top: bool = False) -> None:
        """Scroll to the row under the cursor; going up, the headings right above it come too."""
        before = self.scroll_offset.y
        super().scroll_to_highlight(top)
        at, lines = self.highlighted, 0
        if at is None or self.scroll_offset.y >= before:
            return
        while at > 0 and self.options[at - 1].disabled:
            at -= 1
            lines += str(self.options[at].prompt).count("\n") + 1
        self.scroll_to(y=max(0, self.scroll_offset.y - lines), animate=False)

    @staticmethod
    def _stop_near(keys: Sequence[str], place: int) -> int | None:
        after = [each for each in range(min(place, len(keys)), len(keys)) if keys[each]]
        before = [each for each in range(min(place, len(keys)) - 1, -1, -1) if keys[each]]
        return after[0] if after else before[0] if before else None

    @property
    def key(self) -> str:
        """The key of the row that the cursor is on; '' for none."""
        if self.highlighted is None or self.highlighted >= self.option_count:
            return ""
        return self.get_option_at_index(self.highlighted).id or ""
