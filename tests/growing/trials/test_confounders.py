"""Likeness in sentences: shares of trays, grammar, and what is not to be called a difference."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.trials.confounders import Confounders, Fact, Value, confounders
from logbook.growing.trials.facts import ASKED


def _compared(
    first: Sequence[Value | None], second: Sequence[Value | None], **more: Any
) -> Confounders:
    """Compare one fact between the arms a and b, each with these values."""
    values = dict(enumerate([*first, *second], 101))
    arms = {str(tray): "a" if tray < 101 + len(first) else "b" for tray in values}
    name = more.pop("name", "shelf")
    fact = Fact(name, {str(tray): value for tray, value in values.items()}, **more)
    return confounders(arms, [fact])


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


@pytest.mark.parametrize(("second", "differs"), [(20.5, False), (20.6, True), (19.4, True)])
def test_means_that_lie_within_the_tolerance_are_alike(second: float, differs: bool) -> None:
    found = _compared([19.0, 21.0], [second, second], name="temperature", tolerance=0.5, unit="°C")
    assert bool(found.differences) is differs
    assert ("temperature" in found.alike) is not differs


def test_numbers_without_a_tolerance_differ_however_little() -> None:
    assert _compared([100.0], [100.001]).differences
    assert not _compared([0.1 + 0.2], [0.3]).differences


def test_three_arms_differ_where_the_lowest_and_the_highest_do() -> None:
    arms = {"101": "a", "102": "b", "103": "c"}
    fact = Fact("soak", {"101": 8.0, "102": 8.4, "103": 8.8}, "h", tolerance=0.5)
    assert confounders(arms, [fact]).differences[0].by_arm == {
        "a": "8 h",
        "b": "8.4 h",
        "c": "8.8 h",
    }


def test_values_within_a_tray_s_tolerance_are_written_as_one() -> None:
    found = _compared([8.0, 8.4], [12.0, 13.0], name="soak", tolerance=0.5, unit="h")
    assert found.differences[0].by_arm == {"a": "8.2 h", "b": "12.5 h (12–13)"}


TOLERANCES = {
    "seed sown": 0.5,
    "soak": 0.5,
    "soak pH": 0.1,
    "waterings": 0.5,
    "power cuts": 0.1,
    "water given": 20,
    "lit hours": 0.25,
    "mean PPFD": 5,
    "DLI": 0.5,
    "temperature": 0.5,
    "humidity": 3,
    "days from sowing to the cut": 0.1,
}
"""What is taken as the same, in each fact's own unit (common practice, no source)."""


def test_every_fact_that_is_measured_says_how_far_apart_is_alike() -> None:
    assert {asked.name: asked.tolerance for asked in ASKED if asked.tolerance} == TOLERANCES
