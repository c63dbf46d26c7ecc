"""The round: what every tray needs, in the order in which one walks past."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from functools import lru_cache
from typing import Literal

from rich.cells import cell_len
from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trays.round import RoundView, round_view
from logbook.growing.numbers import name_words, numbers_words
from logbook.growing.trays.chores import BOTH
from logbook.growing.trays.in_the_dark import InTheDark
from logbook.growing.trays.round import RoundLine, RoundTray
from logbook.text import plural
from logbook.ui.columns import apart, column, fit, spread
from logbook.ui.deeds import TrayKeys
from logbook.ui.subjects import Chosen
from logbook.ui.widgets.walk_list import Row

ONE_LINE = 76
"""Cells that a chore needs on one line, so that how late it is is never cut."""


class RoundScreen(TrayKeys):
    """The first screen."""

    heading = "the round"
    home = True
    enter = "done"
    purpose = (
        "What every tray needs now, place by place as you walk; what comes later today is "
        "below. Enter writes that it was done; a cut opens the weigh-in, a look its form."
    )
    own = (
        "done", "at", "part", "jot", "look", "skip", "undo", "unfold", "whole", "weigh", "sow", "move",
        "discard",
    )  # fmt: skip
    view: RoundView

    async def on_mount(self) -> None:
        """Read the round before the first paint, so that it is the only one."""
        await self.reload()
        self.fresh = True

    def load(self, book: Book) -> RoundView:
        return round_view(book)

    def rows(self, view: RoundView) -> list[Row]:
        today = view.round
        stops = "" if self.narrow else f"{plural(today.stops, 'stop')}   "
        self.counts = f"{stops}{plural(len(today.due), 'chore')}   {today.late} late"
        rows = [Row.head(self._dark(each), "$warning") for each in today.in_the_dark]
        place: str | None = None
        for line in today.due:
            if line.place != place:
                place = line.place
                rows.append(Row(self._place(place, view.hours.get(place, ""))))
            rows += self._of_line(line)
        if not today.due:
            rows.append(Row(Content(f"Nothing is due now.{self._after(view)}")))
        if today.waiting:
            rows.append(Row.head("Later today", "$text-past"))
            for line in today.waiting:
                rows += self._of_line(line)
        if not today.lines and view.empty:
            rows.append(Row(Content(self.keyed("No trays yet: {sow} sows the first batch."))))
        return rows

    def _dark(self, one: InTheDark) -> str:
        """Which trays lack light, on two lines where one is too short."""
        if cell_len(one.words) < self.app.size.width - 4:
            return f"{one.words}."
        return f"In the dark: {numbers_words(one.numbers)}\n  {one.place} {one.why}"

    def _after(self, view: RoundView) -> str:
        if view.after is None:
            return ""
        return f" Next: {view.after.words}, {self.moment(view.after.walk_at)}."

    def _place(self, path: str, hours: str) -> Content:
        place, lit = Content.styled(path, "bold $primary"), Content.styled(hours, "$text-past")
        return apart(place, lit, self.app.size.width - 4)

    def _of_line(self, line: RoundLine) -> list[Row]:
        key = line_key(line)
        rows = [Row(self._text(line), key, (line, line.numbers))]
        if key in self.unfolded:
            rows += [
                Row(self._single(line, tray), f"{key} {tray.number}", (line, (tray.number,)))
                for tray in line.trays
            ]
        return rows

    def _single(self, line: RoundLine, tray: RoundTray) -> Content:
        differ = line.waits and len({each.due_at for each in line.trays}) > 1
        words = [tray.colour, self.moment(tray.walk_at) if differ else ""]
        return Content.assemble(
            "    ", (name_words(tray.number), "bold"), *(f"  {each}" for each in words if each)
        )

    def _words(self, line: RoundLine, now: datetime) -> tuple[str, str, str, str, str]:
        words = line.words
        if line.chore in ("soak", "sow") and line.seed_grams is not None:
            words += f" {self.grams(line.seed_grams * len(line.trays))}"
        day = f"day {line.day_number}" if line.stage else ""
        when = line.when_words(now, brief=True)
        return words, numbers_words(line.numbers), line.crop, day, when

    def _text(self, line: RoundLine) -> Content:
        late = line.late and not line.waits
        wants = late or line.chore == "cut" or bool(line.mouldy)
        tone = "$text-past" if line.waits else "$warning" if wants else ""
        words = self._words(line, self.view.round.now)
        return _drawn(*words, line.mould_words, "▌" if late else " ", tone, self.app.size.width - 4)

    def due_now(self) -> Sequence[RoundLine] | None:
        return self.view.round.due

    def chosen(self) -> Chosen | None:
        if self.walk.under is None:
            return None
        line: RoundLine
        line, numbers = self.walk.under
        sign = self.view.signs.get(line.batch_id, "")
        return Chosen(numbers, line.chore, line.words, line.place, line.crop, sign)

    def _chore(self) -> Chosen | None:
        chosen = self.chosen()
        if chosen is None:
            self.say("Select a chore first.")
        return chosen

    @work
    async def action_done(self, how: Literal["now", "at", "part", "whole"] = "now") -> None:
        """Write the chore; of a watering at another time it is also asked what was given."""
        chosen = self._whole_shelf() if how == "whole" else self._chore()
        if chosen is None:
            return
        if how == "at" and chosen.chore in ("water", BOTH):
            from logbook.ui.forms.readings import ask_watering

            await ask_watering(self, chosen)
        else:
            await self.do_chore(chosen, part=how == "part", when=how == "at")

    def _whole_shelf(self) -> Chosen | None:
        """What the cursor is on, with all trays at its place that want the same now."""
        chosen = self._chore()
        if chosen is None:
            return chosen
        line: RoundLine = self.walk.under[0]
        if line.waits or line.chore in ("soak", "sow"):
            return chosen
        alike = [
            each
            for each in self.view.round.due
            if (each.place_id, each.chore, each.words) == (line.place_id, line.chore, line.words)
        ]
        numbers = tuple(sorted(number for each in alike for number in each.numbers))
        crops = {each.crop for each in alike}
        return replace(chosen, numbers=numbers, crop=chosen.crop if len(crops) == 1 else "")

    @work
    async def action_skip(self) -> None:
        from logbook.actions.trays.doing import skip

        chosen = self._chore()
        if chosen is not None:
            await self.ask_why(
                f"Skip {chosen.words} of {chosen.label}: why?",
                lambda book, why: skip(book, chosen.chore, chosen.numbers, why),
            )

    def action_unfold(self) -> None:
        if self.walk.under is not None:
            self.unfold(line_key(self.walk.under[0]))


@lru_cache(maxsize=256)
def _drawn(
    words: str, numbers: str, crop: str, day: str, when: str, mould: str, mark: str, tone: str,
    width: int,
) -> Content:  # fmt: skip
    """A chore in columns, or on two lines where it is narrow; most are as they were at the last act."""
    if width < ONE_LINE:
        right = Content(fit(numbers, 16))
        crop = fit(crop, width - 4 - right.cell_length - cell_len(day))
        head = Content.styled(f"{crop} {day}".strip(), f"bold {tone}")
        first = Content.assemble((mark, "$warning"), " ", spread(head, right, width - 2))
        chore, below = _with_mould(mould, words, tone, width - 4 - cell_len(when))
        due = Content.styled(when, tone)
        second = Content.assemble("  ", spread(chore, due, width - 2))
        return Content("\n").join([first, second, *below])
    spare = max(0, width - 76)
    longer = max(0, cell_len(day) - 6)
    columns = (22 + spare // 3, 11 + spare // 3, 13 + spare // 6 - longer, 7 + longer)
    chore, below = _with_mould(mould, words, tone, columns[0] - 2)
    parts = [
        column(text, size) for text, size in zip((numbers, crop, day), columns[1:], strict=True)
    ]
    first = Content.assemble(
        (mark, "$warning"), " ",
        chore.truncate(columns[0] - 1, ellipsis=True).truncate(columns[0], pad=True),
        (parts[0], f"bold {tone}"), (parts[1], tone), (parts[2], f"bold {tone}"),
        (fit(when, max(6, width - 2 - sum(columns))), tone),
    )  # fmt: skip
    return Content("\n").join([first, *below])


def _with_mould(
    mould: str, words: str, tone: str, width: int
) -> tuple[Content, tuple[Content, ...]]:
    """A chore's words with the trays on which mould was seen, or these on a line below."""
    chore = Content.styled(words, tone)
    if not mould:
        return chore, ()
    seen = Content.styled(mould, "$warning")
    if chore.cell_length + 2 + seen.cell_length <= width:
        return Content.assemble(chore, "  ", seen), ()
    return chore, (Content.assemble("    ", seen),)


def line_key(line: RoundLine) -> str:
    """Name a line so that the cursor finds it again."""
    return f"{line.chore}/{line.batch_id}/{line.place_id or 0}/{int(line.later)}"
