"""The round: what every tray needs, in the order in which one walks past."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from rich.cells import cell_len
from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trays.round import RoundView, round_view
from logbook.growing.numbers import name_words, numbers_words
from logbook.growing.room.upkeep import DueDuty
from logbook.growing.trays.chores import BOTH
from logbook.growing.trays.in_the_dark import InTheDark
from logbook.growing.trays.round import RoundLine, RoundTray
from logbook.text import plural
from logbook.ui.columns import wrapped
from logbook.ui.deeds import TrayKeys
from logbook.ui.round_drawing import ONE_LINE, LineWords, columns_of, drawn, shelf_head
from logbook.ui.subjects import Chosen, Subject, TraySubject
from logbook.ui.widgets.walk_list import Row


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
        "discard", "hold",
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
        self.counts = f"{stops}{plural(today.count, 'chore')}   "
        self.late = f"{today.late} late" if today.late else ""
        self.counts += "" if today.late else "0 late"
        rows = [Row.head(self._dark(each), "$warning") for each in today.in_the_dark]
        rows += [
            Row.head("\n  ".join(wrapped(f"{each.words}.", self.columns - 6)), "$warning")
            for each in today.on_hold
        ]
        self.list_width = self.columns - 4
        due = list(today.walked())
        later: list[RoundLine | DueDuty] = [*today.upkeep_later, *today.waiting]
        said = [self._said(line) for line in (*due, *later)]
        self.shares = columns_of(said, self.list_width)
        place, each = None, 2 if self.list_width < ONE_LINE else 1
        need = each * len(said) + 2 * today.stops + len(rows) + 2
        airy = need <= self.app.size.height - 4
        for line in due:
            if line.place != place:
                if place is not None and airy:
                    rows.append(Row(Content("")))
                place = line.place
                rows.append(Row(shelf_head(place, view.heads.get(place, ()), self.list_width)))
            rows += self._of_line(line)
        if not due:
            rows.append(Row(Content(f"Nothing is due now.{self._after(view)}")))
        if later:
            rows += [Row(Content(""))] * airy
            rows.append(Row.head("Later today"))
            for line in later:
                rows += self._of_line(line)
        if not today.lines and view.empty:
            rows.append(Row(Content(self.keyed("No trays yet: {sow} sows the first batch."))))
        return rows

    def _dark(self, one: InTheDark) -> str:
        """Which trays lack light, on two lines where one is too short."""
        if cell_len(one.words) < self.columns - 4:
            return f"{one.words}."
        return f"In the dark: {numbers_words(one.numbers)}\n  {one.place} {one.why}"

    def _after(self, view: RoundView) -> str:
        if view.after is None:
            return ""
        return f" Next: {view.after.words}, {self.moment(view.after.walk_at)}."

    def _of_line(self, line: RoundLine | DueDuty) -> list[Row]:
        key = line_key(line)
        text = drawn(self._said(line), self.shares, self.list_width)
        if isinstance(line, DueDuty):
            return [Row(text, key, (line, ()))]
        rows = [Row(text, key, (line, line.numbers))]
        if key in self.unfolded:
            rows += [
                Row(self._single(line, tray), f"{key} {tray.number}", (line, (tray.number,)))
                for tray in line.trays
            ]
        return rows

    def _single(self, line: RoundLine, tray: RoundTray) -> Content:
        differ = line.waits and len({each.due_at for each in line.trays}) > 1
        arm, at = self.view.arms.get(tray.tray, ""), self.moment(tray.walk_at) if differ else ""
        words = [tray.colour, arm, at]
        return Content.assemble(
            "    ", (name_words(tray.number), "bold"), *(f"  {each}" for each in words if each)
        )

    def _said(self, line: RoundLine | DueDuty) -> LineWords:
        words = line.words
        if isinstance(line, DueDuty):
            wide = self.list_width >= ONE_LINE
            return LineWords(
                words if wide else "", (), "" if wide else words, "",
                line.when_words(self.view.round.now), "", "",
                "later" if line.later else "late" if line.late else "clean",
            )  # fmt: skip
        if line.chore in ("soak", "sow") and line.seed_grams is not None:
            words += f" {self.grams(line.seed_grams * len(line.trays))}"
        return LineWords(
            words, line.numbers, line.crop, f"day {line.day_number}" if line.stage else "",
            line.when_words(self.view.round.now, brief=True), line.mould_words, self._arms(line),
            "later" if line.waits else "late" if line.late else line.chore,
        )  # fmt: skip

    def _arms(self, line: RoundLine) -> str:
        """The arms and marks of the line's trays, where some are in a trial."""
        arms: dict[str, list[int]] = {}
        for tray in line.trays:
            if arm := self.view.arms.get(tray.tray):
                arms.setdefault(", ".join(filter(None, (arm, tray.colour))), []).append(tray.number)
        if len(arms) == 1 and len(*arms.values()) == len(line.trays):
            return "".join(arms)
        return "; ".join(f"{numbers_words(trays)} {arm}" for arm, trays in arms.items())

    def does(self, name: str) -> bool:
        return super().does(name) and (name != "undo" or self.view.undoes)

    def beside(self) -> Subject | None:
        return (
            TraySubject(self.walk.under[1][0]) if self.walk.under and self.walk.under[1] else None
        )

    def due_now(self) -> Sequence[RoundLine | DueDuty] | None:
        return tuple(self.view.round.walked())

    def chosen(self) -> Chosen | None:
        if self.walk.under is None:
            return None
        line: RoundLine | DueDuty
        line, numbers = self.walk.under
        if isinstance(line, DueDuty):
            return Chosen((), words=line.words, place=line.place)
        sign = self.view.signs.get(line.batch_id, "")
        return Chosen(numbers, line.chore, line.words, line.place, line.crop, sign)

    def _chore(self) -> Chosen | None:
        chosen = self.chosen()
        if chosen is None or not chosen.numbers:
            self.say_select("chore")
            return None
        return chosen

    @property
    def _duty(self) -> DueDuty | None:
        line = self.walk.under[0] if self.walk.under else None
        return line if isinstance(line, DueDuty) else None

    @work
    async def action_done(self, how: Literal["now", "at", "part", "whole"] = "now") -> None:
        """Write the chore; of a watering at another time it is also asked what was given."""
        if (duty := self._duty) is not None:
            from logbook.ui.forms.upkeep_forms import do_duty

            await do_duty(self, duty, when=how == "at")
            return
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
        from logbook.actions.room.upkeep import put_off
        from logbook.actions.trays.doing import skip

        if (duty := self._duty) is not None:
            asked = f"Put off until tomorrow: {duty.words}. Why?"
            await self.ask_why(asked, lambda book, why: put_off(book, duty, why))
            return
        chosen = self._chore()
        if chosen is not None:
            await self.ask_why(
                f"Skip {chosen.words} of {chosen.label}: why?",
                lambda book, why: skip(book, chosen.chore, chosen.numbers, why),
            )

    def action_unfold(self) -> None:
        if self.walk.under is not None and self._duty is None:
            self.unfold(line_key(self.walk.under[0]))


def line_key(line: RoundLine | DueDuty) -> str:
    """Name a line so that the cursor finds it again."""
    if isinstance(line, DueDuty):
        return f"{line.duty.entry}/{int(line.later)}"
    return f"{line.chore}/{line.batch_id}/{line.place_id or 0}/{int(line.later)}"
