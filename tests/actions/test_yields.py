"""Yields from a book: what was cut in parts, regrew, was discarded or not weighed."""

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.actions.costs.costing import crop_costs
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.cold_store import cold_store
from logbook.actions.packs.withdrawing import take_out
from logbook.actions.room.light import SurveyDraft, write_survey
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.actions.yields.lateness import lateness
from logbook.actions.yields.listing import Span, backtested, yields, yields_by_batch, yields_by_tray
from logbook.growing.crops.yields import expect
from logbook.growing.room.light import Grid, Spot
from logbook.growing.yields.sold import Sold
from logbook.text import Refused
from tests.actions.room_book import OTHER, SHELF, lit_batch, moment, room_book, stand_at, with_lamps


def test_parts_regrowth_losses_and_what_went_unweighed(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    with_lamps(book)
    lit_batch(book, 4)
    stand_at(book, moment(9))
    weigh(book, [101], 200, part=True)
    weigh(book, [101], 100)
    weigh(book, [102], 250, keep=True)
    discard(book, [103], "mould")
    did(book, "cut", [104])
    stand_at(book, moment(19))
    weigh(book, [102], 50)
    (found,) = yields(book).crops
    assert (found.trays_sown, found.trays_cut, found.trays_lost) == (4, 3, 1)
    assert (found.first_grams, found.further_grams, found.regrown_grams) == (450, 100, 50)
    assert found.trays_unweighed == 1
    assert found.lost_words == "1 mould"
    assert found.days_to_cut == pytest.approx(8)
    assert found.grams_per_kwh is not None
    assert (
        yields(book, Span(since=moment(19).date(), until=moment(19).date()), crop="basil").crops
        == ()
    )
    (batch,) = yields_by_batch(book, "radish").batches
    assert batch.grams == 600


def test_a_low_batch_says_so_when_it_is_weighed_and_what_differed(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    for week in range(9):
        at = moment(1) + timedelta(days=9 * week)
        stand_at(book, at)
        sow(book, SowDraft("radish", trays=2, place=SHELF, lot="R1" if week < 8 else "R2"))
        page = batch_page(book, str(week + 1))
        numbers = [tray.number for tray in page.trays]
        stand_at(book, at + timedelta(days=8))
        weigh(book, numbers[:1], 300 + week % 2 * 10 - 150 * (week == 8))
        (done,) = weigh(book, numbers[1:], 305 - 150 * (week == 8))
        assert ("below what is usual" in done.unusual) == (week == 8)
    page = batch_page(book, "9")
    assert page.unusual is not None
    assert page.unusual.differed == (
        "seed lot differs: could explain part of it (before R1 and batch 9 R2).",
    )


def test_weaker_lamps_are_held_against_the_weights(tmp_path: Path) -> None:
    """Light falls by 20 % after five of ten batches, and weights by a quarter: -13 % for 10 % of light."""
    pytest.importorskip("scipy")
    book = room_book(tmp_path)
    with_lamps(book)
    for batch in range(10):
        at = moment(1) + timedelta(days=9 * batch)
        stand_at(book, at)
        if batch in (0, 5):
            spot = Spot(1, 1, 200.0 if batch == 0 else 160.0)
            write_survey(book, SurveyDraft(SHELF, Grid(1, 1), (spot,)))
        sow(book, SowDraft("radish", trays=1, place=SHELF))
        (tray,) = batch_page(book, str(batch + 1)).trays
        did(book, "weight_off", [tray.number])
        did(book, "light_on", [tray.number])
        stand_at(book, at + timedelta(days=8))
        weigh(book, [tray.number], (300 if batch < 5 else 225) + batch % 3)
    seen = lateness(book)
    (effect,) = [one for one in seen.effects if one.factor == "lamps weaker"]
    assert effect.seen
    assert effect.percent == pytest.approx(100 * (0.75**0.5 - 1), abs=1)
    assert "soak too long" in seen.untold
    *_, last = seen.lines()
    assert "not a trial" in last


def test_a_tray_on_the_better_shelf_is_expected_to_give_more(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    grams = {SHELF: 330.0, OTHER: 250.0}
    for sowing in range(8):
        at = moment(1) + timedelta(days=8 * (sowing // 2))
        shelf = (SHELF, OTHER)[sowing % 2]
        stand_at(book, at)
        sow(book, SowDraft("radish", trays=3, place=shelf, at=at))
        stand_at(book, at + timedelta(days=7))
        numbers = [tray.number for tray in batch_page(book, str(sowing + 1)).trays]
        for place, number in enumerate(numbers):
            weigh(book, [number], grams[shelf] + 5 * place)
    sow(book, SowDraft("radish", trays=1, place=SHELF))
    sow(book, SowDraft("radish", trays=1, place=OTHER))
    with book.reading() as reading:
        good, bad = (expect([each]) for each in reading.meant(reading.live).values())
    assert good is not None
    assert bad is not None
    assert good.grams == pytest.approx(335, abs=10)
    assert bad.grams == pytest.approx(255, abs=10)
    assert good.rests_on == "from 6 batches here, by shelf"


def test_what_was_packed_and_sold_stands_beside_what_was_cut(tmp_path: Path) -> None:
    """A lot of 600 g, a third of it of a tray on the first shelf: 250 g are packed, 60 g wasted."""
    book = room_book(tmp_path)
    lit_batch(book, 2)
    sow(book, SowDraft("radish", trays=1, place=OTHER))
    sow(book, SowDraft("radish", trays=1, place=OTHER))
    stand_at(book, moment(9))
    weigh(book, [101], 200)
    weigh(book, [103], 400)
    order(book, OrderDraft("Bistro", "radish 5 x 50g fri"))
    pack_for(book, "Bistro")
    take_out(book, cold_store(book).lots[0].code, 60, "waste")
    (crop,) = yields(book).crops
    assert crop.sold == Sold(600, 250, 0, 60)
    stand_at(book, moment(11))
    assert yields(book).crops[0].sold == Sold(600, 250, 250, 60)
    assert crop_costs(book).crops[0].sold == Sold(600, 250, 250, 60)
    of = {one.group: one.sold for one in yields(book, per="shelf").crops}
    assert of[SHELF] == Sold(200, 250 / 3, 250 / 3, 20)
    assert of[OTHER] == Sold(400, 500 / 3, 500 / 3, 40)
    (batch,) = yields_by_batch(book, "radish", per="shelf", group=SHELF).batches
    assert (batch.trays_cut, batch.sold) == (1, of[SHELF])
    (one,) = yields_by_tray(book, batch.batch, Span(), "shelf", SHELF).trays
    assert (one.name, one.grams, one.sold) == ("101", 200, of[SHELF])
    assert yields_by_batch(book, "radish", per="shelf", group="Rack 9").batches == ()
    assert yields_by_tray(book, 2, Span(1, until=moment(1).date())).trays == ()
    for other, words in ((3, "No tray of batch 3 has left"), (7, "no batch 7")):
        with pytest.raises(Refused, match=words):
            yields_by_tray(book, other)


def test_little_equal_and_struck_weights(tmp_path: Path) -> None:
    """Nothing, one tray, two that weigh the same, and a weight that is taken back."""
    book = room_book(tmp_path)
    assert yields(book).crops == ()
    assert yields_by_batch(book).batches == ()
    assert backtested(book).trays == 0
    assert crop_costs(book).crops == ()
    lit_batch(book, 2)
    stand_at(book, moment(9))
    weigh(book, [101], 300)
    (one,) = yields(book).crops
    assert (one.trays_sown, one.batch_sd, one.tray_sd) == (1, None, None)
    weigh(book, [102], 300)
    (two,) = yields(book).crops
    assert (two.grams, two.tray_sd) == (600, 0)
    undo(book)
    assert yields(book).crops == (one,)
    (cost,) = crop_costs(book).crops
    assert (cost.trays, cost.costs.total, cost.margin, cost.lost_cost) == (1, None, None, None)


def test_what_is_no_span_or_split_is_refused(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    with pytest.raises(Refused, match="1 to 2,000 weeks"):
        yields(book, Span(0))
    with pytest.raises(Refused, match="comes after"):
        yields(book, Span(since=moment(3).date(), until=moment(2).date()))
    with pytest.raises(Refused, match="isn't a way to split"):
        yields(book, per="colour")
    with pytest.raises(Refused, match="no crop template"):
        yields_by_batch(book, "moss")
