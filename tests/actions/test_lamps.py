"""Lamp sets, lamp hours, tariffs and circuits in the book."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.room.lamps import (
    CircuitDraft,
    hang_lamps,
    list_circuits,
    list_tariffs,
    remove_circuit,
    set_circuit,
    set_tariff,
    shelf_pasts,
)
from logbook.actions.room.light import shelf_light
from logbook.actions.room.places import PlaceDraft, change_place, list_places, walk_earlier
from logbook.actions.trays.page import page
from logbook.actions.trays.striking import strike, undo
from logbook.growing.room.places import Place
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import WallHours
from logbook.text import Refused
from tests.actions.room_book import BAR, SHELF, moment, room_book, stand_at, with_lamps


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return room_book(tmp_path)


def _shelf(book: Book) -> Place:
    return next(view.place for view in list_places(book) if view.place.path == SHELF)


def _hours(book: Book, on: int, off: int) -> None:
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=6, lamp_on=on, lamp_off=off))


def test_lamps_hang_over_every_shelf_of_a_rack_and_undo_takes_them_off(book: Book) -> None:
    with_lamps(book)
    assert shelf_light(book, SHELF).lamps == BAR
    assert [line.kind for line in page(book)] == ["lamps", "lamps"]
    undo(book)
    assert shelf_light(book, SHELF).lamps is None


def test_lamps_taken_off_are_none_from_then_on(book: Book) -> None:
    with_lamps(book)
    stand_at(book, moment(3))
    hang_lamps(book, SHELF, LampSet(0))
    lamps = shelf_light(book, SHELF).lamps
    assert lamps is not None
    assert lamps.lamps == 0
    with pytest.raises(Refused, match="No lamps hang"):
        hang_lamps(book, SHELF, LampSet(0))


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"lamps": -1, "watts": 18.0}, "from 1 to 200"),
        ({"lamps": 4, "watts": 0.0}, "more than 0 W"),
        ({"lamps": 4, "watts": 18.0, "amps": 0.16}, "add the voltage"),
        ({"lamps": 4, "watts": 41.0, "amps": 0.16, "volts": 120.0}, "check the label"),
        ({"lamps": 400, "watts": 18.0}, "1 to 200"),
        ({"lamps": 4, "watts": 18.0, "height_mm": 9000.0}, "1 to 300 cm"),
    ],
)
def test_lamps_that_cannot_be_are_refused(wrong: dict[str, float], said: str) -> None:
    with pytest.raises(Refused, match=said):
        LampSet(**wrong)  # type: ignore[arg-type]


def test_changed_hours_are_an_entry_and_the_old_ones_hold_before_it(book: Book) -> None:
    """Given 06–22, when it becomes 06–20 on the 3rd, then each holds in its time."""
    stand_at(book, moment(3, 12))
    _hours(book, 360, 1200)
    with book.reading() as reading:
        past = shelf_pasts(reading)[_shelf(book).id]
    assert past.hours_at(moment(2)) == WallHours(360, 1320)
    assert past.hours_at(moment(4)) == WallHours(360, 1200)
    assert "lamp hours: 06:00–20:00" in [line.words for line in page(book)]


def test_undoing_a_change_of_hours_brings_the_old_ones_back(book: Book) -> None:
    _hours(book, 360, 1200)
    stand_at(book, moment(2))
    _hours(book, 300, 1200)
    undo(book)
    assert (_shelf(book).lamp_on, _shelf(book).lamp_off) == (360, 1200)
    undo(book)
    assert (_shelf(book).lamp_on, _shelf(book).lamp_off) == (360, 1320)


def test_a_struck_change_in_the_middle_leaves_the_first_hours_before_it(book: Book) -> None:
    _hours(book, 360, 1200)
    first = page(book)[-1].id
    stand_at(book, moment(2))
    _hours(book, 300, 1200)
    strike(book, first, "wrong shelf")
    with book.reading() as reading:
        past = shelf_pasts(reading)[_shelf(book).id]
    assert past.hours_at(moment(1, 12)) == WallHours(360, 1320)
    assert (_shelf(book).lamp_on, _shelf(book).lamp_off) == (300, 1200)


def test_the_same_hours_again_write_nothing(book: Book) -> None:
    _hours(book, 360, 1320)
    assert page(book) == []


def test_tariffs_hold_by_date_and_the_later_word_for_a_day_counts(book: Book) -> None:
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.25")))
    dear = OtherHours(WallHours(17 * 60, 20 * 60), Decimal("0.4"))
    done = set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.3"), (dear,)))
    assert done.notices
    assert list_tariffs(book) == [Tariff(date(2026, 1, 1), Decimal("0.3"), (dear,))]
    undo(book)
    assert list_tariffs(book) == [Tariff(date(2026, 1, 1), Decimal("0.25"))]


def test_a_circuit_adds_up_its_shelves_and_cautions_over_80_percent(book: Book) -> None:
    """US practice, NEC 210.20(A): 15 A carry 12 A for hours."""
    with_lamps(book)
    done = set_circuit(book, CircuitDraft("A", 15.0, 120.0, ("Rack 1",), other_amps=10.0))
    assert not done.notices
    (circuit,) = list_circuits(book)
    assert circuit.load.amps == pytest.approx(10 + 6 * 0.17)
    assert circuit.load.limit_amps == 12.0
    over = set_circuit(book, CircuitDraft("a", 15.0, 120.0, ("Rack 1",), other_amps=11.5))
    assert any("NEC" in notice and "electrician" in notice for notice in over.notices)
    assert len(list_circuits(book)) == 1


def test_a_circuit_names_its_shelves_in_walking_order(book: Book) -> None:
    set_circuit(book, CircuitDraft("A", 15.0, 120.0, ("Rack 1",)))
    walk_earlier(book, "Rack 1/Shelf 2")
    (circuit,) = list_circuits(book)
    assert circuit.shelves == ("Rack 1/Shelf 2", SHELF)


def test_a_shelf_hangs_on_one_circuit_only(book: Book) -> None:
    set_circuit(book, CircuitDraft("A", 15.0, 120.0, ("Rack 1",)))
    moved = set_circuit(book, CircuitDraft("B", 20.0, 120.0, (SHELF,)))
    assert moved.notices == (f"{SHELF}: no longer on A.",)
    shelves = {one.name: one.shelves for one in list_circuits(book)}
    assert shelves == {"A": ("Rack 1/Shelf 2",), "B": (SHELF,)}
    undo(book)
    assert [one.shelves for one in list_circuits(book)] == [(SHELF, "Rack 1/Shelf 2")]


def test_unknown_amps_are_said_to_be_a_guess(book: Book) -> None:
    hang_lamps(book, SHELF, LampSet(2, 60.0))
    set_circuit(book, CircuitDraft("A", 15.0, 120.0, ("Rack 1",)))
    (circuit,) = list_circuits(book)
    assert circuit.load.amps == pytest.approx(1.0)
    assert circuit.guessed == (SHELF,)
    assert circuit.dark == ("Rack 1/Shelf 2",)


def test_a_circuit_that_is_gone_is_not_listed(book: Book) -> None:
    set_circuit(book, CircuitDraft("A", 15.0, 120.0, (SHELF,)))
    assert remove_circuit(book, "a").notices == (f"On no circuit now: {SHELF}.",)
    assert list_circuits(book) == []
    with pytest.raises(Refused, match="no circuit"):
        remove_circuit(book, "a")


def test_lamps_cannot_be_hung_in_the_future(book: Book) -> None:
    with pytest.raises(Refused, match="still to come"):
        hang_lamps(book, SHELF, BAR, book.now() + timedelta(days=1))
