"""Water quality and the cleaning record in the book."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.room.cleaning import UseDraft, list_uses, use_solution
from logbook.actions.room.water import list_water, measure_water
from logbook.actions.trays.doing import did
from logbook.actions.trays.page import page
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.striking import undo
from logbook.actions.trays.tray_page import tray_page
from logbook.growing.room.water import WaterReading
from logbook.text import Refused
from tests.actions.room_book import lit_batch, room_book, with_targets


@pytest.fixture
def book(tmp_path: Path) -> Book:
    book = room_book(tmp_path)
    with_targets(book, "radish", ph="5.5-6.5", ec="0.3-1.4")
    lit_batch(book)
    return book


def test_a_watering_takes_ph_and_ec_and_says_what_is_out_of_band(book: Book) -> None:
    done = did(book, "water", [101, 102], amount_ml=300, ph=7.4, ec=1.0)
    (notice,) = done.notices
    assert "pH 7.4 is high (wanted 5.5 to 6.5)" in notice
    assert "radish" in notice
    (line,) = list_water(book)
    assert line.reading == WaterReading(7.4, 1.0, 300)
    assert line.marks == (notice,)
    words = "watered: 300 ml each, pH 7.4 (high, wanted 5.5 to 6.5), EC 1 mS/cm"
    assert words in [one.words for one in page(book)]
    assert words in [one.words for one in tray_page(book, 102).past]


def test_water_measured_without_a_watering_waters_nothing(book: Book) -> None:
    before = page(book)
    measure_water(book, WaterReading(6.0), [101])
    assert [line.kind for line in page(book)[len(before) :]] == ["measure"]
    (line,) = list_water(book)
    assert line.trays == (101,)
    assert line.marks == ()


def test_a_replaced_watering_keeps_its_quality(book: Book) -> None:
    entry = did(book, "water", [101, 102], amount_ml=300, ph=6.1, ec=1.0).act_id
    replace_entry(book, entry, "misread", Changes(amount_ml=200.0))
    (line,) = list_water(book)
    assert line.reading == WaterReading(6.1, 1.0, 200)


@pytest.mark.parametrize(
    ("ph", "ec", "said"),
    [(15.0, None, "0 to 14"), (None, 40.0, "0 to 20"), (-1.0, None, "0 to 14")],
)
def test_water_that_cannot_be_is_refused(
    book: Book, ph: float | None, ec: float | None, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        did(book, "water", [101], ph=ph, ec=ec)
    with pytest.raises(Refused, match="Only water takes pH and EC"):
        did(book, "look", [101], ph=6.0)
    with pytest.raises(Refused, match="pH or the EC"):
        measure_water(book, WaterReading())


def test_a_cleaning_is_a_record_with_date_method_and_strength(book: Book) -> None:
    """3.81 ml of 5.25 % stock a litre make 200 ppm (computed, weight in volume)."""
    done = use_solution(
        book, UseDraft("trays", "soak 10 min, rinse", "bleach", 5.25, 0.02, 10_000.0)
    )
    assert "38.1 ml" in done.notices[0]
    assert any("Never mix bleach" in notice for notice in done.notices)
    (line,) = list_uses(book)
    assert line.words == "trays, soak 10 min, rinse, bleach at 200 ppm, 10 L"
    assert line.use.at == book.now()
    assert line.use.by == "ab"
    undo(book)
    assert list_uses(book) == []


@pytest.mark.parametrize(
    ("draft", "said"),
    [
        (UseDraft("", "soak"), "purpose"),
        (UseDraft("trays", " "), "method"),
        (UseDraft("trays", "soak", "bleach", 5.25), "together"),
        (UseDraft("trays", "soak", "bleach", 0.01, 5.25, 1000.0), "only thins"),
        (UseDraft("trays", "soak", place="Attic"), "no place"),
    ],
)
def test_a_cleaning_without_what_or_how_is_refused(book: Book, draft: UseDraft, said: str) -> None:
    with pytest.raises(Refused, match=said):
        use_solution(book, draft)
    assert list_uses(book) == []
