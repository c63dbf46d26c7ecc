"""What a tray's and a batch's page, the list of what is due, the racks and the weigh-in show."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.room.places import PlaceDraft, add_place, retire_place
from logbook.actions.trays.ahead import Ahead
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.due import due, due_by_day
from logbook.actions.trays.entry_lines import fold_lines
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page, search
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike
from logbook.actions.trays.till import till
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import doubts, weigh
from logbook.growing.crops.templates import CutWindow, Stage
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at
from tests.room import DAY, HOUR, crop_of, day, moment, wall_words

SOWN = "2026-04-01 08:00"


def said(ahead: tuple[Ahead, ...]) -> list[tuple[str, str, str, bool]]:
    """Give when, what, the chore that can be done today, and whether it is late."""
    return [(wall_words(each.at)[5:], each.words, each.chore, each.late) for each in ahead]


# Ahead


def test_what_lies_ahead_of_a_tray_from_its_sowing_to_its_cut(book: Book) -> None:
    sow_at(book, SOWN, 1)
    shown = tray_page(book, 101)
    assert said(shown.ahead) == [
        ("04-05 08:00", "weight off, lid on (to blackout)", "", False),
        ("04-06 08:00", "lid off, under lights (to light)", "", False),
        ("04-08 08:00", "may be cut from then on", "", False),
        ("04-08 20:00", "best to cut", "", False),
        ("04-10 08:00", "should be cut by then", "", False),
    ]
    assert [each.of for each in shown.ahead] == ["weight_off", "light_on", "cut", "cut", "cut"]
    assert not any(each.today for each in shown.ahead)


def test_what_is_late_today_is_said_and_what_follows_begins_now(book: Book) -> None:
    sow_at(book, SOWN, 1)
    stand_at(book, "2026-04-05 09:00")
    assert said(tray_page(book, 101).ahead) == [
        ("04-02 07:00", "water", "water", True),
        ("04-02 07:00", "look", "look", True),
        ("04-05 08:00", "weight off, lid on (to blackout)", "weight_off", True),
        ("04-06 09:00", "lid off, under lights (to light)", "", False),
        ("04-08 09:00", "may be cut from then on", "", False),
        ("04-08 21:00", "best to cut", "", False),
        ("04-10 09:00", "should be cut by then", "", False),
    ]
    stand_at(book, "2026-04-05 08:59")
    assert not tray_page(book, 101).ahead[2].late


def test_of_a_tray_in_its_window_it_says_since_when_and_a_sign_says_now(book: Book) -> None:
    sow_at(book, SOWN, 2)
    stand_at(book, "2026-04-06 08:00")
    did(book, "light_on", [101, 102])
    did(book, "water", [101, 102])
    stand_at(book, "2026-04-08 08:00")
    did(book, "water", [101, 102])
    look(book, [102], Look(true_leaves=True))
    assert said(tray_page(book, 101).ahead) == [
        ("04-08 08:00", "ready to cut since then", "", False),
        ("04-08 20:00", "best to cut", "cut", False),
        ("04-10 08:00", "should be cut by then", "", False),
    ]
    assert said(tray_page(book, 102).ahead) == [
        ("04-08 08:00", "cut now: ready sign seen", "cut", False),
        ("04-08 08:00", "ready to cut since then", "", False),
        ("04-10 08:00", "should be cut by then", "", False),
    ]
    stand_at(book, "2026-04-10 08:00")
    assert said(tray_page(book, 101).ahead)[-1][1] == "should have been cut by then"
    assert not next(each for each in tray_page(book, 101).ahead if each.chore == "cut").late
    stand_at(book, "2026-04-10 08:01")
    assert next(each for each in tray_page(book, 101).ahead if each.chore == "cut").late
    did(book, "cut", [101])
    assert tray_page(book, 101).ahead == ()


def test_what_lies_ahead_of_a_plan(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    sow(book, SowDraft("field test", 1, at=moment(SOWN)))
    assert said(tray_page(book, 101).ahead)[:2] == [
        ("04-01 08:00", "sow", "", False),
        ("04-05 08:00", "weight off, lid on (to blackout)", "", False),
    ]
    stand_at(book, "2026-04-01 10:00")
    assert said(tray_page(book, 101).ahead)[:3] == [
        ("04-01 04:00", "soak", "soak", True),
        ("04-01 08:00", "sow", "sow", True),
        ("04-05 10:00", "weight off, lid on (to blackout)", "", False),
    ]


def test_trays_of_a_batch_that_share_what_lies_ahead_are_named_together(book: Book) -> None:
    sow_at(book, SOWN, 3)
    stand_at(book, "2026-04-05 08:00")
    did(book, "weight off", [103])
    did(book, "water", [101, 102])
    did(book, "look", [101, 102])
    shown = batch_page(book, "1")
    assert [(each.words.split(" (")[0], each.trays) for each in shown.ahead[:2]] == [
        ("weight off, lid on", (101, 102)),
        ("lid off, under lights", (101, 102, 103)),
    ]


def test_a_stage_that_comes_by_itself_is_no_chore(book: Book) -> None:
    put_template(
        book,
        crop_of(
            Stage("wet", DAY, "lid", "dark", "mist", 1.0),
            Stage("dry", DAY, "lid", "dark"),
            Stage("light", None, "none", "lit"),
        ),
    )
    stand_at(book, SOWN)
    sow(book, SowDraft("odd", 1))
    (first, *_) = tray_page(book, 101).ahead
    assert first.words == "lid off, under lights (to light)"


# Due


def test_a_week_is_what_is_due_where_no_number_of_days_is_given(book: Book) -> None:
    # a window that begins on the 8th at 08:00: the seventh day after the 1st, not of the 31st
    sow_at(book, SOWN, 1)
    assert [tray.number for tray in due(book)] == [101]
    assert due(book) == due(book, 7)
    assert due(book, 6) == []
    stand_at(book, "2026-03-31 23:00")
    assert due(book) == []
    assert len(due(book, 366)) == 1
    for days in (-1, 367):
        with pytest.raises(Refused, match="Give 0 to 366"):
            due(book, days)


def test_what_is_due_is_in_order_and_says_how_it_stands(book: Book) -> None:
    stand_at(book, SOWN)
    put_template(book, crop_of(Stage("light", None, "none", "lit"), cut=CutWindow(0, HOUR, DAY)))
    sow_at(book, "2026-04-06 08:00", 2)
    sow(book, SowDraft("odd", 2))
    stand_at(book, "2026-04-07 08:01")
    sow(book, SowDraft("odd", 1))
    did(book, "light_on", [101, 102])
    look(book, [102], Look(true_leaves=True, mould="spot"))
    found = due(book, 30)
    assert [(tray.number, tray.ready, tray.sign_seen, tray.mould_seen) for tray in found] == [
        (103, "late", False, False), (104, "late", False, False), (105, "ready", False, False),
        (102, "ready", True, True), (101, "soon", False, False),
    ]  # fmt: skip
    assert [tray.day_number for tray in found] == [2, 2, 1, 2, 2]
    assert found[0].place == "Rack 1/Shelf 1"
    days = {(each.day, each.crop): each for each in due_by_day(found)}
    assert {key: each.numbers for key, each in days.items()} == {
        (day("2026-04-07"), "field test"): (102,), (day("2026-04-07"), "odd"): (103, 104, 105),
        (day("2026-04-09"), "field test"): (101,),
    }  # fmt: skip
    assert days[day("2026-04-07"), "odd"].expected is None
    one, both = found[3].expected, due_by_day([found[3], found[3]])[0].expected
    assert one is not None
    assert both is not None
    assert both.grams == pytest.approx(1000)
    # trays of one sowing share their luck: their sum is less sure than that of strangers
    assert 2**0.5 * one.spread_grams < both.spread_grams < 2 * one.spread_grams


def test_a_tray_whose_window_begins_at_midnight_is_due_on_the_day_that_begins(book: Book) -> None:
    stand_at(book, "2026-04-01 00:00")
    put_template(book, crop_of(Stage("light", None, "none", "lit"), cut=CutWindow(DAY, DAY, DAY)))
    sow(book, SowDraft("odd", 1))
    assert due(book, 0) == []
    assert [tray.number for tray in due(book, 1)] == [101]


# Racks and places


def test_the_racks_show_what_is_due_and_how_each_tray_stands(book: Book) -> None:
    sow_at(book, SOWN, 3, place="Rack 1/Shelf 2", colours=("red", "blue", "red"))
    stand_at(book, "2026-04-02 10:59")
    (shelf,) = [each for rack in racks(book).racks for each in rack.shelves if each.used]
    assert (shelf.place.path, shelf.used) == ("Rack 1/Shelf 2", 3)
    first = shelf.trays[0]
    assert (first.due, first.late, first.ready, first.day_number) == (
        ("water", "look"), False, "soon", 2,
    )  # fmt: skip
    assert (first.colour, first.template.sign_to_cut, first.mould_seen, first.slot) == (
        "red",
        "first true leaves",
        False,
        1,
    )
    stand_at(book, "2026-04-02 11:00")
    assert next(tray for rack in racks(book).racks for s in rack.shelves for tray in s.trays).late
    stand_at(book, "2026-04-08 07:00")
    did(book, "light_on", [101], moment("2026-04-06 08:00"))
    look(book, [101], Look(mould="spread"))
    trays = {
        tray.number: tray for rack in racks(book).racks for s in rack.shelves for tray in s.trays
    }
    assert trays[101].due == ("water", "cut")
    assert (trays[101].mould_seen, trays[102].mould_seen) == (True, False)
    assert "cut" not in trays[102].due
    assert trays[101].ready == "soon"
    stand_at(book, "2026-04-08 08:00")
    assert (
        next(t for rack in racks(book).racks for s in rack.shelves for t in s.trays).ready
        == "ready"
    )


def test_a_retired_shelf_is_shown_while_something_was_left_on_it_and_trays_without_a_place_are_loose(
    book: Book,
) -> None:
    def paths() -> list[str]:
        return [shelf.place.name for rack in racks(book).racks for shelf in rack.shelves]

    add_place(book, PlaceDraft("Spare", under="Rack 1", slots=2))
    assert [rack.name for rack in racks(book).racks] == ["Rack 1", "Rack 2"]
    assert paths().count("Spare") == 1
    retire_place(book, "Spare")
    assert "Spare" not in paths()
    sow_at(book, SOWN, 30)
    sow_at(book, SOWN, 4)
    assert [tray.number for tray in racks(book).loose] == [133, 134]


# Pages


def test_a_batch_says_what_was_cut_and_where_its_trays_stand(book: Book) -> None:
    sow_at(book, SOWN, 4, place="Rack 1/Shelf 1", grams=80.0)
    sow_at(book, "2026-04-01 09:00", 1)
    stand_at(book, "2026-04-08 20:00")
    weigh(book, [101], 400)
    weigh(book, [102], 100, part=True)
    discard(book, [103], "mould")
    shown = batch_page(book, " 1 ")
    assert (shown.cut_grams, shown.cut_trays, shown.mean_grams) == (500, 2, 400)
    assert (shown.seed_grams, shown.grams_per_gram_seed) == (80, 5)
    assert shown.sown_at == moment(SOWN)
    assert [(each.number, each.status.words, each.stage) for each in shown.trays] == [
        (101, "cut", ""), (102, "growing", "weighted"), (103, "discarded", ""),
        (104, "growing", "weighted"),
    ]  # fmt: skip
    assert {each.day_number for each in shown.trays} == {8}
    assert {line.kind for line in shown.past} == {"sow", "weigh", "discard"}
    for wrong, says in (
        ("x", "is not a batch"),
        ("9", "There is no batch 9."),
        ("1" * 16, "is not a batch"),
    ):
        with pytest.raises(Refused, match=says):
            batch_page(book, wrong)


def test_a_tray_s_page_says_what_it_gave_and_its_batch(book: Book) -> None:
    sow_at(book, SOWN, 2, grams=80.0)
    assert tray_page(book, 101).grams_per_gram_seed is None
    stand_at(book, "2026-04-08 20:00")
    weigh(book, [101], 0)
    shown = tray_page(book, 101)
    assert (shown.tray.state.grams, shown.grams_per_gram_seed, shown.batch_numbers) == (
        0,
        0,
        (101, 102),
    )
    assert (shown.tray.stage, tray_page(book, 102).tray.stage) == ("", "weighted")
    sow(book, SowDraft("field test", 1, at=moment("2026-04-20 08:00")))
    planned = tray_page(book, 103)
    assert (planned.tray.stage, planned.tray.day_number, planned.tray.window is None) == (
        "",
        None,
        False,
    )


def test_a_page_is_narrowed_to_a_tray_a_crop_or_a_kind(book: Book) -> None:
    sow_at(book, SOWN, 2, note="first")
    did(book, "water", [101])
    jot(book, [102], "crisp leaves")
    assert [line.kind for line in page(book, tray=102)] == ["sow", "jot"]
    assert [line.kind for line in page(book, kind="water")] == ["water"]
    assert [line.kind for line in page(book, crop="FIELD")] == ["sow", "water", "jot"]
    assert page(book, day("2026-04-02")) == []
    for line in range(3):
        jot(book, [101], f"crisp {line}")
    assert [line.note for line in search(book, "CRISP", 2)] == ["crisp 1", "crisp 2"]
    assert [line.note for line in search(book, "leaves crisp", tray=102)] == ["crisp leaves"]
    assert search(book, "crisp", tray=101, crop="kale") == []


def test_a_round_of_today_is_no_past_one(book: Book) -> None:
    sow_at(book, SOWN, 1)
    assert the_round(book, day("2026-04-01")).day == day("2026-04-01")
    with pytest.raises(Refused, match=r"The round of Tue 31 Mar is past"):
        the_round(book, day("2026-03-31"))


# The weigh-in


def test_the_weigh_in_offers_what_is_ready_and_what_was_asked_for_first(book: Book) -> None:
    sow_at(book, SOWN, 3, place="Rack 2/Shelf 1")
    sow_at(book, "2026-04-01 09:00", 2, place="Rack 1/Shelf 1")
    stand_at(book, "2026-04-08 08:00")
    for number, at in ((101, "08:00"), (102, "08:01"), (104, "08:00"), (105, "08:00")):
        did(book, "light_on", [number], moment(f"2026-04-06 {at}"))
    now = till(book, (103, 999))
    assert (now.chosen, now.ready) == ((103,), (104, 105, 101))
    assert now.left == (103, 104, 105, 101)
    assert list(now.trays) == [104, 105, 101, 102, 103]
    assert (now.trays[103].day_number, now.trays[103].state.part_grams, now.grams) == (8, 0, 0)
    weigh(book, [104], 120, part=True)
    after = till(book, (104,))
    assert (after.chosen, after.ready) == ((), (105, 101, 104))
    assert after.trays[104].state.part_grams == 120
    assert after.batches["2"].cut == 0
    assert after.batches["2"].against == ""
    assert after.grams == 120


def test_a_line_of_the_weigh_in_says_how_it_compares_and_when_it_was(book: Book) -> None:
    sow_at(book, SOWN, 3)
    stand_at(book, "2026-04-08 20:00")
    at = book.now()
    weigh(book, [101, 102], 900, at=at - timedelta(minutes=1))
    weigh(book, [103], 550, at=at - timedelta(seconds=61))
    first, second = till(book).lines
    assert (first.numbers, first.grams, first.total, first.per_seed) == ((101, 102), 900, 900, 4.5)
    assert (first.against, first.told) == ("10 % below expected", None)
    assert (second.against, second.told) == ("10 % above expected", at - timedelta(seconds=61))
    assert (first.day_number, first.crop, first.part) == (8, "field test", False)
    batch = till(book).batches["1"]
    assert (batch.cut, batch.trays, batch.grams) == (3, 3, 1450)
    assert batch.against == "3 % below expected"
    strike(book, second.entry, "wrong")
    assert [line.entry for line in till(book).lines] == [first.entry]
    stand_at(book, "2026-04-09 08:00")
    assert till(book).lines == ()


def test_a_weight_just_at_the_limits_is_asked_about_and_one_inside_is_not(book: Book) -> None:
    sow_at(book, SOWN, 2)
    did(book, "weight off", [101, 102])
    did(book, "to the light", [101, 102])
    look(book, [101, 102], Look(sign="first true leaves"))
    asked = {grams: bool(doubts(book, [101], grams)) for grams in (125.0, 125.1, 1249.0, 1250.0)}
    assert asked == {125.0: True, 125.1: False, 1249.0: False, 1250.0: True}
    assert bool(doubts(book, [101, 102], 1000)) is False
    assert "0 g: did the tray die" in doubts(book, [101], 0)[0]
    assert doubts(book, [101], 0.5)[0].startswith("0.5 g is a tenth or less")
    skip(book, "water", [101], "wet")
    move(book, [101], "Rack 2/Shelf 4/3")
    assert tray_page(book, 101).tray.state.slot == 3


def test_bare_waterings_and_looks_of_one_act_are_one_line(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-02 08:00")
    did(book, "water, look", [101, 102], amount_ml=300)
    did(book, "water, look", [101], note="dry at one edge")
    did(book, "water", [101, 102])
    did(book, "water", [101, 102])
    lines = page(book)[-6:]
    assert [each.words for each in fold_lines(lines)] == [
        "watered: 300 ml each, glanced at", "watered", "glanced at", "watered", "watered",
    ]  # fmt: skip
    (first, *_) = fold_lines(lines)
    assert (first.folded, first.trays) == ((lines[0].id, lines[1].id), (101, 102))
    assert fold_lines(lines, {lines[0].id}) == lines
