"""Keys of a trial's page: sow it, take trays in or leave them out, say what counts, decide."""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from functools import partial
from typing import Any, Literal

from textual import work

from logbook.actions.trials.deciding import adopt, decide, set_weights
from logbook.actions.trials.finding import find_arm
from logbook.actions.trials.joining import join_trial, leave_out
from logbook.actions.trials.planned_end import plan_end
from logbook.actions.trials.sowing import SownTrial, SowTrialDraft, preview_sowing, sow_trial
from logbook.actions.trials.words import sown_words, stand_words
from logbook.growing.numbers import name_words, parse_numbers
from logbook.growing.quantities import REPLICATES
from logbook.growing.trays.soaking import Soaked, read_soaked
from logbook.growing.trials.criteria import read_weights, weights_text
from logbook.growing.trials.money import Prices, prices_text, read_prices
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.view import TrialView
from logbook.growing.when import parse_when
from logbook.text import Refused, clean, plural
from logbook.ui.deeds import TrayKeys
from logbook.ui.drafts import Draft, answer_to
from logbook.ui.forms.asking import AskChoice, AskLine, AskSure, AskYes, Question, why_asked
from logbook.ui.subjects import TrialSubject
from logbook.ui.widgets.form_lines import any_text

COUNTS = (
    ("weights", "w", "what counts, and how much"),
    ("prices", "p", "what seed and work cost"),
    ("end", "e", "the planned end"),
)


class TrialPage(TrayKeys):
    """A screen about a trial, as its keys know it."""

    subject: TrialSubject
    view: TrialView

    def kept(self, asked: str) -> Draft:
        """The draft of the answer to a question about this trial."""
        return answer_to(f"{self.subject.trial}: {asked}")

    @property
    def arm_names(self) -> list[str]:
        return [arm.name for arm in self.view.trial.arms]

    async def ask_arm(self, asked: str) -> str | None:
        """Ask for an arm by part of its name."""
        view, names = self.view, self.arm_names

        def read(text: str) -> str:
            return find_arm(view.trial, text).name

        hint = "part of its name   esc back"
        return await self.ask(AskLine(asked, read, hint=hint, offers=names, pick=True))


class TrialKeys(TrialPage):
    """What can be done with a trial but tasting."""

    def __init__(self) -> None:
        super().__init__()
        self.prices: dict[str, Prices] = {}

    @work
    async def action_sow_arms(self) -> None:
        """Sow all arms once, now or by plan: ask when, the lot, the place and the soak, then write."""
        view, trial = self.view, self.subject.trial
        kept, kept_place = self.kept("seed lot"), self.kept("place")
        at = await self.ask(self._asks_sown())
        if at is None:
            return
        arms = f"all {len(view.arms)}" if len(view.arms) > 2 else "both"
        asked = f"Sow {arms} arms of {view.trial.name}. Seed lot"
        hint = "as on the bag, or empty   esc back"
        lot = await self.ask_kept(AskLine(asked, any_text, hint=hint), kept)
        place = None if lot is None else await self._ask_place(view, kept_place)
        if lot is None or place is None:
            return
        now = self.book.now()
        draft = SowTrialDraft(at=None if at == now else at, lot=lot, place=place)
        try:
            ahead = await asyncio.to_thread(preview_sowing, self.book, trial, draft)
        except Refused as refused:
            self.refuse(refused)
            return
        if ahead.asks_soak:
            soaked = await self.ask(self._asks_soaked_arms())
            if soaked is None:
                return
            draft = replace(draft, soaked=soaked)
        draft = replace(draft, again=bool(ahead.same_day), anyway=bool(ahead.lack))
        sown = await self.ask_to_write(
            _sure(ahead), lambda book, _: sow_trial(book, trial, draft), None, kept, kept_place
        )
        if sown is None:
            self.say("Nothing was sown; what was typed is kept.")
        else:
            lines = [line.strip() for line in sown_words(sown)]
            self.say("; ".join([*lines, *sown.notices]) + f".  {self.undoes}")

    def _asks_sown(self) -> AskLine[datetime]:
        """The question when a trial is sown; the moment itself for now."""
        book, now = self.book, self.book.now()

        def read(text: str) -> datetime:
            return parse_when(text, now, book.zone) if text.strip() else now

        hint = "empty: now   a time to come plans it, soak and all   esc back"
        return AskLine("Sown when?", read, hint=hint)

    def _asks_soaked_arms(self) -> AskLine[Soaked | Literal["arms"]]:
        """The question how the arms' seed was soaked."""
        book = self.book

        def read(text: str) -> Soaked | Literal["arms"]:
            if text.strip().casefold() in ("y", "yes", "arms"):
                return "arms"
            return read_soaked(text, book.now(), book.zone)

        asked = "When did the soak begin? Or y: each arm as long as it needs; or dry."
        return AskLine(asked, read, hint="a time   y   dry   esc back")

    async def _ask_place(self, view: TrialView, kept: Draft) -> str | None:
        """Ask where trays of a trial without shelves go; '' for its own or the next free slots."""
        if view.trial.shelves or any(arm.place_id for arm in view.trial.arms):
            return ""
        hint = "like Rack 1/Shelf 2, or empty: the next free slots   esc back"
        return await self.ask_kept(AskLine("Where are they?", any_text, hint=hint), kept)

    @work
    async def action_add(self) -> None:
        arm, trial = await self.ask_arm("Put trays into which arm?"), self.subject.trial
        if arm is None:
            return
        which, block = f"Which trays are {arm}?", "In which block (shelf)?"
        trays = partial(AskLine, which, parse_numbers, hint="like 101 103-105   esc back")
        asked: list[tuple[Callable[[], Question[Any]], Draft]] = [(trays, self.kept(which))]
        if self.view.trial.shelves:
            asked.append((partial(AskLine, block, any_text), self.kept(block)))
        done = await self.ask_in_turn(
            lambda book, numbers, shelf="": join_trial(book, trial, arm, numbers, shelf=shelf),
            *asked,
        )
        self.tell(done)

    @work
    async def action_leave_out(self) -> None:
        record, trial = self.walk.under, self.subject.trial
        if not isinstance(record, TrayRecord):
            self.say("Select a tray first, further down.")
            return
        await self.ask_why(
            f"Leave {name_words(record.number)} ({record.arm}) out of the trial: why?",
            lambda book, why: leave_out(book, trial, [record.name], why),
        )

    @work
    async def action_counts(self) -> None:
        what = await self.ask(AskChoice("What counts", COUNTS, "esc back"))
        if what == "weights":
            await self._ask_weights(self.view)
        elif what == "prices":
            await self._ask_prices()
        elif what == "end":
            await self._ask_end(self.view)

    async def _ask_weights(self, view: TrialView) -> None:
        asked, trial = "What counts, and how much?", self.subject.trial
        start = weights_text(view.weighing.weights) if view.weighing else ""
        hint = "like yield 3, taste 2, looks 1, cost 1   esc back"
        done = await self.ask_to_write(
            AskLine(asked, read_weights, start=start, hint=hint),
            lambda book, weights: set_weights(book, trial, weights),
            self.kept(asked),
        )
        self.tell(done, "")

    async def _ask_end(self, view: TrialView) -> None:
        asked, trial = "Trays per arm at the planned end, in all?", self.subject.trial
        hint = "of all shelves and weeks; 1: no planned end   esc back"
        done = await self.ask_to_write(
            AskLine(asked, REPLICATES.read, start=str(view.trial.per_arm), hint=hint),
            lambda book, per_arm: plan_end(book, trial, per_arm),
            self.kept(asked),
        )
        self.tell(done)

    async def _ask_prices(self) -> None:
        """Ask what a kg of seed and an hour cost; kept while the book is open, never written."""
        names, kept = self.arm_names, self.prices.get(self.subject.trial)
        prices = await self.ask_line(
            "Price of a kg of seed and an hour of work; minutes per tray?",
            lambda text: read_prices(text, names),
            prices_text(kept) if kept else "",
            f"like seed 12.50; hour 15; minutes 3; {names[-1]} 4   empty: none   esc back",
        )
        if prices is not None:
            self.prices[self.subject.trial] = prices
            await self.reload()
            self.say("Costs use these prices until the book is closed.")

    @work
    async def action_decide(self) -> None:
        trial = self.subject.trial
        done = await self.ask_in_turn(
            lambda book, decided, after: decide(book, trial, decided, after),
            (partial(why_asked, "What was decided?"), self.kept("decided")),
            (_asks_next, self.kept("next")),
        )
        self.tell(done)

    @work
    async def action_adopt(self) -> None:
        view, trial = self.view, self.subject.trial
        arm = await self.ask_arm("Make which arm the crop template?")
        if arm is None:
            return
        asked = f"{view.template.name} as in {arm}: why?"
        done = await self.ask_in_turn(
            lambda book, why, after: adopt(book, trial, arm, why, after),
            (partial(why_asked, asked), self.kept(asked)),
            (_asks_next, self.kept("next")),
        )
        self.tell(done, "")


def _sure(ahead: SownTrial) -> AskYes:
    """Ask before a sowing is written, with where its trays go; a stray Enter must not double it."""
    doubts = " ".join(one for one in (ahead.same_day, ahead.lack) if one)
    sow = f"Sow {plural(len(ahead.spots), 'tray')} as week {ahead.run}?"
    where = "; ".join(stand_words(ahead))
    asked = "\n".join(line for line in (where, *ahead.notices, doubts, sow) if line)
    return AskSure(asked, "y or /  sow   n or -  do not") if doubts else AskYes(asked)


def _asks_next() -> AskLine[str]:
    return AskLine("What to try next?", clean, hint="or nothing   enter save   esc back")
