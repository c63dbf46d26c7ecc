"""One trial: its arms as dots on a scale of grams, what they can say, and its trays."""

from __future__ import annotations

import asyncio
from dataclasses import replace

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.doing import Done
from logbook.actions.trial_judging import judge_trial
from logbook.actions.trial_tasting import Said
from logbook.actions.trial_trays import SownTrial
from logbook.actions.trial_words import judged_words, sown_words, stand_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import parse_numbers
from logbook.growing.trials.chart import chart
from logbook.growing.trials.criteria_text import read_weights, weights_text
from logbook.growing.trials.factors import factor_words
from logbook.growing.trials.prices import Prices, prices_text, read_prices
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.tasted import Sheet
from logbook.growing.trials.view import TrialView
from logbook.text import Refused, clean, plural
from logbook.ui.asking import AskChoice, AskLine, AskSure, AskYes, why_asked
from logbook.ui.columns import column, fit, one_line, wrapped
from logbook.ui.deeds import Chosen, TrayKeys
from logbook.ui.drafts import Draft, answer_to
from logbook.ui.subjects import TrialSubject
from logbook.ui.trial_asking import read_odd, read_said
from logbook.ui.widgets.walk_list import Row, WalkList

STATES = {"discarded": "thrown out", "void": "struck", "growing": "growing", "planned": "planned"}
MOST_CODES = 12
TASTINGS = (
    ("scores", "s", "one taster's scores, under codes"),
    ("codes", "c", "draw new blind codes"),
    ("odd", "o", "who finds the odd cup of three?"),
)
COUNTS = (
    ("weights", "w", "what counts, and how much"),
    ("prices", "p", "what seed and work cost"),
)


def _sure(ahead: SownTrial) -> AskYes | AskSure:
    """Ask before a sowing is written, with where its trays go; a stray Enter must not double it."""
    doubts = " ".join(one for one in (ahead.same_day, ahead.lack) if one)
    sow = f"Sow {plural(len(ahead.spots), 'tray')} as week {ahead.run}?"
    where = "; ".join(stand_words(ahead))
    asked = "\n".join(line for line in (where, *ahead.notices, doubts, sow) if line)
    return AskSure(asked, "y or /  sow   n or -  do not") if doubts else AskYes(asked)


class TrialScreen(TrayKeys):
    """The page of a trial."""

    heading = "trial"
    purpose = (
        "One trial: each dot is a tray, | the arm's mean; below it the short of it, what the weights "
        "say, what else differed between the arms, and the trays. Enter opens the tray under the "
        "cursor, {leave_out} leaves it out with the reason. {sow_arms} sows all arms once; sown "
        "another day it is another week."
    )
    own = (
        "open", "sow_arms", "add", "leave_out", "tasting", "counts", "decide", "adopt", "jot", "look",
    )  # fmt: skip
    subject: TrialSubject
    view: TrialView | None = None

    def __init__(self) -> None:
        super().__init__()
        self.prices: dict[str, Prices] = {}

    def compose_body(self) -> ComposeResult:
        """Give the list that all of it stands in."""
        yield WalkList()

    def load(self, book: Book) -> TrialView:
        """Judge the trial as it stands."""
        return judge_trial(book, self.subject.trial, prices=self.prices.get(self.subject.trial))

    # drawing

    def draw(self) -> None:
        """Draw the question, the chart, the words and the trays."""
        view = self.view
        if view is None:
            return
        self.counts = fit(view.trial.name, 30 if not self.narrow else 18)
        width = self.app.size.width - 3
        rows = self._head(view, width)
        rows += self._chart(view, width)
        for part, (head, texts) in enumerate(judged_words(view, self.book.units)):
            rows.append(Row(Content.styled(head, "bold $primary")))
            rows += [
                Row(Content(line), f"words/{part}/{at}/{number}")
                for at, text in enumerate(texts)
                for number, line in enumerate(wrapped(text, width))
            ]
        if view.records:
            rows.append(Row(Content.styled("Trays", "bold $primary")))
            rows += [Row(self._tray(record), f"tray/{record.number}") for record in view.records]
        self.query_one(WalkList).show(rows)

    def _head(self, view: TrialView, width: int) -> list[Row]:
        question = view.trial.question or view.trial.name
        lines = [Content.styled(line, "bold") for line in wrapped(one_line(question), width)]
        about = f"{view.template.label()}, {factor_words(view.trial.thing)}"
        lines += [Content.styled(line, "$text-past") for line in wrapped(about, width)]
        return [Row(line, f"head/{at}") for at, line in enumerate(lines)]

    def _chart(self, view: TrialView, width: int) -> list[Row]:
        figures = 0 if self.narrow else 24
        longest = max(len(arm.name) for arm in view.arms) + 1
        names = max(4, min(12 if self.narrow else 20, longest))
        cells = width - names - figures - 1
        drawn = chart(view.arms, cells)
        rows = []
        for at, line in enumerate(drawn.lines):
            dots = column(line.dots, cells + 1)
            text = Content.assemble((column(line.arm, names), "bold"), (dots, "$primary"))
            if self.narrow:
                figure = Content.styled(f"{'':{names}}{line.words}", "$text-past")
                text = Content("\n").join([text, figure])
            else:
                text = Content.assemble(text, (line.words, "$text-past"))
            rows.append(Row(text, f"arm/{at}"))
        if drawn.foot:
            rows.append(Row(Content.styled(f"{'':{names}}{drawn.foot}", "$text-past"), "foot"))
        return rows

    def _tray(self, record: TrayRecord) -> Content:
        width = self.app.size.width - 3
        weight = STATES.get(record.state.status, "cut, not weighed")
        if record.grams is not None:
            weight = grams_words(record.grams, self.book.units)
        note = f"left out: {record.left_out}" if record.left_out else record.block
        tone = "$text-past" if record.left_out else ""
        arm = column(record.arm, 12 if self.narrow else 20)
        rest = fit(f"{weight:>9}  {note}", max(8, width - 6 - len(arm)))
        return Content.assemble(
            (column(str(record.number), 6), f"bold {tone}"), (arm, tone), (rest, tone)
        )

    # what the cursor is on

    def _record(self) -> TrayRecord | None:
        kind, _, number = self.query_one(WalkList).key.partition("/")
        if kind != "tray" or self.view is None:
            return None
        return next((each for each in self.view.records if str(each.number) == number), None)

    def chosen(self) -> Chosen | None:
        """Give the tray under the cursor."""
        record = self._record()
        if record is None:
            return None
        return Chosen((record.number,), place=record.place, crop=record.template.label())

    @on(WalkList.Selected)
    def selected(self) -> None:
        """Let Enter open the tray."""
        self.action_open()

    @work
    async def action_open(self) -> None:
        """Open the tray under the cursor."""
        record = self._record()
        if record is not None:
            await self.open_tray(record.number)

    # keys

    @work
    async def action_sow_arms(self) -> None:
        """Sow all arms once, now: ask the lot and the place, say where they go, then write."""
        from logbook.actions.trial_trays import SowTrialDraft, preview_sowing, sow_trial

        view = self.view
        if view is None:
            return
        trial = self.subject.trial
        kept, kept_place = (answer_to(f"{trial}: {asked}") for asked in ("seed lot", "place"))
        lot = await self.ask_kept(
            AskLine(
                f"Sow all {len(view.arms)} arms of {view.trial.name} now. Seed lot",
                lambda text: clean(text, lines=False),
                hint="as on the bag, or empty   esc back",
            ),
            kept,
        )
        if lot is None:
            return
        place = await self._ask_place(view, kept_place)
        if place is None:
            return
        draft = SowTrialDraft(lot=lot, place=place)
        try:
            ahead = await asyncio.to_thread(preview_sowing, self.book, trial, draft)
        except Refused as refused:
            self.say(str(refused), wants=True)
            return
        draft = replace(draft, again=bool(ahead.same_day), anyway=bool(ahead.lack))
        sown = await self.ask_to_write(
            _sure(ahead), lambda book, _: sow_trial(book, trial, draft), None, kept, kept_place
        )
        if sown is None:
            self.say("Nothing was sown; what was typed is kept.")
        else:
            lines = [line.strip() for line in sown_words(sown)]
            self.say("; ".join([*lines, *sown.notices]) + f".  {self.undoes}")

    async def _ask_place(self, view: TrialView, kept: Draft) -> str | None:
        """Ask where trays of a trial without shelves go; '' for its own or the next free slots."""
        if view.trial.shelves or any(arm.place_id for arm in view.trial.arms):
            return ""
        return await self.ask_kept(
            AskLine(
                "Where do they stand?",
                lambda text: clean(text, lines=False),
                hint="like Rack 1/Shelf 2, or empty: the next free slots   esc back",
            ),
            kept,
        )

    async def _ask_arm(self, asked: str) -> str | None:
        view = self.view
        if view is None:
            return None
        names = [arm.name for arm in view.trial.arms]

        def read(text: str) -> str:
            from logbook.actions.trials import find_arm

            return view.trial.arm(find_arm(view.trial, text)).name

        hint = f"{', '.join(names[:6])}{' …' if len(names) > 6 else ''}   → completes   esc back"
        return await self.app.push_screen_wait(AskLine(asked, read, hint=hint, offers=names))

    @work
    async def action_add(self) -> None:
        """Take trays that stand already into an arm."""
        from logbook.actions.trial_trays import join_trial

        arm = await self._ask_arm("Take trays into which arm?")
        if arm is None or self.view is None:
            return
        trial = self.subject.trial
        which = AskLine(
            f"Which trays are {arm}?", parse_numbers, hint="like 101 103-105   esc back"
        )
        if self.view.trial.shelves:
            numbers = await self.app.push_screen_wait(which)
            if not numbers:
                return
            done = await self.ask_to_write(
                AskLine("In which block (shelf)?", lambda text: clean(text, lines=False)),
                lambda book, shelf: join_trial(book, trial, arm, numbers, shelf=shelf),
            )
        else:
            done = await self.ask_to_write(
                which, lambda book, numbers: join_trial(book, trial, arm, numbers)
            )
        if done is not None:
            self.say(" ".join([f"{done.words}.  {self.undoes}", *done.notices]))

    @work
    async def action_leave_out(self) -> None:
        """Leave the tray under the cursor out of the judging."""
        from logbook.actions.trial_trays import leave_out

        record = self._record()
        if record is None:
            self.say("Put the cursor on a tray, further down.")
            return
        asked = f"Leave {record.number} ({record.arm}) out of the trial: why?"
        trial, number = self.subject.trial, record.number
        done = await self.ask_to_write(
            why_asked(asked),
            lambda book, why: leave_out(book, trial, [number], why),
            answer_to(asked),
        )
        if done is not None:
            self.say(f"{done.words}.  {self.undoes}")

    @work
    async def action_counts(self) -> None:
        """Ask what counts, or what seed and work cost."""
        view = self.view
        if view is None:
            return
        what = await self.app.push_screen_wait(AskChoice("What counts", COUNTS, "esc back"))
        if what == "weights":
            await self._ask_weights(view)
        elif what == "prices":
            await self._ask_prices(view)

    async def _ask_weights(self, view: TrialView) -> None:
        from logbook.actions.trial_deciding import set_weights

        asked, trial = "What counts, and how much?", self.subject.trial
        done = await self.ask_to_write(
            AskLine(
                asked,
                read_weights,
                start=weights_text(view.weighing.weights) if view.weighing else "",
                hint="like yield 3, taste 2, looks 1, cost 1   esc back",
            ),
            lambda book, weights: set_weights(book, trial, weights),
            answer_to(f"{trial}: {asked}"),
        )
        if done is not None:
            self.say(f"{done.words}.")

    async def _ask_prices(self, view: TrialView) -> None:
        """Ask what a kg of seed and an hour cost; kept while the book is open, never written."""
        names = [arm.name for arm in view.trial.arms]
        kept = self.prices.get(self.subject.trial)
        prices = await self.app.push_screen_wait(
            AskLine(
                "A kg of seed, an hour of work, minutes a tray?",
                lambda text: read_prices(text, names),
                start=prices_text(kept) if kept else "",
                hint=f"like seed 12.50; hour 15; minutes 3; {names[-1]} 4   empty: none   esc back",
            )
        )
        if prices is not None:
            self.prices[self.subject.trial] = prices
            await self.reload()
            self.say("The money is reckoned with that until the book is closed.")

    @work
    async def action_decide(self) -> None:
        """Ask what was decided, and what to try next."""
        from logbook.actions.trial_deciding import decide

        trial = self.subject.trial
        kept, kept_next = (answer_to(f"{trial}: {asked}") for asked in ("decided", "next"))
        decided = await self.ask_kept(why_asked("What was decided?"), kept)
        if not decided:
            return
        done = await self.ask_to_write(
            _asks_next(), lambda book, after: decide(book, trial, decided, after), kept_next, kept
        )
        if done is not None:
            self.say(f"{done.words}.  {self.undoes}")

    @work
    async def action_adopt(self) -> None:
        """Take an arm into the crop template."""
        from logbook.actions.trial_deciding import adopt

        view = self.view
        arm = await self._ask_arm("Take which arm into the crop template?")
        if arm is None or view is None:
            return
        asked, trial = f"{view.template.name} as in {arm}: why?", self.subject.trial
        kept, kept_next = answer_to(f"{trial}: {asked}"), answer_to(f"{trial}: next")
        why = await self.ask_kept(why_asked(asked), kept)
        if not why:
            return
        done = await self.ask_to_write(
            _asks_next(), lambda book, after: adopt(book, trial, arm, why, after), kept_next, kept
        )
        if done is not None:
            self.say(f"{done.words}.  {done.notice}".strip(), wants=bool(done.notice))

    # tasting

    @work
    async def action_tasting(self) -> None:
        """Ask which tasting: a taster's scores, new codes, or who finds the odd cup."""
        what = await self.app.push_screen_wait(AskChoice("Tasting", TASTINGS, "esc back"))
        if what == "scores":
            await self._take_scores()
        elif what == "codes":
            await self._draw_codes()
        elif what == "odd":
            await self._ask_odd()

    async def _draw_codes(self) -> Sheet | None:
        from logbook.actions.trial_tasting import new_tasting

        drawn = await self.ask_book(new_tasting, self.subject.trial)
        if drawn is not None:
            await self._show_codes(drawn)
        return drawn

    async def _ask_odd(self) -> None:
        """Ask for a triangle test: which two arms, how many tasted, how many were right."""
        from logbook.actions.trial_tasting import write_triangle

        view = self.view
        if view is None:
            return
        names = [arm.name for arm in view.trial.arms]
        first, second = names[0], names[1]
        if len(names) > 2:
            asked = await self._ask_arm("Which two arms were tasted? The first")
            other = await self._ask_arm(f"{asked} against which?") if asked else None
            if asked is None or other is None:
                return
            first, second = asked, other
        trial, arms = self.subject.trial, (first, second)
        asked_odd = f"{first} and {second}: how many tasted, how many found the odd cup?"
        done = await self.ask_to_write(
            AskLine(
                asked_odd,
                read_odd,
                hint="like 12 8   each had three cups, two alike, order by chance   esc back",
            ),
            lambda book, tasted: write_triangle(book, trial, arms, *tasted),
            answer_to(f"{trial}: {asked_odd}"),
        )
        if done is not None:
            self.say(f"{done.words}  {self.undoes}")

    async def _take_scores(self) -> None:
        """Draw codes where there are none yet, then take one taster's scores."""
        from logbook.actions.trial_tasting import newest_sheet

        try:
            sheet = await asyncio.to_thread(newest_sheet, self.book, self.subject.trial)
        except Refused:
            if not await self.app.push_screen_wait(
                AskYes("No tasting yet. Draw blind codes for the arms now?")
            ):
                return
            drawn = await self._draw_codes()
            if drawn is None:
                return
            sheet = drawn
        taster = await self.app.push_screen_wait(
            AskLine(
                "Who tastes?", lambda text: clean(text, lines=False), hint="initials   esc back"
            )
        )
        if not taster:
            return
        done = await self._ask_samples(sheet, taster)
        if done is not None:
            self.say(f"{done.words}.  {self.undoes}")

    async def _show_codes(self, sheet: Sheet) -> None:
        codes = [f"{code} {arm}" for arm, code in list(sheet.codes.items())[:MOST_CODES]]
        more = len(sheet.codes) - len(codes)
        rest = f"\n{more} more: `logbook trial taste` lists them" if more > 0 else ""
        await self.app.push_screen_wait(
            AskYes(
                "For who serves only: tasters must not see these codes.",
                "\n".join(codes) + rest + "\ny seen",
            )
        )

    async def _ask_samples(self, sheet: Sheet, taster: str) -> Done | None:
        """Ask for each sample; all of them are kept until the last one writes them."""
        from logbook.actions.trial_tasting import taste

        said: dict[str, Said] = {}
        kept: list[Draft] = []
        order, trial = sheet.order(taster), self.subject.trial
        what = "rank 1 is best" if sheet.ranks else "1 to 9"

        def write(book: Book, answer: Said) -> Done:
            return taste(book, trial, taster, {**said, order[-1]: answer})

        for place, code in enumerate(order, 1):
            question = AskLine(
                f"{taster}: {code} ({place} of {plural(len(order), 'sample')}), {what}",
                read_said,
                hint="taste, crunch, looks, own words: 7 6 8 a bit bitter   esc stops",
            )
            draft = answer_to(f"{trial}: {taster} of {code}")
            if place == len(order):
                return await self.ask_to_write(question, write, draft, *kept)
            answer = await self.ask_kept(question, draft)
            if answer is None:
                self.say("Nothing of this taster was written; what was typed is kept.")
                return None
            said[code] = answer
            kept.append(draft)
        return None

    def weighing_trays(self) -> tuple[int, ...]:
        """Give the trial's trays that are still growing."""
        records = self.view.records if self.view else ()
        return tuple(each.number for each in records if each.state.status == "growing")


def _asks_next() -> AskLine[str]:
    """Give the question what to try after a decision."""
    return AskLine("What to try next?", clean, hint="or nothing   enter save   esc back")
