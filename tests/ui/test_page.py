"""The page: a day's entries, other days, filters, search, strikes."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.ui.screens.trays import page as page_module
from logbook.ui.screens.trays.page import PageScreen
from logbook.ui.subjects import PageSubject, TraySubject
from tests.ui.list_room import (
    NASTY,
    SIZES,
    at,
    cutting_room,
    empty_room,
    rows,
    walk,
    where_to,
    widest,
    words,
)
from tests.ui.steps import press, screen_text, sees, settle


def counted(pilot: Pilot[None]) -> str:
    assert isinstance(pilot.app.screen, PageScreen)
    return pilot.app.screen.counts


@pytest.mark.parametrize("size", SIZES)
def test_a_nasty_note_is_folded_and_opens_in_full(tmp_path: Path, size: tuple[int, int]) -> None:
    book = cutting_room(tmp_path)
    jot(book, [101], f"{NASTY}\nsecond line " + "leaves " * 100)

    async def story(pilot: Pilot[None]) -> None:
        assert len(rows(pilot)) == 1
        assert "[/] [100%]" in rows(pilot)[0]
        assert "\x1b" not in rows(pilot)[0]
        assert "…" in rows(pilot)[0]
        assert widest(pilot) <= size[0] - 3
        await press(pilot, "space")
        text = " ".join(" ".join(rows(pilot)).split())
        assert "second line" in text
        assert text.count("leaves") == 100
        assert widest(pilot) <= size[0] - 3
        await press(pilot, "down", "down", "space")
        assert len(rows(pilot)) == 1

    walk(book, "page", story, size)


def test_a_page_and_a_search_of_a_number_list_its_trays_and_enter_opens_one(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    discard(book, [106], "fell")
    sow(book, SowDraft("radish", numbers=(106,)))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f", "tray 106", "enter")
        assert "only tray 106   2 trays below" in words(pilot, "day")
        assert [row.strip() for row in rows(pilot)[-2:]] == [
            "kale, Thu 26 Mar to Sat 28 Mar, 106@2026-03-26",
            "radish, since Sat 28 Mar, 106@2026-03-28",
        ]
        await press(pilot, "end", "up", "enter")
        await sees(pilot, "106  kale", "discarded Sat 28 Mar")
        await press(pilot, "/", "106", "enter")
        assert "2 trays below" in words(pilot, "day")
        await press(pilot, "end", "enter")
        await sees(pilot, "106  radish", "also 106 kale")

    walk(book, "page", story, (80, 24))


def test_who_wrote_and_when_if_not_at_once(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    did(book, "water", [101, 102], datetime(2026, 3, 28, 7, tzinfo=UTC))
    did(book, "water", [103, 104])

    async def story(pilot: Pilot[None]) -> None:
        late, prompt = rows(pilot)
        assert late.startswith("07:00")
        assert late.endswith("ab, written 09:00")
        assert prompt.endswith("ab")

    walk(book, "page", story, (80, 24))


def test_days_are_walked_and_today_is_the_last(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        assert words(pilot, "day") == "Sat 28 Mar, today"
        assert rows(pilot) == ["No entries on this day."]
        await press(pilot, "left")
        assert words(pilot, "day") == "Fri 27 Mar, yesterday"
        await press(pilot, "left")
        assert "sown" in rows(pilot)[0]
        await press(pilot, "right", "right", "right")
        assert words(pilot, "day") == "Sat 28 Mar, today"
        assert words(pilot, "said") == "Today is the last page."
        await press(pilot, "left", "left", "f5")
        assert words(pilot, "day") == "Sat 28 Mar, today"

    walk(book, "page", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_a_filter_narrows_by_tray_crop_or_kind(tmp_path: Path, size: tuple[int, int]) -> None:
    book = cutting_room(tmp_path)
    did(book, "water", [101, 102])
    did(book, "water", [105])
    jot(book, [101], "one")

    async def story(pilot: Pilot[None]) -> None:
        assert counted(pilot) == "3 entries"
        for typed, title, count in (
            ("tray 105", "only tray 105", 1),
            ("crop radish", "only crop radish", 2),
            ("jot", "only kind jot", 1),
        ):
            await press(pilot, "f")
            await pilot.press("ctrl+u")
            await press(pilot, typed, "enter")
            assert title in words(pilot, "day")
            assert counted(pilot).startswith(str(count))
        await press(pilot, "f")
        await pilot.press("ctrl+u")
        await press(pilot, "tray 999", "enter")
        assert "no tray 999" in words(pilot, "said")
        assert "only kind jot" in words(pilot, "day")

    walk(book, "page", story, size)


def test_an_entry_is_struck_with_a_reason_and_stays(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    did(book, "water", [101, 102])

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "k", "wrong shelf", "enter")
        assert "struck out: watered" in rows(pilot)[0]
        await press(pilot, "k")
        assert words(pilot, "said") == "That is struck out already."

    walk(book, "page", story, (80, 24))
    assert [line.struck for line in page(book, kind="water")] == [True]


def test_a_strike_writes_the_right_words_in_place(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    jot(book, [101], "dri edge")

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "k", "misspelt", "down", "dry edge", "enter")
        assert "replaces entry" in words(pilot, "said")

    walk(book, "page", story, (80, 24))
    assert [(line.struck, line.note) for line in page(book, kind="jot")] == [
        (True, "dri edge"),
        (False, "dry edge"),
    ]


def test_enter_opens_the_tray_and_asks_which_of_several(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = cutting_room(tmp_path)
    jot(book, [103], "alone")
    did(book, "water", [101, 102])
    jot(book, [], "about the room")

    async def story(pilot: Pilot[None]) -> None:
        went = where_to(pilot, monkeypatch)
        await press(pilot, "enter", "down", "enter", "enter", "down", "enter")
        assert went == [TraySubject(103), TraySubject(101)]

    walk(book, "page", story, (80, 24))


@pytest.mark.parametrize("size", [*SIZES, (60, 15)])
@pytest.mark.parametrize("search", ["", "decided"])
def test_enter_shows_the_whole_of_a_long_jot_on_the_room_and_folds_it(
    tmp_path: Path, size: tuple[int, int], search: str
) -> None:
    book = cutting_room(tmp_path)
    for place in range(20):
        jot(book, [101], f"decided {place}")
    jot(book, [], "decided to sow less " + "broccoli " * 20 + "until May")

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "end")
        assert "until May" not in screen_text(pilot)
        folded = rows(pilot)
        await press(pilot, "enter")
        assert screen_text(pilot).count("broccoli") >= 20
        assert "until" in screen_text(pilot)
        assert widest(pilot) <= size[0] - 3
        await press(pilot, "enter")
        assert rows(pilot) == folded

    walk(book, PageSubject(words=search), story, size)


def test_what_was_searched_for_stands_under_its_days(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    jot(book, [101], "yellow tips [/]")
    at(book, datetime(2026, 3, 29, 9, tzinfo=UTC))
    jot(book, [102], "YELLOW again")
    jot(book, [102], "green")

    async def story(pilot: Pilot[None]) -> None:
        assert counted(pilot) == "2 entries"
        assert [row[:10] for row in rows(pilot)][::2] == ["Sat 28 Mar", "Sun 29 Mar"]
        await press(pilot, "left")
        assert words(pilot, "day") == "Sat 28 Mar, yesterday"

    walk(book, PageSubject(words="yellow"), story, (80, 24))


def test_a_long_page_is_shown_in_sheets(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page_module, "MOST_ROWS", 3)
    book = cutting_room(tmp_path)
    for place in range(7):
        jot(book, [101], f"note {place}")

    async def story(pilot: Pilot[None]) -> None:
        assert rows(pilot)[-1] == "4 more: enter shows 3 of them"
        await press(pilot, "down", "down", "down", "enter")
        await settle(pilot)
        assert rows(pilot)[0] == "3 earlier: enter shows 3 of them"
        assert "note 3" in rows(pilot)[1]
        await press(pilot, "enter")
        assert "note 0" in rows(pilot)[0]

    walk(book, "page", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_an_empty_book_has_an_empty_page(tmp_path: Path, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert rows(pilot) == ["No entries on this day."]
        await press(pilot, "k", "space", "enter")
        assert words(pilot, "said") == "Select an entry first."

    walk(empty_room(tmp_path), "page", story, size)


def test_a_wrong_crop_is_put_right_where_the_sowing_is_struck(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    sow(book, SowDraft("mizuna", numbers=(201,), lot="MZ 1"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "k", "different bag", "down", "must", "f9")
        await sees(pilot, "replaces entry")

    walk(book, "page", story, (80, 24))
    assert tray_page(book, 201).tray.crop == "mustard"
