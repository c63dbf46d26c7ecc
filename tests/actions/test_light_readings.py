"""Light surveys in the book and what they mean."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.room.lamps import set_tariff
from logbook.actions.room.light import SurveyDraft, all_light, shelf_light, write_survey
from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.trays.striking import undo
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.tariffs import Tariff
from logbook.text import Refused
from tests.actions.room_book import (
    SHELF,
    lit_batch,
    moment,
    room_book,
    stand_at,
    with_lamps,
    with_targets,
)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return room_book(tmp_path)


def _draft(*ppfd: float, height: float | None = 210.0, lamp: str = "") -> SurveyDraft:
    spots = tuple(Spot(row, 1, value) for row, value in enumerate(ppfd, 1))
    return SurveyDraft(SHELF, Grid(len(ppfd), 1), spots, height, lamp)


def test_nine_readings_come_to_mean_and_evenness(book: Book) -> None:
    """Computed by hand: mean 200, min/mean 0.85, min/max 0.739, CV 9.354 % (n−1)."""
    values = (180, 200, 220, 190, 210, 230, 170, 200, 200)
    write_survey(book, _draft(*values))
    newest = shelf_light(book, SHELF).newest
    assert newest is not None
    assert newest.even.mean == pytest.approx(200)
    assert newest.even.min_over_mean == pytest.approx(0.85)
    assert newest.even.min_over_max == pytest.approx(0.739, abs=0.0005)
    assert newest.even.cv_percent == pytest.approx(9.354, abs=0.0005)


def test_daily_light_is_the_mean_times_the_seconds_really_lit(book: Book) -> None:
    """210 µmol for 16 h = 12.096 mol (Purdue Extension HO-238-W)."""
    write_survey(book, _draft(210.0))
    assert shelf_light(book, SHELF).daily == pytest.approx(12.096)


def test_a_night_with_a_clock_change_is_an_hour_shorter(tmp_path: Path) -> None:
    """London, 29 March 2026, clocks forward at 01:00 UTC: 00:00–12:00 by the wall is 11 h."""
    book = room_book(tmp_path, "Europe/London", datetime(2026, 3, 20, tzinfo=UTC))
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=6, lamp_on=0, lamp_off=720))
    write_survey(book, _draft(100.0))
    stand_at(book, datetime(2026, 3, 29, 15, tzinfo=UTC))
    view = shelf_light(book, SHELF)
    assert view.lit_hours == pytest.approx(11)
    assert view.daily == pytest.approx(100 * 11 * 3600 / 1e6)


def test_too_little_light_names_the_hours_that_would_do_and_their_cost(book: Book) -> None:
    """100 µmol for 16 h = 5.76 mol; 7.2 mol need 20 h: 4 h × 57.9 W × 0.30 = 0.0695 a day."""
    with_lamps(book)
    with_targets(book, "radish", light="7.2-12")
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.30")))
    lit_batch(book)
    write_survey(book, _draft(100.0))
    (verdict,) = shelf_light(book, SHELF).verdicts
    assert verdict.judgement.verdict == "too little"
    assert verdict.judgement.hours_then == pytest.approx(20)
    assert verdict.judgement.cost_change == 4 * Decimal("0.0579") * Decimal("0.30")
    assert "20 h per day" in verdict.judgement.words


def test_falling_output_is_percent_of_the_first_at_like_height(book: Book) -> None:
    for day, mean, height in ((1, 200.0, 210.0), (15, 190.0, 300.0), (29, 170.0, 212.0)):
        stand_at(book, moment(day))
        write_survey(book, _draft(mean, height=height))
    view = shelf_light(book, SHELF)
    assert [one.percent for one in view.surveys] == [100.0, 100.0, pytest.approx(85.0)]
    assert "85 %" in view.falling


def test_lux_is_an_estimate_marked_so(book: Book) -> None:
    done = write_survey(book, _draft(14_000.0, lamp="led"))
    assert "estimate" in done.notices[0]
    newest = shelf_light(book, SHELF).newest
    assert newest is not None
    assert newest.survey.lux_lamp == "white LED"
    assert newest.even.mean == pytest.approx(200)


@pytest.mark.parametrize(
    ("spots", "grid", "place", "lamp", "height", "said"),
    [
        ([(1, 1, -5.0)], (1, 1), SHELF, "", None, "0 to 5,000"),
        ([(1, 1, 9000.0)], (1, 1), SHELF, "", None, "Full sun"),
        ([], (1, 1), SHELF, "", None, "no light reading"),
        ([(3, 1, 200.0)], (2, 1), SHELF, "", None, "outside the grid"),
        ([(1, 1, 200.0), (1, 1, 210.0)], (1, 1), SHELF, "", None, "given twice"),
        ([(1, 1, 200.0)], (1, 1), SHELF, "candle", None, "No lux factor"),
        ([(1, 1, 200.0)], (1, 1), SHELF, "", 1.0, "1 cm to 3 m"),
        ([(1, 1, 200.0)], (1, 1), "Rack 9", "", None, "no place"),
        ([(1, 1, 200.0)], (1, 1), "Rack 1", "", None, "which shelf"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_and_nothing_written(
    book: Book,
    spots: list[tuple[int, int, float]],
    grid: tuple[int, int],
    place: str,
    lamp: str,
    height: float | None,
    said: str,
) -> None:
    draft = SurveyDraft(place, Grid(*grid), tuple(Spot(*one) for one in spots), height, lamp)
    with pytest.raises(Refused, match=said):
        write_survey(book, draft)
    assert all(not one.surveys for one in all_light(book))


def test_undo_takes_a_survey_back(book: Book) -> None:
    write_survey(book, _draft(200.0))
    undo(book)
    assert shelf_light(book, SHELF).newest is None
