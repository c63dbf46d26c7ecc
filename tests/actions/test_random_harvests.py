"""Random histories of cuts, regrowth, corrections and undos, held against a plain count of them."""

from __future__ import annotations

from collections.abc import Iterable
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random
from typing import Any

import pytest

from logbook.actions.book import Book
from logbook.actions.care.checking import wrong_summaries
from logbook.actions.crops.templates import put_template
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import redo, strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.crops.luck import BatchWeights, batch_weights
from logbook.growing.trays.cuts import WEIGHED_WITHIN
from tests.actions.days import stand_at
from tests.room import DAY, field_test

AGAIN = 150.0
HOWS = ("whole", "part", "keep", "keep")


@dataclass
class Cut:
    """A standing cut: the entry it is now, the first it was, trays with g, what follows.

    One that was not weighed has 0 g.
    """

    entry: int
    root: int
    at: datetime
    grams: dict[int, float]
    how: str
    weighed: bool = True


@dataclass
class Plain:
    """What was written, in lists; everything else is counted anew from them."""

    trays: list[int] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    gone: set[int] = field(default_factory=set)

    def of(self, tray: int) -> list[Cut]:
        mine = [cut for cut in self.cuts if tray in cut.grams]
        return sorted(mine, key=lambda cut: (cut.at, cut.root))

    def harvests(self, tray: int) -> list[tuple[float, bool, bool, bool]]:
        """Grams, whether it is whole, any of it was weighed with other trays, all of it was weighed."""
        found: list[tuple[float, bool, bool, bool]] = []
        for cut in self.of(tray):
            grams, shared, weighed = cut.grams[tray], len(cut.grams) > 1, cut.weighed
            if found and not found[-1][1]:
                before = found.pop()
                grams, shared = grams + before[0], shared or before[2]
                weighed = weighed and before[3]
            found.append((grams, cut.how != "part", shared, weighed))
        return found

    def growing(self) -> list[int]:
        cut = {tray for each in self.cuts if each.how == "whole" for tray in each.grams}
        return [tray for tray in self.trays if tray not in cut | self.gone]

    def cut(self, number: int) -> list[tuple[int, float, bool]]:
        """The harvests of a number that are done: tray, g, whether weighed together."""
        every = [(tray, self.harvests(tray)) for tray in self.trays]
        nth = [(tray, each[number - 1]) for tray, each in every if len(each) >= number]
        return [
            (tray, grams, shared)
            for tray, (grams, done, shared, weighed) in nth
            if done and weighed
        ]


def shares(total: float, trays: Iterable[int]) -> dict[int, float]:
    """Tenths of a gram as evenly as they go, the first trays one more."""
    numbers, tenths = list(trays), round(total * 10)
    return {
        tray: (tenths // len(numbers) + (place < tenths % len(numbers))) / 10
        for place, tray in enumerate(numbers)
    }


def flat(batch: BatchWeights) -> Any:
    return tuple(round(each, 4) for each in (batch.trays, batch.mean, batch.squares, batch.df))


@dataclass
class History:
    """A book and its plain count, led on by chance; `before` are the counts that undo goes back to."""

    book: Book
    chance: Random
    plain: Plain = field(default_factory=Plain)
    before: list[Plain] = field(default_factory=list)

    def step(self) -> None:
        assert isinstance(self.book.clock, FixedClock)
        self.book.clock.at += timedelta(hours=self.chance.randint(1, 40))
        ways = ["sow", "cut", "cut", "cut", "cut", "together", "correct", "correct", "strike"]
        way = self.chance.choice([*ways, "undo", "undo and redo", "discard", "unweighed"])
        if way in ("undo", "undo and redo"):
            if self.before:
                undo(self.book)
                if way == "undo":
                    self.plain = self.before.pop()
                else:
                    redo(self.book)
            return
        kept = deepcopy(self.plain)
        if self.write(way):
            self.before.append(kept)

    def write(self, way: str) -> bool:
        plain, chance, growing = self.plain, self.chance, self.plain.growing()
        if way == "sow" and len(plain.trays) < 24:
            plain.trays += sow(self.book, SowDraft("field test", 3)).plan.numbers
        elif way in ("cut", "together") and growing:
            count = 1 if way == "cut" else min(len(growing), chance.randint(2, 3))
            numbers, how = chance.sample(growing, count), chance.choice(HOWS)
            grams = chance.randint(100, 5000) / 2
            done = weigh(
                self.book, numbers, grams, part=how == "part", keep=how == "keep",
            )  # fmt: skip
            entry = done[0].act_id
            mine = shares(grams, numbers) if count > 1 else {numbers[0]: grams}
            plain.cuts.append(Cut(entry, entry, self.book.now(), mine, how))
        elif way == "unweighed" and growing:
            number, how = chance.choice(growing), chance.choice(("part", "keep"))
            entry = did(
                self.book, "cut", [number], part=how == "part", keep=how == "keep"
            ).act_id  # fmt: skip
            at = self.book.now()
            plain.cuts.append(Cut(entry, entry, at, {number: 0.0}, how, weighed=False))
            assert isinstance(self.book.clock, FixedClock)
            self.book.clock.at += WEIGHED_WITHIN  # so that no weight is taken for this cut's
        elif way == "discard" and growing:
            number = chance.choice(growing)
            discard(self.book, [number], "withered")
            plain.gone.add(number)
        elif way in ("correct", "strike") and plain.cuts:
            cut = chance.choice(plain.cuts)
            if way == "strike":
                strike(self.book, cut.entry, "wrong")
                plain.cuts.remove(cut)
            elif cut.weighed:
                self.correct(cut)
            else:
                return False
        else:
            return False
        return True

    def correct(self, cut: Cut) -> None:
        """Another weight, or another thing that follows; a tray's end stays the last of its cuts."""
        last = all(self.plain.of(tray)[-1] is cut for tray in cut.grams)
        last = last and not self.plain.gone & set(cut.grams)
        grams = self.chance.randint(100, 5000) / 2
        if self.chance.random() < 0.5:
            changes = Changes(grams=grams)
            several = len(cut.grams) > 1
            cut.grams = (
                shares(grams, sorted(cut.grams)) if several else dict.fromkeys(cut.grams, grams)
            )
        else:
            cut.how = self.chance.choice(("part", "keep", "whole") if last else ("part", "keep"))
            changes = {
                "part": Changes(part=True), "keep": Changes(keep=True), "whole": Changes(part=False),
            }[cut.how]  # fmt: skip
        act = replace_entry(self.book, cut.entry, "misread", changes).act_id
        with self.book.reading() as reading:
            cut.entry = reading.value(
                "SELECT id FROM entry WHERE act_id = ? AND kind = 'weigh'", (act,)
            )

    def holds(self) -> None:
        """The fold, the kept summaries and all that is expected are what the plain count says."""
        with self.book.reading() as reading:
            known = {
                each.stored.number: each for each in reading.trays(self.plain.trays, live=False)
            }
            versions = {each.stored.version_id for each in known.values()}
            wanted = [(version, number) for version in versions for number in (1, 2, 3)]
            luck = reading.luck(wanted)
        growing = self.plain.growing()
        for tray, each in known.items():
            found = [
                (round(one.grams, 6), one.done, one.shared, one.weighed)
                for one in each.state.harvests
            ]
            assert found == [(round(grams, 6), *rest) for grams, *rest in self.plain.harvests(tray)]
            assert (each.state.status == "growing") is (tray in growing)
        for (_, number), said in luck.items():
            assert said is not None
            cut = self.plain.cut(number)
            plain = batch_weights((known[tray].stored.batch_id, g, s) for tray, g, s in cut)
            assert {each.batch: flat(each) for each in said.own} == {
                each.batch: flat(each) for each in plain
            }
        assert wrong_summaries(self.book) == []


@pytest.mark.parametrize("draw", range(5))
def test_the_fold_and_what_is_expected_are_what_a_plain_count_gives(book: Book, draw: int) -> None:
    stand_at(book, "2026-04-01 08:00")
    put_template(book, field_test(regrow_seconds=10 * DAY, regrow_grams=AGAIN), "it grows again")
    history = History(book, Random(draw))
    history.write("sow")
    for step in range(40):
        history.step()
        if step % 4 == 3:
            history.holds()
