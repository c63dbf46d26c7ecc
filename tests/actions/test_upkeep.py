"""Cleaning and checks that come round: on the round, done at once, put off, answered by a feed."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.room.air import write_air
from logbook.actions.room.cleaning import UseDraft, list_checks, list_uses, use_solution
from logbook.actions.room.upkeep import DutyDraft, check, put_off, set_duty, upkeep
from logbook.actions.trays.agenda import agenda
from logbook.actions.trays.page import page
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sheet import enter_sheet, print_sheet
from logbook.actions.trays.striking import undo
from logbook.growing.room.upkeep import Interval, read_interval
from logbook.text import Refused
from tests.actions.room_book import lit_batch, moment, room_book, stand_at


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A room worked from 7 to 19 UTC, on Wednesday 1 April 2026 at 8."""
    return room_book(tmp_path)


def due(book: Book) -> list[str]:
    return [f"{each.place} {each.words}" for each in the_round(book).upkeep_due]


def test_a_cleaning_is_asked_at_its_place_until_it_is_done_and_again_a_week_later(
    book: Book,
) -> None:
    assert not the_round(book).upkeep
    set_duty(book, DutyDraft("racks", place="Rack 1"))
    lit_batch(book)
    first = next(iter(the_round(book).walked()))
    assert (first.place, first.words) == ("Rack 1", "clean racks")  # on the way to its shelves
    done = use_solution(book, UseDraft("racks", ""))
    assert done.words == "cleaned: racks, wash, rinse, sanitise"
    assert due(book) == []
    undo(book)
    assert due(book) == ["Rack 1 clean racks"]
    use_solution(book, UseDraft("Racks", "scrub", place="Rack 1"))
    stand_at(book, moment(8, 6, 59))  # a week later, before the room's day
    assert due(book) == []
    stand_at(book, moment(8, 7))
    assert due(book) == ["Rack 1 clean racks"]
    assert [each.use.method for each in list_uses(book)] == ["scrub"]


def test_what_was_left_undone_for_weeks_is_one_late_line(book: Book) -> None:
    set_duty(book, DutyDraft("floor", Interval(3.0)))
    use_solution(book, UseDraft("floor", ""))
    stand_at(book, moment(5, 6, 59))
    assert not the_round(book).late
    stand_at(book, moment(30, 8))
    assert the_round(book).late == 1
    assert [each.when_words(book.now()) for each in the_round(book).upkeep] == [
        "late, last 29 days ago"
    ]


def test_a_check_asks_again_in_an_hour_while_it_is_out_of_its_limit(book: Book) -> None:
    set_duty(book, DutyDraft("cold store"))
    (notice,) = check(book, "cold store", 5.1).notices
    assert "above 5 °C (41 °F)" in notice
    assert due(book) == []
    stand_at(book, moment(1, 9))
    assert due(book) == ["Test room check cold store"]
    assert not check(book, "cold store", 5.0).notices
    stand_at(book, moment(1, 16, 59))
    assert due(book) == []
    stand_at(book, moment(1, 17))  # twice a day: in the morning and on the evening round
    assert due(book) == ["Test room check cold store"]
    assert [each.wrong for each in list_checks(book)] == [True, False]
    assert "checked: cold store, 5.1 °C" in [line.words for line in page(book)]


def test_air_readings_of_the_cold_store_answer_its_check(book: Book) -> None:
    set_duty(book, DutyDraft("cold store", place="Rack 1/Shelf 2"))
    write_air(book, 3.5, 80.0, "Rack 1/Shelf 2")
    assert due(book) == []
    stand_at(book, moment(1, 12))
    write_air(book, 8.0, 80.0, "Rack 1/Shelf 2")
    stand_at(book, moment(1, 13))
    (asked,) = the_round(book).upkeep_due
    assert asked.when_words(book.now()) == "was 8 °C"


@pytest.mark.parametrize(("shown", "wrong"), [(99.0, False), (101.0, False), (98.9, True)])
def test_a_scale_may_be_one_percent_off(book: Book, shown: float, wrong: bool) -> None:
    """Common practice, no source."""
    with pytest.raises(Refused, match="What weight"):
        set_duty(book, DutyDraft("scale"))
    set_duty(book, DutyDraft("scale", known_grams=100.0))
    assert bool(check(book, "scale", shown).notices) is wrong


def test_any_e_coli_in_the_water_is_too_many(book: Book) -> None:
    """21 CFR 112.44: no detectable generic E. coli in 100 ml (from memory)."""
    set_duty(book, DutyDraft("water test"))
    assert not check(book, "water test", 0).notices
    assert check(book, "water test", 1).notices


def test_it_can_be_put_off_until_tomorrow_with_a_reason(book: Book) -> None:
    set_duty(book, DutyDraft("racks"))
    put_off(book, the_round(book).upkeep[0], "no hot water")
    assert due(book) == []
    stand_at(book, moment(2, 7))
    assert due(book) == ["Test room clean racks"]
    assert "skipped racks" in [line.words for line in page(book, moment(1).date())]


def test_days_of_the_week_leave_the_others_free(book: Book) -> None:
    set_duty(book, DutyDraft("racks", read_interval("mon, thu")))
    use_solution(book, UseDraft("racks", ""))
    coming = [each for each in agenda(book, 7, upkeep=True) if each.what == "upkeep"]
    assert [each.at.day for each in coming] == [2, 6]


def test_a_place_that_is_retired_or_a_duty_that_is_ended_asks_nothing(book: Book) -> None:
    set_duty(book, DutyDraft("racks"))
    done = set_duty(book, DutyDraft("racks", read_interval("none")))
    assert done.words == "clean racks no longer comes round"
    assert not upkeep(book).duties
    with pytest.raises(Refused, match="No upkeep is set yet"):
        set_duty(book, DutyDraft("racks", read_interval("none")))


def test_one_that_is_moved_or_renamed_comes_round_once(book: Book) -> None:
    set_duty(book, DutyDraft("floor", Interval(3.0), how="mop"))
    (old,) = upkeep(book).duties
    set_duty(book, DutyDraft("bench", place="Rack 1", instead=old.duty))
    (now,) = upkeep(book).duties
    assert (now.duty.name, now.place, now.duty.interval, now.duty.how) == (
        "bench", "Rack 1", Interval(3.0), "mop",
    )  # fmt: skip
    undo(book)
    assert [each.duty.name for each in upkeep(book).duties] == ["floor"]


@pytest.mark.parametrize(
    ("text", "interval"),
    [
        ("7", Interval(7.0)), ("every 3 days", Interval(3.0)), ("Weekly", Interval(7.0)),
        ("2 a day", Interval(0.5)), ("tue,fri", Interval(7.0, "tue,fri")), ("none", Interval(0.0)),
    ],
)  # fmt: skip
def test_how_often_is_read_as_people_write_it(text: str, interval: Interval) -> None:
    assert read_interval(text) == interval


@pytest.mark.parametrize("text", ["", "often", "367", "7 a day", "-1", "0.5"])
def test_how_often_is_refused_where_it_is_none(text: str) -> None:
    with pytest.raises(Refused, match="isn't how often"):
        read_interval(text)


def test_the_sheet_has_them_and_takes_what_a_check_showed(book: Book) -> None:
    set_duty(book, DutyDraft("racks"))
    set_duty(book, DutyDraft("scale", known_grams=100.0))
    racks, scale = (line.code for line in print_sheet(book).lines)
    read = enter_sheet(
        book, [f"{racks} 7:15 with soap", f"{scale} 99.8g"], printed=None, write=True
    )
    assert [each.words.partition(", T")[0] for each in read.lines] == [
        "cleaned: racks, wash, rinse, sanitise, 07:15",
        "checked: scale, 99.8 g for 100 g, 08:00",
    ]
    assert due(book) == []
