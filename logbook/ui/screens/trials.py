"""The trials: what is compared side by side, and how far each has come."""

from __future__ import annotations

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trials import TrialLine, list_trials
from logbook.text import listed, plural
from logbook.ui.asking import why_asked
from logbook.ui.columns import column, fit, one_line, spread
from logbook.ui.drafts import answer_to
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import TrialSubject
from logbook.ui.widgets.walk_list import Row, WalkList


class TrialsScreen(LogScreen):
    """A list of trials, the newest first."""

    heading = "trials"
    purpose = (
        "Side-by-side comparisons: one thing that differs, its arms, and trays drawn by chance. "
        "Enter opens one; {add} sets one up. A trial is struck, never erased: {strike} strikes its "
        "set-up, and its trays stay what they are."
    )
    own = ("open", "add", "strike")
    view: list[TrialLine] | None = None

    def compose_body(self) -> ComposeResult:
        """Give the list."""
        yield WalkList()

    def load(self, book: Book) -> list[TrialLine]:
        """Read the trials."""
        return list_trials(book)

    def draw(self) -> None:
        """Draw a trial on two lines: what it is and how far, then its question."""
        view = self.view
        if view is None:
            return
        self.counts = plural(len(view), "trial")
        rows = [Row(self._text(line), line.name) for line in view]
        if not rows:
            rows.append(Row(Content(self.keyed("No trials yet: {add} sets one up."))))
        self.query_one(WalkList).show(rows)

    def _text(self, line: TrialLine) -> Content:
        width = self.app.size.width - 3
        past = "$text-past" if line.state == "decided" else ""
        trays = f"{line.cut} of {line.trays} cut" if line.trays else "no trays"
        arms = listed(list(line.arms), most=3)
        if self.narrow:
            first = spread(Content.styled(line.name, f"bold {past}"), Content(line.state), width)
            return Content("\n").join([first, Content(fit(f"  {line.crop}, {arms}", width))])
        first = Content.assemble(
            (column(line.name, 26), f"bold {past}"),
            column(line.crop, 16),
            (column(line.state, 9), past),
            (fit(f"{trays}, {arms}", max(8, width - 51)), past),
        )
        question = fit(f"  {one_line(line.question)}", width)
        return Content("\n").join([first, Content.styled(question, "$text-past")])

    def _under(self) -> TrialLine | None:
        name = self.query_one(WalkList).key
        return next((line for line in self.view or () if line.name == name), None)

    # keys

    @on(WalkList.Selected)
    def action_open(self) -> None:
        """Open the trial under the cursor."""
        line = self._under()
        if line is not None:
            self.logbook.go(TrialSubject(line.name))

    def action_add(self) -> None:
        """Set a trial up."""
        self.logbook.go("trial_form")

    @work
    async def action_strike(self) -> None:
        """Strike the set-up of the trial under the cursor."""
        from logbook.actions.trials import strike_trial

        line = self._under()
        if line is None:
            self.say("The cursor is on no trial.")
            return
        asked, name = f"Strike the trial {line.name}: why?", line.name
        done = await self.ask_to_write(
            why_asked(asked), lambda book, why: strike_trial(book, name, why), answer_to(asked)
        )
        if done is not None:
            self.say(f"{done.words}.  It stays in the record; its trays are as they were.")
