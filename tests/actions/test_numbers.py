"""Tape numbers that are used again: the pool, plans by their batch, and lives under one number."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.tray_page import tray_page
from logbook.growing.numbers import numbers_words, parse_numbers
from logbook.text import Refused
from tests.actions.days import stand_at
from tests.room import moment


def sown(book: Book, trays: int, **more: object) -> tuple[int, ...]:
    return sow(book, SowDraft("Field test", trays, **more)).plan.numbers  # type: ignore[arg-type]


def test_new_trays_take_the_numbers_longest_out_of_use(book: Book) -> None:
    """The unused first, then by when they came free; a late entry counts from when it happened."""
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    assert sown(book, 4) == (1, 2, 3, 4)
    discard(book, [3], "mould")
    stand_at(book, "2026-04-02 08:00")
    discard(book, [2], "mould")
    assert sown(book, 3) == (3, 5, 6)
    with pytest.raises(Refused, match=r"pool 1-6 has only 1 number free for 2 new trays"):
        sown(book, 2)
    assert sown(book, 1, numbers=(40,)) == (40,)
    change_room(book, RoomDraft(pool=range(0)))
    assert sown(book, 1) == (101,)


def test_a_plan_further_ahead_goes_by_its_batch_until_it_is_soaked_or_sown(book: Book) -> None:
    """Eight weeks of plans leave the pool free; tomorrow's take their numbers at once."""
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    soon = sow(book, SowDraft("Field test", 2, at=moment("2026-04-02 09:00")))
    assert soon.plan.numbers == (1, 2)
    later = sow(book, SowDraft("Field test", 4, at=moment("2026-05-20 09:00")))
    name = f"b{later.batch}"
    assert numbers_words(later.plan.numbers) == f"{name}×4"
    assert sown(book, 4) == (3, 4, 5, 6)
    stand_at(book, "2026-04-12 08:00")
    discard(book, [3, 4, 5, 6], "cleared")

    jot(book, parse_numbers(name), "for the market")
    with pytest.raises(Refused, match=f"Tray {name} is not sown yet"):
        did(book, "water", parse_numbers(name))
    with pytest.raises(Refused, match=f"{name} has 4 trays, not 5"):
        did(book, "sow", parse_numbers(f"{name}x5"))
    stand_at(book, "2026-05-20 09:00")
    half = did(book, "sow", parse_numbers(f"{name}x2"), soaked="dry")
    assert half.numbers == (3, 4)
    assert did(book, "sow", parse_numbers(name), soaked="dry").numbers == (5, 6)
    assert did(book, "water", parse_numbers(name)).numbers == (3, 4, 5, 6)
    notes = [line.note for line in tray_page(book, 3).past]
    assert "for the market" in notes, "what was written before it had a number is its own"


def test_the_round_offers_a_waiting_batch_by_its_name(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    batch = sow(book, SowDraft("Field test", 3, at=moment("2026-04-20 09:00"))).batch
    stand_at(book, "2026-04-20 09:00")
    line = next(each for each in the_round(book).lines if each.chore in ("soak", "sow"))
    assert numbers_words(line.numbers) == f"b{batch}×3"
    assert did(book, line.chore, line.numbers, soaked=None).numbers == (1, 2, 3)


def test_a_corrected_plan_goes_by_its_new_batch(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    batch = sow(book, SowDraft("Field test", 2, at=moment("2026-05-20 09:00"))).batch
    plan = batch_page(book, batch).past[0].id
    replace_entry(book, plan, "a week later", Changes(at=moment("2026-05-27 09:00")))
    with pytest.raises(Refused, match="no tray"):
        did(book, "sow", parse_numbers(f"b{batch}"))
    now = tuple(each.number for each in batch_page(book, str(int(batch) + 1)).trays)
    assert numbers_words(now) == f"b{int(batch) + 1}×2"
    undo(book)
    assert numbers_words(each.number for each in batch_page(book, batch).trays) == f"b{batch}×2"
