"""Deliveries are short as often as a plan says; python -m tests.bench.short_deliveries tries more."""

from random import Random

import pytest

from tests.bench.short_deliveries import SHARED, known_spread, learned_spread, sharing


def test_where_the_spread_is_known_the_promise_holds_to_a_point() -> None:
    for promised, whole in known_spread(20_000, Random(5)):
        assert abs(promised - whole) <= 0.01


def test_where_it_is_learned_from_40_trays_it_holds_to_three() -> None:
    promised, whole = learned_spread(240, 40, Random(5))
    assert abs(promised - whole) <= 0.03


@pytest.mark.parametrize(("wanted", "sown"), SHARED)
def test_what_a_near_delivery_lacks_is_not_owed_by_the_next_ones_trays(
    wanted: tuple[float, ...], sown: tuple[int, ...]
) -> None:
    """A promise near certainty holds to three points; one near a half may be kept more often."""
    for promised, whole in sharing(8_000, Random(5), wanted, sown):
        assert promised <= whole + 0.015
        assert promised < 0.9 or whole - promised <= 0.03
