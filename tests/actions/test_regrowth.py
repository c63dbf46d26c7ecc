"""A tray that is cut more than once: in parts, and again when it has grown back."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.due import DueTray, due
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.striking import undo
from logbook.actions.trays.till import till
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh, weighed_words
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at, summaries_equal_the_fold
from tests.room import DAY, field_test, moment, wall_words


def due_tray(book: Book, number: int = 101) -> DueTray:
    return next(tray for tray in due(book, 60) if tray.number == number)


def test_a_part_cut_leaves_the_rest_to_expect(book: Book) -> None:
    # given 500 g expected, of which 300 g are cut
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 20:00")
    (part,) = weigh(book, [101], 300, part=True)
    assert weighed_words(book, part).endswith("stays on the rack, 200 g more expected")
    # then the rest is expected, and what the batch page says of a tray is still the whole
    rest = due_tray(book)
    assert rest.expected is not None
    assert (rest.expected.grams, rest.state.harvest, rest.state.part_grams) == (200, 1, 300)
    shown = tray_page(book, 101).expected
    assert shown is not None
    assert shown.grams == 200
    # and the further cut is of the same harvest; only the whole of it is learned from
    (further,) = weigh(book, [101], 260)
    assert (further.harvest, further.harvest_grams, further.against) == (
        1,
        560,
        "12 % above expected",
    )
    sow_at(book, "2026-04-09 08:00", 1)
    learned = due_tray(book, 102).expected
    assert learned is not None
    assert learned.trays == 1
    assert 515 < learned.grams < 560, "one own tray outweighs the guess of 500 g"


def test_a_tray_that_is_kept_grows_again_with_days_of_its_own(book: Book) -> None:
    stand_at(book, "2026-04-01 07:00")
    put_template(book, field_test(regrow_seconds=10 * DAY, regrow_grams=150.0), "it grows again")
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-09 10:00")
    look(book, [101], Look(true_leaves=True, sign="first true leaves"))
    (cut,) = weigh(book, [101], 480, keep=True)
    assert weighed_words(book, cut).endswith("grows again")
    assert page(book)[-1].words == "cut 480 g, grows again"
    # four days later it is neither late nor to be cut; it is watered as before
    stand_at(book, "2026-04-13 10:00")
    shown, now = tray_page(book, 101), due_tray(book)
    assert (shown.tray.status, shown.tray.day_number, shown.tray.regrowth_day) == ("growing", 13, 5)
    assert [line.chore for line in the_round(book).due if line.chore == "cut"] == []
    assert "water_look" in [line.chore for line in the_round(book).due]
    (stands,) = [
        tray for rack in racks(book).racks for shelf in rack.shelves for tray in shelf.trays
    ]
    assert (stands.ready, stands.state.harvest, stands.regrowth_day) == ("soon", 2, 5)
    assert not till(book).left
    # its window is the template's, counted from the cut, and so is what it is to give
    ends = [wall_words(at) for at in (now.window.start, now.window.best, now.window.by)]
    assert ends == ["2026-04-18 22:00", "2026-04-19 10:00", "2026-04-20 22:00"]
    assert now.expected is not None
    assert (now.expected.grams, now.state.harvest, now.ready, now.sign_seen) == (
        150,
        2,
        "soon",
        False,
    )
    # a sign that is seen now is of the regrowth
    stand_at(book, "2026-04-19 10:00")
    (line,) = [line for line in the_round(book).due if line.chore == "cut"]
    assert (line.words, line.harvest, line.late) == ("cut again", 2, False)
    (again,) = weigh(book, [101], 130)
    assert (again.harvest, again.total_grams, again.against) == (2, 610, "13 % below expected")
    assert weighed_words(book, again).endswith(", harvest 2")
    done = tray_page(book, 101)
    assert [(each.number, each.grams) for each in done.tray.state.harvests] == [(1, 480), (2, 130)]
    assert (done.tray.status, done.tray.state.grams, done.tray.regrowth_day) == ("cut", 610, None)
    summaries_equal_the_fold(book)


def test_each_harvest_is_learned_from_by_its_number(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    stand_at(book, "2026-04-09 10:00")
    weigh(book, [101], 450, keep=True)
    weigh(book, [102, 103], 1000, keep=True)  # together on the scale
    # no guess of a regrowth in this template: nothing is known before the first one
    assert due_tray(book).expected is None
    stand_at(book, "2026-04-20 10:00")
    weigh(book, [101], 100, part=True)
    weigh(book, [101], 60)
    discard(book, [102], "withered")
    # the discarded tray's first harvest counts as it did, the regrowth is of one tray
    regrowth = due_tray(book, 103).expected
    assert regrowth is not None
    assert (regrowth.grams, regrowth.trays) == (160, 1)
    sow_at(book, "2026-04-20 11:00", 1)
    first = due_tray(book, 104).expected
    assert first is not None
    assert first.trays == 3
    assert 1450 / 3 < first.grams < 490
    assert batch_page(book, "1").mean_grams == 1450 / 3


def test_a_joint_weighing_that_is_kept_stays_joint_and_kept_when_it_is_corrected(
    book: Book,
) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-09 10:00")
    entry = weigh(book, [101, 102], 900, keep=True)[0].act_id

    def newest() -> tuple[int, str]:
        line = [line for line in page(book) if line.kind == "weigh" and not line.struck][-1]
        return line.id, line.words

    for change, words in (
        (Changes(grams=880), "cut 880 g together, grows again"),
        (Changes(at=moment("2026-04-09 09:00")), "cut 880 g together, grows again"),
        (Changes(part=True), "cut 880 g together, part cut"),
        (Changes(keep=True), "cut 880 g together, grows again"),
        (Changes(part=False), "cut 880 g together"),
    ):
        replace_entry(book, entry, "misread", change)
        entry, said = newest()
        assert said == words
        assert (tray_page(book, 101).tray.status == "cut") is (words == "cut 880 g together")
    undo(book)
    assert tray_page(book, 102).tray.regrowth_day == 1
    with pytest.raises(Refused, match="Part or keep"):
        weigh(book, [101], 5, part=True, keep=True)


def test_the_weigh_in_holds_a_cut_against_its_own_harvest(book: Book) -> None:
    stand_at(book, "2026-04-01 07:00")
    put_template(book, field_test(regrow_seconds=5 * DAY, regrow_grams=200.0), "it grows again")
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-09 10:00")
    weigh(book, [101], 500, keep=True)
    weigh(book, [102], 550, keep=True)
    now = till(book)
    assert [(line.keep, line.total, line.against) for line in now.lines] == [
        (True, 500, "as expected"), (True, 550, "10 % above expected"),
    ]  # fmt: skip
    assert (now.batches["1"].cut, now.batches["1"].trays, now.batches["1"].grams) == (2, 2, 1050)
    stand_at(book, "2026-04-14 10:00")
    assert {number: (each.state.harvest, each.state.part_grams) for number, each in till(book).trays.items()} == {
        101: (2, 0), 102: (2, 0),
    }  # fmt: skip
    weigh(book, [101], 100, part=True)
    weigh(book, [101], 120)
    now = till(book)
    assert [(line.total, line.against) for line in now.lines] == [
        (100, ""), (220, "10 % above expected"),
    ]  # fmt: skip
    assert (now.batches["1"].cut, now.batches["1"].trays, now.batches["1"].grams) == (1, 2, 220)


def test_a_cut_that_is_not_weighed_may_keep_the_tray(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    stand_at(book, "2026-04-09 08:00")
    # when: two are kept, one is cut in part, and nobody has a scale
    did(book, "cut", [101, 102], keep=True)
    done = did(book, "cut", [103], part=True)
    assert done.words == "cut in part, not weighed: 103, 08:00"
    # then all three grow on; of the part cut one nothing is known of the rest
    assert (due_tray(book).state.harvest, due_tray(book, 103).state.harvest) == (2, 1)
    assert due_tray(book, 103).expected is None
    # when the weight of one comes at noon, and that of the other never
    stand_at(book, "2026-04-09 12:00")
    (late,) = weigh(book, [101], 480)
    assert (late.harvest, late.keep, late.grams_per_gram_seed) == (1, True, 4.8)
    with pytest.raises(Refused, match="Cut already and growing again: 102"):
        weigh(book, [103, 101, 102], 900)
    stand_at(book, "2026-04-20 12:00")
    last = [weigh(book, [each], 150)[0] for each in (101, 102, 103)]
    assert [each.harvest for each in last] == [2, 2, 1]
    assert [each.grams_per_gram_seed for each in last] == [6.3, None, None]
    assert (last[2].against, tray_page(book, 103).grams_per_gram_seed) == (
        "not all of it was weighed",
        None,
    )
    # then only what was weighed as a whole is learned from
    summaries_equal_the_fold(book)
    sow_at(book, "2026-04-20 13:00", 1)
    learned = due_tray(book, 104).expected
    assert learned is not None
    assert learned.trays == 1
    assert 480 < learned.grams < 495
    assert [each.weighed for each in tray_page(book, 102).tray.state.harvests] == [False, True]
    for wrong in ({"part": True, "keep": True}, {"keep": True}):
        with pytest.raises(Refused):
            did(book, "cut" if "part" in wrong else "water", [104], **wrong)  # type: ignore[arg-type]
