"""Circuits against their breakers."""

from __future__ import annotations

import pytest

from logbook.growing.room.power import circuit_load
from logbook.text import Refused


def test_a_load_right_at_the_limit_is_within() -> None:
    # Given a sum that is 12 A but for rounding in binary
    load = circuit_load([12 + 1e-12], 15, 120)
    assert load.within
    assert load.share_percent == pytest.approx(80)
    assert load.share_of_limit_percent == pytest.approx(100)


def test_over_the_limit_the_words_name_the_rule_and_defer() -> None:
    load = circuit_load([7, 6], 15, 120)
    assert not load.within
    for words in (
        "Caution",
        "US practice",
        "NEC 210.20(A)",
        "Local electrical code",
        "electrician",
    ):
        assert words in load.words
    assert "trips" not in load.words
    assert "trips" in circuit_load([16], 15, 120).words


def test_the_usual_cautions_on_water_and_electricity() -> None:
    said = " ".join(circuit_load([1], 15, 120).cautions)
    for words in ("drip loop", "GFCI", "RCD", "unplug before wet work", "electrician"):
        assert words in said


def test_another_share_is_the_grower_s_and_never_the_rule_s() -> None:
    # NEC 210.20(A) says 80 % (seen); the rest is what the grower set.
    says = "You set 100 %; NEC 210.20(A), US practice, says 80 % for a load of 3 h or more"
    within, over = (circuit_load([amps], 16, 230, share=1) for amps in (14, 17))
    assert within.within
    assert says in within.words
    assert says in over.words
    assert "You set 50 %; NEC 210.20(A)" in circuit_load([9], 16, 230, share=0.5).words
    assert "NEC" not in circuit_load([7], 16, 230, share=0.5).words
    assert "You set" not in circuit_load([14], 16, 230).words


def test_impossible_circuits_are_refused() -> None:
    for amps, breaker, volts, share in [
        ([1.0], 0, 120, 0.8),
        ([1.0], 15, 0, 0.8),
        ([-1.0], 15, 120, 0.8),
        ([float("nan")], 15, 120, 0.8),
        ([1.0], 15, 120, 1.2),
    ]:
        with pytest.raises(Refused):
            circuit_load(amps, breaker, volts, share)
    assert circuit_load([], 15, 120).amps == 0
    for load, fuse, says in ((-1, 15, "amps of a load"), (1, 0, "breaker")):
        with pytest.raises(Refused, match=f"The {says} must be"):
            circuit_load([load], fuse, 120)
