"""From deliveries to sowings on the round."""

from datetime import timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.planning.plan import PlanView, accept, plan
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.weighing import weigh
from logbook.growing.crops.yields import Meant, chance_of
from logbook.store.reads.templates import read_templates
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at
from tests.room import wall_words


def _ordered(book: Book, text: str, customer: str = "Bistro") -> None:
    order(book, OrderDraft(customer, text))


def _sowings(view: PlanView) -> list[tuple[str, int, str]]:
    return [(each.crop, each.sowing.trays, wall_words(each.back.sow_at)) for each in view.sowings]


def test_the_fewest_trays_that_are_surely_enough(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    _ordered(book, "field test 2kg fri 10 apr 06:00")
    _ordered(book, "field test 10 x 100g fri 10 apr 06:00", "Shop")
    view = plan(book, 1)
    ((crop, trays, sow),) = _sowings(view)
    assert (crop, sow) == ("field test", "2026-04-02 11:00")
    ((line,),) = [each.lines for each in view.deliveries]
    assert (line.grams, line.packs) == (3000, 11)
    (need,) = view.seed
    assert need.need_grams == 100 * trays
    # and one fewer would not be sure enough
    with book.reading() as reading:
        version = find_template("field test", read_templates(reading)).version_id
        luck = reading.luck([(version, 1)])[version, 1]
    assert chance_of([Meant(luck, -1)] * trays, 3000) == pytest.approx(line.chance_of_enough)
    assert chance_of([Meant(luck, -1)] * (trays - 1), 3000) < 0.9 <= line.chance_of_enough
    assert view.sowings[0].sowing.serves[0].customers == ("Bistro", "Shop")


def test_what_grows_and_what_lies_cold_counts_first(book: Book) -> None:
    sow_at(book, "2026-03-27 08:00", 4, soaked="dry")
    stand_at(book, "2026-04-03 08:00")
    _ordered(book, "field test 1kg mon 06:00")
    assert _sowings(plan(book)) == []
    stand_at(book, "2026-04-04 08:00")
    weigh(book, [101], 600)
    weigh(book, [102], 600)
    view = plan(book)
    assert _sowings(view) == []
    assert view.deliveries[0].lines[0].chance_of_enough == 1
    # what is left after it is within its keeping days counts for the next, and no longer
    _ordered(book, "field test 200g fri 10 apr 06:00")
    _ordered(book, "field test 200g fri 24 apr 06:00")
    assert [each.sowing.serves[0].ready_at.day for each in plan(book).sowings] == [24]


def test_a_delivery_that_others_leave_enough_for_is_listed_among_them(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    for words in ("1kg fri 10 apr 06:00", "5g thu 16 apr 06:00", "1kg sat 18 apr 06:00"):
        _ordered(book, f"field test {words}")
    view = plan(book)
    assert [each.ready_at.day for each in view.deliveries] == [10, 16, 18]
    assert [each.sowing.serves[0].ready_at.day for each in view.sowings] == [10, 18]


def test_accepted_sowings_stand_on_the_round_and_are_planned_no_second_time(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    for day in ("10 apr", "14 apr"):
        _ordered(book, f"field test 1kg {day} 06:00")
    first, second = plan(book).sowings
    done = accept(book, ["field test thu"])
    assert len(done.numbers) == first.sowing.trays
    assert [each.name for each in plan(book).sowings] == [second.name]
    accept(book, ["all"])
    assert _sowings(plan(book)) == []
    with book.reading() as reading:
        times = {each.state.planned_for for each in reading.live}
    assert times == {first.back.sow_at, second.back.sow_at}


def test_what_can_t_be_planned_is_said(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    _ordered(book, "field test 1kg fri 06:00")
    view = plan(book)
    assert _sowings(view) == []
    assert view.notices == (
        "field test for Fri 06:00: 1000 g short, and no sowing can be ready by then.",
    )
    for words in ("kale", "mon", ""):
        with pytest.raises(Refused, match="The plan has no"):
            accept(book, [words])
    for weeks in (0, 53, -1):
        with pytest.raises(Refused):
            plan(book, weeks)


def test_a_stall_is_promised_nothing(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    put_customer(book, CustomerDraft("Market", kind="stall"), new=True)
    _ordered(book, "field test 1kg every sat 07:00", "Market")
    assert _sowings(plan(book, 3)) == []


def test_live_trays_are_whole_trays(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    _ordered(book, "3 trays field test fri 10 apr 06:00")
    assert [each.sowing.trays for each in plan(book).sowings] == [3]
    accept(book, ["all"])
    stand_at(book, "2026-04-02 08:00")
    assert _sowings(plan(book)) == []
    assert plan(book).deliveries[0].ready_at - book.now() > timedelta(days=7)


def test_the_room_says_how_sure_and_what_trimming_loses(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    _ordered(book, "field test 3kg fri 10 apr 06:00")
    trays = {}
    for sure, loss in ((50.0, 0.0), (90.0, 0.0), (99.0, 0.0), (90.0, 20.0)):
        change_room(book, RoomDraft(sure_percent=sure, loss_percent=loss))
        view = plan(book)
        trays[sure, loss] = view.sowings[0].sowing.trays
        assert view.deliveries[0].lines[0].chance_of_enough >= sure / 100
    assert trays[50, 0] == 6
    assert 6 < trays[90, 0] < trays[99, 0]
    # with a fifth lost, 3 kg take what 3.75 kg would
    assert trays[90, 20] > trays[90, 0]
    with pytest.raises(Refused):
        change_room(book, RoomDraft(sure_percent=100.0))
