"""Weigh-in: one tray, part cuts, several trays on the scale together."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.due import due, due_by_day
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.till import till
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import doubts, weigh, weighed_words
from logbook.growing.crops.luck import BatchWeights
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at
from tests.room import day, moment


def test_594_g_from_100_g_of_seed(book: Book) -> None:
    # common practice, no source
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    (weighed,) = weigh(book, [101], 594)
    assert (weighed.grams, weighed.grams_per_gram_seed, weighed.day_number) == (594, 5.94, 8)
    assert weighed.against == "19 % above expected"
    assert weighed_words(book, weighed) == (
        "101  594 g, 5.94 g per g of seed, usual 386–614 g, 19 % above expected, day 8, lot 260408-FIE-1"
    )


def test_cut_trays_leave_the_rack_and_the_round(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-08 20:00")
    weigh(book, [101, 102], 900)
    assert the_round(book).lines == ()
    assert due(book, 30) == []
    assert not any(shelf.used for rack in racks(book).racks for shelf in rack.shelves)
    shown = tray_page(book, 101)
    assert (shown.tray.status, shown.tray.state.grams, shown.tray.day_number) == ("cut", 450, 8)
    stand_at(book, "2026-05-08 20:00")
    assert tray_page(book, 101).tray.day_number == 8


def test_a_tray_cut_twice_adds_up(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    (first,) = weigh(book, [101], 200, part=True)
    assert (first.total_grams, first.part) == (200, True)
    assert tray_page(book, 101).tray.status == "growing"
    stand_at(book, "2026-04-10 20:00")
    (second,) = weigh(book, [101], 150.5)
    assert (second.grams, second.total_grams, second.grams_per_gram_seed) == (150.5, 350.5, 3.505)
    assert tray_page(book, 101).tray.state.grams == 350.5


def test_trays_weighed_together_share_it_evenly_and_are_marked(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    weighed = weigh(book, [101, 102, 103], 1000)
    assert [each.grams for each in weighed] == [333.4, 333.3, 333.3]
    assert all(each.shared for each in weighed)
    assert page(book)[-1].words == "cut 1000 g together"


@pytest.mark.parametrize(("grams", "asked"), [(5940, "12 times the expected 500 g"), (0, "did the tray die"), (40, "a tenth or less"), (480, "")])  # fmt: skip
def test_an_implausible_weight_is_written_and_questioned(
    book: Book, grams: float, asked: str
) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    (weighed,) = weigh(book, [101], grams)
    assert asked in weighed.question
    assert bool(weighed.question) == bool(asked)
    assert tray_page(book, 101).tray.state.grams == grams


def test_the_expectation_learns_from_this_room_s_trays(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 8)
    for number, grams in zip(range(101, 108), (400, 420, 380, 410, 390, 400, 0), strict=True):
        weigh(book, [number], grams)
    expected = due(book, 30)[0].expected
    assert expected is not None
    assert (expected.trays, expected.batches) == (6, 1)
    assert 400 < expected.grams < 410
    assert [(each.day, each.numbers) for each in due_by_day(due(book, 30))] == [
        (day("2026-04-08"), (108,))
    ]


def test_the_sum_of_a_day_is_whole_however_few_days_are_asked_for(book: Book) -> None:
    # given: trays whose windows begin on two days, and that are best on the second of them
    sow_at(book, "2026-04-01 13:00", 1)
    sow_at(book, "2026-04-02 08:00", 2)
    sow_at(book, "2026-04-02 13:00", 1)
    # then
    far = due_by_day(due(book, 30))
    assert [(each.day, each.numbers) for each in far] == [
        (day("2026-04-09"), (101, 102, 103)),
        (day("2026-04-10"), (104,)),
    ]
    assert due_by_day(due(book, 6)) == far[:1]
    assert due(book, 5) == []


def test_trays_weighed_together_say_nothing_about_the_spread(book: Book) -> None:
    # given: six trays on the scale at once, the template's spread being 15 %
    sow_at(book, "2026-04-01 08:00", 7)
    weigh(book, [101, 102, 103, 104, 105, 106], 2460)
    # then: the mean has learned from them, the luck of trays is the template's still
    with book.reading() as reading:
        (luck,) = reading.luck([(reading.live[0].stored.version_id, 1)]).values()
    assert luck is not None
    assert luck.own == (BatchWeights(1, 6, 410.0, 0.0, 0),)


def test_what_is_asked_before_a_weight_is_what_is_said_after_it(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    did(book, "weight off", [101, 102])
    did(book, "to the light", [101, 102])
    look(book, [101, 102], Look(sign="first true leaves"))
    look(book, [101], Look(mould="spot"))
    assert doubts(book, [102], 500) == ()
    asked = doubts(book, [101], 5000)
    (written,) = weigh(book, [101], 5000)
    assert asked == (written.question,)
    assert asked[0].startswith("Mould was seen on tray 101, Wed 1 Apr. Do not sell")
    assert "10 times the expected" in asked[0]


def test_trays_that_are_early_covered_or_strangers_are_asked_about(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    stand_at(book, "2026-04-05 08:00")
    (early,) = doubts(book, [101, 102, 103], 1500)
    assert early.startswith("Trays 101–103: not due before ")
    assert early.endswith(", still covered (weighted).")
    did(book, "weight off", [101, 102, 103])
    did(book, "to the light", [101, 102, 103])
    assert [asked[:23] for asked in doubts(book, [101], 500)] == ["Tray 101: not due befor"]
    # the moment that counts is that of the cut; from its window on nothing is asked
    assert doubts(book, [101], 500, at=moment("2026-04-07 07:59")) != ()
    assert doubts(book, [101], 500, at=moment("2026-04-07 08:00")) == ()
    sow(book, SowDraft("kale", 1))
    assert doubts(book, [103, 104], 700)[-1] == "103 field test, 104 kale: together?"


def test_a_joint_weight_that_is_corrected_stays_joint(book: Book) -> None:
    # given: six trays on the scale at once, misread by 60 g
    sow_at(book, "2026-04-01 08:00", 7)
    wrong = weigh(book, [101, 102, 103, 104, 105, 106], 2460)[0].act_id

    def apart() -> tuple[int, int]:
        with book.reading() as reading:
            (luck,) = reading.luck([(reading.live[0].stored.version_id, 1)]).values()
        assert luck is not None
        return luck.trays, luck.own[0].df

    def shown() -> str:
        return next(line.words for line in reversed(page(book)) if line.kind == "weigh")

    # when it is put right, the note or the time of it too, or that more will be cut
    changes = (Changes(grams=2400), Changes(note="wet"), Changes(part=True), Changes(part=False))
    for change in changes:
        replace_entry(book, wrong, "misread", change)
        wrong = max(line.id for line in page(book) if line.kind == "weigh")
        assert "together" in shown()
    # then: equal shares are still no sign that the trays are alike; the template says 15 %
    assert shown() == "cut 2400 g together"
    assert apart() == (6, 0)


def test_of_a_joint_weight_that_was_one_tray_s_the_spread_is_learned(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 8)
    for number in range(101, 106):
        weigh(book, [number], 400 + number)
    wrong = weigh(book, [106, 107], 900)[0].act_id
    replace_entry(book, wrong, "107 was not on it", Changes(numbers=(106,), grams=506))
    with book.reading() as reading:
        (luck,) = reading.luck([(reading.live[0].stored.version_id, 1)]).values()
    assert luck is not None
    # 501 … 506 g: variance 3.5 g²
    assert luck.own[0].df == 5
    assert luck.own[0].squares == pytest.approx(17.5)


def test_a_last_cut_is_held_against_all_that_the_tray_gave(book: Book) -> None:
    # given 300 g of a first cut, where 500 g are expected
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    (first,) = weigh(book, [101], 300, part=True)
    assert first.against == ""  # more is to come
    stand_at(book, "2026-04-10 20:00")
    (second,) = weigh(book, [101], 240)
    assert second.against.startswith("8 % above")
    (line,) = till(book).lines
    assert (line.total, line.against) == (540, second.against)


def test_a_cut_of_the_morning_does_not_count_what_was_cut_after_it(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 08:00")
    weigh(book, [101], 300, part=True)
    stand_at(book, "2026-04-08 20:00")
    weigh(book, [101], 240)
    assert [(line.grams, line.total) for line in till(book).lines] == [(300, 300), (240, 540)]


def test_a_tray_that_is_cut_takes_its_weight_but_no_part_cut(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    did(book, "cut", [101])
    with pytest.raises(Refused, match="no longer growing"):
        weigh(book, [101], 200, part=True)
    weigh(book, [101], 500)
    with pytest.raises(Refused, match="no longer growing"):
        weigh(book, [101], 500)


def test_trays_thrown_out_are_none_of_the_trays_to_weigh(book: Book) -> None:
    # given four trays: one discarded, one cut, two growing
    sow_at(book, "2026-04-01 08:00", 4)
    stand_at(book, "2026-04-08 20:00")
    discard(book, [103], "mould")
    weigh(book, [101], 450)
    now = till(book, (104, 103, 102, 101))
    assert (now.batches["1"].cut, now.batches["1"].trays) == (1, 3)
    assert now.left == (104, 102)
    assert sorted(now.trays) == [102, 104]


def test_a_batch_s_mean_is_of_the_trays_that_were_cut_to_the_end(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 4)
    assert batch_page(book, "1").mean_grams is None
    assert batch_page(book, "1").grams_per_gram_seed is None
    weigh(book, [101], 300)
    weigh(book, [102], 500)
    weigh(book, [103], 250, part=True)
    did(book, "cut", [104])
    assert batch_page(book, "1").mean_grams == 400
    assert batch_page(book, "1").grams_per_gram_seed == 4


def test_a_weigh_in_says_in_a_line_what_was_cut_before_and_what_stays(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-08 20:00")
    (part,) = weigh(book, [101], 120, part=True)
    assert weighed_words(book, part).endswith(
        ", day 8, lot 260408-FIE-1, part cut, stays on the rack, 380 g more expected"
    )
    assert "in all" not in weighed_words(book, part)
    first, second = weigh(book, [101, 102], 700)
    assert weighed_words(book, first).startswith("101  350 g, 470 g in all, 4.70 g per g of seed, ")
    assert weighed_words(book, second).startswith("102  350 g, 3.50 g per g of seed, ")
    assert weighed_words(book, second).endswith(", day 8, lot 260408-FIE-1, shared out")


def test_what_is_left_of_a_batch_is_expected_together(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    weigh(book, [101], 420)
    rest, single = batch_page(book, "1").rest, due(book, 30)[0].expected
    assert rest is not None
    assert single is not None
    assert rest.grams == pytest.approx(2 * single.grams)
    assert rest.low > 2 * single.low
    weigh(book, [102, 103], 800)
    assert batch_page(book, "1").rest is None
