"""The racks on the screen: what stands where, and going there with the arrow keys."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, TextArea

from logbook.actions.book import Book
from logbook.actions.room.places import list_places
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import move
from logbook.actions.trays.page import page
from logbook.actions.trays.rack_views import Racks
from logbook.actions.trays.racks import racks
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.ui.app import LogbookApp
from logbook.ui.rack_drawing import Drawing, draw_racks, due_words
from logbook.ui.screens.trays.racks import RacksScreen
from logbook.ui.screens.trays.tray import TrayScreen
from logbook.ui.subjects import SowSubject, Subject, WeighSubject
from logbook.ui.widgets.rack_map import RackMap
from tests.ui.racks_book import (
    NARROW,
    SIZES,
    WIDE,
    at,
    empty_book,
    fits,
    small_book,
    stand_at,
    walk,
)
from tests.ui.steps import press, said, screen_text, sees, until


@pytest.fixture(autouse=True)
def _own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return small_book(tmp_path)


def here(pilot: Pilot[None]) -> str:
    """Give the key of the cell under the cursor."""
    cell = pilot.app.screen.query_one(RackMap).cell
    return cell.key if cell is not None else ""


def text_of(drawing: Drawing) -> str:
    """Write a drawing down."""
    lines = [[" "] * 200 for _ in range(drawing.height)]
    pieces = [(y, piece.x, piece.text) for y, row in drawing.headings.items() for piece in row]
    for cell in drawing.cells:
        for below, row in enumerate(cell.pieces):
            pieces += [(cell.y + below, cell.x + piece.x, piece.text) for piece in row]
    for y, x, text in pieces:
        assert lines[y][x : x + len(text)] == [" "] * len(text), "nothing is drawn over"
        lines[y][x : x + len(text)] = text
    return "\n".join("".join(line).rstrip() for line in lines)


def test_a_shelf_is_drawn_as_a_line_of_trays(book: Book) -> None:
    drawing = draw_racks(racks(book), 78, 20)
    assert text_of(drawing).rstrip() == (
        "Rack 1\n"
        "Shelf 1   lit 06–22   3 of 6 slots\n"
        " 101 radish   102 radish   103 radish   ·            ·            ·\n"
        "▌d4 weight+2 ▌d4 weight+2 ▌d4 weight+2\n"
        "\n"
        "Shelf 2   lit 06–22   1 of 6 slots\n"
        " 105 kale     ·            ·            ·            ·            ·\n"
        " d2 water +1"
    )


def test_where_it_is_narrow_the_slots_fold_and_stay_aligned(book: Book) -> None:
    drawing = draw_racks(racks(book), 38, 5)
    assert text_of(drawing) == (
        "Rack 1\n"
        "Shelf 1  lit 06–22  3 of 6 slots\n"
        " 101 radish   102 radish   103 radish\n"
        "▌d4 weight+2 ▌d4 weight+2 ▌d4 weight+2\n"
        " ·            ·            ·\n"
        "Shelf 2  lit 06–22  1 of 6 slots\n"
        " 105 kale     ·            ·\n"
        " d2 water +1\n"
        " ·            ·            ·"
    )


def test_racks_stand_side_by_side_where_it_is_wide(book: Book) -> None:
    found = racks(book)
    two = Racks((found.racks[0], found.racks[0]), ())
    drawing = draw_racks(two, 198, 44)
    heads = [piece.x for piece in drawing.headings[0]]
    assert heads == [0, 100]
    assert {cell.y for cell in drawing.cells} == {2, 6}
    assert all(cell.x + cell.width <= 198 for cell in drawing.cells)


@pytest.mark.parametrize("width", [14, 38, 60, 78, 118, 198])
def test_every_slot_is_drawn_once_at_every_width(book: Book, width: int) -> None:
    drawing = draw_racks(racks(book), width, 20)
    assert len(drawing.cells) == 12
    assert len({(cell.x, cell.y) for cell in drawing.cells}) == 12
    assert all(cell.x + cell.width <= width for cell in drawing.cells)
    text_of(drawing)


def test_what_is_due_is_said_in_words_and_what_is_left_out_is_counted(book: Book) -> None:
    tray = racks(book).racks[0].shelves[0].trays[0]
    assert due_words(tray, 40) == "weight off, water, look"
    assert due_words(tray, 18) == "weight off +2 more"
    assert due_words(tray, 13) == "weight off +2"
    assert due_words(tray, 9) == "weight +2"
    assert due_words(tray, 8) == "weight+2"


def test_trays_that_stand_nowhere_come_last(book: Book) -> None:
    sow(book, SowDraft("kale", trays=12))
    found = racks(book)
    assert [tray.number for tray in found.loose] == [114, 115, 116, 117]
    for width in (38, 78):
        text = text_of(draw_racks(found, width, 20))
        assert "117 kale" in text.split("On no shelf")[1]


@pytest.mark.parametrize("size", SIZES)
def test_the_racks_show_number_crop_day_and_what_is_due(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3")
        await sees(pilot, "Rack 1", "Shelf 1", "3 of 6 slots", "101 radish", "d4 weight+2", "·")
        await sees(pilot, "4 trays   8 free", "101 radish", "late:")
        assert fits(pilot, size)

    walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_arrows_go_over_slots_and_shelves_and_enter_opens_the_tray(
    book: Book, size: tuple[int, int]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3")
        await until(pilot, lambda: here(pilot) == "tray 101")
        await press(pilot, "right", "right", "left")
        assert here(pilot) == "tray 102"
        await press(pilot, "down", *(["down"] if size == NARROW else []))
        assert here(pilot) == "Rack 1/Shelf 2/2"
        await sees(pilot, "free: n sows   Rack 1/Shelf 2 slot 2")
        await press(pilot, "enter")
        assert "slot is free" in said(pilot)
        await press(pilot, "end")
        assert here(pilot) == "Rack 1/Shelf 2/6"
        await press(pilot, "right", "down")
        assert here(pilot) == "Rack 1/Shelf 2/6"
        await press(pilot, "home", "up", "left")
        assert here(pilot) == "tray 101"
        await press(pilot, "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, TrayScreen))
        await press(pilot, "escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, RacksScreen))
        assert here(pilot) == "tray 101"

    walk(book, story, size)


def test_a_jot_goes_on_the_tray_or_on_the_shelf_of_a_free_slot(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        async def jot(text: str) -> None:
            await press(pilot, "j")
            await until(pilot, lambda: bool(pilot.app.screen.query(TextArea)))
            pilot.app.screen.query_one(TextArea).insert(text)
            await press(pilot, "enter")
            await until(pilot, lambda: "jotted" in said(pilot))

        await press(pilot, "f3")
        await until(pilot, lambda: here(pilot) == "tray 101")
        await jot("on a tray [/]")
        await press(pilot, "end")
        await jot("on a shelf [100%]")

    walk(book, story, WIDE)
    first, second = page(book)
    assert (first.trays, first.note) == ((101,), "on a tray [/]")
    assert (second.trays, second.place, second.note) == ((), "Rack 1/Shelf 2", "on a shelf [100%]")


def test_marked_trays_move_together_to_the_free_slot_under_the_cursor(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3")
        await until(pilot, lambda: here(pilot) == "tray 101")
        await press(pilot, "space", "right", "space")
        await sees(pilot, "*101", "*102", "2 marked")
        await press(pilot, "end", "space")
        assert "marks go on trays" in said(pilot)
        await press(pilot, "m")
        await until(pilot, lambda: bool(pilot.app.screen.query(Input)))
        assert pilot.app.screen.query_one(Input).value == "Rack 1/Shelf 2"
        await press(pilot, "enter")
        await until(pilot, lambda: "moved 101 102" in said(pilot))
        assert "marked" not in screen_text(pilot)

    walk(book, story, WIDE)
    assert {tray_page(book, number).tray.place for number in (101, 102)} == {"Rack 1/Shelf 2"}


def test_sow_and_weigh_know_what_the_cursor_is_on(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    went: list[Subject] = []
    monkeypatch.setattr(LogbookApp, "_go", lambda _app, stop: went.append(stop.subject))

    async def story(pilot: Pilot[None]) -> None:
        await pilot.app.switch_screen("racks")
        await until(pilot, lambda: here(pilot) == "tray 101")
        await press(pilot, "w", "n", "end", "n", "home", "space", "right", "space", "w")

    walk(book, story, WIDE)
    assert went == [
        WeighSubject(),
        SowSubject(),
        SowSubject(place="Rack 1/Shelf 2"),
        WeighSubject((101, 102)),
    ]


def test_the_cursor_stays_on_its_tray_when_another_program_moves_it(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3")
        await until(pilot, lambda: here(pilot) == "tray 101")
        move(book, [101], "Rack 1/Shelf 2/6")
        screen = pilot.app.screen
        assert isinstance(screen, RacksScreen)
        await screen.reload()
        await sees(pilot, "Rack 1/Shelf 2 slot 6")
        assert here(pilot) == "tray 101"

    walk(book, story, WIDE)


def test_a_step_of_the_cursor_repaints_two_slots(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3")
        await until(pilot, lambda: here(pilot) == "tray 101")
        shown = pilot.app.screen.query_one(RackMap)
        refresh = shown.refresh

        def counted(*regions: object, **kwargs: object) -> RackMap:
            asked.append(sum(region.area for region in regions))  # type: ignore[attr-defined]
            return refresh(*regions, **kwargs)  # type: ignore[arg-type]

        monkeypatch.setattr(shown, "refresh", counted)
        await press(pilot, "right")
        assert asked == [2 * 25]

    walk(book, story, WIDE)


def test_ready_and_cut_are_told_apart(book: Book) -> None:
    did(book, "weight_off", [101])
    stand_at(book, at(5, 10))
    did(book, "light_on", [101])
    window = tray_page(book, 101).tray.window
    assert window is not None
    stand_at(book, window.start)
    tray = racks(book).racks[0].shelves[0].trays[0]
    assert "cut" not in tray.due
    assert tray.ready == "ready"
    stand_at(book, window.best)
    assert "cut" in racks(book).racks[0].shelves[0].trays[0].due


@pytest.mark.parametrize("size", SIZES)
def test_an_empty_book_has_free_slots_and_no_key_harms(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    empty = empty_book(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3")
        await sees(pilot, "0 of 6 slots", "free: n sows   Rack 1/Shelf 1 slot 1")
        await press(pilot, "enter", "l", "m", "d", "space", "up", "down", "pagedown", "left")
        assert isinstance(pilot.app.screen, RacksScreen)

    walk(empty, story, size)
    assert page(empty) == []
    assert all(not view.used for view in list_places(empty))
