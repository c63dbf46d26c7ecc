"""Deliveries of a book: what was cut, what grows, what is promised and packed."""

from __future__ import annotations

from datetime import timedelta

from logbook.actions.book import Book
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.delivery_words import head_words, lines_below
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack, pack_for
from logbook.actions.trays.doing import did
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from tests.conftest import CommandLine


def grown(book: Book) -> None:
    """Three trays of radish that may be cut, one of them weighed; the clock is where it was."""
    assert isinstance(book.clock, FixedClock)
    now = book.clock.at
    book.clock.at = now - timedelta(days=8)
    sow(book, SowDraft("radish", trays=3))
    book.clock.at = now - timedelta(days=4)
    did(book, "weight_off", (101, 102, 103))
    did(book, "light_on", (101, 102, 103))
    book.clock.at = now
    weigh(book, (101,), 280.0)


def test_what_was_cut_and_what_grows_cover_the_nearest_first(book: Book) -> None:
    grown(book)
    order(book, OrderDraft("Bistro", "radish 10 x 50g fri"))
    order(book, OrderDraft("Corner shop", "radish 600g sat"))

    friday, saturday = list_deliveries(book).deliveries

    assert [(each.crops[0].promised_grams, each.crops[0].ready_grams) for each in (friday, saturday)] == [
        (500, 280), (600, 0),
    ]  # fmt: skip
    assert head_words(friday, "metric") == "covered"
    assert head_words(saturday, "metric").startswith("short of radish (")
    assert list(lines_below(friday, "metric")) == ["  Bistro", "    [ ] radish 10 × 50 g"]


def test_what_is_packed_leaves_the_cold_store(book: Book) -> None:
    grown(book)
    order(book, OrderDraft("Bistro", "radish 4 x 50g fri"))
    order(book, OrderDraft("Corner shop", "radish 80g sat"))
    pack_for(book, "Bistro", packs=3)

    friday, saturday = list_deliveries(book).deliveries

    assert not friday.done
    assert (friday.crops[0].ready_grams, saturday.crops[0].ready_grams) == (280, 80)
    pack_for(book, "Bistro")
    assert list_deliveries(book).deliveries[0].done


def test_a_stall_takes_what_is_left(book: Book) -> None:
    grown(book)
    put_customer(book, CustomerDraft("the stall", kind="stall", days="sat"), new=True)
    order(book, OrderDraft("the stall", "radish 90 x 50g every sat"))

    (saturday, *_) = list_deliveries(book).deliveries

    assert (saturday.crops[0].promised_grams, saturday.short) == (0, [])


def test_the_command_answers_with_the_agreed_keys(cli: CommandLine) -> None:
    cli.done("order", "Bistro", "radish 2 x 50g fri")
    (found,) = cli.done("deliveries", "--json").json["deliveries"]

    assert found == {
        "ready_at": "2026-04-17T07:00:00+01:00",
        "crops": [
            {"crop": "radish", "promised_grams": 100.0, "ready_grams": 0.0, "growing_grams": 0.0,
             "short_grams": 100.0, "chance_of_enough": 0.0}
        ],
        "customers": [
            {"customer": "Bistro",
             "lines": [{"crop": "radish", "packs": 2, "pack_grams": 50.0, "packed": False}]}
        ],
    }  # fmt: skip
    cli.done("deliveries", "packed", "Bistro")
    assert "[x] radish 2 × 50 g" in cli.done("deliveries").out
    assert "No customer" not in cli.done("customer").out
    assert "62 days" not in cli("deliveries", "--days", "90").out
    assert "Give 1 to 62" in cli("deliveries", "--days", "90").refusal


def test_nothing_ordered_is_said(cli: CommandLine) -> None:
    assert cli.done("deliveries").out == "No deliveries in the next 14 days.\n"


def test_yesterdays_delivery_is_shown_until_it_is_ticked(book: Book) -> None:
    grown(book)
    order(book, OrderDraft("Bistro", "radish 4 x 50g fri"))
    assert isinstance(book.clock, FixedClock)
    (friday,) = list_deliveries(book).deliveries
    book.clock.at = friday.ready_at + timedelta(days=1)

    (late,) = list_deliveries(book).deliveries
    assert (late.crops, head_words(late, "metric")) == ((), "not all ticked")

    line = late.customers[0].lines[0]
    pack(book, line.wish.order.id, line.wish.day)
    assert list_deliveries(book).deliveries == ()
