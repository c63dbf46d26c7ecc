"""Tasting the arms of a trial: blind codes, one taster's scores, who finds the odd cup."""

import asyncio
import re
from functools import partial

from textual import work

from logbook.actions.trials.tasting import (
    SampleSaid,
    checked_said,
    new_tasting,
    newest_sheet,
    taste,
    write_triangle,
)
from logbook.growing.measures import plain
from logbook.growing.trials.tasted import ASPECTS, Sheet
from logbook.text import Refused, clean, plural
from logbook.ui.forms.asking import AskChoice, AskLine, AskYes
from logbook.ui.trial_keys import TrialPage
from logbook.ui.widgets.form_lines import any_text
from logbook.ways import Way

MOST_CODES = 12
TASTINGS = (
    ("scores", "s", "one taster's scores, under codes"),
    ("codes", "c", "draw new blind codes"),
    ("odd", "o", "who finds the odd cup of three?"),
)


class TastingKeys(TrialPage):
    """The one key that asks which tasting."""

    @work
    async def action_tasting(self) -> None:
        what = await self.ask(AskChoice("Tasting", TASTINGS, "esc back"))
        if what == "scores":
            await self._take_scores()
        elif what == "codes":
            await self._draw_codes()
        elif what == "odd":
            await self._ask_odd()

    async def _draw_codes(self) -> Sheet | None:
        if (drawn := await self.ask_book(new_tasting, self.subject.trial)) is not None:
            await self._show_codes(drawn)
        return drawn

    async def _ask_odd(self) -> None:
        first, second, *more = self.arm_names or ("", "")
        if more:
            first = await self.ask_arm("Which two arms were tasted? The first") or ""
            second = (await self.ask_arm(f"{first} against which other?") if first else None) or ""
        if not second:
            return
        trial, arms = self.subject.trial, (first, second)
        asked_odd = f"{first} and {second}: how many tasted, how many found the odd cup?"
        hint = "like 12 8   each had three cups, two alike, order by chance   esc back"
        done = await self.ask_to_write(
            AskLine(asked_odd, read_odd, hint=hint),
            lambda book, tasted: write_triangle(book, trial, arms, *tasted),
            self.kept(asked_odd),
        )
        self.tell(done)

    async def _take_scores(self) -> None:
        sheet: Sheet | None
        try:
            sheet = await asyncio.to_thread(newest_sheet, self.book, self.subject.trial)
        except Refused:
            none_yet = "No tasting yet. Draw blind codes for the arms now?"
            sheet = await self._draw_codes() if await self.ask(AskYes(none_yet)) else None
        if sheet is None:
            return
        if taster := await self.ask_line("Who tastes?", any_text, hint="initials   esc back"):
            await self._ask_samples(sheet, taster)

    async def _show_codes(self, sheet: Sheet) -> None:
        lines = [f"{code} {arm}" for arm, code in list(sheet.codes.items())[:MOST_CODES]]
        more = len(sheet.codes) - len(lines)
        lines += [f"{more} more: {Way.TASTE} lists them"] if more else []
        asked = "Only for whoever serves: tasters must not see these codes."
        await self.ask(AskYes(asked, "\n".join([*lines, "y seen"])))

    async def _ask_samples(self, sheet: Sheet, taster: str) -> None:
        """Ask for each sample; all of them are kept until the last one writes them."""
        order, trial = sheet.order(taster), self.subject.trial
        what = "rank 1 is best" if sheet.ranks else "1 to 9"
        hint = (
            "taste, crunch, looks, your own words: 7 6 8 a bit bitter   ↑ sample before   esc stops"
        )

        def read(text: str) -> SampleSaid:
            return checked_said(sheet, read_said(text))

        samples = plural(len(order), "sample")
        done = await self.ask_in_turn(
            lambda book, *said: taste(book, trial, taster, dict(zip(order, said, strict=True))),
            *(
                (
                    partial(
                        AskLine, f"{taster}: {code} ({place} of {samples}), {what}", read, hint=hint
                    ),
                    self.kept(f"{taster} of {code}"),
                )
                for place, code in enumerate(order, 1)
            ),
        )
        if done is None:
            self.say("Nothing of this taster was written; what was typed is kept.")
        self.tell(done)


def read_said(text: str) -> SampleSaid:
    """Read up to three numbers (taste, crunch, looks) and own words: "7 6 8 a bit bitter"."""
    words = clean(text, lines=False)
    numbers: list[float] = []
    while len(numbers) < len(ASPECTS):
        found = re.match(r"([+\-−]?\d[\d.,]*)(?:\s+|$)", words)
        if not found:
            break
        numbers.append(plain(found[1].rstrip(","), ASPECTS[len(numbers)]))
        words = words[found.end() :]
    if not numbers and not words:
        raise Refused("Write numbers for taste, crunch and looks, like 7 6 8, or your own words.")
    return SampleSaid(dict(zip(ASPECTS, numbers, strict=False)), words)


def read_odd(text: str) -> tuple[int, int]:
    """Read "12 8", tasters and how many of them found the odd cup; words between do no harm."""
    found = re.findall(r"\d+", clean(text, lines=False))
    if len(found) != 2 or max(map(len, found)) > 6:
        raise Refused("Write two whole numbers, like 12 8: twelve tasted, eight were right.")
    return int(found[0]), int(found[1])
