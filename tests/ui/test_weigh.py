"""The weigh-in: a till that takes a tray and its grams with one Enter."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.weighing import weigh
from logbook.growing.trays.looks import Look
from logbook.ui.forms.asking import AskSure
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.screens.trays.sow import SowScreen
from logbook.ui.screens.trays.weigh import WeighScreen
from logbook.ui.subjects import WeighSubject
from tests.ui.list_room import SIZES, at, cutting_room, empty_room, rows, walk, widest, words
from tests.ui.steps import press, screen_text, sees


def at_utc(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 3, day, hour, minute, tzinfo=UTC)


def the_cursor(pilot: Pilot[None]) -> str:
    screen = pilot.app.screen
    assert isinstance(screen, RoundScreen)
    chosen = screen.chosen()
    return chosen.chore if chosen is not None else ""


def the_screen(pilot: Pilot[None]) -> WeighScreen:
    screen = pilot.app.screen
    assert isinstance(screen, WeighScreen)
    return screen


@pytest.mark.parametrize("size", SIZES)
def test_the_offered_tray_takes_grams_and_one_enter(tmp_path: Path, size: tuple[int, int]) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        assert words(pilot, "offer") == "101"
        assert "usual" in words(pilot, "usual")
        await press(pilot, "283", "enter")
        assert "101" in rows(pilot)[0]
        assert "283 g" in rows(pilot)[0]
        assert "above expected" in rows(pilot)[0]
        assert "g/g seed" in rows(pilot)[0]
        assert words(pilot, "offer") == "102"
        assert "1 of 4 cut" in words(pilot, "batch")
        assert widest(pilot) <= size[0] - 3

    walk(book, "weigh", story, size)
    on_racks = [tray.number for rack in racks(book).racks for s in rack.shelves for tray in s.trays]
    assert 101 not in on_racks


def test_any_tray_takes_its_number_and_grams(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "103 290", "enter", "101+275", "enter")
        assert [row[:3] for row in rows(pilot)] == ["103", "101"]
        assert words(pilot, "offer") == "102"

    walk(book, "weigh", story, (80, 24))
    assert [line.words for line in page(book, kind="weigh")] == ["cut 290 g", "cut 275 g"]


def test_a_weight_may_be_a_sum_and_trays_that_may_be_one_are_asked_about(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "103 180+110", "enter", "+320-38", "enter")
        await press(pilot, "102+104+500", "enter")
        await sees(pilot, "Is it 500 g on 102 104?")
        await press(pilot, "n", "escape", "102 104+120", "enter")
        await sees(pilot, "Is it 224 g on 102?")
        await press(pilot, "y")
        assert [row[:3] for row in rows(pilot)] == ["103", "101", "102"]

    walk(book, "weigh", story, (80, 24))
    grams = [line.words for line in page(book, kind="weigh")]
    assert grams == ["cut 290 g", "cut 282 g", "cut 224 g"]


def test_a_weight_of_regrowth_says_which_harvest_it_is_of(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "101 200 k", "enter", "101 90", "enter")
        await sees(pilot, "not due before")
        await press(pilot, "y")
        assert "harvest" not in rows(pilot)[0]
        assert "harvest 2" in rows(pilot)[1]
        assert "batch 1, harvest 2: 1 of 1 cut" in words(pilot, "batch")

    walk(book, "weigh", story, (80, 24))


def test_keys_that_come_in_one_burst_are_all_taken(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await pilot.press(*"283", "enter", *"290", "enter", *"271", "enter")
        await press(pilot, "265", "enter")
        assert [row[:3] for row in rows(pilot)] == ["101", "102", "103", "104"]

    walk(book, "weigh", story, (80, 24))
    grams = [line.words for line in page(book, kind="weigh")]
    assert grams == ["cut 283 g", "cut 290 g", "cut 271 g", "cut 265 g"]


def test_a_part_cut_stays_and_the_next_is_offered(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "120*", "enter")
        assert "part cut" in rows(pilot)[0]
        assert words(pilot, "offer") == "102"
        await press(pilot, "101 160", "enter")
        assert "280 g in all" in rows(pilot)[1]

    walk(book, "weigh", story, (80, 24))


def test_trays_weighed_together_share_and_say_so(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "101-104 1150", "enter")
        assert "101–104" in rows(pilot)[0]
        assert "288 g each" in rows(pilot)[0]
        assert "4 of 4 cut" in words(pilot, "batch")
        assert words(pilot, "left").startswith("No tray is ready")

    walk(book, "weigh", story, (80, 24))
    assert page(book, kind="weigh")[0].words == "cut 1150 g together"


@pytest.mark.parametrize("size", SIZES)
def test_an_odd_weight_is_asked_about_before_it_is_written(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "2830", "enter")
        assert isinstance(pilot.app.screen, AskSure)
        await press(pilot, "enter")  # a stray Enter is no yes
        assert isinstance(pilot.app.screen, AskSure)
        await press(pilot, "n")
        assert the_screen(pilot).line.value == "2830"
        assert not page(book, kind="weigh")
        await press(pilot, "backspace", "enter")
        assert "283 g" in rows(pilot)[0]
        await press(pilot, "0", "enter", "y")
        assert "0 g" in rows(pilot)[1]

    walk(book, "weigh", story, size)


@pytest.mark.parametrize("size", SIZES)
def test_a_cut_is_weighed_at_its_real_time(tmp_path: Path, size: tuple[int, int]) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "101 283 at 07:40", "enter")
        assert "at 07:40" in rows(pilot)[0]
        assert words(pilot, "said").startswith("101: 283 g, cut 07:40.")
        assert words(pilot, "offer") == "102"
        await press(pilot, "290 yesterday 17:40")
        assert "290 g: " in words(pilot, "usual")
        await press(pilot, "enter")
        assert "102: 290 g, cut Fri 27 Mar 17:40" in words(pilot, "said")
        for wrong in ("275 at 19:00", "275 at noon", "275 at"):
            await press(pilot, wrong, "enter")
            assert the_screen(pilot).line.value == wrong
            assert words(pilot, "said")
            await press(pilot, "escape")

    walk(book, "weigh", story, size)
    # what was written late is on the page of the day of writing too
    assert [line.at for line in page(book, kind="weigh")] == [at_utc(27, 17, 40), at_utc(28, 7, 40)]
    assert [line.at for line in page(book, day=date(2026, 3, 27), kind="weigh")] == [
        at_utc(27, 17, 40)
    ]


@pytest.mark.parametrize("size", SIZES)
def test_a_time_told_on_the_round_is_that_of_its_trays(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    book = cutting_room(tmp_path)
    at(book, at_utc(29, 9))

    async def story(pilot: Pilot[None]) -> None:
        while "cut" not in the_cursor(pilot):
            await press(pilot, "down")
        await press(pilot, "t", "23:00", "enter")
        assert "still to come" in screen_text(pilot)
        await press(pilot, *["backspace"] * 5, "yesterday 17:40", "enter")
        assert "cut Sat 28 Mar 17:40" in screen_text(pilot)
        await press(pilot, "283")
        kept = pilot.app.screen
        assert isinstance(kept, WeighScreen)
        (draft,) = kept.logbook.drafts.all()
        assert draft.texts == {"line": "283 at 2026-03-28T17:40+00:00"}
        await press(pilot, "enter", "290 at 08:00", "enter")
        await press(pilot, "escape", "w", "103 270", "enter")

    walk(book, "round", story, size)
    days = [page(book, day=date(2026, 3, day), kind="weigh") for day in (28, 29)]
    assert {line.at for day in days for line in day} == {
        at_utc(28, 17, 40), at_utc(29, 7), at_utc(29, 9)
    }  # fmt: skip


def test_what_cannot_be_is_refused_and_stays_to_be_changed(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        for typed in ("-5", "99999999", "101-104", "777 283"):
            await press(pilot, typed, "enter")
            assert the_screen(pilot).line.value == typed
            assert words(pilot, "said")
            await press(pilot, "escape")
            assert the_screen(pilot).line.value == ""

    walk(book, "weigh", story, (80, 24))
    assert not page(book, kind="weigh")


def test_a_bare_tray_number_is_not_taken_for_grams_unasked(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "103", "enter")
        assert isinstance(pilot.app.screen, AskSure)
        await press(pilot, "n")
        assert words(pilot, "offer") == "103"

    walk(book, "weigh", story, (80, 24))
    assert not page(book, kind="weigh")


def test_u_on_an_empty_line_brings_the_tray_back(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "102 283", "enter")
        assert words(pilot, "offer") == "101"
        await press(pilot, "u", "enter")
        await sees(pilot, "Last written: cut 283 g, tray 102, today 09:00. Undo it?")
        await press(pilot, "y")
        assert words(pilot, "offer") == "102"
        assert not any("283" in row and "102" in row for row in rows(pilot))

    walk(book, "weigh", story, (80, 24))


def test_the_rounds_trays_come_first_and_arrows_choose(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        assert words(pilot, "left") == "left to cut: 103 104   also ready: 101 102"
        await press(pilot, "down")
        assert words(pilot, "offer") == "104"
        await press(pilot, "up", "up")
        assert words(pilot, "offer") == "102"

    walk(book, WeighSubject((103, 104)), story, (80, 24))


@pytest.mark.parametrize("shelf", ["Shelf 1", "Shelf by the window of the cellar at the back"])
def test_the_place_stays_whole_whatever_is_typed(tmp_path: Path, shelf: str) -> None:
    book = cutting_room(tmp_path)
    change_place(book, "Rack 1/Shelf 1", PlaceDraft(shelf, slots=6))
    look(book, [102], Look(mould="spot"))

    async def story(pilot: Pilot[None]) -> None:
        assert f"Rack 1/{shelf}" in screen_text(pilot)
        for typed in ("2780", "101 120*", "101-104 11120"):
            await press(pilot, typed)
            assert f"Rack 1/{shelf}" in screen_text(pilot), screen_text(pilot)
            assert "expected" in words(pilot, "usual")
            await press(pilot, "escape")
        await press(pilot, "101 120*", "enter", "102 2780")
        assert f"Rack 1/{shelf}" in screen_text(pilot), screen_text(pilot)
        assert "mould seen" in words(pilot, "usual")

    walk(book, "weigh", story, (80, 24))


def test_a_seen_sign_makes_a_tray_ready(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    look(book, [105], Look(sign="seed leaves open"))

    async def story(pilot: Pilot[None]) -> None:
        assert "105" in words(pilot, "left")

    walk(book, "weigh", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_mould_is_said_of_the_tray_before_it_is_weighed(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    book = cutting_room(tmp_path)
    look(book, [102], Look(mould="spot"))

    async def story(pilot: Pilot[None]) -> None:
        assert "mould" not in words(pilot, "usual")
        await press(pilot, "down")
        assert "102" in words(pilot, "usual")
        assert "mould seen   usual" in words(pilot, "usual")
        assert "…" not in words(pilot, "usual") or size[0] == 80
        await press(pilot, "101-103 5")
        assert "mould seen on 102" in words(pilot, "usual")
        assert widest(pilot) <= size[0] - 3

    walk(book, "weigh", story, size)


def test_weights_are_read_in_the_units_of_the_book(tmp_path: Path) -> None:
    book = cutting_room(tmp_path, "us")

    async def story(pilot: Pilot[None]) -> None:
        assert "oz" in words(pilot, "usual")
        await press(pilot, "10", "enter", "0.28 kg", "enter", "103 10oz", "enter")
        assert [row.split("  ")[0] for row in rows(pilot)] == ["101", "102", "103"]
        assert "10 oz" in rows(pilot)[0]
        assert "9.88 oz" in rows(pilot)[1]

    walk(book, "weigh", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_an_empty_book_says_so(tmp_path: Path, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert words(pilot, "left") == "No tray is growing; n sows a batch."
        await press(pilot, "283", "enter")
        assert "Which tray?" in words(pilot, "said")
        await press(pilot, "escape", "n")
        assert isinstance(pilot.app.screen, SowScreen)

    walk(empty_room(tmp_path), "weigh", story, size)


def test_what_is_typed_stays_for_its_tray_when_somebody_else_cuts_that(tmp_path: Path) -> None:
    """Otherwise the next tray, which is offered then, would take the weight."""
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "28")
        weigh(book, [101], 250.0)
        await the_screen(pilot).reload()
        await sees(pilot, "Tray 101 is no longer to be cut; this was typed for it.", "101 28")
        await press(pilot, "3", "enter")
        await sees(pilot, "101 283", "Tray 101 is no longer growing")

    walk(book, "weigh", story, (80, 24))
    assert [line.trays for line in page(book, kind="weigh")] == [(101,)]
