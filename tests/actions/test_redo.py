"""Undo asks before it takes what is old or weighty, and redo brings back what it took."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.crops.templates import retire_template
from logbook.actions.room.places import PlaceDraft, RoomDraft, add_place, change_place, change_room
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.striking import last_act, redo, strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at, summaries_equal_the_fold, views
from tests.room import moment

SHELF = "Rack 1/Shelf 1"


@pytest.fixture
def sown(book: Book) -> Book:
    """Two trays in the light since an hour ago."""
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-08 08:00")
    did(book, "light_on", [101, 102])
    return book


def test_a_weight_a_discard_and_a_sowing_are_asked_about_first(sown: Book) -> None:
    did(sown, "water", [101])
    assert not last_act(sown).asks
    weigh(sown, [101], 283)
    assert last_act(sown).asks
    assert last_act(sown).words == "cut 283 g, tray 101, today 08:00"
    discard(sown, [102], "mould")
    assert last_act(sown).words == 'discarded, "mould", tray 102, today 08:00'
    assert last_act(sown).asks
    sow_at(sown, "2026-04-08 08:00", 2, lot="L7")
    assert last_act(sown).asks
    assert last_act(sown).words.startswith(
        "field test sown from lot L7 on Rack 1/Shelf 1, trays 103 104, today 08:00"
    )


def test_what_is_an_hour_old_and_of_no_sitting_that_goes_on_is_asked_about(sown: Book) -> None:
    jot(sown, [101], "pale")
    other = open_book(sown.file.where, FixedClock(moment("2026-04-08 08:59")), "tester")
    assert not last_act(other).asks
    other.clock = FixedClock(moment("2026-04-08 09:00"))
    assert last_act(other).asks
    other.clock = FixedClock(moment("2026-04-08 07:59"))
    assert last_act(other).asks, "a clock that was put back knows no age"
    stand_at(sown, "2026-04-10 08:00")
    assert not last_act(sown).asks, "it was written in this sitting"


def test_what_somebody_saw_is_undone_and_nothing_that_came_between(sown: Book) -> None:
    jot(sown, [101], "pale")
    seen = last_act(sown)
    jot(sown, [101], "paler")
    with pytest.raises(Refused, match="written something else since"):
        undo(sown, seen.id)


@pytest.mark.parametrize(
    "change",
    [
        lambda book: retire_template(book, "kale"),
        lambda book: add_place(book, PlaceDraft("Rack 9", "rack")),
        lambda book: change_place(book, SHELF, PlaceDraft("Top", slots=4)),
        lambda book: change_room(book, RoomDraft(units="us")),
    ],
)
def test_a_change_of_settings_is_never_undone_nor_what_came_before_it(
    sown: Book, change: object
) -> None:
    assert callable(change)
    change(sown)
    lines = page(sown)
    assert lines[-1].kind == "settings"
    for take in (last_act, undo):
        with pytest.raises(Refused, match=f"can't be undone: {lines[-1].note}"):
            take(sown)
    with pytest.raises(Refused, match="can't be undone"):
        strike(sown, lines[-1].id, "wrong")
    assert page(sown) == lines


def test_redo_brings_back_act_by_act_what_undo_took(sown: Book) -> None:
    # given a watering, a weight, its correction, a strike
    seen = [views(sown)]
    acts = (
        lambda: did(sown, "water", [101]),
        lambda: weigh(sown, [101], 823),
        lambda: replace_entry(sown, page(sown)[-1].id, "misread", Changes(grams=283)),
        lambda: strike(sown, page(sown)[-1].id, "not cut"),
    )
    for act in acts:
        act()
        seen.append(views(sown))
    # when all are undone, redone, undone and redone again, then each view comes back
    for _ in range(2):
        for before in seen[-2::-1]:
            undo(sown)
            assert views(sown) == before
        for after in seen[1:]:
            redo(sown)
            assert views(sown) == after
        with pytest.raises(Refused, match="nothing to redo"):
            redo(sown)
    summaries_equal_the_fold(sown)


def test_redo_is_over_when_something_else_is_written(sown: Book) -> None:
    weigh(sown, [101], 283)
    undo(sown)
    jot(sown, [], "by me, elsewhere")
    with pytest.raises(Refused, match="nothing to redo"):
        redo(sown)
    undo(sown)
    assert redo(sown).words == "redone: jot"
    undo(sown)
    # another's entry elsewhere is no matter, one on the same tray is
    sown.by = "JM"
    jot(sown, [102], "by another")
    sown.by = "tester"
    assert redo(sown).words == "redone: jot"
    undo(sown)
    did(sown, "water", [101])
    undo(sown)
    sown.by = "JM"
    discard(sown, [101], "mould")
    sown.by = "tester"
    with pytest.raises(Refused, match="nothing to redo"):
        redo(sown)
    sown.by = "CD"
    with pytest.raises(Refused, match="nothing to redo"):
        redo(sown)


def test_the_record_says_what_was_undone_and_redone(sown: Book) -> None:
    entry = jot(sown, [101], "pale").act_id
    undo(sown)
    stand_at(sown, "2026-04-08 08:01")
    redo(sown)
    told = [(line.words, line.struck) for line in page(sown)[-3:]]
    assert told == [
        ("jot", False),
        (f"undo of entry {entry}", True),
        (f"redo of entry {entry + 1}", False),
    ]
    assert page(sown)[-1].at - page(sown)[-2].at == timedelta(minutes=1)
