"""Can I say yes? Nothing is written before it is accepted."""

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.listing import list_orders
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.planning.plan import plan
from logbook.actions.planning.promise import PromiseView, accept_promise, promised
from logbook.actions.trays.doing import did
from logbook.text import Refused
from tests.actions.days import counts, sow_at, stand_at
from tests.room import wall_words


@pytest.fixture
def ready(book: Book) -> Book:
    """Four trays of 500 g each that are best cut on the 8th at 20:00."""
    sow_at(book, "2026-04-01 08:00", 4, soaked="dry")
    for at, chore in (("2026-04-05 08:00", "weight_off"), ("2026-04-06 08:00", "light_on")):
        stand_at(book, at)
        did(book, chore, [101, 102, 103, 104])
    stand_at(book, "2026-04-08 09:00")
    return book


def _said(view: PromiseView) -> tuple[object, ...]:
    times = (view.start, view.sow_by)
    return view.answer, view.trays, *(at and wall_words(at) for at in times)


def test_yes_from_trays_that_nobody_else_is_promised(ready: Book) -> None:
    before = counts(ready)
    assert _said(promised(ready, "field test 400g fri 06:00")) == ("yes", (101,), None, None)
    assert counts(ready) == before
    order(ready, OrderDraft("Bistro", "field test 700g fri 06:00"))
    view = promised(ready, "field test 600g fri 06:00")
    assert view.answer == "yes"
    assert set(view.trays) == {102, 103}
    assert view.chance >= 0.9
    # more than there is: not before a sowing of now could be cut
    assert promised(ready, "field test 2kg fri 06:00").answer == "later"


def test_nobody_who_was_promised_something_is_served_worse(ready: Book) -> None:
    order(ready, OrderDraft("Bistro", "field test 1500g sat 06:00"))
    assert promised(ready, "field test 400g fri 06:00").answer == "later"


def test_yes_if_it_is_soaked_in_time(book: Book) -> None:
    stand_at(book, "2026-04-08 09:00")
    view = promised(book, "field test 400g fri 17 apr 06:00")
    # 17:00 on the 16th is the cut: 48 h after light, that after 5 days; 4 h of soak before
    assert _said(view) == ("if", (), None, "2026-04-09 13:00")
    assert "if 2 trays are soaked by Thu 13:00" in view.words
    soon = promised(book, "field test 400g sun 06:00")
    assert _said(soon) == ("later", (), "2026-04-15 13:00", None)


def test_accepted_it_is_an_order_and_its_sowing(book: Book) -> None:
    stand_at(book, "2026-04-08 09:00")
    done = accept_promise(book, "Bistro", "field test 400g", "fri 17 apr 06:00")
    assert len(done.numbers) == 2
    (line,) = list_orders(book).orders
    assert (line.customer, line.packs, line.pack_grams) == ("Bistro", 1, 400)
    assert line.ready_at is not None
    assert wall_words(line.ready_at) == "2026-04-17 06:00"
    assert plan(book).sowings == ()
    before = counts(book)
    with pytest.raises(Refused, match="Nothing was written"):
        accept_promise(book, "Cafe", "field test 400g", "sun 06:00")
    assert counts(book) == before


def test_a_mix_is_as_sure_as_all_of_its_parts(ready: Book) -> None:
    put_mix(ready, "salad", "1 field test + 1 cress")
    view = promised(ready, "salad 400g fri 06:00")
    assert view.answer == "later"
    assert promised(ready, "field test 200g fri 06:00").answer == "yes"


@pytest.mark.parametrize(
    ("text", "by", "said"),
    [
        ("field test 500g", "", "When is it wanted?"),
        ("field test 500g every fri", "", "for one delivery"),
        ("field test 500g", "2026-04-07 08:00", "is past"),
        ("field test 500g", "2028-04-07 08:00", "more than a year"),
        ("field test 0g", "fri 06:00", "order"),
        ("field test 10t", "fri 06:00", "order"),
        ("unknown 500g", "fri 06:00", "no crop template"),
        ("field test 500g", "later", "isn't a time"),
    ],
)
def test_what_can_t_be_asked(ready: Book, text: str, by: str, said: str) -> None:
    with pytest.raises(Refused, match=said):
        promised(ready, text, by)


def test_more_trays_than_the_room_has_slots_are_no_promise(ready: Book) -> None:
    view = promised(ready, "field test 90kg in 30 days 06:00")
    assert (view.answer, view.chance, view.sow_by) == ("no", 0.0, None)
    assert "there is no room for so many" in view.words
    with pytest.raises(Refused, match="no room for so many"):
        accept_promise(ready, "Bistro", "field test 90kg in 30 days 06:00")
