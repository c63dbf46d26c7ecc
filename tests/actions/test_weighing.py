"""Weigh-in: one tray, part cuts, several trays on the scale together."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.doing import look
from logbook.actions.viewing import due, due_by_day, page, racks, the_round, tray_page
from logbook.actions.weighing import doubts, weigh, weighed_words
from logbook.growing.looks import Look
from tests.actions.days import sow_at, stand_at
from tests.room import day


def test_594_g_from_100_g_of_seed(book: Book) -> None:
    # common practice, no source
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    (weighed,) = weigh(book, [101], 594)
    assert (weighed.grams, weighed.grams_per_gram_seed, weighed.day_number) == (594, 5.94, 8)
    assert weighed.against == "19 % above the middle"
    assert weighed_words(book, weighed) == (
        "101  594 g, 5.94 g per g of seed, usual 425–575 g, 19 % above the middle, day 8"
    )


def test_cut_trays_leave_the_rack_and_the_round(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-08 20:00")
    weigh(book, [101, 102], 900)
    assert the_round(book).lines == ()
    assert due(book, 30) == []
    assert not any(shelf.used for rack in racks(book).racks for shelf in rack.shelves)
    shown = tray_page(book, 101)
    assert (shown.status, shown.grams, shown.day_number) == ("cut", 450, 8)
    stand_at(book, "2026-05-08 20:00")
    assert tray_page(book, 101).day_number == 8


def test_a_tray_cut_twice_adds_up(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    (first,) = weigh(book, [101], 200, part=True)
    assert (first.total_grams, first.part) == (200, True)
    assert tray_page(book, 101).status == "growing"
    stand_at(book, "2026-04-10 20:00")
    (second,) = weigh(book, [101], 150.5)
    assert (second.grams, second.total_grams, second.grams_per_gram_seed) == (150.5, 350.5, 3.505)
    assert tray_page(book, 101).grams == 350.5


def test_trays_weighed_together_share_it_evenly_and_are_marked(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    weighed = weigh(book, [101, 102, 103], 1000)
    assert [each.grams for each in weighed] == [333.4, 333.3, 333.3]
    assert all(each.shared for each in weighed)
    assert page(book)[-1].words == "cut 1000 g together"


@pytest.mark.parametrize(("grams", "asked"), [(5940, "12 times the usual 500 g"), (0, "did the tray die"), (40, "a tenth or less"), (480, "")])  # fmt: skip
def test_an_implausible_weight_is_written_and_questioned(
    book: Book, grams: float, asked: str
) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    (weighed,) = weigh(book, [101], grams)
    assert asked in weighed.question
    assert bool(weighed.question) == bool(asked)
    assert tray_page(book, 101).grams == grams


def test_the_expectation_learns_from_this_room_s_trays(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 8)
    for number, grams in zip(range(101, 108), (400, 420, 380, 410, 390, 400, 0), strict=True):
        weigh(book, [number], grams)
    expected = due(book, 30)[0].expected
    assert expected is not None
    assert expected.trays == 6
    assert expected.grams == pytest.approx((3 * 500 + 2400) / 9)
    assert [(each.day, each.numbers) for each in due_by_day(book, due(book, 30))] == [
        (day("2026-04-08"), (108,))
    ]


def test_the_sum_of_a_day_is_whole_however_few_days_are_asked_for(book: Book) -> None:
    # given: trays whose windows begin on two days, and that are best on the second of them
    sow_at(book, "2026-04-01 13:00", 1)
    sow_at(book, "2026-04-02 08:00", 2)
    sow_at(book, "2026-04-02 13:00", 1)
    # then
    far = due_by_day(book, due(book, 30))
    assert [(each.day, each.numbers) for each in far] == [
        (day("2026-04-09"), (101, 102, 103)),
        (day("2026-04-10"), (104,)),
    ]
    assert due_by_day(book, due(book, 6)) == far[:1]
    assert due(book, 5) == []


def test_trays_weighed_together_say_nothing_about_the_spread(book: Book) -> None:
    # given: six trays on the scale at once, the template's spread being 15 %
    sow_at(book, "2026-04-01 08:00", 7)
    weigh(book, [101, 102, 103, 104, 105, 106], 2460)
    # then: the middle has learned from them, the spread is the template's still
    expected = due(book, 30)[0].expected
    assert expected is not None
    assert expected.trays == 6
    assert expected.grams == pytest.approx((3 * 500 + 2460) / 9)
    assert expected.spread_grams == pytest.approx(expected.grams * 0.15)


def test_what_is_asked_before_a_weight_is_what_is_said_after_it(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    look(book, [101], Look(mould="spot"))
    asked = doubts(book, [101], 5000)
    (written,) = weigh(book, [101], 5000)
    assert asked == (written.question,)
    assert asked[0].startswith("Mould was seen on tray 101, Wed 1 Apr. Do not sell")
    assert "10 times the usual" in asked[0]
    assert doubts(book, [102], 500) == ()
