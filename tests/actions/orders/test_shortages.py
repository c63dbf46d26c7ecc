"""What makes a delivery short says so in the same message; the clock stands at Tue 14 April 2026."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock


@pytest.fixture
def room(book: Book) -> Book:
    """Three trays of radish, 275 g each, that may be cut from tomorrow; Bistro wants 700 g by Friday."""
    assert isinstance(book.clock, FixedClock)
    now = book.clock.at
    book.clock.at = now - timedelta(days=6)
    sow(book, SowDraft("radish", trays=3))
    book.clock.at += timedelta(days=2)
    did(book, "weight_off", (101, 102, 103))
    book.clock.at += timedelta(days=1)
    did(book, "light_on", (101, 102, 103))
    book.clock.at = now
    put_customer(book, CustomerDraft("Bistro", contact="ask for Sam"), new=True)
    return book


def test_a_discard_says_whose_delivery_is_short_and_that_it_is_too_late(room: Book) -> None:
    order(room, OrderDraft("Bistro", "radish 700g fri"))

    (said,) = discard(room, (101,), "mould").notices

    assert said == (
        "Fri 07:00 for Bistro is now short of radish by 150 g. It is too late to sow for it. "
        "Tell Bistro (ask for Sam)."
    )


def test_where_it_can_still_be_sown_it_says_how_many_and_by_when(room: Book) -> None:
    order(room, OrderDraft("Bistro", "radish 700g 22 Apr"))

    (said,) = discard(room, (101, 102), "mould").notices

    assert "is now short of radish by 425 g. 3 trays sown by " in said
    assert said.endswith(" would make it up.")


def test_what_makes_it_up_allows_for_what_trimming_loses(room: Book) -> None:
    order(room, OrderDraft("Bistro", "radish 700g 22 Apr"))
    change_room(room, RoomDraft(loss_percent=40.0))

    (said,) = discard(room, (101, 102), "mould").notices

    assert "5 trays sown by " in said


def test_a_weak_cut_says_by_how_much_and_a_usual_one_nothing(room: Book) -> None:
    order(room, OrderDraft("Bistro", "radish 700g fri"))
    assert isinstance(room.clock, FixedClock)
    room.clock.at += timedelta(days=2)

    assert weigh(room, (101,), 290.0)[-1].notices == ()
    (said,) = weigh(room, (102,), 60.0)[-1].notices

    assert said.startswith("Fri 07:00 for Bistro is now short")


def test_a_stage_that_came_late_says_what_it_costs(book: Book) -> None:
    """In time they could be cut on Tuesday 21; two days late they can't."""
    assert isinstance(book.clock, FixedClock)
    sow(book, SowDraft("radish", trays=3))
    order(book, OrderDraft("Bistro", "radish 500g 21 Apr 18:00"))
    book.clock.at += timedelta(days=4)

    done = did(book, "weight_off", (101, 102, 103))

    assert any("is now short of radish by 500 g" in each for each in done.notices)
    assert not any("short" in each for each in did(book, "water", (101,)).notices)


def test_what_nobody_ordered_or_was_short_before_is_not_said(room: Book) -> None:
    assert discard(room, (101,), "mould").notices == ()
    order(room, OrderDraft("Bistro", "kale 700g fri"))
    assert discard(room, (102,), "mould").notices == ()
