"""One trial: its arms as dots on a scale of grams, what they can say, and its trays."""

from rich.cells import cell_len
from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trials.judging import judge_trial
from logbook.actions.trials.words import judged_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import name_words
from logbook.growing.trays.life import Status
from logbook.growing.trials.arm_table import arm_table
from logbook.growing.trials.chart import chart
from logbook.growing.trials.factors import factor_words
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.view import TrialView
from logbook.ui.columns import column, fit, one_line, wrapped
from logbook.ui.subjects import Chosen, Subject, TraySubject
from logbook.ui.tasting_keys import TastingKeys
from logbook.ui.trial_keys import TrialKeys
from logbook.ui.widgets.walk_list import Row
from logbook.ways import on_screens


class TrialScreen(TrialKeys, TastingKeys):
    """The page of a trial."""

    heading = "trial"
    purpose = (
        "One trial: its arms side by side, then its trays as dots, with | at an arm's mean and a "
        "line "
        "within one standard deviation of it; below them the verdict in short, what the weights "
        "say, what else differed between the arms, and the trays. Enter opens the tray under the "
        "cursor, {leave_out} leaves it out with the reason. {sow_arms} sows all arms once; on "
        "another day that is another week."
    )
    own = (
        "open", "sow_arms", "add", "leave_out", "tasting", "counts", "decide", "adopt", "jot", "look",
    )  # fmt: skip

    def __init__(self) -> None:
        super().__init__()
        self._told = ""

    def on_screen_resume(self) -> None:
        """Show no other trial while this one is judged; it opens at its top."""
        if self.subject.trial != self._told:
            self.forget()
            self.walk.show([Row(Content("judging…"))])

    def load(self, book: Book) -> TrialView:
        """Judge the trial as it stands."""
        return judge_trial(book, self.subject.trial, prices=self.prices.get(self.subject.trial))

    # drawing

    def rows(self, view: TrialView) -> list[Row]:
        """The question, the chart, the words and the trays."""
        self._told = self.subject.trial
        self.counts = fit(view.trial.name, 30 if not self.narrow else 18)
        width = self.width
        about = f"{view.template.label()}, {factor_words(view.trial.factor)}"
        heads = [
            (line, "bold")
            for line in wrapped(one_line(view.trial.question or view.trial.name), width)
        ]
        heads += [(line, "$text-past") for line in wrapped(about, width)]
        rows = [Row(Content.styled(*head), f"head/{at}") for at, head in enumerate(heads)]
        arms = arm_table(view, self.book.units, width, cell_len)
        rows += [Row.head(line, "$text-past") for line in arms.heads]
        rows += [Row(Content(line), f"of_arm/{at}") for at, line in enumerate(arms.rows)]
        rows.append(Row.head(" "))
        rows += self._chart(view, width)
        beside = self._verdict_fits(view)
        for part, (head, texts) in enumerate(() if beside else judged_words(view, self.book.units)):
            rows.append(Row.head(head))
            rows += [
                Row(Content(line), f"words/{part}/{at}/{number}")
                for at, text in enumerate(texts)
                for number, line in enumerate(wrapped(on_screens(text, self.keyed), width))
            ]
        if view.records:
            rows.append(Row.head("Trays"))
            rows += [Row(self._tray(one), f"tray/{one.number}", one) for one in view.records]
        return rows

    def _verdict_fits(self, view: TrialView) -> bool:
        """Whether all of it stands beside the list, so that it needs not be in it."""
        lines = self._verdict(view).plain.count("\n") + 1
        return self.broad and lines <= self.app.size.height - 4

    def page_words(self) -> str:
        words, view = super().page_words(), self.view
        beside = view is not None and self._verdict_fits(view)
        return f"{words}\n{self._verdict(view).plain}" if beside else words

    def _verdict(self, view: TrialView) -> Content:
        """All that the trial says, to stand beside the list where it has room there."""
        parts = [
            Content("\n").join(
                [
                    Content.styled(head, "bold $primary"),
                    *(Content(on_screens(text, self.keyed)) for text in texts),
                ]
            )
            for head, texts in judged_words(view, self.book.units)
        ]
        return self.told(view.trial.name, Content("\n").join(parts))

    def beside(self) -> Content | Subject | None:
        record: TrayRecord | None = self.walk.under
        if record is not None:
            return TraySubject(record.name)
        return self._verdict(self.view) if self.view is not None else None

    def _chart(self, view: TrialView, width: int) -> list[Row]:
        longest = max(len(arm.name) for arm in view.arms) + 1
        names = max(4, min(12 if self.narrow else 20, longest))
        cells = width - names - (0 if self.narrow else 24) - 1
        drawn = chart(view.arms, cells)
        rows = []
        for at, line in enumerate(drawn.lines):
            name, dots = (
                (column(line.arm, names), "bold"),
                (column(line.dots, cells + 1), "$primary"),
            )
            figures = (f"\n{'':{names}}{line.words}" if self.narrow else line.words, "$text-past")
            rows.append(Row(Content.assemble(name, dots, figures), f"arm/{at}"))
        if drawn.foot:
            rows += [
                Row.head(f"{'':{names}}{line}", "$text-past") for line in (drawn.axis, drawn.foot)
            ]
        return rows

    def _tray(self, record: TrayRecord) -> Content:
        width = self.width
        status = record.state.status
        weight = "cut, not weighed" if status == Status.CUT else status.words
        if record.grams is not None:
            weight = grams_words(record.grams, self.book.units)
        note = f"left out: {record.left_out}" if record.left_out else record.block
        tone = "$text-past" if record.left_out else ""
        arm = column(record.arm, 12 if self.narrow else 20)
        rest = fit(f"{weight:>9}  {note}", max(8, width - 6 - len(arm)))
        return Content.assemble(
            (column(name_words(record.number), 6), f"bold {tone}"), (arm, tone), (rest, tone)
        )

    # what the cursor is on

    def chosen(self) -> Chosen | None:
        """The tray under the cursor."""
        record: TrayRecord | None = self.walk.under
        if record is None:
            return None
        return Chosen((record.name,), place=record.place, crop=record.template.label())

    @work
    async def action_open(self) -> None:
        """Open the tray under the cursor."""
        if self.walk.under is not None:
            await self.open_tray(self.walk.under.name)

    def weighing_trays(self) -> tuple[int, ...]:
        """The trial's trays that are still growing."""
        growing = (each for each in self.view.records if each.state.status == "growing")
        return tuple(each.number for each in growing)
