"""What light costs, from the hours that were really lit."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random

import pytest

from logbook.actions.book import Book
from logbook.actions.room.bills import batch_bill, bills, no_one_words
from logbook.actions.room.lamps import set_tariff
from logbook.actions.room.light import SurveyDraft, write_survey
from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.growing.currencies import UNSET, Currency
from logbook.growing.room.energy_bill import Bill
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.power import worth
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_reading import wall_hours
from tests.actions.room_book import (
    OTHER,
    SHELF,
    lit_batch,
    moment,
    room_book,
    stand_at,
    with_lamps,
)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return room_book(tmp_path, at=moment(1, 0))


def _priced(book: Book, price: str = "0.13") -> None:
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal(price)))


def _survey(book: Book, ppfd: float) -> None:
    write_survey(book, SurveyDraft(SHELF, Grid(1, 1), (Spot(1, 1, ppfd),)))


def test_three_small_lamps_cost_about_12_cents_a_day(book: Book) -> None:
    """Common practice, no source: 3 lamps of 19.3 W for 16 h at 0.13 a kWh, about 12 cents."""
    with_lamps(book)
    _priced(book)
    first = bills(book).shelves[0]
    assert first.today.bill.kwh == pytest.approx(0.9264)
    assert float(first.today.bill.cost) == pytest.approx(0.12, abs=0.005)
    assert first.draw is not None
    assert first.draw.power_factor == pytest.approx(19.3 / 20.4)


def test_a_batch_sown_this_moment_and_lamps_that_nobody_wrote_down_are_said(book: Book) -> None:
    sow(book, SowDraft("radish", 1, place=OTHER))

    assert batch_bill(book, 1).use.words(UNSET) == "0 kWh"
    today = bills(book).today
    assert (today.known, today.words(UNSET)) == (None, "lamps not known")


def test_a_batch_pays_for_its_lit_hours_and_gives_grams_for_them(book: Book) -> None:
    """Two days of 16 h at 57.9 W = 1.8528 kWh; 200 µmol = 23.04 mol/m² on each of two trays."""
    with_lamps(book)
    _priced(book, "0.5")
    _survey(book, 200.0)
    lit_batch(book)
    stand_at(book, moment(3, 0))
    weigh(book, [101], 300.0)
    weigh(book, [102], 260.0)
    one = batch_bill(book, 1)
    assert one.use.bill.kwh == pytest.approx(1.8528)
    assert float(one.use.bill.cost) == pytest.approx(0.9264)
    assert one.worth.grams_per_kwh == pytest.approx(560 / 1.8528)
    assert float(one.worth.cost_per_100_g or 0) == pytest.approx(92.64 / 560)
    area = 0.508 * 0.254
    assert one.mol_m2_per_tray == pytest.approx(23.04)
    assert one.worth.grams_per_mol == pytest.approx(560 / (2 * 23.04 * area))
    assert bills(book).batches[0] == one


def test_a_batch_half_cut_is_judged_by_what_is_cut(book: Book) -> None:
    """Two trays share 1.8528 kWh; one is cut: half of it, 0.9264 kWh for its 300 g."""
    with_lamps(book)
    _priced(book, "0.5")
    lit_batch(book)
    stand_at(book, moment(3, 0))
    weigh(book, [101], 300.0)
    one = batch_bill(book, 1)
    assert one.growing_words == "1 of 2 trays still growing"
    assert one.use.bill.kwh == pytest.approx(1.8528)
    assert one.worth.grams_per_kwh == pytest.approx(300 / 0.9264)
    assert float(one.worth.cost_per_100_g or 0) == pytest.approx(46.32 / 300)
    # a tray that is discarded has had its light for nothing
    discard(book, [102], "mould")
    one = batch_bill(book, 1)
    assert one.growing_words == ""
    assert one.worth.grams_per_kwh == pytest.approx(300 / 1.8528)


def test_trays_share_a_shelf_while_they_stand_on_it_together(book: Book) -> None:
    """One tray alone for a day, then two for a day: three quarters and a quarter of two days."""
    with_lamps(book)
    lit_batch(book, 1)
    stand_at(book, moment(2, 0))
    sow(book, SowDraft("radish", trays=1, place=SHELF))
    did(book, "weight_off", [102])
    did(book, "light_on", [102])
    stand_at(book, moment(3, 0))
    first, second = batch_bill(book, 1), batch_bill(book, 2)
    assert first.use.bill.kwh == pytest.approx(0.9264 * 1.5)
    assert second.use.bill.kwh == pytest.approx(0.9264 * 0.5)


def test_trays_in_the_dark_pay_for_no_light(book: Book) -> None:
    with_lamps(book)
    sow(book, SowDraft("radish", trays=1, place=SHELF))
    stand_at(book, moment(3, 0))
    assert batch_bill(book, 1).use.bill.kwh == 0


def test_hours_count_as_they_held_then(book: Book) -> None:
    """16 h on the first day, 8 h on the second: 24 h of 57.9 W."""
    with_lamps(book)
    lit_batch(book, 1)
    stand_at(book, moment(2, 0))
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=6, lamp_on=360, lamp_off=840))
    stand_at(book, moment(3, 0))
    assert batch_bill(book, 1).use.lit_hours == pytest.approx(24)
    assert batch_bill(book, 1).use.bill.kwh == pytest.approx(24 * 0.0579)


def test_a_move_to_another_shelf_is_followed(book: Book) -> None:
    with_lamps(book)
    _survey(book, 200.0)
    lit_batch(book, 1)
    stand_at(book, moment(2, 0))
    move(book, [101], OTHER)
    stand_at(book, moment(3, 0))
    one = batch_bill(book, 1)
    assert one.use.bill.kwh == pytest.approx(2 * 0.9264)
    assert one.unmeasured_hours == pytest.approx(16)
    assert one.unmeasured_words == "light not measured for 16 h"
    assert one.worth.grams_per_mol is None


def test_a_quarter_hour_without_a_survey_is_no_darkness(book: Book) -> None:
    with_lamps(book)
    _survey(book, 200.0)
    lit_batch(book, 1)
    stand_at(book, moment(2, 8))
    move(book, [101], OTHER)
    stand_at(book, moment(2, 8) + timedelta(minutes=15))
    move(book, [101], SHELF)
    stand_at(book, moment(3, 0))
    weigh(book, [101], 300.0)
    one = batch_bill(book, 1)
    # what fell is of the measured time alone, so grams for a mol are not said
    assert one.mol_m2_per_tray == pytest.approx(200 * 31.75 * 3600 / 1e6)
    assert one.unmeasured_words == "light not measured for 15 min"
    assert one.worth.grams_per_mol is None


def test_the_night_of_a_clock_change_is_counted_in_real_hours(tmp_path: Path) -> None:
    """London, 25 October 2026 01:00Z: a lamp from 20:00 to 12:00 runs 17 h (tzdata)."""
    book = room_book(tmp_path, "Europe/London", datetime(2026, 10, 24, 11, 30, tzinfo=UTC))
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=6, lamp_on=1200, lamp_off=720))
    with_lamps(book)
    stand_at(book, datetime(2026, 10, 24, 12, tzinfo=UTC))
    lit_batch(book, 1)
    stand_at(book, datetime(2026, 10, 25, 13, tzinfo=UTC))
    assert batch_bill(book, 1).use.lit_hours == pytest.approx(17)


def test_light_before_any_lamps_were_written_down_is_unknown_not_free(book: Book) -> None:
    lit_batch(book, 1)
    stand_at(book, moment(2, 0))
    with_lamps(book)
    stand_at(book, moment(3, 0))
    weigh(book, [101], 300.0)
    one = batch_bill(book, 1)
    assert one.use.unknown_hours == pytest.approx(16)
    assert one.worth.grams_per_kwh is None
    assert one.worth.cost_per_100_g is None


def test_a_period_begins_no_earlier_than_the_book(book: Book) -> None:
    # given: a book of the 1st at 00:00, lamps lit 16 h a day written down from the start
    with_lamps(book)
    stand_at(book, moment(3, 0))
    # when
    period = bills(book, 30).period
    # then: two days of two lit shelves, and no hours of before there was a room
    assert period.unknown_hours <= 2 * 16
    assert period.lit_hours <= 2 * 2 * 16


def test_days_before_the_first_tariff_are_said_to_be_unpriced(book: Book) -> None:
    with_lamps(book)
    lit_batch(book, 1)
    set_tariff(book, Tariff(date(2026, 4, 2), Decimal("0.5")))
    stand_at(book, moment(3, 0))
    bill = batch_bill(book, 1).use.bill
    assert bill.unpriced_kwh == pytest.approx(0.9264)
    assert "no tariff covers" in bill.words(UNSET)


def test_the_period_is_shared_by_tray_days(book: Book) -> None:
    with_lamps(book)
    _priced(book, "1")
    lit_batch(book, 2)
    stand_at(book, moment(2, 0))
    first = bills(book).shelves[0]
    assert first.tray_days == pytest.approx(2)
    assert float(first.cost_per_tray_day or 0) == pytest.approx(0.9264 / 2)
    assert first.trays == 2


def test_hours_without_a_length_in_an_old_book_are_read_as_all_day(book: Book) -> None:
    with_lamps(book)
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=6, lamp_on=0, lamp_off=360))
    with book.writing() as act:
        act.reading.connection.execute(
            "UPDATE place SET lamp_on = 1440, lamp_off = 0 WHERE lamp_off = 360"
        )
        act.reading.connection.execute("UPDATE lamp_hours SET lamp_on = 1440, lamp_off = 0")
    stand_at(book, moment(2, 8))
    assert bills(book).shelves[0].today.bill.kwh == pytest.approx(24 * 0.0579)
    assert [line.place for line in page(book, date(2026, 4, 1), kind="hours")] == [SHELF]


def test_what_light_gave_is_written_in_the_units_of_the_room() -> None:
    """28.349523125 g an ounce: 100 g for 12.7 cents are 3.6 cents an ounce."""
    one = worth(1000.0, kwh_used=4.0, mol=8.0, cost=Decimal("1.27"))
    assert one.cost_words(UNSET) == "0.127 per 100 g"
    assert one.yield_words(per="/") == ["250 g/kWh", "125 g/mol"]
    assert one.cost_words(Currency("USD"), "us") == "0.036 USD per oz"
    assert one.yield_words("us") == ["8.82 oz per kWh", "4.41 oz per mol"]
    assert worth(0.0).cost_words(UNSET) == ""
    assert worth(0.0).yield_words() == []
    half = worth(0.5, kwh_used=2.0, mol=4.0, cost=Decimal("0.01"))
    assert (half.grams_per_kwh, half.grams_per_mol, half.cost_per_100_g) == (
        0.25,
        0.125,
        Decimal(2),
    )


def test_a_month_of_movings_adds_up_to_the_shelves_own_meters(book: Book) -> None:
    """What trays pay and what was lit over empty slots is what the meter of each shelf shows."""
    with_lamps(book)
    set_tariff(
        book,
        Tariff(
            date(2026, 1, 1), Decimal("0.2"), (OtherHours(wall_hours("17-20"), Decimal("0.5")),)
        ),
    )
    set_tariff(book, Tariff(date(2026, 4, 15), Decimal("0.3")))
    chance = Random(12)
    growing, covered = list[int](), set[int]()
    for step in range(80):
        stand_at(book, moment(1, 0) + timedelta(hours=9 * step, minutes=chance.randrange(500)))
        act = chance.choice(("sow", "sow", "light", "light", "move", "move", "end", "hours"))
        tray = chance.choice(growing or [0])
        if act == "sow" and len(growing) < 6:
            place = chance.choice((SHELF, OTHER, ""))
            sown = sow(book, SowDraft("radish", trays=1, place=place)).plan.numbers
            growing += sown
            covered |= set(sown)
        elif act == "hours":
            on = chance.randrange(0, 24) * 60
            hours = PlaceDraft("Shelf 2", slots=6, lamp_on=on, lamp_off=(on + 900) % 1440)
            change_place(book, OTHER, hours)
        elif act == "light" and tray in covered:
            did(book, "weight_off", [tray])
            did(book, "light_on", [tray])
            covered.remove(tray)
        elif act == "move" and tray:
            move(book, [tray], chance.choice((SHELF, OTHER)))
        elif act == "end" and tray:
            discard(book, [tray], "practice")
            growing.remove(tray)
            covered.discard(tray)
    stand_at(book, moment(1, 5, month=5))
    found = bills(book, 40)
    with book.reading() as reading:
        batches = [each for (each,) in reading.rows("SELECT id FROM batch")]
    paid = sum((batch_bill(book, batch).use.bill for batch in batches), Bill())
    lost, meter = found.over_no_one.bill, found.period.bill
    assert paid.kwh > 5
    assert lost.kwh > 5
    assert paid.kwh + lost.kwh == pytest.approx(meter.kwh)
    assert paid.cost + lost.cost == pytest.approx(meter.cost)
    for shelf in found.shelves:
        paid_here = (shelf.cost_per_tray_day or 0) * Decimal(str(shelf.tray_days))
        assert paid_here + shelf.over_no_one.bill.cost == pytest.approx(shelf.period.bill.cost)


def test_light_over_covered_or_empty_slots_is_over_no_one(book: Book) -> None:
    """A day lit over an empty shelf, one over a covered tray, one over a tray in the light."""
    with_lamps(book)
    _priced(book, "1")
    stand_at(book, moment(2, 0))
    sow(book, SowDraft("radish", trays=1, place=SHELF))
    stand_at(book, moment(3, 0))
    did(book, "weight_off", [101])
    did(book, "light_on", [101])
    stand_at(book, moment(4, 0))
    first, second = bills(book).shelves[:2]
    assert first.over_no_one.lit_hours == pytest.approx(32)
    assert first.over_no_one.bill.kwh == pytest.approx(2 * 0.9264)
    assert float(first.cost_per_tray_day or 0) == pytest.approx(0.9264)
    assert second.over_no_one == second.period
    assert no_one_words(first.over_no_one, UNSET) == "over empty slots: 1.85 kWh, 1.85, lit 32 h"


def test_trays_that_stood_in_the_light_stage_at_night_alone_paid_nothing(book: Book) -> None:
    """A sum of parts may differ from the whole in its last digits: never "-0.000"."""
    with_lamps(book)
    _priced(book, "0.1237")
    for day in range(1, 8):
        stand_at(book, moment(day, 22, 7 * day))
        sow(book, SowDraft("radish", trays=1, place=SHELF))
        did(book, "weight_off", [100 + day])
        did(book, "light_on", [100 + day])
        stand_at(book, moment(day + 1, 1))
        discard(book, [100 + day], "practice")
    stand_at(book, moment(9, 11, 7))
    assert f"{bills(book).shelves[0].cost_per_tray_day:.3f}" == "0.000"


def test_only_tray_days_within_the_period_count(book: Book) -> None:
    """Three trays in the light since the 1st; on the 3rd one is discarded, one moved away."""
    with_lamps(book)
    lit_batch(book, 3)
    stand_at(book, moment(3, 8))
    discard(book, [102], "mould")
    move(book, [103], OTHER)
    stand_at(book, moment(5, 8))
    (last_day,) = [each for each in bills(book, 1).shelves if each.place.path == SHELF]
    assert (last_day.tray_days, last_day.trays) == (1.0, 1)
    (three,) = [each for each in bills(book, 3).shelves if each.place.path == SHELF]
    assert three.tray_days == pytest.approx(3 + 1 + 1)
    assert three.period.lit_hours == pytest.approx(48)


def test_where_no_price_is_known_no_cost_is_said(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    with_lamps(book)
    lit_batch(book)
    stand_at(book, moment(4, 10))
    found = bills(book)
    assert found.today.bill.kwh > 0
    assert found.today.bill.known_cost is None
    assert found.today.bill.cost_words(found.money) == "price not set"
    assert {shelf.cost_per_tray_today for shelf in found.shelves} == {None}
    assert {shelf.cost_per_tray_day for shelf in found.shelves} == {None}
