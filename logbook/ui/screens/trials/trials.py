"""The trials: what is compared side by side, and how far each has come."""

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trials.finding import TrialLine, list_trials, strike_trial
from logbook.text import listed, plural
from logbook.ui.columns import column, fit, one_line, spread
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import Subject, TrialSubject
from logbook.ui.widgets.walk_list import Row


class TrialsScreen(LogScreen):
    """A list of trials, the newest first."""

    heading = "trials"
    purpose = (
        "Side-by-side comparisons: one thing that differs, its arms, and trays placed at random. "
        "Enter opens one; {add} sets one up. A trial is struck out, never erased: {strike} "
        "strikes out its set-up; its trays stay as they are."
    )
    own = ("open", "add", "strike")
    view: list[TrialLine] | None = None

    def load(self, book: Book) -> list[TrialLine]:
        """Read the trials."""
        return list_trials(book)

    def rows(self, view: list[TrialLine]) -> list[Row]:
        """A trial on two lines: what it is and how far, then its question."""
        self.counts = plural(len(view), "trial")
        none = Row(Content(self.keyed("No trials yet: {add} sets one up.")))
        return [Row(self._text(line), line.name, line) for line in view] or [none]

    def beside(self) -> Subject | None:
        return TrialSubject(self.walk.key) if self.walk.key else None

    def _text(self, line: TrialLine) -> Content:
        width = self.width
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

    # keys

    def action_open(self) -> None:
        """Open the trial under the cursor."""
        if self.walk.key:
            self.logbook.go(TrialSubject(self.walk.key))

    def action_add(self) -> None:
        """Set a trial up."""
        self.logbook.go("trial_form")

    @work
    async def action_strike(self) -> None:
        """Strike the set-up of the trial under the cursor."""
        name = self.walk.key
        if not name:
            self.say("Select a trial first.")
            return
        await self.ask_why(
            f"Strike out the trial {name}: why?",
            lambda book, why: strike_trial(book, name, why),
            "It stays in the record; its trays are as they were.",
        )
