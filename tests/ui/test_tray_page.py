"""A tray's page: facts, what happened, the line called now, and what will happen."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.ui.app import LogbookApp
from logbook.ui.screens.trays.tray import TrayScreen
from logbook.ui.subjects import TraySubject
from logbook.ui.timeline import TimeLineList
from logbook.ui.widgets.walk_list import Row
from tests.ui.racks_book import KEPT, LONG, SIZES, WIDE, at, fits, small_book, walk
from tests.ui.steps import press, said, screen_text, sees, settle, until


@pytest.fixture(autouse=True)
def _own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return small_book(tmp_path)


async def open_tray(pilot: Pilot[None], number: int) -> TrayScreen:
    """Go to a tray's page."""
    app = pilot.app
    assert isinstance(app, LogbookApp)
    app.go(TraySubject(number))
    await until(pilot, lambda: isinstance(app.screen, TrayScreen) and app.screen.view is not None)
    await settle(pilot)
    screen = app.screen
    assert isinstance(screen, TrayScreen)
    return screen


def key_here(pilot: Pilot[None]) -> str:
    return pilot.app.screen.query_one(TimeLineList).key


@pytest.mark.parametrize("size", [*SIZES, (60, 15), (60, 20), (50, 18)])
def test_a_long_page_opens_at_now_the_first_time_too(book: Book, size: tuple[int, int]) -> None:
    for place in range(40):
        jot(book, [101], f"note {place}")

    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        await sees(pilot, "note 39", "── now", "water  late")

    walk(book, story, size)


@pytest.mark.parametrize("size", SIZES)
def test_the_page_opens_with_facts_and_now_in_view(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        await sees(pilot, "101", "radish", "day 4", "growing, weighted")
        await sees(
            pilot, "Rack 1/Shelf 1 slot 1", "batch 1", "expected 2", " g, 4 in 5 (from", "── now"
        )
        assert fits(pilot, size)
        above, _, below = screen_text(pilot).partition("── now")
        assert KEPT.split()[0] in above
        assert "weight off" in below
        assert key_here(pilot).startswith("ahead ")

    walk(book, story, size)


def test_the_whole_line_is_in_order_at_80_by_24(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        await press(pilot, "home")
        await sees(pilot, "struck out: watered", "struck entry", "wrong shelf", KEPT, "lot S [/] 7")
        await sees(pilot, "tape blue", "seed 40 g", "ready sign")
        text = screen_text(pilot)
        places = [
            text.index(words) for words in ("sown on Rack 1", "struck out: watered", "jot  [/]")
        ]
        assert places == sorted(places)
        assert "late" in text

    walk(book, story, WIDE)


def test_what_comes_is_in_the_order_of_its_time(book: Book) -> None:
    found = tray_page(book, 101)
    assert [each.chore for each in found.ahead if each.chore] == ["water", "look", "weight_off"]
    assert [each.at for each in found.ahead] == sorted(each.at for each in found.ahead)
    words = [each.words for each in found.ahead]
    assert words[-3:] == ["may be cut from then on", "best to cut", "should be cut by then"]


@pytest.mark.parametrize("size", SIZES)
def test_enter_does_a_chore_of_today(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        while "water" not in _row(pilot):
            await press(pilot, "down")
        await press(pilot, "enter")
        await until(pilot, lambda: "water: 101" in said(pilot))
        await press(pilot, "end", "enter")
        assert "not due today" in said(pilot)

    walk(book, story, size)
    assert [(line.kind, line.trays) for line in page(book)] == [("water", (101,))]


def _row(pilot: Pilot[None]) -> str:
    shown = pilot.app.screen.query_one(TimeLineList)
    return "" if shown.highlighted is None else shown.rows[shown.highlighted].text.plain


def test_an_entry_is_struck_with_a_reason_and_stays(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        await press(pilot, "k")
        assert "Select an entry first" in said(pilot)
        while "jot" not in _row(pilot):
            await press(pilot, "up")
        await press(pilot, "k", "enter")
        await sees(pilot, "give a reason")
        await press(pilot, "other", "enter")
        await until(pilot, lambda: "struck out jot 101" in said(pilot))
        await sees(pilot, "struck out: jot")

    walk(book, story, WIDE)
    notes = {line.note: line.struck for line in tray_page(book, 101).past if line.note}
    assert notes == {KEPT: True, "wrong shelf": False, "other": False}


def test_left_and_right_go_through_the_batch_and_hold_at_its_ends(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 102)
        await press(pilot, "right", "right")
        await sees(pilot, "104  radish", "cut 280 g, 7.00 g per g of seed", "Nothing ahead")
        await press(pilot, "right")
        assert "last tray of batch 1" in said(pilot)
        await press(pilot, "left", "left", "left")
        await sees(pilot, "101  radish")
        await press(pilot, "left")
        assert "first tray of batch 1" in said(pilot)

    walk(book, story, WIDE)


@pytest.mark.parametrize("size", SIZES)
def test_all_trays_of_a_number_are_named_with_their_days_and_a_key_leads_to_each(
    book: Book, size: tuple[int, int]
) -> None:
    sow(book, SowDraft("kale", numbers=(104,), place="Rack 1/Shelf 2"))

    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 104)
        await sees(pilot, "104  kale", "also 104 radish, Wed 1 Apr to Fri 3")
        await press(pilot, "O")
        await sees(pilot, "104  radish", "cut Fri 3 Apr", "also 104 kale, since Sat 4 Apr")
        await press(pilot, "O")
        await sees(pilot, "104  kale")
        discard(book, [104], "fell")
        sow(book, SowDraft("basil", numbers=(104,), place="Rack 1/Shelf 2"))
        await open_tray(pilot, 104)
        await sees(pilot, "104  basil", "also 104 kale, Sat 4 Apr", "also 104 radish, Wed 1 Apr")
        await press(pilot, "O", "down", "enter")
        await sees(pilot, "104  radish", "also 104 basil, since", "also 104 kale, Sat 4 Apr")
        assert fits(pilot, size)
        await open_tray(pilot, 101)
        await press(pilot, "O")
        assert "No other tray had the number 101" in said(pilot)

    walk(book, story, size)


def test_escape_leads_back_to_the_tray_that_one_came_from(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        await press(pilot, "b")
        await sees(pilot, "What happened")
        await open_tray(pilot, 105)
        await sees(pilot, "105  kale")
        await press(pilot, "escape")
        await sees(pilot, "What happened")
        await press(pilot, "escape")
        await sees(pilot, "101  radish")

    walk(book, story, WIDE)


@pytest.mark.parametrize("size", SIZES)
def test_a_long_note_is_wrapped_and_opens_on_enter(book: Book, size: tuple[int, int]) -> None:
    jot(book, [105], LONG)

    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 105)
        while "word0" not in _row(pilot):
            await press(pilot, "up")
        await sees(pilot, "more lines: enter")
        assert fits(pilot, size)
        assert "word299" not in "".join(row.text.plain for row in _rows(pilot))
        await press(pilot, "enter")
        whole = " ".join(" ".join(row.text.plain for row in _rows(pilot)).split())
        assert "word298 word299" in whole
        await press(pilot, "down")
        assert key_here(pilot).startswith("entry ")
        assert "word0" not in _row(pilot)
        await press(pilot, "enter")
        await until(pilot, lambda: "word299" not in "".join(r.text.plain for r in _rows(pilot)))

    def _rows(pilot: Pilot[None]) -> tuple[Row, ...]:
        return pilot.app.screen.query_one(TimeLineList).rows

    walk(book, story, size)


@pytest.mark.parametrize("size", [*SIZES, (40, 15), (40, 11)])
@pytest.mark.parametrize("key", ["down", "pagedown"])
def test_all_of_a_very_long_note_can_be_read_with_the_arrows(
    book: Book, size: tuple[int, int], key: str
) -> None:
    words = [f"w{number:03}" for number in range(950 if size[1] >= 20 else 90)]
    jot(book, [105], " ".join(words))

    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 105)
        shown = pilot.app.screen.query_one(TimeLineList)
        while "w000" not in _row(pilot):
            await press(pilot, "up")
        await press(pilot, "enter")
        seen: set[str] = set()
        for _ in words:
            seen |= set(screen_text(pilot).split())
            if words[-1] in seen:
                break
            await press(pilot, key)
        assert sorted(set(words) - seen) == []
        shown.go_to_key(next(row.key for row in shown.rows if "w080" in row.text.plain))
        await press(pilot, "enter")
        assert "more lines: enter" in _row(pilot)

    walk(book, story, size)


def test_trays_weighed_together_show_their_own_share(book: Book) -> None:
    weigh(book, [101, 102], 564)
    words = {line.words for line in tray_page(book, 101).past}
    assert "cut 282 g, shared out of 564 g" in words
    assert "cut 564 g together" in {line.words for line in page(book)}


def test_planned_thrown_out_and_struck_trays_have_pages_too(book: Book) -> None:
    sow(book, SowDraft("radish", trays=1, at=at(9), place="Rack 1/Shelf 2"))
    discard(book, [105], "fell down [/]")

    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 106)
        await sees(pilot, "planned", "Thu 9 Apr", "sow")
        await open_tray(pilot, 105)
        await sees(pilot, "discarded  fell down [/]", "Nothing ahead")

    walk(book, story, WIDE)


def test_a_number_that_no_tray_has_is_said(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await open_tray(pilot, 101)
        await press(pilot, "999", "enter")
        await until(pilot, lambda: "There is no tray 999" in said(pilot))
        assert isinstance(pilot.app.screen, TrayScreen)

    walk(book, story, WIDE)


def test_the_weigh_in_is_for_this_tray_while_it_grows(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await open_tray(pilot, 101)
        assert screen.weighing_trays() == (101,)
        screen = await open_tray(pilot, 104)
        await sees(pilot, "104  radish")
        assert screen.weighing_trays() == ()

    walk(book, story, WIDE)


def test_another_program_s_entry_comes_in_and_the_cursor_stays(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        screen = await open_tray(pilot, 101)
        await press(pilot, "home")
        on = key_here(pilot)
        did(book, "water", [101])
        await screen.reload()
        await settle(pilot)
        assert "watered" in "".join(row.text.plain for row in screen.walk.rows[-12:])
        assert key_here(pilot) == on

    walk(book, story, WIDE)
