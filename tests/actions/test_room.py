"""What the room is, and what a change of it leaves alone."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.room.lamps import list_tariffs, set_tariff
from logbook.actions.room.places import (
    PlaceDraft,
    RoomDraft,
    add_place,
    change_place,
    change_room,
    list_places,
    room_words,
)
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page as days_page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import TrayPage, tray_page
from logbook.actions.trays.weighing import weigh
from logbook.cli.answers import written
from logbook.cli.trays.brief import brief_words
from logbook.growing.days import clock_words
from logbook.growing.quantities import PRICE
from logbook.growing.room.tariffs import Tariff
from logbook.growing.trays.looks import Look
from logbook.growing.trays.round import RoundLine
from logbook.text import Refused
from tests.actions.days import counts, second_room, sow_at, stand_at, views
from tests.room import moment


def test_units_and_the_sowing_day_change_what_is_shown_alone(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-10 08:00")
    weigh(book, [101], 283.0)
    rows = counts(book)
    change_room(book, RoomDraft(units="us", first_day=0))
    page = tray_page(book, 101)
    assert page.tray.state.grams == 283
    assert page.tray.day_number == 9
    assert page.past[-1].words == "cut 9.98 oz"
    assert days_page(book)[-1].note == "us units, the sowing day is day 0"
    changed = {name for name, count in counts(book).items() if count != rows[name]}
    assert all(name.startswith("entry") for name in changed), (
        "the entry that says so, and its words"
    )
    again = open_book(book.file.where, book.clock, "ab")
    assert (again.units, again.about.first_day) == ("us", 0)


def test_a_currency_is_said_later_and_converts_nothing(book: Book) -> None:
    done = set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.30")))
    assert done.words.startswith("tariff: 0.30 per kWh")
    assert "has no currency yet" in done.notices[0]
    change_room(book, RoomDraft(currency="jpy"))
    assert days_page(book)[-1].note == "money in JPY"
    assert list_tariffs(book)[0].words == "0.3 JPY per kWh from 2026-01-01"
    assert set_tariff(book, Tariff(date(2026, 2, 1), Decimal("31.5"))).notices == ()
    with pytest.raises(Refused, match="isn't a currency"):
        change_room(book, RoomDraft(currency="yen"))


@pytest.mark.parametrize(
    "price", ["0.1234567890123456789", "99999.0000000001", "0.0000000001", "0"]
)
def test_a_price_of_any_size_is_kept_to_its_last_digit(book: Book, price: str) -> None:
    set_tariff(book, Tariff(date(2026, 1, 1), PRICE.read(price)))
    assert [f"{each.per_kwh:f}" for each in list_tariffs(book)] == [price]


def test_a_new_name_goes_to_the_place_too(book: Book) -> None:
    change_room(book, RoomDraft(name="Cellar / left"))
    assert room_words(book.about).startswith("Cellar / left: times in ")
    assert [each.place.name for each in list_places(book) if each.place.kind == "room"] == [
        "Cellar - left"
    ]


def test_a_name_means_one_place(book: Book) -> None:
    for name in ("Rack 1", "rack 2", "Shelf 3"):
        with pytest.raises(Refused, match="is already used"):
            change_room(book, RoomDraft(name=name))
    change_room(book, RoomDraft(name="Cellar"))
    change_room(book, RoomDraft(name="Cellar", units="us"))
    with pytest.raises(Refused, match='already a "Cellar" there'):
        add_place(book, PlaceDraft("cellar", "rack"))
    change_place(book, "Rack 1", PlaceDraft("Rack A", "rack"))
    assert book.about.name == "Cellar"


def test_daily_chores_go_by_the_new_hours(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-02 05:00")
    before = {line.due_at for line in the_round(book).lines}
    change_room(book, RoomDraft(day_start=6 * 60, day_end=20 * 60))
    after = {line.due_at for line in the_round(book).lines}
    assert before
    assert min(before) - min(after) == timedelta(hours=1)


def test_a_program_that_is_open_sees_what_another_changes_of_the_room(book: Book) -> None:
    # given a book that has looked at its trays
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-02 05:00")
    assert the_round(book).lines
    # when another program changes units and hours
    other = open_book(book.file.where, book.clock, "other")
    change_room(other, RoomDraft(units="us", day_start=6 * 60, day_end=20 * 60))
    # then this one reads by them, and writes by them
    assert the_round(book) == the_round(open_book(book.file.where, book.clock, "ab"))
    assert book.about.units == "us", "read anew"
    change_room(other, RoomDraft(units="metric"))
    jot(book, (), "x")
    assert open_book(book.file.where, book.clock).units == book.units == "metric"


def test_a_tray_goes_by_the_day_of_the_room_that_it_is_in(book: Book) -> None:
    # given a second room two hours east, whose day begins at 10:00 there, 08:00 here
    second_room(book, "Europe/Helsinki", 10 * 60, 19 * 60)
    sow_at(book, "2026-04-01 08:00", 1, place="Rack 1/Shelf 1")
    sow(book, SowDraft("field test", 1, place="Bench"))
    # then the next day begins earlier there, and its chores later
    stand_at(book, "2026-04-01 22:30")
    shown = [tray for rack in racks(book).racks for shelf in rack.shelves for tray in shelf.trays]
    assert {tray.number: tray.day_number for tray in shown} == {101: 1, 102: 2}
    assert [tray_page(book, number).tray.day_number for number in (101, 102)] == [1, 2]
    stand_at(book, "2026-04-02 05:00")
    first = {number: _first_due(book, number) for number in (101, 102)}
    assert first[102] - first[101] == timedelta(hours=1)
    assert _first_due(book, 102) == min(
        each.at for each in tray_page(book, 102).ahead if each.today
    )
    # and one that is carried there goes by that day too, by what is kept as read anew
    move(book, [101], "Bench")
    assert _first_due(book, 101) == first[102]
    assert views(book) == views(open_book(book.file.where, book.clock, "ab"))


def test_a_page_and_a_round_tell_the_time_of_the_room_that_they_speak_of(book: Book) -> None:
    # given a room two hours east, and a jot on each shelf when it is 1 April here, 2 April there
    second_room(book, "Europe/Helsinki", 10 * 60, 19 * 60)
    sow_at(book, "2026-04-01 08:00", 1, place="Rack 1/Shelf 1")
    sow(book, SowDraft("field test", 1, place="Bench"))
    stand_at(book, "2026-04-01 22:30")
    for place in ("Rack 1/Shelf 1", "Barn/Bench"):
        jot(book, (), "cold", place=place)
    # then each is on the page of the day that it was there, at the time that it was there
    told = {
        line.place or line.trays: clock_words(line.at, line.hours.zone)
        for day in (date(2026, 4, 1), date(2026, 4, 2))
        for line in days_page(book, day, kind="jot")
    }
    assert told == {"Rack 1/Shelf 1": "22:30", "Barn/Bench": "00:30"}
    jots = [[line.place for line in days_page(book, date(2026, 4, n), kind="jot")] for n in (1, 2)]
    assert jots == [["Rack 1/Shelf 1"], ["Barn/Bench"]]
    # and so do the round's words, the days of what is due, and a tray's own sentences
    discard(book, [101], "dropped")
    stand_at(book, "2026-04-02 06:00")
    waits = the_round(book)
    assert not waits.due
    assert clock_words(waits.waiting[0].walk_at, book.zone) == "08:00"
    assert "nothing due; next 10:00" in next(brief_words(waits, book))
    stand_at(book, "2026-04-02 07:00")
    lines = {line.numbers: line for line in the_round(book).lines if line.later}
    assert lines[102,].when_words(book.now()) == "10:00"
    # and JSON has its offset
    assert written(lines[102,], RoundLine, book.zone)["due_at"] == "2026-04-02T10:00:00+03:00"
    assert written(tray_page(book, 101), TrayPage, book.zone)["past"][0]["at"].endswith("+01:00")
    assert written(tray_page(book, 102), TrayPage, book.zone)["past"][0]["at"].endswith("+03:00")
    with pytest.raises(Refused, match="Tray 102 was sown Wed 1 Apr 10:00; a look"):
        look(book, [102], Look(), at=moment("2026-03-31 08:00"))


def _first_due(book: Book, number: int) -> datetime:
    return min(
        tray.due_at
        for line in the_round(book).lines
        for tray in line.trays
        if tray.number == number
    )


@pytest.mark.parametrize(
    ("draft", "said"),
    [
        (RoomDraft(name=" "), "name of the room is empty"),
        (RoomDraft(units="stone"), "use metric or us"),
        (RoomDraft(first_day=2), "day 0 or day 1"),
        (RoomDraft(day_start=20 * 60), "from an earlier to a later time"),
        (RoomDraft(day_end=1500), "from an earlier to a later time"),
    ],
)
def test_what_cannot_be_is_said_and_nothing_changes(
    book: Book, draft: RoomDraft, said: str
) -> None:
    about = book.about
    with pytest.raises(Refused, match=said):
        change_room(book, draft)
    assert open_book(book.file.where, book.clock, "ab").about == about


def test_two_rooms_may_each_have_a_rack_of_the_same_name(book: Book) -> None:
    # given a second room with its own day and racks named as in the first
    add_place(book, PlaceDraft("Barn", "room", zone="Europe/Helsinki", day=(6 * 60, 15 * 60)))
    add_place(book, PlaceDraft("Rack 1", "rack", "Barn"))
    made = add_place(book, PlaceDraft("Shelf 1", "shelf", "Barn/Rack 1"))
    assert made.path == "Barn/Rack 1/Shelf 1"
    # when a batch is sown in each
    sow(book, SowDraft("field test", 1, place="Rack 1/Shelf 1"))
    sow(book, SowDraft("field test", 2, place="barn/rack 1/shelf 1"))
    # then each room is walked by itself, by its own hours
    stand_at(book, "2026-04-15 09:00")
    assert {line.place for line in the_round(book).lines} == {
        "Rack 1/Shelf 1",
        "Barn/Rack 1/Shelf 1",
    }
    inside = the_round(book, inside="Barn").lines
    assert {each.number for line in inside for each in line.trays} == {102, 103}
    assert [each.name for each in racks(book, "Barn").racks] == ["Barn/Rack 1"]
    with book.reading() as reading:
        assert [hours.zone.key for hours in reading.rooms] == ["Europe/London", "Europe/Helsinki"]
    with pytest.raises(Refused, match="There is no place"):
        the_round(book, inside="Loft")
    with pytest.raises(Refused, match="racks and shelves don't"):
        add_place(book, PlaceDraft("Rack 9", "rack", zone="Europe/Helsinki"))
