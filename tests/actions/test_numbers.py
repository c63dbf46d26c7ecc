"""Tape numbers that are used again: the pool, plans by their batch, and lives under one number."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.moving import discard
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.text import Refused
from tests.actions.days import stand_at


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
