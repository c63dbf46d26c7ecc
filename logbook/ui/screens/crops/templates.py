"""Crop templates: how each crop is grown here, and what it is expected to give."""

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.crops.template_table import template_columns
from logbook.actions.crops.templates import TemplateView, all_templates, retire_template
from logbook.growing.crops.template_text import template_words
from logbook.growing.measures import range_words
from logbook.text import plural
from logbook.ui.forms.asking import AskYes
from logbook.ui.frame import trimmed
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import SowSubject, TemplateSubject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row, WalkList

BESIDE, LIST = 124, 80


def _tone(each: TemplateView) -> str:
    return "$text-past" if each.retired else ""


class TemplatesScreen(LogScreen):
    """A list of templates, and the one under the cursor in full."""

    heading = "crop templates"
    purpose = (
        "How each crop is grown here: seed, soak, stages, when to cut, what to expect. A change "
        "makes a new version; batches keep the one they were sown with. Enter shows one in full."
    )
    own = ("open", "sow_from", "edit", "copy", "add", "retire")
    view: list[TemplateView] | None = None

    def compose_body(self) -> ComposeResult:
        with Container(id="both"):
            yield WalkList(id="list")
            with VerticalScroll(id="about"):
                yield Static(id="words")

    def load(self, book: Book) -> list[TemplateView]:
        return all_templates(book)

    def draw(self, view: list[TemplateView]) -> None:
        self.set_class(self.app.size.width >= BESIDE, "-beside")
        standing = [each for each in view if not each.retired]
        self.counts = plural(len(standing), "template")
        columns = template_columns(self.book.units)
        rows = table_rows(columns, view, self._cells(), lambda one: one.template.name, _tone)
        if not standing:
            rows.insert(0, Row(Content(self.keyed("No templates: {add} makes one."))))
        if len(standing) < len(view):
            first = next(at for at, row in enumerate(rows) if row.of is not None and row.of.retired)
            rows.insert(first, Row.head("Retired", "$text-past"))
        self.walk.show(rows)
        self.draw_one()

    def _cells(self) -> int:
        width = self.app.size.width
        return (LIST if width >= BESIDE else width) - 3

    @on(WalkList.Moved)
    def draw_one(self) -> None:
        each: TemplateView | None = self.walk.under
        words: list[str] = []
        if each is not None:
            first, *rest = template_words(each.template, self.book.units, each.expected)
            words.append(first)
            if each.retired:
                words.append(self.keyed("retired: not offered for sowing; {retire} brings it back"))
            if each.expected is not None and each.expected.trays:
                grams = range_words(each.expected.low, each.expected.high, self.book.units)
                words.append(f"now expected: {grams}, 4 in 5, {each.expected.rests_on}")
            whys = [f"version {note.number}: {note.why}" for note in each.versions if note.why]
            words += [*rest, *whys]
        lines = [Content.styled(line, "" if at else "bold") for at, line in enumerate(words)]
        told, text = self.query_one("#words", Static), Content("\n").join(lines)
        if told.content != text:
            told.update(text)
            self.query_one("#about", VerticalScroll).scroll_home(animate=False)

    def line_words(self) -> str:
        return self._full_words() if self.has_class("-full") else super().line_words()

    def page_words(self) -> str:
        return self._full_words() if self.has_class("-full") else super().page_words()

    def _full_words(self) -> str:
        return trimmed(str(self.query_one("#words", Static).content))

    def on_key(self, event: Key) -> None:
        if event.key in ("escape", "enter") and self.has_class("-full"):
            event.stop()
            self._show_full(full=False)

    def action_open(self) -> None:
        self._show_full(full=not self.has_class("-full"))

    def _show_full(self, *, full: bool) -> None:
        self.set_class(full, "-full")
        self.query_one("#about" if full else "#list").focus()

    def action_sow_from(self) -> None:
        each: TemplateView | None = self.walk.under
        if each is None:
            self.logbook.go(SowSubject())
        elif each.retired:
            self.say(f"{each.template.name} is retired; {self.keyed('{retire}')} brings it back.")
        else:
            self.logbook.go(SowSubject(each.template.name))

    def action_edit(self) -> None:
        if self.walk.key:
            self.logbook.go(TemplateSubject(self.walk.key))

    def action_copy(self) -> None:
        if self.walk.key:
            self.logbook.go(TemplateSubject(self.walk.key, copy=True))

    def action_add(self) -> None:
        self.logbook.go(TemplateSubject())

    @work
    async def action_retire(self) -> None:
        each: TemplateView | None = self.walk.under
        if each is None:
            return
        name = each.template.name
        if not each.retired and not await self.ask(
            AskYes(f"Retire {name}? Batches keep it; it is no longer offered for sowing.")
        ):
            return
        done = await self.ask_book(retire_template, name, back=each.retired)
        if done is not None:
            self.say(f"{name} is back in use." if each.retired else f"{name} is retired.")
