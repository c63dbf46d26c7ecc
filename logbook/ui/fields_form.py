"""A question of a few short lines, read together."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from logbook.text import Refused, clean
from logbook.ui.asking import Question

Answer = TypeVar("Answer")


class AskFields(Question[Answer]):
    """Asks for several lines. Enter goes down and saves at the end; F9 saves at once.

    `read` turns the texts by name into the answer, or raises Refused, which is shown below them.
    """

    BINDINGS = [
        Binding("f9", "save", "save", id="save", priority=True),
        Binding("down", "app.focus_next", "next", priority=True),
        Binding("up", "app.focus_previous", "previous", priority=True),
    ]

    def __init__(
        self,
        asked: str,
        fields: Sequence[tuple[str, str, str]],
        read: Callable[[Mapping[str, str]], Answer],
        start: Mapping[str, str] | None = None,
    ) -> None:
        """Take (name, label, hint) of each line, and the texts to begin with."""
        super().__init__(asked, "enter next, saves at the end   {save} save   esc back")
        self.fields = tuple(fields)
        self.read = read
        self.start = self.first = {name: (start or {}).get(name, "") for name, _, _ in self.fields}

    def texts(self) -> Mapping[str, str]:
        """Give the lines by their names."""
        return {name: self.query_one(f"#field-{name}", Input).value for name, _, _ in self.fields}

    def offered(self) -> Mapping[str, str]:
        """Give what stood in the lines."""
        return self.first

    def take_up(self, texts: Mapping[str, str]) -> None:
        """Begin with what was typed before."""
        self.start = {
            name: clean(texts.get(name, text), lines=False) for name, text in self.start.items()
        }

    def compose_answer(self) -> ComposeResult:
        """Give the lines."""
        with VerticalScroll(can_focus=False) as scroll:
            scroll.styles.height = "auto"
            scroll.styles.max_height = "70%"
            for name, label, hint in self.fields:
                with Horizontal(classes="field"):
                    yield Static(Content(label), classes="label")
                    line = Input(self.start[name], id=f"field-{name}")
                    line.cursor_blink = False
                    yield line
                    yield Static(Content(hint), classes="note")

    @on(Input.Submitted)
    def next_line(self, event: Input.Submitted) -> None:
        """Go down a line; save at the last."""
        event.stop()
        if event.input.id == f"field-{self.fields[-1][0]}":
            self.action_save()
        else:
            self.focus_next()

    def action_save(self) -> None:
        """End with the answer, or say what is wrong; what was typed stays."""
        try:
            answer = self.read({name: text.strip() for name, text in self.texts().items()})
        except Refused as refused:
            self.complain(str(refused))
            return
        self.end(answer)
