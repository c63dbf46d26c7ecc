"""Help: the keys of the screen that one came from, and what it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from rich.cells import cell_len
from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from logbook.growing.cautions import shown_on
from logbook.ui.columns import wrapped
from logbook.ui.commands import EVERYWHERE
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.walk_list import Row, WalkList

if TYPE_CHECKING:
    from logbook.ui.forms.asking import Question

KEYS = 9
"""Cells of the column of keys."""
DIGITS = "Digits go to a tray: type its number. "
GENERAL = (
    "Arrows, Page Up and Page Down move. Hold Shift and drag to select with the mouse. ▌ marks "
    "what is late."
)

OF_QUESTIONS = "Type on an underlined line; what is there already is replaced as you type. In a list, ↓ and ↑ choose. Esc goes back, and nothing is written."


class HelpScreen(ModalScreen[None]):
    """Shows the keys of a screen; Enter on a line does it."""

    BINDINGS = [Binding("escape,question_mark,q", "dismiss", "back", id="back")]

    def __init__(self, about: LogScreen) -> None:
        super().__init__()
        self.about = about

    def compose(self) -> ComposeResult:
        yield Static(Content.styled(self.about.heading.capitalize(), "bold"))
        yield Static(Content(self.about.spoken(self.about.purpose)))
        yield WalkList()
        digits = DIGITS if self.about.digits_go_to_trays else ""
        yield Static(Content(digits + GENERAL), id="general")

    @on(events.Mount)
    @on(events.Resize)
    def fill(self) -> None:
        own = [name for name in self.about.own if name not in EVERYWHERE]
        rows = [Row(Content.styled("Here", "bold")), *map(self._row, own)]
        rows += [Row(Content.styled("Everywhere", "bold")), *map(self._row, EVERYWHERE)]
        if minded := shown_on(self.about.heading):
            rows.append(Row(Content.styled("Take care", "bold")))
            width = self.app.size.width - 4
            rows += [Row(Content("\n".join(wrapped(words, width)))) for words in minded]
        self.query_one(WalkList).show(rows)

    def _row(self, name: str) -> Row:
        command = self.about.logbook.commands[name]
        tip = wrapped(command.tip, self.app.size.width - KEYS - 4)
        words = ("\n" + " " * KEYS).join(tip)
        return Row(Content.assemble((f"{command.key_words:>7}  ", "bold"), words), name)

    @on(WalkList.Selected)
    def run_it(self, event: WalkList.Selected) -> None:
        name = event.key
        self.dismiss()
        command = self.about.logbook.commands[name]
        target = self.app if command.everywhere else self.about
        self.app.call_later(self.app.run_action, command.action, target)


class QuestionHelp(ModalScreen[None]):
    """Shows what a question asks, what may be written in its lines, and its keys."""

    BINDINGS = [Binding("escape,question_mark,f1,q,enter", "dismiss", "back", id="back")]

    def __init__(self, about: Question[Any]) -> None:
        super().__init__()
        self.about = about

    def compose(self) -> ComposeResult:
        yield Static(Content.styled(self.about.spoken(self.about.asked), "bold"))
        hints = self.about.hints
        width = max((cell_len(label) for label, _ in hints), default=0)
        lines = [f"{label + ' ' * (width - cell_len(label))}  {hint}" for label, hint in hints]
        lines += ["", *self.about.keyed(self.about.hint).split("   ")]
        lines += ["", OF_QUESTIONS]
        yield VerticalScroll(Static(Content("\n".join(lines).strip("\n"))))
