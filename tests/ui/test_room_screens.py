"""Light, air, lamps and bills on the screen, and a reading entered from anywhere."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from logbook.actions.book import Book
from logbook.actions.room.air import air_at, write_air
from logbook.actions.room.cleaning import list_uses
from logbook.actions.room.lamps import (
    CircuitDraft,
    list_circuits,
    list_tariffs,
    set_circuit,
    set_tariff,
)
from logbook.actions.room.light import SurveyDraft, shelf_light, write_survey
from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.room.water import list_water
from logbook.actions.trays.weighing import weigh
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.tariffs import Tariff
from logbook.growing.room.water import WaterReading
from logbook.ui.widgets.walk_list import WalkList
from tests.actions.room_book import (
    SHELF,
    lit_batch,
    moment,
    room_book,
    stand_at,
    with_lamps,
    with_targets,
)
from tests.ui.racks_book import NARROW, SIZES, WIDE, walk
from tests.ui.steps import press, said, screen_text, sees, settle, until


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    """Two radish trays in the light since 1 April, lamps and a price; it is 10:00 on the 4th."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    book = room_book(tmp_path)
    with_lamps(book)
    with_targets(book, "radish", light="12-14", humidity="40-60 %", ph="5.5-6.5")
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.3")))
    lit_batch(book)
    stand_at(book, moment(4, 10))
    return book


def _survey(book: Book, *rows: float) -> None:
    spots = tuple(Spot(row, 1, value) for row, value in enumerate(rows, 1))
    write_survey(book, SurveyDraft(SHELF, Grid(len(rows), 1), spots, 210.0))


async def answer(pilot: Pilot[None], text: str) -> None:
    """Type a line into the question that is open, and Enter."""
    await until(pilot, lambda: bool(pilot.app.screen.query(Input)))
    pilot.app.screen.query_one(Input).value = text
    await press(pilot, "enter")


@pytest.mark.parametrize("size", SIZES)
def test_the_shelf_is_drawn_with_numbers_and_judged(book: Book, size: tuple[int, int]) -> None:
    """180, 200, 220 for 16 h is 11.5 mol; 12 are wanted."""
    _survey(book, 180, 200, 220)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "v")
        await until(pilot, lambda: "back" in screen_text(pilot))
        text = screen_text(pilot)
        for words in ("front", "180", "middle", "200", "220", "too little"):
            assert words in text, text
        await press(pilot, "pagedown", "pagedown")
        if size == WIDE:
            assert "Too little light: DLI 11.5 mol/m²/d" in " ".join(text.split())

    walk(book, story, size)


@pytest.mark.parametrize("readings", [(), (180, 200, 220)])
@pytest.mark.parametrize("name", ["Shelf 1", "Shelf beside the door"])
@pytest.mark.parametrize("size", SIZES)
def test_a_shelf_is_named_whole_whatever_is_known_of_it(
    book: Book, size: tuple[int, int], name: str, readings: tuple[float, ...]
) -> None:
    change_place(book, SHELF, PlaceDraft(name, slots=4, lamp_on=5 * 60 + 30, lamp_off=21 * 60))
    if readings:
        spots = tuple(Spot(row, 1, value) for row, value in enumerate(readings, 1))
        write_survey(book, SurveyDraft(f"Rack 1/{name}", Grid(len(spots), 1), spots, 210.0))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "v")
        walk_list = pilot.app.screen.query_one(WalkList)
        await until(pilot, lambda: bool(walk_list.rows))
        shown = next(row for row in walk_list.rows if row.key).text.plain
        assert f"Rack 1/{name}" in shown
        assert ("too little" if readings else "not measured") in shown
        assert max(map(len, shown.split("\n"))) <= size[0] - 4

    walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_a_walk_with_the_meter_is_spot_after_spot(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "v")
        await until(pilot, lambda: "no reading yet" in screen_text(pilot))
        await press(pilot, "enter")
        await answer(pilot, "2x2")
        await answer(pilot, "21 cm")
        await answer(pilot, "")
        assert "front, 1 of 2 from the left" in " ".join(screen_text(pilot).split())
        await answer(pilot, "-5")
        assert "0 to 5,000" in " ".join(screen_text(pilot).split())
        await answer(pilot, "100")
        await press(pilot, "up")
        assert pilot.app.screen.query_one(Input).value == "100"
        await answer(pilot, "110")
        await answer(pilot, "120")
        await answer(pilot, "")
        await answer(pilot, "130")
        await until(pilot, lambda: "PPFD 120" in said(pilot))

    walk(book, story, size)
    newest = shelf_light(book, SHELF).newest
    assert newest is not None
    assert [spot.ppfd for spot in newest.survey.spots] == [110, 120, 130]
    assert newest.survey.height_mm == 210


def test_a_dropped_walk_is_offered_again(book: Book) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await press(pilot, "v", "enter")
        await answer(pilot, "3")
        await answer(pilot, "")
        await answer(pilot, "")
        await answer(pilot, "180")
        pilot.app.screen.query_one(Input).value = "20"
        await settle(pilot)

    async def second(pilot: Pilot[None]) -> None:
        await until(pilot, lambda: "light Rack 1/Shelf 1" in screen_text(pilot))
        await press(pilot, "enter")
        await until(pilot, lambda: "middle: µmol" in screen_text(pilot))
        assert pilot.app.screen.query_one(Input).value == "20"
        await answer(pilot, "200")
        await answer(pilot, "220")
        await until(pilot, lambda: "mean" in said(pilot))

    walk(book, first, WIDE)
    walk(book, second, WIDE)
    newest = shelf_light(book, SHELF).newest
    assert newest is not None
    assert [spot.ppfd for spot in newest.survey.spots] == [180, 200, 220]


def test_lux_is_asked_for_with_its_lamp(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "v", "enter")
        await answer(pilot, "1")
        await answer(pilot, "")
        await answer(pilot, "candle")
        assert "No lux factor" in screen_text(pilot)
        await answer(pilot, "led")
        await answer(pilot, "14000")
        await until(pilot, lambda: "estimate" in screen_text(pilot))

    walk(book, story, WIDE)


@pytest.mark.parametrize("size", SIZES)
def test_air_shows_means_hours_outside_and_a_chart(book: Book, size: tuple[int, int]) -> None:
    stand_at(book, moment(3, 10))
    for _ in range(24):
        write_air(book, 21.0, 66.0, "Rack 1")
        stand_at(book, book.now() + timedelta(hours=1))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "a")
        await until(pilot, lambda: "too damp" in screen_text(pilot))
        text = screen_text(pilot)
        for words in ("Rack 1", "VPD", "°C"):
            assert words in text, text
        assert "┤" in text
        await press(pilot, "Y")
        await until(pilot, lambda: "% humidity" in screen_text(pilot))
        await press(pilot, "H")
        await until(pilot, lambda: "a week" in screen_text(pilot))
        await press(pilot, "b")
        await answer(pilot, "nine")
        assert "numbered" in screen_text(pilot)
        await answer(pilot, "1")
        await until(pilot, lambda: "batch 1, radish" in screen_text(pilot))

    walk(book, story, size)


@pytest.mark.parametrize("places", [("Rack 1",), (SHELF, "Rack 1/Shelf 2", "Rack 1")])
@pytest.mark.parametrize("size", [(60, 15), (40, 15), *SIZES])
def test_a_short_screen_has_room_for_the_chart(
    book: Book, size: tuple[int, int], places: tuple[str, ...]
) -> None:
    stand_at(book, moment(3, 10))
    for _ in range(24):
        for place in places:
            write_air(book, 21.0, 62.0, place)
        stand_at(book, book.now() + timedelta(hours=1))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "a")
        await sees(pilot, "°C", "Y: humidity", "┤")
        await press(pilot, "Y")
        await sees(pilot, "% humidity", "┤")

    walk(book, story, size)


def test_damp_and_still_air_brings_the_caution_to_the_screen(book: Book) -> None:
    stand_at(book, moment(4, 1))
    for _ in range(9):
        write_air(book, 19.0, 93.0, "Rack 1", still=True)
        stand_at(book, book.now() + timedelta(hours=1))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "a")
        await until(pilot, lambda: "Mould risk" in screen_text(pilot))
        assert "rule of thumb" in " ".join(screen_text(pilot).split())

    walk(book, story, WIDE)


def test_air_without_readings_says_how_they_come(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "a")
        await until(pilot, lambda: "--feed" in screen_text(pilot))

    for size in SIZES:
        walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_lamps_and_bills_show_kwh_cost_and_circuits(book: Book, size: tuple[int, int]) -> None:
    set_circuit(book, CircuitDraft("left", 15.0, 120.0, ("Rack 1",), other_amps=11.5))
    weigh(book, [101], 280.0)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "o")
        await until(pilot, lambda: "0.93" in screen_text(pilot))
        await press(pilot, "down", "down")
        await until(pilot, lambda: "NEC" in screen_text(pilot))
        text = " ".join(screen_text(pilot).split())
        assert "over" in text
        await press(pilot, "down")
        await until(pilot, lambda: "2 trays" in screen_text(pilot))

    walk(book, story, size)


def test_lamps_a_price_and_a_circuit_are_added_on_the_screen(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "o")
        await until(pilot, lambda: "0.93" in screen_text(pilot))
        await press(pilot, "e")
        await until(pilot, lambda: bool(pilot.app.screen.query("#line-watts")))
        pilot.app.screen.query_one("#line-watts", Input).value = "none"
        await press(pilot, "f9")
        assert "not a number" in screen_text(pilot)
        pilot.app.screen.query_one("#line-watts", Input).value = "18"
        await press(pilot, "f9")
        await until(pilot, lambda: "18 W each" in said(pilot))
        await press(pilot, "plus", "t")
        await until(pilot, lambda: bool(pilot.app.screen.query("#line-price")))
        pilot.app.screen.query_one("#line-price", Input).value = "0.42"
        await press(pilot, "f9")
        await until(pilot, lambda: "0.42" in said(pilot))
        await press(pilot, "plus", "c")
        await until(pilot, lambda: bool(pilot.app.screen.query("#line-breaker")))
        for name, text in (("name", "[b] wall"), ("breaker", "15"), ("volts", "120")):
            pilot.app.screen.query_one(f"#line-{name}", Input).value = text
        pilot.app.screen.query_one("#line-places", Input).value = "Rack 1"
        await press(pilot, "f9")
        await until(pilot, lambda: "[b] wall" in said(pilot))

    walk(book, story, WIDE)
    lamps = shelf_light(book, SHELF).lamps
    assert lamps is not None
    assert lamps.watts == 18
    assert [tariff.per_kwh for tariff in list_tariffs(book)] == [Decimal("0.3"), Decimal("0.42")]
    assert [one.name for one in list_circuits(book)] == ["[b] wall"]


@pytest.mark.parametrize("start", [(), ("f3",)], ids=["round", "racks"])
def test_a_reading_is_entered_where_one_stands(book: Book, start: tuple[str, ...]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        if start:
            await press(pilot, *start)
            await until(pilot, lambda: "101" in screen_text(pilot))
        await press(pilot, "i", "a")
        await answer(pilot, "21.4 130")
        assert "0 to 100 %" in screen_text(pilot)
        await answer(pilot, "21.4 63 still")
        await until(pilot, lambda: "VPD" in said(pilot))
        await press(pilot, "i", "a")
        await answer(pilot, "41.4 63")
        assert "really 41.4 °C? The last readings here" in screen_text(pilot)
        await press(pilot, "escape", "i", "w")
        await answer(pilot, "7.4 1.2")
        await until(pilot, lambda: "pH 7.4" in said(pilot))
        await press(pilot, "i", "w")
        await answer(pilot, "10.4 1.2")
        assert "really 10.4?" in screen_text(pilot)
        await press(pilot, "enter")
        await until(pilot, lambda: "pH 10.4" in said(pilot))
        await press(pilot, "i", "c")
        await answer(pilot, "trays")
        assert "what; how" in screen_text(pilot)
        await answer(pilot, "trays; soak and rinse; bleach")
        await until(pilot, lambda: "Never mix" in screen_text(pilot))
        await press(pilot, "i", "l")
        await answer(pilot, "1")
        await answer(pilot, "")
        await answer(pilot, "")
        await answer(pilot, "200")
        await until(pilot, lambda: "PPFD 200" in said(pilot))

    walk(book, story, WIDE)
    (reading,) = air_at(book, SHELF).readings
    assert reading.still is True
    assert list_water(book)[0].trays == (101, 102) or start
    assert list_uses(book)[0].use.product == "bleach"


def test_a_reading_far_from_the_others_is_asked_about_once(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "i", "l")
        for text in ("3", "", "", "190", "1900", "195"):
            await answer(pilot, text)
        await until(pilot, lambda: "1900 where the others are about" in screen_text(pilot))
        assert pilot.app.screen.query_one(Input).value == "1900"
        await press(pilot, "enter", "enter")
        await until(pilot, lambda: "PPFD 762" in said(pilot))

    walk(book, story, WIDE)


@pytest.mark.parametrize("keys", [("t",), ("i", "g")], ids=["when?", "reading"])
@pytest.mark.parametrize("size", SIZES)
def test_a_watering_is_written_with_what_was_measured(
    book: Book, size: tuple[int, int], keys: tuple[str, ...]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        while "water" not in _line_here(pilot):
            await press(pilot, "down")
        await press(pilot, *keys)
        await answer(pilot, "09:30 300ml ph 19")
        assert "0 to 14" in screen_text(pilot)
        await answer(pilot, "09:30 300ml ph 7.4 ec 1.2")
        await until(pilot, lambda: "water, look: 10" in said(pilot))
        await press(pilot, "a")
        await until(pilot, lambda: "Water" in screen_text(pilot))
        await press(pilot, "pagedown")
        await until(pilot, lambda: "pH 7.4 is high" in " ".join(screen_text(pilot).split()))

    walk(book, story, size)
    (line,) = list_water(book)
    assert line.at == moment(4, 9, 30)
    assert line.reading == WaterReading(7.4, 1.2, 300)


def _line_here(pilot: Pilot[None]) -> str:
    walked = pilot.app.screen.query_one(WalkList)
    return "" if walked.highlighted is None else walked.rows[walked.highlighted].text.plain


def test_the_screens_are_reached_by_going_to_them(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        for letter, words in (("v", "measured"), ("a", "no reading"), ("o", "lamps and bills")):
            await press(pilot, "g", letter)
            await until(pilot, lambda words=words: words in screen_text(pilot))  # type: ignore[misc]
            await press(pilot, "escape")

    walk(book, story, WIDE)


def test_screens_of_an_empty_room_do_not_fall(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    book = room_book(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        for key in ("v", "o", "a"):
            await press(pilot, key)
            await press(pilot, "down", "pagedown", "Y", "H")

    for size in (WIDE, NARROW):
        walk(book, story, size)
