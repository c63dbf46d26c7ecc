"""The words of the weigh-in: its roll, the sums, what is left, what is usual for a tray."""

from collections.abc import Collection
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from rich.cells import cell_len
from textual.content import Content

from logbook.actions.trays.till import Till, TillLine
from logbook.growing.cautions import words_of
from logbook.growing.days import clock_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import numbers_in_order, numbers_words
from logbook.growing.trays import weighing
from logbook.growing.trays.till import Typed
from logbook.ui.columns import column, fit, spread, whole_hints

LEAST = 12
"""Cells below which it is not begun to say what the usual weight rests on."""


@dataclass(frozen=True, slots=True)
class TillDrawing:
    """How the weigh-in is drawn here: cells of a line, units, the room's zone."""

    width: int
    narrow: bool
    units: Units
    zone: ZoneInfo

    def roll(self, line: TillLine) -> Content:
        """A weight of today: on one line, where it is narrow on two."""
        words = ["part cut" if line.part else line.against, "grows again" if line.keep else ""]
        if line.harvest > 1:
            words.insert(0, f"harvest {line.harvest}")
        if line.told is not None:
            words.insert(0, f"at {clock_words(line.told, self.zone)}")
        if len(line.numbers) > 1:
            each = grams_words(line.grams / len(line.numbers), self.units)
            words.append(f"{each} each, together")
        if line.total != line.grams:
            words.append(f"{grams_words(line.total, self.units)} in all")
        if line.per_seed is not None:
            words.append(f"{line.per_seed:.2f} g/g seed")
        rest, width = ", ".join(filter(None, words)), self.width - 1
        grams, numbers = grams_words(line.grams, self.units), numbers_words(line.numbers)
        if self.narrow:
            head = Content.assemble((numbers, "bold"), f" {line.crop}, day {line.day_number}")
            head = spread(head, Content.styled(grams, "bold"), width)
            return Content.assemble(head, "\n  ", (fit(rest, width - 2), "$text-past"))
        return Content.assemble(
            (column(numbers, 10), "bold"), column(line.crop, 12),
            column(f"day {line.day_number}", 7), (f"{fit(grams, 8):>8}", "bold"), "  ",
            (fit(rest, width - 39), "$text-past"),
        )  # fmt: skip

    def batch(self, view: Till) -> str:
        """How far the batch of the last weight is; while there is none, what to mind with blade and food."""
        if not view.lines:
            return " ".join((*words_of("blades")[:1], *words_of("raw food")[:1]))
        batch = view.batches[view.lines[-1].batch]
        words = [f"{batch.cut} of {batch.trays} cut"]
        if batch.cut:
            words.append(f"{grams_words(batch.grams / batch.cut, self.units)} per tray")
        if batch.per_seed is not None and not self.narrow:
            words.append(f"{batch.per_seed:.2f} g/g seed")
        words.append(batch.against)
        regrown = f", harvest {batch.harvest}" if batch.harvest > 1 else ""
        return f"{batch.crop}, batch {batch.batch}{regrown}: {', '.join(filter(None, words))}"

    def left(self, view: Till, sent: Collection[int]) -> str:
        """Which trays are left to cut, but for those whose weight is on its way; '' for none."""
        chosen = [number for number in view.chosen if number not in sent]
        ready = [number for number in view.ready if number not in sent]
        parts = [f"left to cut: {numbers_in_order(chosen)}"] if chosen else []
        if ready:
            also = "also ready" if view.chosen else "ready"
            parts.append(f"{also}: {numbers_in_order(ready)}")
        return fit("   ".join(parts), self.width) if parts else ""

    def doubt(self, view: Till, typed: Typed) -> str:
        """What to ask before so odd a weight, or one of a mouldy tray, is written; '' for nothing."""
        asked: list[str] = []
        for number in typed.numbers:
            tray = view.trays.get(number)
            if tray is None:
                continue
            grams = typed.grams / len(typed.numbers)
            found = weighing.doubt(
                grams, tray.state.part_grams, tray.expected, part=typed.part, units=self.units
            )
            odd = f"Tray {number}, {tray.crop}: {found}" if found else ""
            asked += [tray.mould, odd]
        if {*typed.unsure} & {*view.left}:
            meant = f"{grams_words(typed.grams, self.units)} on {numbers_words(typed.numbers)}"
            asked.append(f"Is it {meant}? Put a space between trays and sum: 117 180+140.")
        early = [(each, view.trays[each].untimely) for each in typed.numbers if each in view.trays]
        asked += weighing.untimely_words(early)
        known = [(each, view.trays[each].crop) for each in typed.numbers if each in view.trays]
        return " ".join(dict.fromkeys(filter(None, [*asked, weighing.strangers(known)])))

    def usual(self, view: Till, numbers: tuple[int, ...], typed: Typed | None) -> str:
        """What is usual for these trays, and how what is typed compares; '' for no such tray."""
        tray = view.trays.get(numbers[0]) if numbers else None
        if tray is None:
            return ""
        label = numbers_words(numbers)
        heads = [f"{label} {tray.crop}, day {tray.day_number}", f"{label} {tray.crop}", label]
        mouldy = [each for each in numbers if each in view.trays and view.trays[each].mould]
        if self.narrow:
            heads = heads[2:] if typed or mouldy else heads[1:2]
        words = []
        if mouldy:
            words.append("mould seen" + (f" on {numbers_words(mouldy)}" if numbers[1:] else ""))
        if typed is not None and tray.expected is not None:
            grams = typed.grams / len(typed.numbers) + tray.state.part_grams
            against = weighing.against_usual(grams, tray.expected)
            words.append(f"{grams_words(grams, self.units)}: {against}")
        elif tray.expected is not None:
            words.append(weighing.usual_words(tray.expected, self.units))
        if tray.state.part_grams:
            words.append(f"{grams_words(tray.state.part_grams, self.units)} cut before")
        if tray.state.harvest > 1:
            words.append(f"harvest {tray.state.harvest}")
        if not self.narrow:
            words.append(tray.place)
        whole = ["   ".join(filter(None, (head, *words))) for head in heads]
        shown = next((each for each in whole if cell_len(each) <= self.width), whole[-1])
        if self.narrow:
            return fit(shown, self.width)
        rest = self.width - cell_len(shown) - 3
        if tray.expected is not None and rest >= LEAST:
            shown += f"   {fit(tray.expected.rests_on, rest)}"
        return whole_hints(shown, self.width)
