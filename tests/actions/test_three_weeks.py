"""Three weeks of a room with two customers, over the end of summer time, held against a ledger kept beside."""

from __future__ import annotations

from collections import defaultdict
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.cold_store import cold_store
from logbook.actions.packs.despatching import despatch
from logbook.actions.packs.trace import trace
from logbook.actions.packs.withdrawing import take_back, take_out
from logbook.actions.recall.holding import hold, release
from logbook.actions.recall.recalling import recall
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.seed.seed_store import seed_store
from logbook.actions.seed.writing import buy_seed
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.actions.yields.month import month
from logbook.growing.seed.bags import Bag
from logbook.growing.trays.chores import CHANGES
from logbook.text import Refused
from tests.actions.ledger import Ledger, Pot
from tests.actions.room_book import room_book, stand_at

BERLIN = ZoneInfo("Europe/Berlin")
FIRST = date(2026, 10, 12)
"""A Monday; the clocks go back on Sunday, 25 October."""
BAGS = {
    "RA 1": ("radish", 900.0, "27.00"),
    "RA 2": ("radish", 800.0, "20.00"),
    "CR 1": ("cress", 500.0, "24.50"),
}
"""The seed bags: crop, g, price."""
DAYS = 21
CUSTOMERS = ("Bistro", "Deli")


@dataclass
class Weeks:
    """The book, the ledger, and the dice."""

    book: Book
    ledger: Ledger
    dice: Random
    day: date = FIRST
    sown: dict[int, list[Pot]] = field(default_factory=dict)
    """The trays of each sowing, by its entry."""

    def at(self, hour: int, minute: int = 0, day: date | None = None) -> datetime:
        """A wall time of the day, or of another."""
        return datetime.combine(day or self.day, time(hour, minute), BERLIN)

    def newest(self) -> int:
        """The newest entry."""
        with self.book.reading() as reading:
            return int(reading.value("SELECT max(id) FROM entry") or 0)

    def now_and_then(self, times_in_ten: int) -> bool:
        return self.dice.random() * 10 < times_in_ten

    def sow(self) -> None:
        """A crop from one bag, or from two, one emptied half-way; sometimes it is undone and sown again."""
        crop, each = self.dice.choice((("radish", 37.5), ("cress", 11.5)))
        trays = min(self.dice.randint(1, 3), 12 - len(self.ledger.growing()))
        if not trays:
            return
        lots = [lot for lot, (of, *_) in BAGS.items() if of == crop]
        seed = {self.dice.choice(lots): each}
        if len(lots) > 1 and self.now_and_then(5):
            seed = {lots[0]: each / 3, lots[1]: each * 2 / 3}
        words = " + ".join(f"{lot} = {grams * trays} g" for lot, grams in seed.items())
        for again in range(1 + self.now_and_then(2)):
            if again:
                undo(self.book)
            done = sow(self.book, SowDraft(crop, trays, lot=words))
        self.sown[self.newest()] = self.ledger.sow(done.plan.numbers, crop, seed)

    def walk(self) -> None:
        """What the round asks for is done, now and then not before the next day."""
        for line in the_round(self.book).due:
            if line.chore != "cut" and self.now_and_then(9 if line.chore in CHANGES else 1):
                did(self.book, line.chore, line.numbers)

    def cut(self, pot: Pot) -> None:
        """A tray is cut whole, in part or to grow again; now and then it is entered a day late."""
        how = self.dice.choice(("whole", "whole", "part", "keep"))
        late = self.at(17, day=self.day - timedelta(days=1)) if self.now_and_then(2) else None
        grams = float(self.dice.randint(120, 320))
        with suppress(Refused):
            (done,) = weigh(
                self.book, [pot.number], grams, at=late, part=how == "part", keep=how == "keep"
            )
            day = self.day - timedelta(days=1) if late else self.day
            assert done.lot == self.ledger.cut(pot, grams, done.act_id, day)
            pot.ended = day if how == "whole" else None

    def misread(self) -> None:
        """A weight that was misread is put right."""
        cuts = [(pot, entry) for pot in self.ledger.pots for entry in pot.cuts]
        if not cuts:
            return
        pot, entry = self.dice.choice(cuts)
        grams = max(1.0, pot.cuts[entry] + self.dice.randint(-60, 40))
        if grams == pot.cuts[entry]:
            return
        replace_entry(self.book, entry, "misread", Changes(grams=grams))
        new = self.newest()
        pot.cuts = {
            new if one == entry else one: grams if one == entry else each
            for one, each in pot.cuts.items()
        }
        for crate in self.ledger.crates.values():
            crate.cuts = {new if one == entry else one: each for one, each in crate.cuts.items()}

    def slip(self) -> None:
        """A cut that never was is struck out; its tray goes on growing where it ended it."""
        cuts = [
            (pot, max(pot.cuts), crate) for pot in self.ledger.growing() if pot.cuts
            for crate in self.ledger.crates.values() if max(pot.cuts) in crate.cuts and len(crate.cuts) > 1
        ]  # fmt: skip
        if cuts:
            pot, entry, crate = self.dice.choice(cuts)
            strike(self.book, entry, "another tray, another day")
            del pot.cuts[entry], crate.cuts[entry]

    def night(self) -> None:
        """Somebody orders late for tomorrow, and may call it off; in the morning it is packed or not."""
        stand_at(self.book, self.at(23, 50))
        order(self.book, OrderDraft("Late bar", "radish 120g tomorrow"))
        off = self.now_and_then(4)
        if off:
            undo(self.book)
        self.day += timedelta(days=1)
        stand_at(self.book, self.at(0, 20))
        self.pack("Late bar", "radish", 120)
        there = [
            each.customer for view in list_deliveries(self.book).deliveries for each in view.customers
            if view.ready_at.date() == self.day and all(one.packed for one in each.lines)
        ]  # fmt: skip
        assert ("Late bar" in there) is not off
        self.day -= timedelta(days=1)

    def other_bag(self) -> None:
        """Days later somebody finds that a sowing was from another bag."""
        found = [(entry, pots) for entry, pots in self.sown.items() if pots[0].crop == "radish"]
        if not found:
            return
        entry, pots = self.dice.choice(found)
        lot = self.dice.choice(("RA 1", "RA 2"))
        if pots[0].seed.keys() == {lot}:
            return
        replace_entry(self.book, entry, "it was the other bag", Changes(lot=lot))
        for pot in pots:
            pot.seed = {lot: sum(pot.seed.values())}
        with self.book.reading() as reading:
            new = reading.value("SELECT max(id) FROM entry WHERE kind = 'sow'")
        self.sown[int(new or 0)] = self.sown.pop(entry)

    def pack(self, who: str, crop: str, grams: float) -> None:
        """A customer's packs of the day are ticked; nothing is packed where that isn't wanted."""
        try:
            done = pack_for(self.book, who, crop, "today")
        except Refused:
            return
        lacking = self.ledger.pack(who, crop, grams, self.day, self.day)
        assert bool(done.notices) == (lacking >= 0.5), done.notices

    def send(self) -> None:
        """A lot is named: all of what is left of it, up to 90 g."""
        free = [
            (code, crate) for code, crate in self.ledger.crates.items()
            if crate.left >= 1 and not crate.held and crate.day + timedelta(days=7) >= self.day
        ]  # fmt: skip
        if free:
            code, crate = self.dice.choice(free)
            grams, who = min(90.0, float(int(crate.left))), self.dice.choice(CUSTOMERS)
            despatch(self.book, who, code, f"{grams:g}g", "today")
            crate.out.append((who, grams))

    def loss(self) -> None:
        """Something is thrown away, or comes back; it isn't sold again."""
        for code, crate in self.ledger.crates.items():
            who = self.dice.choice(CUSTOMERS)
            if crate.left >= 20 and self.now_and_then(1):
                take_out(self.book, code, 20.0, "waste")
                crate.out.append(("waste", 20.0))
            if crate.got(who) >= 30 and self.now_and_then(1):
                take_back(self.book, who, code, 30.0)
                crate.back.append((who, 30.0))

    def live(self) -> None:
        """One day from the morning to the evening."""
        stand_at(self.book, self.at(7))
        self.walk()
        held = [code for code, crate in self.ledger.crates.items() if crate.left >= 1][:1]
        if held and self.now_and_then(3):
            hold(self.book, held[0], "a hair in it")
            self.ledger.crates[held[0]].held = True
        for pot in self.ledger.growing():
            if self.now_and_then(3):
                self.cut(pot)
        for who, crop, grams in (
            ("Bistro", "radish", 200),
            ("Deli", "radish", 150),
            ("Deli", "cress", 90),
        ):
            if self.now_and_then(7):
                self.pack(who, crop, grams)
        if self.now_and_then(5):
            self.send()
        if self.now_and_then(4):
            self.misread()
        if self.now_and_then(2):
            self.other_bag()
        if self.now_and_then(2):
            self.slip()
        self.loss()
        if held and self.ledger.crates[held[0]].held:
            release(self.book, held[0], "it was thread")
            self.ledger.crates[held[0]].held = False
        stand_at(self.book, self.at(16))
        self.walk()
        if self.now_and_then(6):
            self.sow()
        if self.now_and_then(1) and (there := self.ledger.growing()):
            pot = self.dice.choice(there)
            discard(self.book, [pot.number], "fell")
            pot.ended, pot.lost = self.day, True
        if self.now_and_then(2):
            self.night()

    def compare(self) -> None:
        """The book says what the ledger says, wherever it says it."""
        book, ledger = self.book, self.ledger
        assert {
            each.lot: each.left_grams for each in seed_store(book, every=True).lots
        } == pytest.approx(ledger.seed_left())
        left = {code: crate.left for code, crate in ledger.crates.items() if crate.left >= 0.5}
        assert {each.code: each.now.grams_left for each in cold_store(book).lots} == pytest.approx(
            left
        )
        with book.reading() as reading:
            assert sorted(each.number for each in reading.live) == sorted(
                pot.number for pot in ledger.growing()
            )
        for lot in BAGS:
            self.compare_trace(lot)
        self.compare_months()

    def compare_trace(self, lot: str) -> None:
        """What came of a bag and who has it, forward, and whom a recall calls."""
        pots = [pot for pot in self.ledger.pots if lot in pot.seed]
        if not pots:
            return
        found, has = trace(self.book, lot), self.ledger.customers(lot)
        assert found.grams_in == pytest.approx(
            sum(sum(pot.cuts.values()) * pot.of(lot) for pot in pots)
        )
        got: dict[str, float] = defaultdict(float)
        for each in found.customers:
            got[each.customer] += each.grams
        assert dict(got) == pytest.approx(has)
        out = found.grams_out + found.grams_stock + found.grams_waste + found.grams_unaccounted
        assert out == pytest.approx(found.grams_in)
        called = {each.name: each.grams for each in recall(self.book, lot).customers}
        whole: dict[str, float] = defaultdict(float)
        for crate in self.ledger.crates.values():
            for who, grams in crate.out if crate.grams and crate.of(lot) else ():
                whole[who] += grams
        whole.pop("waste", None)
        assert called == pytest.approx(dict(whole))

    def compare_months(self) -> None:
        """Each month's cut grams and cost of seed by crop, of the trays that left the rack in it."""
        for text in ("2026-10", "2026-11"):
            if f"{self.day:%Y-%m}" < text:
                continue
            page = month(self.book, text)
            said = {each.crop: each for each in page.yields.crops}
            seed = {each.crop: each.costs.parts for each in page.costs.crops}
            for crop in ("radish", "cress"):
                mine = [
                    pot for pot in self.ledger.pots
                    if pot.crop == crop and pot.ended and f"{pot.ended:%Y-%m}" == text
                ]  # fmt: skip
                if not mine:
                    assert crop not in said
                    continue
                lost = sum(pot.lost for pot in mine)
                found = said[crop]
                assert (found.trays_cut, found.trays_lost) == (len(mine) - lost, lost)
                assert found.grams == pytest.approx(sum(sum(pot.cuts.values()) for pot in mine))
                worth = sum(
                    grams * float(BAGS[lot][2]) / BAGS[lot][1]
                    for pot in mine
                    for lot, grams in pot.seed.items()
                )
                paid = [part.money for part in seed[crop] if part.part == "seed"]
                assert float(paid[0] or 0) == pytest.approx(worth, abs=0.01)


@pytest.mark.parametrize("draw", [3])
def test_three_weeks_are_in_the_book_as_in_the_ledger(tmp_path: Path, draw: int) -> None:
    book = room_book(tmp_path, "Europe/Berlin", datetime.combine(FIRST, time(6), BERLIN))
    change_room(book, RoomDraft(pool=range(1, 13)))
    for lot, (crop, grams, price) in BAGS.items():
        buy_seed(book, Bag(lot, crop, grams, FIRST, price=Decimal(price)))
    for who, text in (
        ("Bistro", "radish 4 x 50g"),
        ("Deli", "radish 150g"),
        ("Deli", "cress 3 x 30g"),
    ):
        order(book, OrderDraft(who, f"{text} every mon,tue,wed,thu,fri,sat,sun 12:00"))
    weeks = Weeks(book, Ledger({lot: grams for lot, (_, grams, _) in BAGS.items()}), Random(draw))
    for past in range(DAYS):
        weeks.day = FIRST + timedelta(days=past)
        weeks.live()
        if past % 7 == 6:
            weeks.compare()
    assert len(weeks.ledger.crates) > 5
