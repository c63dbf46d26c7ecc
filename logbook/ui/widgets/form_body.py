"""The lines of a form together: what is typed in them, what is wrong with it, where one is."""

from collections.abc import Mapping, Sequence
from typing import Any

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, TextArea

from logbook.text import Refused
from logbook.ui.widgets.form_lines import Entry, Field, FormInput, SaveLine


class FormBody(Vertical):
    """A form's lines, on a screen or in a question's strip; with `save` a last one that saves."""

    def __init__(self, fields: Sequence[Field], save: Content | None = None) -> None:
        super().__init__(classes="fields")
        self.entries = {each.name: Entry(each) for each in fields}
        self._save = save
        self.ready = True
        """Whether the lines know what they offer, so that what is typed can be judged."""

    def compose(self) -> ComposeResult:
        yield from self.entries.values()
        if self._save is not None:
            yield SaveLine(self._save, id="save-line")

    def texts(self) -> dict[str, str]:
        """What is typed in each line, the changed ones first."""
        entries = sorted(self.entries.values(), key=lambda entry: not entry.changed)
        return {entry.field.name: entry.text for entry in entries}

    def put_texts(self, texts: Mapping[str, str]) -> None:
        """Put texts into the lines of these names, as if they had been typed."""
        for name, text in texts.items():
            if name in self.entries:
                self.entries[name].line.put(text)
                self.entries[name].complain("")

    @property
    def shown(self) -> list[Entry]:
        """The lines that are not hidden; `Entry.display` would leave out those being taken down."""
        return [entry for entry in self.entries.values() if entry.styles.display != "none"]

    @property
    def here(self) -> Entry | None:
        return self.entry_of(self.screen.focused)

    @staticmethod
    def entry_of(part: Widget | None) -> Entry | None:
        parts = part.ancestors_with_self if part is not None else ()
        return next((each for each in parts if isinstance(each, Entry)), None)

    def begin_at_top(self) -> None:
        if self.shown:
            self.screen.set_focus(self.shown[0].line)

    @property
    def at_last(self) -> bool:
        return self.here is not None and self.here is self.shown[-1]

    def step(self, by: int) -> bool:
        """Go up or down in the list of what the line may mean; False where one is not in it."""
        return self.here is not None and self.here.step(by)

    def take_chosen(self) -> None:
        """Write out in full the offer that one went to in the list."""
        if self.here is not None and isinstance(self.here.line, FormInput) and self.here.line.went:
            self.here.complete()

    def below(self) -> None:
        """Go to the next line; what was begun of an offer is written out."""
        if self.here is not None:
            self.here.complete()
        self.screen.focus_next()

    def read(self) -> tuple[dict[str, Any], dict[str, str]]:
        """The values of the shown lines by name, and what is wrong with others."""
        values: dict[str, Any] = {}
        wrong: dict[str, str] = {}
        for entry in self.shown:
            try:
                values[entry.field.name] = entry.field.value(entry.text)
            except Refused as refused:
                wrong[entry.field.name] = str(refused)
        return values, wrong

    def answers(self) -> dict[str, Any] | None:
        """The values by name; None where one is wrong, which is said beside its line."""
        values, wrong = self.read()
        self.complain(wrong)
        return None if wrong else values

    def refuses(self, refused: Refused) -> bool:
        """Say a refusal at the line that it is about; whether there is such a line."""
        about = refused.about in self.entries
        if about:
            self.complain({refused.about: str(refused)})
        return about

    def complain(self, wrong: Mapping[str, str]) -> None:
        """Say beside each line what is wrong with it, and go to the first of these."""
        for name, entry in self.entries.items():
            entry.complain(wrong.get(name, ""))
        first = next((entry for name, entry in self.entries.items() if name in wrong), None)
        if first is not None:
            self.screen.set_focus(first.line)
            self.watch_virtual_size()

    def on_descendant_focus(self) -> None:
        """Keep the line in view when its hint comes and that of the line before it goes."""
        self.watch_virtual_size()

    def watch_virtual_size(self) -> None:
        """Scroll the line with the cursor into view, also when those above it grew or shrank."""
        if self.is_attached and self.here is not None:
            self.call_after_refresh(self.here.scroll_visible, animate=False)

    @on(Input.Changed)
    @on(TextArea.Changed)
    def met(self, event: Input.Changed | TextArea.Changed) -> None:
        entry = self.entry_of(event.control)
        if entry is not None and entry.wrong and not entry.fault():
            entry.complain("")

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """Say what is wrong with a line when it is left; nothing typed is nothing wrong yet."""
        entry = self.entry_of(event.widget)
        if entry is not None and self.ready:
            entry.complain(entry.fault() if entry.text.strip() else "")
