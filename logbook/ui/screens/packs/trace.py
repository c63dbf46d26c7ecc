"""A trace: what a seed lot, a batch, a tray or packs came from, and where all of it went."""

from textual import work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.packs.life import PackLife, life_of
from logbook.actions.packs.trace import SeedTrace, TracedBatch, TraceView, trace
from logbook.actions.packs.trace_words import TraceLine, head_words, sums_words, trace_lines
from logbook.actions.seed.tables import stock_facts
from logbook.actions.trays.lists import LotLine, list_lots
from logbook.growing.numbers import parse_numbers
from logbook.growing.packs.trace import CustomerShare, Step
from logbook.growing.seed.bags import LotStock
from logbook.text import clean, clean_name
from logbook.ui.columns import wrapped
from logbook.ui.seed_keys import SeedKeys
from logbook.ui.subjects import BatchSubject, Subject, TraceSubject, TraySubject
from logbook.ui.timeline_drawing import facts
from logbook.ui.told import Facts
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.walk_list import Row, WalkList


class TraceScreen(SeedKeys):
    """What is traced on top, with its sums; every step below, to go on from."""

    heading = "trace"
    purpose = (
        "Back to the bag and forward to every customer, with weights that add up. {trace} on a "
        "tray, a "
        "batch or a seed lot follows that; here it asks for another. Enter follows a line "
        "further. On a seed lot, {add} writes seedlings counted, what is left, or another bag of "
        "it."
    )
    enter = "open"
    subject: TraceSubject = TraceSubject()
    own = ("open", "ask_pack", "add", "hold")
    view: TraceView | PackLife | list[LotLine] | None = None
    life_wanted = ""
    """The code whose life is shown in place of its trace."""
    asked_of: TraceSubject | None = None
    """The subject that the question what to trace was asked of: once for every way here."""

    def compose_body(self) -> ComposeResult:
        yield Static(Content(""), id="facts", classes="plain")
        yield WalkList()

    def load(self, book: Book) -> TraceView | PackLife | list[LotLine]:
        if not self.subject.code:
            return list_lots(book)
        told = life_of if self.life_wanted == self.subject.code else trace
        return told(book, self.subject.code)

    def does(self, name: str) -> bool:
        bag = isinstance(self.view, SeedTrace)
        ends = {
            "add": bag,
            "open": self._here is not None,
            "ask_pack": not bag and not isinstance(self.view, list),
        }
        return ends.get(name, super().does(name))

    @work(group="view")
    async def action_ask_pack(self) -> None:
        """Show its life in place of its trace, and the other way round; a bag has none."""
        if not self.does("ask_pack"):
            self.say("Ask about a pack lot, a delivery, a tray or a batch.")
            return
        self.life_wanted = "" if self.life_wanted == self.subject.code else self.subject.code
        await self.reload()

    def draw(self, view: TraceView | PackLife | list[LotLine]) -> None:
        known = Content("")
        if isinstance(view, list):
            self.counts = ""
            rows = [
                Row.head("Seed lots in use"),
                *(Row(Content(each.lot), each.lot, each) for each in view),
            ]
        elif isinstance(view, PackLife):
            self.counts = clean(view.root, lines=False)
            lines = (TraceLine(f"{one.what}: {one.words}", one) for one in view.life)
            rows = [self._row(at, line) for at, line in enumerate(lines)]
        else:
            self.counts = clean(view.root.code, lines=False)
            if isinstance(view, SeedTrace) and not self.broad:
                known = facts(self._facts(view), self.width)
            heads = [*head_words(view), sums_words(view, self.book.units)]
            lines = (TraceLine(words, view.root) for words in heads if words)
            below = trace_lines(view, self.book.units, self.book.when)
            rows = [self._row(at, line) for at, line in enumerate((*lines, *below))]
        about = self.query_one("#facts", Static)
        about.display = bool(known)
        show_once(about, known, layout=True)
        self.walk.show(rows)
        if isinstance(view, list) and self.subject is not self.asked_of:
            self.asked_of = self.subject
            self.ask_what()

    def _row(self, at: int, line: TraceLine) -> Row:
        indent = len(line.text) - len(line.text.lstrip())
        words = wrapped(clean(line.text.lstrip(), lines=False), self.width - indent)
        text = Content("\n".join(" " * indent + each for each in words))
        return Row(text, f"{at}", line.of) if line.of else Row.head(text.plain)

    def beside(self) -> Subject | Content | None:
        if isinstance(self.view, SeedTrace) and self.walk.under == self.view.root:
            return self.told(self.view.stock.lot, self._facts(self.view))
        return self._here

    def _facts(self, view: SeedTrace) -> Facts:
        return stock_facts(view.stock, view.money, self.book.units)

    @property
    def _here(self) -> Subject | None:
        """What the line under the cursor is of."""
        match self.walk.under:
            case TracedBatch(batch=batch) | Step("batch", batch):
                return BatchSubject(batch)
            case Step("tray", code):
                return TraySubject(parse_numbers(code)[0])
            case LotLine(lot=code):
                return TraceSubject(f"seed lot {code}")
            case Step("seed lot" | "pack lot" as what, code):
                return TraceSubject(f"{what} {code}")
            case CustomerShare(customer=customer, day=day):
                return TraceSubject(f"customer {customer}@{day}")
        return None

    def lot_here(self) -> LotStock | None:
        return self.view.stock if isinstance(self.view, SeedTrace) else None

    def traced(self) -> str:
        return ""

    def to_hold(self) -> str:
        return self.subject.code

    @work
    async def ask_what(self) -> None:
        """Ask what to trace."""
        hint = "a lot, batch 12, tray 23, a supplier   esc back"
        code = await self.ask_line("Trace what?", lambda text: clean_name(text, "name"), "", hint)
        if code:
            self.logbook.go(TraceSubject(code))

    def action_open(self) -> None:
        if (here := self._here) is not None:
            self.logbook.go(here)
