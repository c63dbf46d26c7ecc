"""A power cut in the whole room: lamps, bills, light and trials know of it, to the minute."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.room.bills import batch_bill, bills
from logbook.actions.room.lamps import set_tariff
from logbook.actions.room.light import SurveyDraft, shelf_light, write_survey
from logbook.actions.room.outages import list_outages, write_outage
from logbook.actions.trays.page import page
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trials.surroundings import surroundings_of
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.outages import without
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import WallHours
from logbook.text import Refused
from tests.actions.room_book import OTHER, SHELF, lit_batch, moment, room_book, stand_at, with_lamps

PPFD, KW, TRAYS = 200.0, 3 * 19.3 / 1000, 2
CHEAP, DEAR = Decimal("0.2"), Decimal("0.5")


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Two trays in the light from the 1st, 00:00; lamps 06 to 22, dear from 17 to 20; now the 3rd."""
    book = room_book(tmp_path, at=moment(1, 0))
    with_lamps(book)
    dear = OtherHours(WallHours(17 * 60, 20 * 60), DEAR)
    set_tariff(book, Tariff(date(2026, 1, 1), CHEAP, (dear,)))
    for shelf in (SHELF, OTHER):
        write_survey(book, SurveyDraft(shelf, Grid(1, 1), (Spot(1, 1, PPFD),)))
    lit_batch(book, TRAYS)
    stand_at(book, moment(3, 0))
    return book


def _minutes(off: list[tuple[datetime, datetime]]) -> tuple[int, float]:
    """The lit minutes of the 1st and the 2nd and what they cost on one shelf, minute by minute."""
    lit, cost = 0, 0.0
    at = moment(1, 0)
    while at < moment(3, 0):
        if 6 <= at.hour < 22 and not any(low <= at < high for low, high in off):
            lit += 1
            cost += KW / 60 * float(DEAR if 17 <= at.hour < 20 else CHEAP)
        at += timedelta(minutes=1)
    return lit, cost


def _compare(book: Book, off: list[tuple[datetime, datetime]]) -> None:
    lit, cost = _minutes(off)
    one, shelf = batch_bill(book, 1), bills(book).shelves[0]
    for use in (one.use, shelf.period):
        assert use.bill.kwh == pytest.approx(KW * lit / 60)
        assert float(use.bill.cost) == pytest.approx(cost)
    assert shelf.period.lit_hours == pytest.approx(lit / 60)
    assert one.mol_m2_per_tray == pytest.approx(PPFD * lit * 60 / 1e6)
    with book.reading() as reading:
        ids = [each.stored.id for each in reading.trays([101, 102])]
        around = surroundings_of(reading, ids)[ids[0]]
    assert around.lit_in_all == pytest.approx(lit / 60)
    assert around.lit_hours == pytest.approx(lit / 60 / 2)
    assert around.dli == pytest.approx(PPFD * lit * 60 / 1e6 / 2)
    assert float(around.lamp_cost or 0) == pytest.approx(cost / TRAYS)


def test_a_cut_in_the_middle_of_a_lit_span_is_missing_from_hours_kwh_cost_and_light(
    book: Book,
) -> None:
    # given
    _compare(book, [])
    off = (moment(1, 16, 40), moment(1, 18, 55))
    # when
    done = write_outage(book, *off)
    # then
    assert done.words == "power off in Test room: Wed 1 Apr 16:40 to Wed 1 Apr 18:55, 2 h 15 min"
    assert done.notices == ("2 shelves lost up to 2 h 15 min of light.",)
    _compare(book, [off])
    (line,) = page(book, date(2026, 4, 1), kind="outage")
    assert line.words == "power off until 18:55, 2 h 15 min"
    # when: one that overlaps it and goes on into the night, whose minutes count once
    second = (moment(1, 18), moment(2, 7, 10))
    again = write_outage(book, *second)
    overlaps = "It overlaps a power cut already in the book; each minute counts once."
    assert again.notices[1] == overlaps
    _compare(book, [off, second])
    # when: all of one was written before, its light is lost already
    assert write_outage(book, *off).notices == (overlaps,)
    undo(book)
    # when
    undo(book)
    _compare(book, [off])
    strike(book, line.id, "the neighbour's")
    _compare(book, [])
    assert list_outages(book) == []


def test_todays_light_is_what_fell(book: Book) -> None:
    stand_at(book, moment(2, 23))
    write_outage(book, moment(2, 12), moment(2, 15))
    shelf = shelf_light(book, SHELF)
    assert shelf.lit_hours == pytest.approx(13)
    assert shelf.daily == pytest.approx(PPFD * 13 * 3600 / 1e6)


def test_one_rack_or_shelf_can_be_off_alone(book: Book) -> None:
    write_outage(book, moment(1, 12), moment(1, 14), OTHER)
    _compare(book, [])
    assert bills(book).shelves[1].period.lit_hours == pytest.approx(30)
    assert [each.place for each in list_outages(book)] == [OTHER]
    # what was off elsewhere at that time was not written before
    (light,) = write_outage(book, moment(1, 12), moment(1, 14), SHELF).notices
    assert light == "1 shelf lost up to 2 h of light."
    dark = write_outage(book, moment(1, 1), moment(1, 2))
    assert dark.notices == ("No lamp would have been lit then: no light was lost.",)


def test_a_rack_in_no_room_is_off_with_the_first(book: Book) -> None:
    with book.writing() as act:
        act.reading.connection.execute("UPDATE place SET parent_id = NULL WHERE kind = 'rack'")
    assert "2 shelves lost" in write_outage(book, moment(1, 12), moment(1, 14)).notices[0]


@pytest.mark.parametrize(
    ("start", "end", "said"),
    [
        (moment(2, 8), moment(2, 8), "must go off before it comes back"),
        (moment(2, 8), moment(2, 7), "must go off before it comes back"),
        (moment(2, 8), moment(4, 8), "still to come"),
        (moment(1, 8, month=2), moment(2, 8), "more than 31 days"),
    ],
)
def test_times_that_cannot_be_are_refused(
    book: Book, start: datetime, end: datetime, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        write_outage(book, start, end)
    assert list_outages(book) == []


def test_gaps_in_any_order_are_taken_from_spans() -> None:
    spans = [(moment(1, 6), moment(1, 22)), (moment(2, 6), moment(2, 22))]
    gaps = [
        (moment(2, 5), moment(2, 7)),
        (moment(1, 8), moment(1, 9)),
        (moment(1, 8), moment(1, 10)),
    ]
    assert without(spans, gaps) == [
        (moment(1, 6), moment(1, 8)),
        (moment(1, 10), moment(1, 22)),
        (moment(2, 7), moment(2, 22)),
    ]
