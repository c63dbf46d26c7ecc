"""Air in the book: by hand, and what a stretch of readings means."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.room.air import air_at, air_places, batch_air, write_air
from logbook.actions.trays.striking import undo
from logbook.text import Refused
from tests.actions.room_book import SHELF, lit_batch, moment, room_book, stand_at, with_targets


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return room_book(tmp_path)


def _hourly(book: Book, hours: int, celsius: float, humidity: float, still: bool | None) -> None:
    for _ in range(hours):
        write_air(book, celsius, humidity, "Rack 1", still=still)
        stand_at(book, book.now() + timedelta(hours=1))


def test_a_reading_says_vpd_and_dew_point(book: Book) -> None:
    """21 °C and 55 %: 1.120 kPa, 11.62 °C (psychrolib 2.5.0, ASHRAE 2017)."""
    done = write_air(book, 21.0, 55.0, SHELF)
    assert "VPD 1.12 kPa, dew point 11.6 °C" in done.words


def test_a_shelf_without_readings_shows_those_of_its_rack(book: Book) -> None:
    write_air(book, 21.0, 55.0, "Rack 1")
    view = air_at(book, SHELF)
    assert (view.place, view.source) == (SHELF, "Rack 1")
    assert view.newest is not None
    assert [path for path, _ in air_places(book)] == ["Rack 1"]


def test_means_are_of_the_lit_and_the_dark_hours(book: Book) -> None:
    """Lit from 06:00: readings of 04:00 to 09:00 split into two dark and three lit hours."""
    stand_at(book, moment(2, 4))
    _hourly(book, 2, 18.0, 70.0, None)
    _hourly(book, 3, 22.0, 55.0, None)
    view = air_at(book, "Rack 1")
    assert view.means.day is not None
    assert view.means.night is not None
    assert view.means.day.celsius == pytest.approx(22)
    assert view.means.day.hours == pytest.approx(3)
    assert view.means.night.celsius == pytest.approx(18)
    assert view.means.night.hours == pytest.approx(2)


def test_damp_and_still_for_six_hours_brings_the_caution_with_its_rule(book: Book) -> None:
    _hourly(book, 7, 19.0, 93.0, still=True)
    done = write_air(book, 19.0, 93.0, "Rack 1", still=True)
    (caution,) = done.notices
    assert "rule of thumb" in caution
    assert "fan" in caution


def test_moving_air_may_be_damp_for_longer(book: Book) -> None:
    _hourly(book, 7, 19.0, 93.0, still=False)
    assert air_at(book, "Rack 1").caution is None


def test_hours_outside_a_crops_band_are_counted(book: Book) -> None:
    with_targets(book, "radish", temperature="20-24 C", humidity="40-60 %")
    lit_batch(book)
    _hourly(book, 3, 18.0, 65.0, None)
    _hourly(book, 2, 22.0, 50.0, None)
    (crop,) = air_at(book, "Rack 1", hours=5).crops
    assert crop.celsius is not None
    assert crop.humidity is not None
    assert crop.celsius.below == pytest.approx(3, abs=0.01)
    assert crop.humidity.above == pytest.approx(3, abs=0.01)
    assert "3 h too cold" in crop.words


def test_a_batchs_life_is_where_its_trays_stood(book: Book) -> None:
    lit_batch(book)
    _hourly(book, 3, 21.0, 55.0, None)
    view = batch_air(book, 1)
    assert len(view.readings) == 3
    assert view.source == "Rack 1"
    with pytest.raises(Refused, match="no batch 9"):
        batch_air(book, 9)


@pytest.mark.parametrize(
    ("celsius", "humidity", "place", "said"),
    [
        (21.0, 130.0, "", "0 to 100 %"),
        (70.0, 50.0, "", "Write F"),
        (21.0, 50.0, "Attic", "no place"),
        (float("nan"), 50.0, "", "-20 to 60"),
    ],
)
def test_air_that_cannot_be_is_refused(
    book: Book, celsius: float, humidity: float, place: str, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        write_air(book, celsius, humidity, place)
    assert air_places(book) == []


def test_undo_takes_a_reading_back(book: Book) -> None:
    write_air(book, 21.0, 55.0)
    undo(book)
    assert air_at(book).newest is None


def test_an_empty_place_has_no_air(book: Book) -> None:
    view = air_at(book, SHELF)
    assert view.newest is None
    assert view.means.day is None
    assert view.caution is None
