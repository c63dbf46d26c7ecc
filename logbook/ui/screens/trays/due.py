"""Due: trays to cut today and in the days ahead, with the grams to expect."""

from dataclasses import dataclass
from datetime import date, timedelta

from rich.cells import cell_len
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.trays.due import DueDay, DueTray, due, due_by_day
from logbook.growing.crops.yields import Expected, expect
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import ago_words, range_words
from logbook.growing.numbers import numbers_words
from logbook.text import plural
from logbook.ui.columns import column, fit, range_bar, shared, spread
from logbook.ui.deeds import TrayKeys
from logbook.ui.subjects import BatchSubject, Chosen, Subject, TraySubject, WeighSubject
from logbook.ui.widgets.walk_list import Row

AHEAD = 14
LEAST = (12, 9, 18, 12, 4)
"""Cells of the columns at least: crop, trays, how they stand, grams, basis."""


@dataclass(frozen=True, slots=True)
class Group:
    """Trays of one crop that are best on one day."""

    sums: DueDay
    trays: tuple[DueTray, ...]

    @property
    def key(self) -> str:
        return f"{self.sums.day}/{self.sums.crop}"

    @property
    def ready(self) -> tuple[int, ...]:
        return tuple(tray.number for tray in self.trays if tray.ready != "soon")

    @property
    def late(self) -> bool:
        return any(tray.ready == "late" for tray in self.trays)


class DueScreen(TrayKeys):
    """Days, and under each the crops that are best to cut then."""

    heading = "due"
    purpose = (
        "Trays by the day they are best to cut; late ones are under today. Grams are a range "
        "that the weight falls in 4 times in 5, and what it is based on. Enter weighs "
        "trays that can be cut, opens a line that cannot be cut yet, and opens a single tray."
    )
    own = ("open", "unfold", "jot", "look", "weigh", "move", "discard", "hold")
    view: tuple[Group, ...] | None = None
    _widths: tuple[int, ...] = ()

    def load(self, book: Book) -> tuple[Group, ...]:
        found = due(book, AHEAD)
        by_number = {tray.number: tray for tray in found}
        return tuple(
            Group(sums, tuple(by_number[number] for number in sums.numbers))
            for sums in due_by_day(found)
        )

    def rows(self, view: tuple[Group, ...]) -> list[Row]:
        now = sum(len(group.ready) for group in view)
        late = sum(tray.ready == "late" for group in view for tray in group.trays)
        trays = str(now) if self.narrow else plural(now, "tray")
        self.counts = f"{trays} to cut now   " + ("" if late else "0 late")
        self.late = f"{late} late" if late else ""
        texts = [self._cells(group) for group in view]
        needs = [max(map(cell_len, each)) + 2 for each in zip(*texts, strict=True)]
        self._widths = shared(needs, LEAST, self.width - 2, first=(4, 1, 0)) if needs else ()
        today = self.book.today()
        by_day: dict[date, list[Group]] = {today: []}
        for group in view:
            by_day.setdefault(group.sums.day, []).append(group)
        most = max((each.high for groups in by_day.values() if (each := _sum(groups))), default=0.0)
        rows: list[Row] = []
        asked = range(min((max(by_day) - today).days, AHEAD) + 1)
        for day in sorted(by_day.keys() | {today + timedelta(days=shift) for shift in asked}):
            groups = by_day.get(day, [])
            rows.append(Row(self._day(day, groups, most)))
            for group in groups:
                rows.append(Row(self._text(group), group.key, (group, None)))
                if group.key in self.unfolded:
                    rows += [
                        Row(self._single(tray), f"{group.key}/{tray.number}", (group, tray))
                        for tray in group.trays
                    ]
        if not view:
            rows.append(Row(Content(f"Nothing will be ready within {plural(AHEAD, 'day')}.")))
            rows.append(Row(Content(self.keyed("{sow} sows a batch."))))
        return rows

    def beside(self) -> Subject | None:
        if not self.walk.under:
            return None
        group, tray = self.walk.under
        return TraySubject(tray.number) if tray else BatchSubject(group.trays[0].batch)

    def _day(self, day: date, groups: list[Group], most: float) -> Content:
        today = self.book.today()
        shift = (day - today).days
        name = {0: "today", 1: "tomorrow"}.get(shift, "")
        words = f"{day_words(day, today)} {name}".strip()
        if not groups:
            return Content.styled(f"{column(words, 20)}nothing", "$text-past")
        expected = _sum(groups)
        amount = f"{self._range(expected)}, 4 in 5" if expected else "not known"
        if self.narrow:
            head = Content.styled(words, "bold $primary")
            return spread(head, Content(amount), self.width)
        drawn = ""
        if expected:
            drawn = range_bar(expected.low, expected.high, most, self.columns - 48)
        return Content.assemble(
            (column(words, 20), "bold $primary"), column(amount, 21), (drawn, "$secondary")
        )

    def _range(self, expected: Expected) -> str:
        return range_words(expected.low, expected.high, self.book.units)

    def _state(self, group: Group) -> str:
        late = [tray for tray in group.trays if tray.ready == "late"]
        ready = [tray for tray in group.trays if tray.ready == "ready"]
        words = []
        if late:
            first = min(late, key=lambda tray: tray.window.by)
            words.append(self._tray_state(first))
            if len(late) < len(group.trays):
                words[0] = f"{len(late)} {words[0]}"
        if ready:
            some = "" if len(ready) == len(group.trays) else f"{len(ready)} "
            first = min(ready, key=lambda tray: tray.window.best)
            words.append(some + self._tray_state(first))
        if not words:
            first = min(group.trays, key=lambda tray: tray.window.start)
            words.append(self._tray_state(first))
        return ", ".join(words)

    def _tray_state(self, tray: DueTray) -> str:
        now = self.book.now()
        if tray.ready == "late":
            return f"late {ago_words((now - tray.window.by).total_seconds())}"
        if tray.sign_seen:
            return "ready sign seen"
        if tray.ready == "ready":
            if tray.window.best <= now:
                return f"ready, by {self.moment(tray.window.by)}"
            return f"ready, best {self.moment(tray.window.best)}"
        start = tray.window.start
        far = (day_of(start, self.book.zone) - self.book.today()).days >= 7
        return f"ready from {self.day(start) if far else self.moment(start)}"

    def _cells(self, group: Group) -> tuple[str, str, str, str, str]:
        """Crop, trays, how they stand, what they may weigh, and what that is based on."""
        known = [tray.expected for tray in group.trays if tray.expected is not None]
        grams = self._range(group.sums.expected) if group.sums.expected else "not known"
        rests = known[0].basis if known else ""
        if known and known[0].trays:
            rests = f"from {rests}"
        if 0 < len(known) < len(group.trays):
            grams += f" of {len(known)}"
        numbers = numbers_words(group.sums.numbers)
        return group.sums.crop, numbers, self._state(group), grams, rests

    def _text(self, group: Group) -> Content:
        width = self.width
        crop, numbers, state, grams, rests = self._cells(group)
        tone = "$warning" if group.ready else ""
        mark = Content.assemble(("▌" if group.late else " ", "$warning"), " ")
        if self.narrow:
            first = spread(
                Content.assemble(mark, (crop, f"bold {tone}")),
                Content(fit(numbers, 18)),
                width,
            )
            second = spread(Content.assemble("  ", (state, tone)), Content(grams), width)
            return Content("\n").join([first, second])
        if cell_len(rests) >= self._widths[-1]:
            rests = rests.removeprefix("from ")
        tones = (tone, f"bold {tone}", tone, "", "$text-past")
        cells = zip((crop, numbers, state, grams, rests), self._widths, tones, strict=True)
        return Content.assemble(
            mark, *((column(words, room), tone) for words, room, tone in cells)
        ).rstrip()

    def _single(self, tray: DueTray) -> Content:
        width = self.width
        again, number = tray.regrowth_day, tray.day_number
        day = f"day {number}" if again is None else f"again {again}"
        best, by = map(self.moment, (tray.window.best, tray.window.by))
        state = "ready sign seen" if tray.sign_seen else tray.ready
        place = tray.place or "no place"
        if self.narrow:
            words = f"{state}, by {by}, {place}"
            return Content.assemble(
                "   ", (column(str(tray.number), 6), "bold"), fit(words, width - 9)
            )
        span = f"by {by}" if tray.ready == "late" else f"best {best}, by {by}"
        rest = spread(Content(f"{state}: {span}"), Content(place), width - 19)
        return Content.assemble("    ", (column(str(tray.number), 7), "bold"), column(day, 8), rest)

    def chosen(self) -> Chosen | None:
        if self.walk.under is None:
            return None
        group, tray = self.walk.under
        trays = group.trays if tray is None else (tray,)
        return Chosen(tuple(each.number for each in trays), "cut", "cut", crop=group.sums.crop)

    async def action_open(self) -> None:
        if self.walk.under is None:
            return
        group, tray = self.walk.under
        if tray is not None:
            await self.open_tray(tray.number)
        elif group.ready:
            self.logbook.go(WeighSubject(group.ready))
        else:
            self.action_unfold()

    def action_unfold(self) -> None:
        if self.walk.under is not None:
            self.unfold(self.walk.under[0].key)


def _sum(groups: list[Group]) -> Expected | None:
    return expect(tray.meant for group in groups for tray in group.trays)
