"""Holds: what may not go on, and why, until it is released."""

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.recall.holding import HoldLine, HoldList, hold, list_holds, release
from logbook.actions.trays.lots import recent_lots
from logbook.growing.numbers import numbers_words
from logbook.text import clean, plural
from logbook.ui.columns import wrapped
from logbook.ui.drafts import answer_to
from logbook.ui.forms.asking import why_asked
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import any_text
from logbook.ui.widgets.walk_list import Row

ASKED, WHY = "What goes on hold?", "Why does it go on hold?"
NOTHING = "Nothing is on hold: {add} puts a seed lot, a batch, trays or a shelf on hold."


class HoldsScreen(LogScreen):
    """A line for each hold, with the trays that it covers."""

    heading = "holds"
    purpose = (
        "What is on hold: it is left out of the round, the weigh-in and the deliveries until it is "
        "released. {add} puts a seed lot, a batch (b12), trays or a shelf on hold; {release} lets it go "
        "on, with the reason."
    )
    enter = "release"
    own = ("release", "add")
    view: HoldList | None = None

    def load(self, book: Book) -> HoldList:
        return list_holds(book)

    def rows(self, view: HoldList) -> list[Row]:
        self.counts = plural(len(view.holds), "hold")
        rows = [Row(self._line(each), f"hold {each.hold.entry}", each) for each in view.holds]
        return rows or [Row(Content(part)) for part in wrapped(self.keyed(NOTHING), self.width)]

    def _line(self, line: HoldLine) -> Content:
        hold = line.hold
        trays = f"trays {numbers_words(line.numbers)}" if line.numbers else "nothing of it grows"
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

    @work
    async def action_release(self) -> None:
        line: HoldLine | None = self.walk.under
        if line is None:
            self.say("Select a hold first.")
            return
        name = line.hold.name
        await self.ask_why(
            f"Release {name}: why may it go on?", lambda book, why: release(book, name, why)
        )
