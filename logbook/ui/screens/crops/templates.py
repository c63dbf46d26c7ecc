"""Crop templates: how each crop is grown here, and what it is expected to give."""

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.crops.templates import TemplateView, all_templates, retire_template
from logbook.growing.crops.template_text import template_words
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.measures import number_words, range_words, span_words
from logbook.text import plural
from logbook.ui.columns import column, fit, spread
from logbook.ui.forms.asking import AskYes
from logbook.ui.frame import trimmed
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import SowSubject, TemplateSubject
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.walk_list import Row, WalkList

BESIDE, LIST = 124, 80


def cut_days(template: CropTemplate) -> str:
    """Say how long from sowing to the best moment to cut: "9 d"."""
    days = (template.planned_seconds() + template.cut.best_seconds) / 86_400
    return f"{number_words(days)} d"


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
        yield Static(id="titles", classes="plain")
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
        rows = [Row(self._text(each), each.template.name, each) for each in standing]
        if not standing:
            rows.append(Row(Content(self.keyed("No templates: {add} makes one."))))
        if retired := [each for each in view if each.retired]:
            rows.append(Row.head("Retired", "$text-past"))
            rows += [Row(self._text(each), each.template.name, each) for each in retired]
        self.walk.show(rows)
        show_once(self.query_one("#titles", Static), Content(self._titles()))
        self.draw_one()

    def _titles(self) -> str:
        if self.narrow:
            return fit("name, version, days to cut, grams", self.app.size.width - 2)
        return (
            f"{'name':{self._name_cells() + 4}}{'seed':>8}{'soak':>6}{'to cut':>8}{'expected':>14}"
            "   based on"
        )

    def _cells(self) -> int:
        width = self.app.size.width
        return (LIST if width >= BESIDE else width) - 3

    def _name_cells(self) -> int:
        return self._cells() - 60

    def _text(self, each: TemplateView) -> Content:
        template = each.template
        tone = "$text-past" if each.retired else ""
        expected = each.expected
        seed = self.grams(template.seed_grams)
        soak = span_words(template.soak_seconds) if template.soak_seconds else "none"
        rests = "" if expected is None else expected.basis
        if self.narrow:
            grams = "" if expected is None else self.grams(expected.grams)
            return spread(
                Content.styled(template.name, tone),
                Content.styled(f"v{template.version} {cut_days(template):>7} {grams:>8}", tone),
                self._cells(),
            )
        grams = "not known"
        if expected is not None:
            grams = range_words(expected.low, expected.high, self.book.units)
        return Content.assemble(
            (column(template.name, self._name_cells()), f"bold {tone}"),
            (f"v{template.version:<3}{fit(seed, 8):>8}{fit(soak, 6):>6}", tone),
            (f"{cut_days(template):>8}{fit(grams, 14):>14}", tone),
            "   ",
            (fit(rests, 17), "$text-past"),
        )

    @on(WalkList.Moved)
    def draw_one(self) -> None:
        each: TemplateView | None = self.walk.under
        words: list[str] = []
        if each is not None:
            first, *rest = template_words(each.template, self.book.units, each.expected)
            words.append(first)
            if each.retired:
                words.append(self.keyed("retired: not offered for sowing; {retire} takes it back"))
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
            self.say(f"{each.template.name} is retired; {self.keyed('{retire}')} takes it back.")
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
            self.say(f"{name} is undone." if each.retired else f"{name} is retired.")
