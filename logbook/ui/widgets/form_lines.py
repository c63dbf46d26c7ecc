"""The lines of a form: a label, what is typed, a hint, and below it what is wrong with it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from textual.actions import SkipAction
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Key, Paste
from textual.message import Message
from textual.suggester import SuggestFromList
from textual.widget import Widget
from textual.widgets import Static, TextArea

from logbook.growing.measures import Units
from logbook.growing.quantities import Price, Quantity
from logbook.text import Refused, clean, fold, listed, nearest, shortened
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
    `optional`, or asked for with the sentence `needed`. `offers` are listed as one types, each
    with what is said `beside` it; with `pick` the line must hold one of them, a part of whose name
    is enough. `heading` is
    written above the line, `note` gives it several lines, `shown` hides it; a `part` of what the line
    above names is indented.
    """

    name: str
    label: str
    hint: str = ""
    start: str = ""
    read: Callable[[str], Any] = any_text
    offers: Sequence[str] = ()
    beside: Mapping[str, str] = field(default_factory=dict)
    pick: bool = False
    heading: str = ""
    note: bool = False
    shown: bool = True
    optional: bool = False
    empty: Any = None
    needed: str = ""
    part: bool = False

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
    """The offers that a text may mean: itself, else what begins with it, holds it or is so shortened."""
    wanted = fold(text)
    folded = [(offer, fold(offer)) for offer in offers]
    for fits in (
        [offer for offer, known in folded if known == wanted],
        [offer for offer, known in folded if known.startswith(wanted)],
        [offer for offer, known in folded if wanted in known],
    ):
        if fits:
            return fits
    return shortened(text, offers)


def picked(text: str, offers: Sequence[str], what: str) -> str:
    """The one offer that a text means; raise Refused when it fits none or several."""
    found = matches(text, offers)
    if len(found) == 1:
        return found[0]
    if found:
        raise Refused(f'"{text[:30]}" fits {listed(found, 4, joint="or")}; type more of it.')
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
        self.first = start
        """What was offered, not typed: typing replaces it."""
        self.offers: Sequence[str] = ()
        self.beside: Mapping[str, str] = {}
        self.pick = False
        self._marked: int | None = None

    def passes(self, character: str | None) -> bool:
        if character != "?":
            return False
        return not self.value.strip() or not self.takes(f"{self.value}?")

    async def action_submit(self) -> None:
        self.post_message(LineDone())

    def on_focus(self) -> None:
        self.select_on_focus = self.value == self.first

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

    def begin(self, start: str) -> None:
        """Put in what is offered."""
        self.put(start)
        self.first = self.value
        if self.has_focus:
            self.select_all()

    def offer(
        self, offers: Sequence[str], beside: Mapping[str, str] | None = None, *, pick: bool = False
    ) -> None:
        self.offers, self.beside, self.pick = offers, beside or {}, pick
        self.suggester = SuggestFromList(offers, case_sensitive=False) if offers else None

    # the list to pick from

    def watch_value(self) -> None:
        self._marked = None

    @property
    def fits(self) -> Sequence[str]:
        """The offers that the text may mean; none where it is one of them."""
        if not self.value.strip():
            return self.offers
        found = matches(self.value, self.offers)
        return () if found == [self.value] else found

    @property
    def mark(self) -> int | None:
        """Which of these Enter takes: the one gone to, else what the text begins or alone fits."""
        if self._marked is not None or not (self.pick and self.value.strip()):
            return self._marked
        fits = self.fits
        begins = bool(fits) and fold(fits[0]).startswith(fold(self.value))
        return 0 if begins or len(fits) == 1 else None

    @property
    def went(self) -> bool:
        """Whether one went to an offer in the list."""
        return self._marked is not None

    def step(self, by: int) -> bool:
        """Go up or down in the list; False where one is not in it, or goes out above it."""
        at, fits = self.mark, self.fits
        if at is None or len(fits) < 2 or at + by < 0:
            return False
        self._marked = min(at + by, len(fits) - 1)
        return True

    def action_cursor_right(self, select: bool = False) -> None:
        """Go right; at the end go into the list, where nothing is completed."""
        if self.cursor_at_end and self.mark is None and self.fits and not self._suggestion:
            self._marked = 0
            self.post_message(self.Changed(self, self.value))
        else:
            super().action_cursor_right(select)

    def complete(self) -> None:
        """Write out in full the offer that is marked."""
        if self.mark is not None:
            self.put(self.fits[self.mark])


class FormNote(TextArea):
    """A text of several lines: ctrl+j makes a new one, Enter goes on."""

    BINDINGS = [
        Binding("enter", "submit", "next", priority=True),
        Binding("ctrl+j", "new_line", "new line", priority=True),
    ]

    def __init__(self, start: str) -> None:
        super().__init__(start, soft_wrap=True, show_line_numbers=False, tab_behavior="focus")
        self.cursor_blink = False

    def passes(self, character: str | None) -> bool:
        """Whether a key is no text here, but asks for help."""
        return character == "?" and not self.text.strip()

    def check_consume_key(self, key: str, character: str | None = None) -> bool:
        return super().check_consume_key(key, character) and not self.passes(character)

    def on_key(self, event: Key) -> None:
        if self.passes(event.character):
            event.prevent_default()

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

    begin = put


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
        self._offer(field)
        self.line.id = f"line-{field.name}"
        self.hint = Static(Content(field.hint), classes="note")
        self.below: Static | None = None
        self._made = False
        self.display = field.shown
        self.set_class(field.part, "-part")
        self.show_hint(field.hint)

    def compose(self) -> ComposeResult:
        """A hidden line is made when it is first shown: most of a template's stages never are."""
        if self.field.shown and not self._made:
            yield from self._parts()

    def _parts(self) -> Iterator[Widget]:
        self._made = True
        if self.field.heading:
            yield Static(Content(self.field.heading), classes="heading")
        label = Static(Content(self.field.label), classes="label")
        yield Horizontal(label, self.line, self.hint, classes="field")

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
            self.line.begin(start)
        self.start = start

    def clear(self) -> None:
        self.line.begin(self.start)
        self.complain("")

    def _offer(self, field: Field) -> None:
        if isinstance(self.line, FormInput):
            self.line.offer(field.offers, field.beside, pick=field.pick)

    def adjust(self, field: Field) -> None:
        """Take over a field's hint, offers, start and whether it is shown."""
        self.vary(field)
        self.show_hint(field.hint)
        self.begin(field.start)

    def vary(self, field: Field) -> None:
        """Take over what of a field goes by what stands in other lines."""
        old, self.field = self.field, field
        if (field.offers, field.beside, field.pick) != (old.offers, old.beside, old.pick):
            self._offer(field)
        if field.hint != old.hint:
            self.show_hint(field.hint)
        self.show(field.shown)

    def show_hint(self, hint: str) -> None:
        self.set_class(bool(hint) and not self.field.note, "-hinted")
        show_once(self.hint, Content(hint), layout=True)

    def show(self, shown: bool) -> None:
        if self.display == shown:
            return
        self.display = shown
        if shown and self.is_attached and not self._made:
            self.mount_all(self._parts())

    def step(self, by: int) -> bool:
        return isinstance(self.line, FormInput) and self.line.step(by)

    def complete(self) -> None:
        """Write out in full what is marked of the offers."""
        if isinstance(self.line, FormInput):
            self.line.complete()

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
