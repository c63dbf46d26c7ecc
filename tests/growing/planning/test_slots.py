"""Slots given out to trays, against the best that there is."""

import random

import pytest

from logbook.growing.bands import Band
from logbook.growing.planning.slots import Given, Shelf, Stay, give_out, use_by_day, worth_of

LIT = Shelf(1, 2, lit=True)
DARK = Shelf(2, 2, lit=False)


def _kept(shelves: list[Shelf], stays: list[Stay], given: list[Given]) -> None:
    """No shelf has more than its slots on any day, no stay more than it needs or where it can't be."""
    for shelf in shelves:
        for day in range(max(each.until for each in stays)):
            taken = [mine.get(shelf.id, 0) for each, mine in zip(stays, given, strict=True)
                     if day in each.days]  # fmt: skip
            assert sum(taken) <= shelf.slots
    for each, mine in zip(stays, given, strict=True):
        assert sum(mine.values()) <= each.slots
        assert all(each.worth(shelf) for shelf in shelves if mine.get(shelf.id))


def test_the_dark_is_for_trays_that_need_no_light() -> None:
    stays = [Stay(0, 3, 2, lit=False), Stay(0, 3, 2, lit=True), Stay(0, 3, 1, lit=True)]
    assert give_out([LIT, DARK], stays) == [{2: 2}, {1: 2}, {}]
    (use, *_) = use_by_day([LIT, DARK], stays, 3)
    assert (use.lit, use.dark, use.short_lit, use.short_dark) == (3, 2, 1, 0)


def test_what_leaves_a_shelf_makes_room_on_that_day() -> None:
    assert give_out([LIT], [Stay(0, 3, 2, lit=True), Stay(3, 5, 2, lit=True)]) == [{1: 2}, {1: 2}]


def test_a_shelf_with_the_wanted_light_comes_first() -> None:
    bright, dim = Shelf(1, 1, lit=True, daily=14), Shelf(2, 1, lit=True, daily=9)
    stays = [Stay(0, 4, 1, lit=True, light=Band(8, 10)), Stay(0, 4, 1, lit=True)]
    assert give_out([bright, dim], stays) == [{2: 1}, {1: 1}]


def test_one_moves_so_that_both_have_room() -> None:
    # greedily the first takes the dark shelf, on which the second alone would be at its best
    tight = Shelf(3, 1, lit=True)
    stays = [Stay(0, 2, 1, lit=False), Stay(1, 6, 2, lit=False), Stay(0, 6, 1, lit=True)]
    given = give_out([tight, Shelf(2, 2, lit=False)], stays)
    _kept([tight, Shelf(2, 2, lit=False)], stays, given)
    assert given[1] == {2: 2}


def _a_room(draw: random.Random) -> tuple[list[Shelf], list[Stay]]:
    shelves = [
        Shelf(place, draw.randint(1, 6), lit, draw.choice((None, 7.0, 12.0)) if lit else None)
        for place in range(draw.randint(2, 6))
        for lit in [draw.random() < 0.7]
    ]
    stays = []
    for _ in range(draw.randint(5, 30)):
        first = draw.randrange(18)
        lit = draw.random() < 0.6
        stays.append(
            Stay(first, first + draw.randint(1, 8), draw.randint(1, 5), lit,
                 draw.choice((None, Band(6, 9), Band(10, 15))) if lit else None)
        )  # fmt: skip
    return shelves, stays


def _best(shelves: list[Shelf], stays: list[Stay]) -> float:
    """The most that the slots can be worth, by HiGHS."""
    np = pytest.importorskip("numpy")
    optimize = pytest.importorskip("scipy.optimize")
    pairs = [(stay, shelf) for stay in stays for shelf in shelves if stay.worth(shelf)]
    if not pairs:
        return 0.0
    worth = [stay.worth(shelf) * len(stay.days) for stay, shelf in pairs]
    rows, most = [], []
    for each in stays:
        rows.append([float(stay is each) for stay, _ in pairs])
        most.append(each.slots)
    for there in shelves:
        for day in range(30):
            rows.append([float(shelf is there and day in stay.days) for stay, shelf in pairs])
            most.append(there.slots)
    found = optimize.milp(
        -np.array(worth), integrality=np.ones(len(pairs)),
        constraints=optimize.LinearConstraint(np.array(rows), -np.inf, np.array(most)),
        bounds=optimize.Bounds(0, np.inf),
    )  # fmt: skip
    return -float(found.fun)


def test_within_a_twentieth_of_the_best_in_200_random_rooms() -> None:
    draw = random.Random(16)
    shares = []
    for _ in range(200):
        shelves, stays = _a_room(draw)
        given = give_out(shelves, stays)
        _kept(shelves, stays, given)
        best = _best(shelves, stays)
        shares.append(worth_of(shelves, stays, given) / best if best else 1.0)
    assert min(shares) >= 0.95, sorted(shares)[:10]
