"""What a book keeps of its trays between two views never differs from a reading from the start."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.actions.book import Book, open_book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.doing import did
from logbook.actions.trays.due import due
from logbook.actions.trays.moving import move
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.clock import FixedClock
from logbook.growing.trays.looks import Look
from tests.actions.days import second_room, stand_at, views
from tests.actions.test_random_acts import ALL, FEW, Intent, odd_crop, perform


def _again(book: Book) -> Book:
    """Open the same file anew, as another program would, at the same clock."""
    return open_book(book.file.where, book.clock, "other")


def _folded(book: Book) -> tuple[object, ...]:
    """Give what rests on the folds of all trays."""
    today = book.today()
    ahead = [the_round(book, today + timedelta(days=shift)) for shift in (0, 2)]
    return (*ahead, due(book, 30), racks(book))


@FEW
@given(wanted=ALL, by=st.lists(st.booleans(), min_size=14, max_size=14))
def test_two_programs_that_keep_theirs_see_what_a_third_reads_anew(
    new_book: Callable[[], Book], wanted: list[Intent], by: list[bool]
) -> None:
    # given two programs that have looked at one book
    book = new_book()
    odd_crop(book)
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 3))
    other = _again(book)
    # when now one, now the other writes, also what is refused
    for each, first in zip(wanted, by, strict=False):
        perform(book if first else other, each)
        # then both see what one sees that opens it now
        fresh = _folded(_again(book))
        assert _folded(book) == fresh
        assert _folded(other) == fresh


def test_what_another_program_writes_and_takes_back_is_seen(book: Book) -> None:
    # given trays that two programs have looked at
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2))
    stand_at(book, "2026-04-02 12:00")
    other = open_book(book.file.where, book.clock, "other")
    before = views(book)
    assert views(other) == before
    # when the other one waters, looks at it, and takes that back
    did(other, "water", [101])
    assert views(book) == views(other) != before
    undo(other)
    # then both see it as it was
    assert views(book) == views(other) == before


def test_what_a_broken_act_would_have_written_is_forgotten(book: Book) -> None:
    # given two shelves' trays as they were last seen
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, place="Rack 1/Shelf 1"))
    before = views(book)
    # when an act breaks after its entries were folded, and another program's get their ids
    with pytest.raises(RuntimeError), book.writing() as act:  # noqa: PT012 - the act is the case
        act.entry("discard", [1, 2])
        act.finish()
        raise RuntimeError
    other = _again(book)
    move(other, [101, 102], "Rack 2/Shelf 1")
    # then that is seen for what it is
    assert views(book) == views(other) != before


@pytest.mark.file
def test_a_restored_book_shows_its_own_entries_not_those_it_had_before(book: Book) -> None:
    # given a copy, and an entry after it that this program has seen
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2))
    copy = book.file.path.with_name("copy.book")
    shutil.copyfile(book.file.path, copy)
    did(book, "water", [101, 102])
    views(book)
    # when the copy is put back, and another program writes something else under the same id
    shutil.copyfile(copy, book.file.path)
    other = open_book(book.file.where, FixedClock(book.now() + timedelta(seconds=1)), "other")
    move(other, [101, 102], "Rack 2/Shelf 1")
    # then this one shows that
    assert views(book) == views(_again(book))


def test_a_plan_put_to_another_day_is_seen_there_and_back_again(book: Book) -> None:
    # given a plan that was looked at
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, at=book.now() + timedelta(days=1)))
    before = views(book)
    # when its time is corrected, and that is taken back
    plan = page(book)[-1].id
    replace_entry(book, plan, "later", Changes(at=book.now() + timedelta(days=3)))
    # then each time it is seen as one sees it who opens the book then
    assert views(book) == views(_again(book)) != before
    undo(book)
    assert views(book) == views(_again(book)) == before


@pytest.mark.parametrize("carried", [False, True])
def test_what_a_deed_has_answered_is_reckoned_anew_by_new_hours(book: Book, carried: bool) -> None:
    # given a look in the night, that answers the first one of the coming day
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 1))
    for at in ("2026-04-01 20:00", "2026-04-02 02:00"):
        stand_at(book, at)
        look(book, [101], Look(height_mm=4))
    stand_at(book, "2026-04-02 16:00")
    the_round(book)
    # when another program puts the day of the room later, or carries it to a room of a later day
    other = _again(book)
    if carried:
        second_room(other, "Europe/London", 15 * 60, 20 * 60)
        move(other, [101], "Bench")
    else:
        change_room(other, RoomDraft(day_start=15 * 60, day_end=20 * 60))
    # then it answers that of the later hour, and no look is due yet
    assert the_round(book) == the_round(_again(book))
    assert "look" not in [line.chore for line in the_round(book).due]
