"""A sheet of labels from any screen: of the trays under the cursor, or of a pack lot."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.labels.labels import LabelDraft
from logbook.actions.labels.sheets import SheetDraft, sheet_of
from logbook.actions.recall.holding import hold
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.ui.app import LogbookApp
from tests.ui.forms_room import play
from tests.ui.steps import press, sees


def test_labels_of_a_lot_wait_for_a_maker_and_keep_what_was_typed(
    book: Book, tmp_path: Path
) -> None:
    """The file is put where it is typed."""
    sow(book, SowDraft("mustard", 1, at=datetime(2026, 4, 4, 8, tzinfo=UTC)))
    weigh(book, [101], 140.0)
    page = tmp_path / "l.html"

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "g", "C")
        await sees(pilot, "260414-MUS-1")
        await press(pilot, "I")
        await sees(pilot, "Labels for packs, or tapes for trays")
        await press(pilot, "down", *"50g", "down", "down", "down", "down", *str(page))
        await press(pilot, "f9")
        await sees(pilot, "A label must name the maker")
        change_room(book, RoomDraft(maker="Hill Farm", address="4 Mill Lane; Marsh End"))
        await press(pilot, "f9")
        await sees(pilot, "1 label on 1 sheet written to")

    play(LogbookApp(book), story)
    assert ">Contains: MUSTARD</text>" in page.read_text(encoding="utf-8")


def test_a_sheet_of_a_lot_on_hold_says_so(book: Book, tmp_path: Path) -> None:
    sow(book, SowDraft("mustard", 1, at=datetime(2026, 4, 4, 8, tzinfo=UTC)))
    weigh(book, [101], 140.0)
    change_room(book, RoomDraft(maker="Hill Farm", address="4 Mill Lane; Marsh End"))
    hold(book, "260414-MUS-1", "smells")
    made = sheet_of(book, LabelDraft("260414-MUS-1"), SheetDraft(tmp_path / "l.html"))
    assert made.notices[0].startswith("It is on hold, so it may not go out")
