"""Every outside check agrees, names its source, and there are enough of them."""

from __future__ import annotations

from collections import Counter

import pytest

from logbook.growing.crops.germination import LEAST_GERMINATION
from tests.outside.check import Check
from tests.outside.every import every
from tests.outside.power_water_seed import CFR

CHECKS = every()


@pytest.mark.parametrize("check", CHECKS, ids=lambda each: each.what)
def test_ours_is_what_the_source_says(check: Check) -> None:
    assert check.alike, check


def test_there_are_75_checks_of_20_sources() -> None:
    """The germination standards are one list, copied: they count as one."""
    counted = Counter(each.source for each in CHECKS)
    lists = [source for source in counted if source.startswith("7 CFR 201.31")]
    assert all(each.source.strip() and each.what.strip() for each in CHECKS)
    assert len(counted) >= 20
    assert sum(1 if source in lists else many for source, many in counted.items()) >= 75


def test_a_check_can_fail() -> None:
    """With ours 6 % higher only those hold that are ranges, or whole numbers of a talk."""
    off = [each for each in CHECKS if abs(1.06 * each.ours - each.theirs) <= each.near]
    assert {each.source.split(" ")[0] for each in off} <= {"SARE", "Mississippi", "Ohio"}


def test_no_kind_of_seed_is_in_ours_alone() -> None:
    assert {kind for kinds in CFR.values() for kind in kinds.split(", ")} == set(LEAST_GERMINATION)
