"""The frame of all forms: lines as data, what is wrong beside its line, a preview below.

A subclass gives its fields, reads a preview from their values, and writes them. The frame keeps
what is typed, goes from line to line, asks before leaving, and saves once.
"""

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, ClassVar

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, Static, TextArea

from logbook.text import Refused
from logbook.ui.command import Command
from logbook.ui.drafts import Draft
from logbook.ui.forms.asking import AskChoice
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.form_body import FormBody
from logbook.ui.widgets.form_lines import (
    Entry,
    Field,
    FormInput,
    FormNote,
    LineDone,
    SaveLine,
)
from logbook.ui.widgets.offer_list import OfferList

LEAVING = (
    ("save", "s", "save it now"),
    ("keep", "k", "keep what you typed for later"),
    ("drop", "x", "discard it"),
)


@dataclass(frozen=True, slots=True)
class Preview:
    """What a form comes to: lines to show below it, and hints for its lines."""

    lines: tuple[Content, ...] = ()
    hints: Mapping[str, str] = field(default_factory=dict)


class FormScreen(LogScreen):
    """A screen with a form; `kind` names it and its drafts, `load` gives what it begins with."""

    BINDINGS = [Binding("tab", "on", "next line", show=False, priority=True)]
    own = ("save", "below", "above", "further", "nearer")
    page_below = "#preview-area"
    last = "back"
    writes_unread = True
    kind: ClassVar[str] = ""
    save_words: ClassVar[str] = "save"

    def __init__(self) -> None:
        super().__init__()
        self.entries: dict[str, Entry] = {}
        self.about: str | None = None
        self._told: dict[str, str] = {}
        self._saving = False
        self._previewing = False
        self._stale = False

    # what a subclass gives

    def fields(self) -> tuple[Field, ...]:
        """The lines, always the same ones; called anew with every view and change."""
        return ()

    def preview(self, values: Mapping[str, Any]) -> Preview:
        """What the values come to; runs in a thread, may raise Refused."""
        return Preview()

    async def write(self, values: Mapping[str, Any]) -> str:
        """Write the form and give the sentence that says so; raise Refused."""
        return ""

    # the frame

    def footer(self) -> tuple[str, ...]:
        return ("save", "help", "below", "further")

    def compose_body(self) -> ComposeResult:
        words = Content.assemble(
            ("Save", "bold"), f" ({self.keyed('{save}')}): {self.save_words}".removesuffix(": save")
        )
        self.body = FormBody(self.fields(), words)
        self.entries, self.body.ready = self.body.entries, False
        yield self.body
        yield OfferList(Content(""))
        with Vertical(id="preview-area"):
            yield Static(Content(""), id="preview")

    def texts(self) -> dict[str, str]:
        return self.body.texts()

    @property
    def unsaved(self) -> bool:
        return any(entry.changed for entry in self.entries.values())

    def clear(self) -> None:
        """Throw away what was typed and begin anew at the first line."""
        for entry in self.entries.values():
            entry.clear()
        self._told = self.texts()
        self.say("")
        self.refresh_preview()
        self.body.begin_at_top()

    @property
    def draft(self) -> Draft:
        return Draft(self.kind, self.draft_label, self.texts(), place=self.about or "")

    @property
    def draft_label(self) -> str:
        """Name what the form is about, for the offer to take it up again."""
        return ""

    def on_screen_resume(self) -> None:
        """See what the form is to be about; take up what was typed before."""
        about = self.subject.about
        if about == self.about:
            return
        self.about = about
        self.view, self.body.ready = None, False
        for entry in self.entries.values():
            entry.start = ""
        self.clear()
        if (kept := self.logbook.drafts.find(self.draft.key)) is not None:
            self.body.put_texts(kept.texts)
            self.say("This was typed before and is not saved yet.")

    def draw(self, view: Any) -> None:
        """Let the lines take over their hints, offers and starts; what is typed stays."""
        for each in self.fields():
            self.entries[each.name].adjust(each)
        self.body.ready = True
        here = self.body.here
        if self.focused is None or (here is not None and not here.display):
            self.body.begin_at_top()
        self._show_offers()
        self.refresh_preview()
        self.query_one("#preview").refresh(layout=True)

    @on(Input.Changed)
    @on(TextArea.Changed)
    def changed(self, event: Input.Changed | TextArea.Changed) -> None:
        event.stop()
        texts = self.texts()
        if texts == self._told:
            self._show_offers()
            return
        self._told = texts
        for each in self.fields():
            self.entries[each.name].vary(each)
        if self.unsaved:
            self.logbook.drafts.keep(self.draft)
        else:
            self.logbook.drafts.drop(self.draft.key)
        self._show_offers()
        self.refresh_preview()

    @on(LineDone)
    def typed(self, event: LineDone) -> None:
        event.stop()
        if isinstance(self.focused, SaveLine) or self.body.at_last:
            self.action_save()
        else:
            self.body.below()

    def action_on(self) -> None:
        self.body.below()

    def action_below(self) -> None:
        if self.body.step(1):
            self._show_offers()
        else:
            self.body.below()

    def action_above(self) -> None:
        if self.body.step(-1):
            self._show_offers()
        else:
            self.focus_previous()

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """Say that there is no preview while the line that was left is wrong."""
        entry = self.body.entry_of(event.widget)
        if entry is not None and entry.wrong:
            self.refresh_preview()

    def on_descendant_focus(self) -> None:
        self._show_offers()

    def _show_offers(self) -> None:
        entry = self.body.here
        self.query_one(OfferList).show(entry.line if entry is not None else None)
        self.draw_foot()

    def foot_commands(self) -> list[Command]:
        """The footer; help has the key that opens it from the line that one is in."""
        line, commands = self.focused, super().foot_commands()
        if not isinstance(line, FormInput | FormNote) or line.passes("?"):
            return commands
        return [replace(each, key="f1") if each.name == "help" else each for each in commands]

    @work(group="preview")
    async def refresh_preview(self) -> None:
        """Compute the preview off the loop; what is typed meanwhile makes it compute once more."""
        # Not an exclusive worker: that would cancel the wait, not the thread, and a thread for
        # every key would pile up. One runs; a key that comes meanwhile makes it run again.
        self._stale = True
        if self._previewing:
            return
        self._previewing = True
        try:
            while self._stale:
                self._stale = False
                shown = await self._previewed()
                if self.stands:
                    self._show_preview(shown)
        finally:
            self._previewing = False

    async def _previewed(self) -> Preview:
        values, wrong = self.body.read()
        for name, words in wrong.items():
            entry = self.entries[name]
            if isinstance(entry.line, FormInput) and entry is self.body.here and entry.line.fits:
                return Preview()  # the list says what is to be chosen from
            says = f"No preview yet: see {entry.field.label}." if entry.wrong else words
            return self._lacking(says)
        try:
            return await asyncio.to_thread(self.preview, values)
        except Refused as refused:
            about = self.entries.get(refused.about)
            if about is not None and not about.text.strip() and not about.wrong:
                return self._lacking(str(refused))
            return Preview((Content.styled(self.spoken(str(refused)), "$warning"),))

    def _lacking(self, words: str) -> Preview:
        """What there is to say before all is typed; of a form not begun, what it is for."""
        says = words if self.unsaved else self.purpose
        return Preview((Content.styled(self.spoken(says), "$text-past"),))

    def _show_preview(self, shown: Preview) -> None:
        preview, words = self.query_one("#preview", Static), Content("\n").join(shown.lines)
        show_once(preview, words, layout=self._grows(preview.content, words))
        for name, entry in self.entries.items():
            entry.show_hint(shown.hints.get(name, entry.field.hint))

    def _grows(self, stands: object, words: Content) -> bool:
        """Whether a text may fill other lines than the one that stands there."""
        if not isinstance(stands, Content):
            return True
        old, new = stands.split("\n"), words.split("\n")
        width = self.app.size.width - 4
        return len(old) != len(new) or any(line.cell_length > width for line in (*old, *new))

    async def save_now(self) -> str | None:
        """Write the form once; give what was written in words, or None when it was refused."""
        if self._saving:
            return None
        self._saving = True
        self.say("")
        try:
            if self.view is None:
                await self.reload()  # keys were faster than the first look into the book
            self.body.take_chosen()
            values = self.body.answers()
            if values is None:
                return None
            drafts, key = self.logbook.drafts, self.draft.key
            words = await self.write(values)
            drafts.drop(key)
            self.clear()
        except Refused as refused:
            if not self.body.refuses(refused):
                self.refuse(refused)
            return None
        finally:
            self._saving = False
        return words

    @work(group="save")
    async def action_save(self) -> None:
        if (words := await self.save_now()) is not None:
            await self.after_saving(words)

    async def after_saving(self, words: str) -> None:
        await self.logbook.go_back()
        self._say_there(words)

    async def may_leave(self) -> bool:
        """Ask whether to save, to keep for later or to throw away what is typed."""
        answer = await self.app.push_screen_wait(
            AskChoice("This form is not saved", LEAVING, "enter choose   esc stay here")
        )
        if answer == "drop":
            self.logbook.drafts.drop(self.draft.key)
            self.clear()
        if answer == "save":
            if (words := await self.save_now()) is not None:
                self.app.call_later(self._say_there, words)
            return words is not None
        return answer is not None

    async def may_close(self) -> bool:
        """Ask as when leaving; what is kept is offered when the book is opened again."""
        return await self.may_leave()

    def _say_there(self, words: str) -> None:
        if isinstance(self.app.screen, LogScreen):
            self.app.screen.say(words)
