"""Holds: what may not go on, and why, until it is released; and the recalls that were kept."""

from dataclasses import dataclass

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.recall.holding import HoldLine, hold, list_holds, release
from logbook.actions.recall.recalling import list_recalls, recall
from logbook.actions.trays.lots import recent_lots
from logbook.growing.numbers import numbers_words
from logbook.growing.recall.recall import KeptRecall
from logbook.text import clean, plural
from logbook.ui.columns import wrapped
from logbook.ui.drafts import answer_to
from logbook.ui.forms.asking import AskChoice, why_asked
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import RecallSubject, Subject
from logbook.ui.widgets.form_lines import any_text
from logbook.ui.widgets.walk_list import Row

ASKED, WHY = "What goes on hold?", "Why does it go on hold?"
NO_RECALL = "No recalls yet: {add} begins one."
NOTHING = "Nothing is on hold: {add} puts a seed lot, a batch, trays or a shelf on hold."
RECALL = "Recall what?"


@dataclass(frozen=True, slots=True)
class HoldsView:
    """What is on hold, and the recalls that were kept."""

    holds: tuple[HoldLine, ...]
    recalls: tuple[KeptRecall, ...]


class HoldsScreen(LogScreen):
    """A line for each hold, with the trays that it covers."""

    heading = "holds"
    purpose = (
        "What is on hold: it is left out of the round, the weigh-in and the deliveries until it is "
        "released. {add} puts a seed lot, packs, a batch (b12), trays or a shelf on hold, or "
        "begins a recall, real or practice, which is timed; {release} lets it go on, with the "
        "reason."
    )
    enter = "release"
    own = ("release", "add")
    view: HoldsView | None = None

    def load(self, book: Book) -> HoldsView:
        return HoldsView(list_holds(book).holds, list_recalls(book).recalls)

    def rows(self, view: HoldsView) -> list[Row]:
        self.counts = plural(len(view.holds), "hold")
        rows = [Row(self._line(each), f"hold {each.hold.entry}", each) for each in view.holds]
        rows = rows or [Row(Content(part)) for part in wrapped(self.keyed(NOTHING), self.width)]
        rows.append(Row.head("Recalls, and practice" if view.recalls else self.keyed(NO_RECALL)))
        return rows + [Row(self._kept(each), f"recall {each.entry}", each) for each in view.recalls]

    def beside(self) -> Content | Subject | None:
        one = self.walk.under
        if isinstance(one, KeptRecall):
            facts = (
                ("from", one.code), ("begun", self.moment(one.begun)), ("took", one.took),
                ("customers", f"{one.customers}"), ("lots", f"{one.lots}"),
                ("delivered", self.grams(one.grams)),
                ("unaccounted for", self.grams(one.unaccounted_grams or None)),
                ("by", one.by), ("note", one.note),
            )  # fmt: skip
            return self.told("practice" if one.practice else "recall", facts)
        if not isinstance(one, HoldLine):
            return None
        why = Content.styled(clean(one.hold.why), "$warning")
        return self.told(
            one.hold.name, why, (("since", self.moment(one.hold.at)), ("by", one.hold.by))
        )

    def _kept(self, kept: KeptRecall) -> Content:
        said = (self.moment(kept.at), kept.words(self.book.units), clean(kept.note), kept.by)
        first, *more = wrapped("  ".join(filter(None, said)), self.width - 2)
        return Content("\n  ".join([first, *more]))

    def _line(self, line: HoldLine) -> Content:
        hold = line.hold
        trays = f"trays {numbers_words(line.numbers)}" if line.numbers else "none of it is growing"
        if hold.on.tray_id and line.numbers:
            trays = ""
        said = (clean(hold.why, lines=False), trays, f"{self.moment(hold.at)}  {hold.by}")
        below = "   ".join(filter(None, said))
        return Content.assemble(
            (clean(hold.name, lines=False), "bold $warning"),
            *(f"\n  {part}" for part in wrapped(below, self.width - 2)),
        )

    @work
    async def action_add(self) -> None:
        choices = [
            ("hold", "h", "put something on hold"), ("recall", "r", "a recall, real or practice"),
        ]  # fmt: skip
        kind = await self.ask(AskChoice("Begin", choices, "esc back"))
        if kind == "hold":
            await self._hold()
        elif kind == "recall":
            await self._call_back()

    async def _hold(self) -> None:
        lots = await self.ask_book(recent_lots)
        done = await self.ask_in_turn(
            hold,
            (
                lambda: self.asks_line(
                    ASKED, any_text, offers=[f"seed lot {each}" for each in lots or ()],
                    hint="like RA 12, b12, 101-104 or Rack 1/Shelf 2   esc back",
                ),
                answer_to(ASKED),
            ),
            (lambda: why_asked(WHY), answer_to(WHY)),
        )  # fmt: skip
        self.tell(done)

    async def _call_back(self) -> None:
        begun = self.book.now()
        lots = await self.ask_book(recent_lots)
        code = await self.ask_to_write(
            self.asks_line(
                RECALL, any_text, offers=[f"seed lot {each}" for each in lots or ()],
                hint="like RA 12, a pack's code, day 2026-04-10, Rack 1/Shelf 2, entry 812   esc back",
            ),
            lambda book, code: recall(book, code) and code,
        )  # fmt: skip
        if code:
            self.logbook.go(RecallSubject(code, begun))

    @work
    async def action_release(self) -> None:
        line = self.walk.under
        if not isinstance(line, HoldLine):
            self.say("Select a hold first.")
            return
        name = line.hold.name
        await self.ask_why(f"Release {name}: why?", lambda book, why: release(book, name, why))
