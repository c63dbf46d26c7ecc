"""The lines of a form: a label, what is typed, a hint, and below it what is wrong with it."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from textual.actions import SkipAction
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Paste
from textual.message import Message
from textual.suggester import SuggestFromList
from textual.widgets import Static, TextArea

from logbook.growing.measures import Units
from logbook.growing.quantities import Price, Quantity
from logbook.text import Refused, clean, fold, listed, nearest
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.line_input import LineInput

MOST_LISTED = 40


def any_text(text: str) -> str:
    """Read a line as it is, cleaned."""
    return clean(text, lines=False)


@dataclass(frozen=True, slots=True)
class Field:
    """One line of a form.

    `read` turns the text into a value or raises Refused; an empty line is `empty` where it is
    `optional`, or asked for with the sentence `needed`. `offers` are completed as one types; with
    `pick` the line must hold one of the offers, a part of whose name is enough. `heading` is
    written above the line, `note` gives it several lines, `shown` hides it.
    """

    name: str
    label: str
    hint: str = ""
    start: str = ""
    read: Callable[[str], Any] = any_text
    offers: Sequence[str] = ()
    pick: bool = False
    heading: str = ""
    note: bool = False
    shown: bool = True
    optional: bool = False
    empty: Any = None
    needed: str = ""

    def value(self, text: str) -> Any:
        if not text.strip() and self.optional:
            return self.empty
        if not text.strip() and self.needed:
            raise Refused(self.needed)
        if self.pick and text.strip():
            text = picked(clean(text, lines=False), self.offers, self.label)
        return self.read(text)


def measured(
    name: str, label: str, quantity: Quantity | Price, hint: str = "", value: Any = None,
    units: Units = "metric", *, needed: bool = False,
) -> Field:  # fmt: skip
    """A line that takes a quantity; it may stay empty unless it is `needed`."""
    return Field(
        name, label, hint, quantity.text(value, units), lambda text: quantity.read(text, units),
        optional=not needed,
    )  # fmt: skip


def matches(text: str, offers: Sequence[str]) -> list[str]:
    """The offers that a text may mean: itself, else what begins with it, else what holds it.

    What holds its pieces one after another is the last resort: "2/3" means "Rack 2/Shelf 3".
    """
    wanted = fold(text)
    pieces = [re.escape(piece) for piece in re.split(r"[\s/]+", wanted) if piece]
    pattern = re.compile(".*".join(pieces))
    folded = [(offer, fold(offer)) for offer in offers]
    for fits in (
        [offer for offer, known in folded if known == wanted],
        [offer for offer, known in folded if known.startswith(wanted)],
        [offer for offer, known in folded if wanted in known],
    ):
        if fits:
            return fits
    return [offer for offer, known in folded if pattern.search(known)]


def picked(text: str, offers: Sequence[str], what: str) -> str:
    """The one offer that a text means; raise Refused when it fits none or several."""
    found = matches(text, offers)
    if len(found) == 1:
        return found[0]
    if found:
        raise Refused(f'"{text[:30]}" fits {listed(found, 4, joint="or")}; write more of it.')
    there = f" There is {listed(list(offers), 4)}." if len(offers) <= MOST_LISTED else ""
    raise Refused(f'There is no {what} "{text[:40]}".{nearest(text, list(offers))}{there}')


class LineDone(Message):
    """Enter was pressed in a line."""


class FormInput(LineInput):
    """One line of text. A ? that can be no part of it is left to the screen, which gives help."""

    def __init__(self, start: str = "", takes: Callable[[str], bool] = bool) -> None:
        """Take the text to begin with, and what says whether a text may be an answer."""
        super().__init__(start, select_on_focus=False)
        self.takes = takes

    def passes(self, character: str | None) -> bool:
        if character != "?" or self.screen.is_modal:
            return False
        return not self.value.strip() or not self.takes(f"{self.value}?")

    async def action_submit(self) -> None:
        self.post_message(LineDone())

    def _on_paste(self, event: Paste) -> None:
        """Take all lines of a paste, not the first alone."""
        event.stop()
        event.prevent_default()
        self.replace(clean(event.text, lines=False), *self.selection)

    @property
    def words(self) -> str:
        return self.value

    def put(self, text: str) -> None:
        self.value = clean(text, lines=False)
        self.cursor_position = len(self.value)

    def offer(self, offers: Sequence[str]) -> None:
        self.suggester = SuggestFromList(offers, case_sensitive=False) if offers else None


class FormNote(TextArea):
    """A text of several lines: ctrl+j makes a new one, Enter goes on."""

    BINDINGS = [
        Binding("enter", "submit", "next", priority=True),
        Binding("ctrl+j", "new_line", "new line", priority=True),
    ]

    def __init__(self, start: str) -> None:
        super().__init__(start, soft_wrap=True, show_line_numbers=False, tab_behavior="focus")
        self.cursor_blink = False

    def action_submit(self) -> None:
        self.post_message(LineDone())

    def action_new_line(self) -> None:
        self.insert("\n")

    def action_cursor_up(self, select: bool = False) -> None:
        """Go up; from the first line to the line of the form before."""
        if self.navigator.is_first_wrapped_line(self.cursor_location):
            raise SkipAction
        super().action_cursor_up(select)

    def action_cursor_down(self, select: bool = False) -> None:
        """Go down; from the last line to the next line of the form."""
        if self.navigator.is_last_wrapped_line(self.cursor_location):
            raise SkipAction
        super().action_cursor_down(select)

    def action_select_line(self) -> None:
        """Leave the key to the screens."""
        raise SkipAction

    action_select_all = action_select_line

    @property
    def words(self) -> str:
        return self.text

    def put(self, text: str) -> None:
        self.text = clean(text)
        self.move_cursor(self.document.end)

    def offer(self, offers: Sequence[str]) -> None:
        """Offer nothing: a note is in one's own words."""


class SaveLine(Static, can_focus=True):
    """The last line of a form: Enter on it saves."""

    BINDINGS = [Binding("enter", "submit", "save")]

    def action_submit(self) -> None:
        self.post_message(LineDone())


class Entry(Vertical):
    """A field on the screen, with what was typed and what is wrong with it."""

    def __init__(self, field: Field) -> None:
        super().__init__(classes="entry", id=f"entry-{field.name}")
        self.field = field
        self.start = field.start
        self.wrong = ""
        self.line: FormInput | FormNote = (
            FormNote(field.start) if field.note else FormInput(field.start, self.takes)
        )
        self.line.id = f"line-{field.name}"
        self.hint = Static(Content(field.hint), classes="note")
        self.below: Static | None = None
        self.display = field.shown
        self.line.offer(field.offers)

    def compose(self) -> ComposeResult:
        if self.field.heading:
            yield Static(Content(self.field.heading), classes="heading")
        with Horizontal(classes="field"):
            yield Static(Content(self.field.label), classes="label")
            yield self.line
            yield self.hint

    @property
    def text(self) -> str:
        return self.line.words

    @property
    def changed(self) -> bool:
        """Whether something else is typed than the form began with."""
        return self.text != self.start

    def begin(self, start: str) -> None:
        """Begin with a text; what was typed already stays."""
        start = clean(start, lines=self.field.note)
        if not self.changed and self.text != start:
            self.line.put(start)
        self.start = start

    def clear(self) -> None:
        self.line.put(self.start)
        self.complain("")

    def adjust(self, field: Field) -> None:
        """Take over a field's hint, offers, start and whether it is shown."""
        if field.offers != self.field.offers:
            self.line.offer(field.offers)
        self.show_hint(field.hint)
        self.show(field.shown)
        self.field = field
        self.begin(field.start)

    def show_hint(self, hint: str) -> None:
        show_once(self.hint, Content(hint), layout=True)

    def show(self, shown: bool) -> None:
        if self.display != shown:
            self.display = shown

    def complete(self) -> None:
        """Write out in full what was begun of an offer: the one it fits, or the one shown."""
        field = self.field
        if not field.pick or not self.text.strip():
            return
        found = matches(self.text, field.offers)
        begins = found and fold(found[0]).startswith(fold(self.text))
        if found and (begins or len(found) == 1) and found[0] != self.text:
            self.line.put(found[0])

    def takes(self, text: str) -> bool:
        """Whether a text may be an answer, or the beginning of one that is picked."""
        return bool(matches(text, self.field.offers)) if self.field.pick else not self.fault(text)

    def fault(self, text: str | None = None) -> str:
        """Say what is wrong with a text, or with what is typed; '' for nothing."""
        try:
            self.field.value(self.text if text is None else text)
        except Refused as refused:
            return str(refused)
        return ""

    def complain(self, words: str) -> None:
        """Write below the line what is wrong with it; '' takes it away."""
        if words == self.wrong:
            return
        self.wrong = words
        if self.below is None:
            self.below = Static(Content(words), classes="wrong")
            self.mount(self.below)
        self.below.update(Content(words))
        self.below.display = bool(words)
