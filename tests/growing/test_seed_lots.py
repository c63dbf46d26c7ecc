"""Seed lots as people write them: several with their grams, and which are spelled alike."""

from __future__ import annotations

import pytest

from logbook.growing.crops.seed_lots import SEVERAL, SeedLot, alike, lots_from, lots_words
from logbook.growing.measures import GRAMS
from logbook.text import Refused


def test_lots_are_read_as_they_are_written() -> None:
    two = (SeedLot("DK 10", 120.0), SeedLot("DK 11", 80.0))
    assert lots_from(SEVERAL) == two
    assert lots_words(two) == SEVERAL
    assert [each.grams for each in lots_from("DK 10 + DK 11=2oz")] == [None, 2 * GRAMS["oz"]]
    assert lots_from(" ") == ()


@pytest.mark.parametrize("name", ["DK 10", "A+B", "=1+1", "a=b", "DK 10 / DK 11", "x = y"])
def test_signs_within_a_name_stay_in_it(name: str) -> None:
    assert lots_from(name) == (SeedLot(name),)


@pytest.mark.parametrize(
    "text",
    ["DK 10 120g, DK 11 80g", "DK 10: 120 g; DK 11: 80 g", "DK 10 120 g and DK 11 0,08 kg", "DK 10 120g + DK 11 80g"],
)  # fmt: skip
def test_lots_that_each_say_their_weight_are_several(text: str) -> None:
    assert lots_from(text) == (SeedLot("DK 10", 120.0), SeedLot("DK 11", 80.0))


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("DK 10 = 12o g", "unknown unit"),
        ("DK 10 = -5 g", "must be"),
        ("DK 10 = nan g", "not a number"),
        ("DK 10 + dk 10", "named twice"),
        ("DK 10 +  + DK 11", "empty"),
    ],
)
def test_what_is_no_lot_or_weight_is_refused(text: str, sentence: str) -> None:
    with pytest.raises(Refused, match=sentence):
        lots_from(text)


@pytest.mark.parametrize(
    "other",
    ["dk10", "DK-10", "dk_10", "DK 010", "DK 10 / DK 11", "DK 09/10", "DK 9 & DK 10", "x, dk10"],
)
def test_one_bag_spelled_in_two_ways_is_alike(other: str) -> None:
    assert alike("DK 10", other)
    assert alike(other, "DK 10")


@pytest.mark.parametrize("other", ["DK 1", "DK 100", "DK 101", "RA 10", "10", "DK", "DK 11"])
def test_other_bags_are_not(other: str) -> None:
    assert not alike("DK 10", other)


def test_a_name_of_signs_alone_is_like_itself() -> None:
    assert alike("--", "--")
    assert not alike("--", "++")


def test_the_number_of_a_bag_behind_a_lot_is_no_lot() -> None:
    assert alike("ra48-2", "RA 48/2")
    assert alike("RA 48", "RA 48/2")
    assert not alike("RA 41/2", "RA 48/2")
    assert alike("DK 9", "DK 10 / 9")
