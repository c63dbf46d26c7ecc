"""Deliveries are short as often as a plan says; python -m tests.bench.short_deliveries tries more."""

from random import Random

from tests.bench.short_deliveries import known_spread, learned_spread


def test_where_the_spread_is_known_the_promise_holds_to_a_point() -> None:
    for promised, whole in known_spread(20_000, Random(5)):
        assert abs(promised - whole) <= 0.01


def test_where_it_is_learned_from_40_trays_it_holds_to_three() -> None:
    promised, whole = learned_spread(240, 40, Random(5))
    assert abs(promised - whole) <= 0.03
