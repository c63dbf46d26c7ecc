"""A question of a few short lines, read together."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding

from logbook.text import Refused
from logbook.ui.forms.asking import Question
from logbook.ui.widgets.form_body import FormBody
from logbook.ui.widgets.form_lines import Field, LineDone

Answer = TypeVar("Answer")


class AskForm(Question[Answer]):
    """Asks for several lines. Enter goes down and saves at the end; F9 saves at once.

    `make` turns the values by name into the answer, or raises Refused, which is shown at the line
    that it is about, or below all.
    """

    BINDINGS = [
        Binding("f9", "save", "save", id="save", priority=True),
        Binding("down", "below", "next", priority=True),
        Binding("up", "app.focus_previous", "previous", priority=True),
    ]

    enter_saves: ClassVar = False
    """Whether Enter saves from every line, not only from the last."""

    def __init__(
        self, asked: str, fields: Sequence[Field], make: Callable[[Mapping[str, Any]], Answer],
        at_once: str = "save",
    ) -> None:  # fmt: skip
        """What the lines come to; `at_once` says what saving does with nothing typed."""
        super().__init__(asked, f"enter next, saves at the end   {{save}} {at_once}   esc back")
        self.fields, self.make = tuple(fields), make
        self.body = FormBody(fields)

    @property
    def hints(self) -> Sequence[tuple[str, str]]:
        return [(each.label, each.hint) for each in self.fields]

    def texts(self) -> Mapping[str, str]:
        return self.body.texts()

    def offered(self) -> Mapping[str, str]:
        return {name: entry.start for name, entry in self.body.entries.items()}

    def take_up(self, texts: Mapping[str, str]) -> None:
        self.body.put_texts(texts)

    def compose_answer(self) -> ComposeResult:
        yield self.body

    @on(LineDone)
    def next_line(self) -> None:
        if self.body.at_last or self.enter_saves:
            self.action_save()
        else:
            self.body.below()

    def action_below(self) -> None:
        self.body.below()

    def action_save(self) -> None:
        values = self.body.answers()
        if values is None:
            return
        try:
            answer = self.make(values)
        except Refused as refused:
            self.refuse(refused)
        else:
            self.end(answer)

    def refuse(self, refused: Refused) -> None:
        """Say why at the line that it is about, or below all."""
        if not self.body.refuses(refused):
            super().refuse(refused)
