"""The round: what every tray needs, in the order in which one walks past."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rich.cells import cell_len
from textual import on, work
from textual.app import ComposeResult
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.viewing import RoundView, round_view
from logbook.growing.days import moment_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.round import RoundLine, RoundTray
from logbook.text import plural
from logbook.ui.columns import apart, column, fit, spread
from logbook.ui.deeds import Chosen, TrayKeys
from logbook.ui.drafts import answer_to
from logbook.ui.widgets.walk_list import Row, WalkList

ONE_LINE = 76
"""Cells that a chore needs on one line, so that how late it is is never cut."""


class RoundScreen(TrayKeys):
    """The first screen."""

    heading = "the round"
    home = True
    purpose = (
        "What every tray needs now, place by place as you walk; what comes later today stands "
        "below. Enter writes that it was done; a cut opens the weigh-in, a look its form."
    )
    own = (
        "done", "at", "part", "jot", "look", "skip", "undo", "unfold", "whole", "weigh", "sow", "move",
        "discard",
    )  # fmt: skip
    view: RoundView | None = None

    def __init__(self) -> None:
        super().__init__()
        self.open_lines: set[str] = set()

    async def on_mount(self) -> None:
        """Read the round before the first paint, so that it is the only one."""
        await self.reload()
        self.fresh = True

    def compose_body(self) -> ComposeResult:
        """Give the list."""
        yield WalkList()

    def load(self, book: Book) -> RoundView:
        """Read the round."""
        return round_view(book)

    def draw(self) -> None:
        """Draw places, lines and what waits for later."""
        view = self.view
        if view is None:
            return
        today = view.round
        stops = "" if self.narrow else f"{plural(today.stops, 'stop')}   "
        self.counts = f"{stops}{plural(len(today.due), 'chore')}   {today.late} late"
        rows: list[Row] = []
        place: str | None = None
        for line in today.due:
            if line.place != place:
                place = line.place
                rows.append(Row(self._place(place, view.hours.get(place, ""))))
            rows += self._rows(line)
        if not today.due:
            rows.append(Row(Content(f"Nothing is due now.{self._after(view)}")))
        if today.waiting:
            rows.append(Row(Content.styled("Later today", "$text-past")))
            for line in today.waiting:
                rows += self._rows(line)
        if not today.lines and view.empty:
            rows.append(Row(Content(self.keyed("No trays yet: {sow} sows the first batch."))))
        self.query_one(WalkList).show(rows)

    def _after(self, view: RoundView) -> str:
        if view.after is None:
            return ""
        when = moment_words(view.after.due_at, view.round.now, self.book.zone)
        return f" Next: {view.after.words}, {when}."

    def _place(self, path: str, hours: str) -> Content:
        place, lit = Content.styled(path, "bold $primary"), Content.styled(hours, "$text-past")
        return apart(place, lit, self.app.size.width - 4)

    def _rows(self, line: RoundLine) -> list[Row]:
        key = line_key(line)
        rows = [Row(self._text(line), key)]
        if key in self.open_lines:
            rows += [Row(self._single(line, tray), f"{key} {tray.number}") for tray in line.trays]
        return rows

    def _words(self, line: RoundLine) -> tuple[str, str, str, str, str]:
        assert self.view is not None  # noqa: S101 - drawn only when there is one
        now, book = self.view.round.now, self.book
        words = line.words
        if line.chore in ("soak", "sow") and line.seed_grams is not None:
            words += f" {grams_words(line.seed_grams * len(line.trays), book.units)}"
        day = f"day {line.day_number}" if line.stage else ""
        return (
            words,
            numbers_words(line.numbers),
            line.crop,
            day,
            line.when_words(now, book.zone, brief=True),
        )

    def _text(self, line: RoundLine) -> Content:
        assert self.view is not None  # noqa: S101 - drawn only when there is one
        words, numbers, crop, day, when = self._words(line)
        late = line.late(self.view.round.now) and not line.waits
        wants = late or line.chore == "cut" or bool(line.mouldy)
        tone = "$text-past" if line.waits else "$warning" if wants else ""
        mark = "▌" if late else " "
        width = self.app.size.width - 4
        if width < ONE_LINE:
            right = Content(fit(numbers, 16))
            crop = fit(crop, width - 4 - right.cell_length - cell_len(day))
            head = Content.styled(f"{crop} {day}".strip(), f"bold {tone}")
            first = Content.assemble((mark, "$warning"), " ", spread(head, right, width - 2))
            chore, below = with_mould(line, words, tone, width - 4 - cell_len(when))
            due = Content.styled(when, tone)
            second = Content.assemble("  ", spread(chore, due, width - 2))
            return Content("\n").join([first, second, *below])
        spare = max(0, width - 76)
        longer = max(0, cell_len(day) - 6)
        columns = (22 + spare // 3, 11 + spare // 3, 13 + spare // 6 - longer, 7 + longer)
        chore, below = with_mould(line, words, tone, columns[0] - 2)
        parts = [
            column(text, size) for text, size in zip((numbers, crop, day), columns[1:], strict=True)
        ]
        first = Content.assemble(
            (mark, "$warning"),
            " ",
            chore.truncate(columns[0] - 1, ellipsis=True).truncate(columns[0], pad=True),
            (parts[0], f"bold {tone}"),
            (parts[1], tone),
            (parts[2], f"bold {tone}"),
            (fit(when, max(6, width - 2 - sum(columns))), tone),
        )
        return Content("\n").join([first, *below])

    def _single(self, line: RoundLine, tray: RoundTray) -> Content:
        assert self.view is not None  # noqa: S101 - drawn only when there is one
        mark = f"  {tray.colour}" if tray.colour else ""
        return Content.assemble("    ", (f"{tray.number}", "bold"), mark)

    def due_now(self) -> Sequence[RoundLine] | None:
        """Give the lines that are due."""
        return self.view.round.due if self.view is not None else None

    # what the cursor is on

    def _line(self) -> tuple[RoundLine, int | None] | None:
        key = self.query_one(WalkList).key
        if self.view is None or not key:
            return None
        for line in self.view.round.lines:
            mine = line_key(line)
            if key == mine:
                return line, None
            if key.startswith(mine + " "):
                return line, int(key.rsplit(" ", 1)[1])
        return None

    def chosen(self) -> Chosen | None:
        """Give the line under the cursor, or one of its trays."""
        found = self._line()
        if found is None:
            return None
        line, single = found
        numbers = line.numbers if single is None else (single,)
        sign = self.view.signs.get(line.batch_id, "") if self.view else ""
        return Chosen(numbers, line.chore, line.words, line.place, line.crop, sign)

    @on(WalkList.Selected)
    def selected(self) -> None:
        """Let Enter do the chore."""
        self.action_done()

    @work
    async def action_done(self) -> None:
        """Write that the chore under the cursor was done now."""
        chosen = self.chosen()
        if chosen is None or not chosen.chore:
            self.say("The cursor is on no chore.")
            return
        await self.do_chore(chosen)

    @work
    async def action_at(self) -> None:
        """Write that it was done at another time; of a watering also what was given."""
        chosen = self.chosen()
        if chosen is None or not chosen.chore:
            return
        if chosen.chore == "water":
            from logbook.ui.readings import ask_watering

            await ask_watering(self, chosen)
            return
        await self.do_chore(chosen, when=True)

    @work
    async def action_part(self) -> None:
        """Do it on some of the trays."""
        chosen = self.chosen()
        if chosen is None or not chosen.chore:
            return
        await self.do_chore(chosen, part=True)

    def _whole_shelf(self) -> Chosen | None:
        """Give what the cursor is on, with all trays at its place that want the same now."""
        found, chosen = self._line(), self.chosen()
        if found is None or chosen is None or self.view is None:
            return chosen
        line = found[0]
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
    async def action_whole(self) -> None:
        """Write that the chore was done on all trays of the place that want it."""
        chosen = self._whole_shelf()
        if chosen is None or not chosen.chore:
            self.say("The cursor is on no chore.")
            return
        await self.do_chore(chosen)

    @work
    async def action_skip(self) -> None:
        """Leave the chore out this time."""
        from logbook.actions.doing import skip
        from logbook.ui.asking import why_asked

        chosen = self.chosen()
        if chosen is None or not chosen.chore:
            return
        asked = f"Skip {chosen.words} of {chosen.label}: why?"
        done = await self.ask_to_write(
            why_asked(asked),
            lambda book, why: skip(book, chosen.chore, chosen.numbers, why),
            answer_to(asked),
        )
        if done is not None:
            self.say(f"{done.words}.  {self.undoes}")

    def action_unfold(self) -> None:
        """Open the line to single trays, or close it."""
        found = self._line()
        if found is not None:
            self.open_lines ^= {line_key(found[0])}
            self.draw()


def with_mould(
    line: RoundLine, words: str, tone: str, width: int
) -> tuple[Content, tuple[Content, ...]]:
    """Give a chore's words with the trays on which mould was seen, or these on a line below."""
    chore = Content.styled(words, tone)
    if not line.mould_words:
        return chore, ()
    mould = Content.styled(line.mould_words, "$warning")
    if chore.cell_length + 2 + mould.cell_length <= width:
        return Content.assemble(chore, "  ", mould), ()
    return chore, (Content.assemble("    ", mould),)


def line_key(line: RoundLine) -> str:
    """Name a line so that the cursor finds it again."""
    return f"{line.chore}/{line.batch_id}/{line.place_id or 0}/{int(line.later)}"
