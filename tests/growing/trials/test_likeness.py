"""Likeness in sentences: shares of trays, grammar, and what is not to be called a difference."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.trials.likeness import Fact, Likeness, Value, likeness


def _compared(
    first: Sequence[Value | None], second: Sequence[Value | None], **more: Any
) -> Likeness:
    """Compare one fact between the arms a and b, each with these values."""
    values = dict(enumerate([*first, *second], 101))
    arms = {str(tray): "a" if tray < 101 + len(first) else "b" for tray in values}
    name = more.pop("name", "shelf")
    fact = Fact(name, {str(tray): value for tray, value in values.items()}, **more)
    return likeness(arms, [fact])


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (["S3", "S4"], ["S4", "S3"]),
        (["S3", "S3", "S4", "S4"], ["S3", "S4"]),
        # with five trays against four the shares cannot come closer
        (["S3", "S3", "S4", "S4", "S4"], ["S3", "S3", "S4", "S4"]),
    ],
)
def test_the_same_values_in_like_shares_are_no_difference(
    first: Sequence[Value], second: Sequence[Value]
) -> None:
    found = _compared(first, second)
    assert found.differences == ()
    assert found.alike == ("shelf",)


def test_where_shares_differ_it_says_how_many_trays_of_each() -> None:
    found = _compared(["S3", "S3", "S3", "S4"], ["S3", "S4", "S4", "S4"], joint="on")
    assert found.words[0] == (
        "shelf differs: could explain part of it (a: 3 on S3, 1 on S4; b: 3 on S4, 1 on S3)."
    )
    assert found.differences[0].by_arm == {"a": "3 on S3, 1 on S4", "b": "3 on S4, 1 on S3"}


def test_an_arm_with_one_value_says_all_beside_one_with_several() -> None:
    said = _compared(["S3", "S4"], ["S4", "S4"], joint="on").words[0]
    assert said.endswith("(a: 1 on S3, 1 on S4; b: all 2 on S4).")


@given(
    st.lists(st.sampled_from("xyz"), min_size=1, max_size=6),
    st.lists(st.sampled_from("xyz"), min_size=1, max_size=6),
)
def test_no_difference_is_listed_with_the_same_words_on_both_sides(
    first: Sequence[Value], second: Sequence[Value]
) -> None:
    for one in _compared(first, second).differences:
        assert one.by_arm["a"] != one.by_arm["b"]
    assert not _compared(first, list(reversed(first))).differences


def test_a_value_that_one_arm_alone_has_is_a_difference() -> None:
    assert _compared(["S3"], ["S3", "S4"]).differences
    assert _compared(["S3"] * 5, ["S3"] * 4 + ["S4"]).differences


@pytest.mark.parametrize(("many", "verb"), [(True, "differ:"), (False, "differs:")])
def test_a_plural_has_its_own_verb(many: bool, verb: str) -> None:
    assert verb in _compared(["two"], ["four"], many=many).words[0].split()


def test_records_of_a_plural_are_not_recorded() -> None:
    assert _compared([None], [None], name="lamps", many=True).words == (
        "lamps are not recorded for any tray.",
    )
    assert "shelf is not recorded for 1 tray (102)." in _compared(["S3"], [None]).words
