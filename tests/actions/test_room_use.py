"""The room in the days to come: where a plan's trays go, and what is said where they don't fit."""

from logbook.actions.book import Book
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.planning.plan import accept, plan
from logbook.actions.room.places import RoomDraft, change_room, retire_place
from tests.actions.days import sow_at, stand_at
from tests.room import day


def _one_shelf(book: Book) -> None:
    """Leave one lit shelf of four slots."""
    for rack in (1, 2):
        for shelf in range(1, 5):
            if (rack, shelf) != (1, 1):
                retire_place(book, f"Rack {rack}/Shelf {shelf}")


def test_it_goes_first_where_its_light_is_and_stacks_take_one_slot(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    order(book, OrderDraft("Bistro", "2 trays field test fri 10 apr 06:00"))
    view = plan(book, 2)
    use = {each.day: each.use for each in view.room.days}
    # sown on the 2nd, under lights on the 7th, cut on the 9th
    assert (use[day("2026-04-02")].dark, use[day("2026-04-02")].lit) == (2, 0)
    assert (use[day("2026-04-07")].dark, use[day("2026-04-07")].lit) == (0, 2)
    assert (use[day("2026-04-09")].dark, use[day("2026-04-09")].lit) == (0, 0)
    change_room(book, RoomDraft(stack_height=2))
    use = {each.day: each.use for each in plan(book, 2).room.days}
    # under weight until the 6th two stand in one slot, in the blackout they don't
    assert [use[day(f"2026-04-0{date}")].dark for date in (2, 5, 6)] == [1, 1, 2]


def test_where_it_does_not_fit_it_says_which_day_by_how_many_and_what_to_do(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    _one_shelf(book)
    order(book, OrderDraft("Bistro", "field test 2kg fri 10 apr 06:00"))
    order(book, OrderDraft("Shop", "2 trays field test sun 12 apr 06:00"))
    view = plan(book, 3)
    trays = [each.sowing.trays for each in view.sowings]
    assert view.sowings[0].place == "Rack 1/Shelf 1"
    lit = {each.day: each for each in view.room.short if each.kind == "lit"}
    short = next(iter(lit.values()))
    assert short.slots == sum(trays) - 4
    assert short.offers[-1] == "Ask Bistro for less, or for another day."
    assert any(
        "later" in offer or "earlier" in offer for each in lit.values() for offer in each.offers
    )
    # what is accepted takes the same room
    accept(book, ["thu"])
    after = [(each.day, each.kind, each.slots) for each in plan(book, 3).room.short]
    assert after == [(each.day, each.kind, each.slots) for each in view.room.short]
    short = next(each for each in plan(book, 3).room.short if each.kind == "lit")
    assert any(offer.startswith("Plan 101") for offer in short.offers)


def test_what_grows_already_is_counted(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 4, soaked="dry")
    uses = [each.use for each in plan(book, 2).room.days]
    assert [use.dark for use in uses[:3]] == [4, 4, 4]
    assert sum(use.lit for use in uses) == 4 * 2


def test_a_day_has_so_many_hours_of_sowing_and_cutting(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    order(book, OrderDraft("Bistro", "9 trays field test fri 10 apr 06:00"))
    assert [each.work_minutes for each in plan(book, 2).room.days[:3]] == [0, 45, 0]
    assert plan(book, 2).room.short == ()
    change_room(book, RoomDraft(work_hours=0.5))
    short = [(each.day, each.kind, each.slots) for each in plan(book, 2).room.short]
    assert short == [(day("2026-04-02"), "work", 3), (day("2026-04-09"), "work", 3)]
