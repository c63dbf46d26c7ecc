"""The program killed with SIGKILL; the long run is tests/bench/kills.py."""

from __future__ import annotations

from pathlib import Path

from tests.bench.kills import run_kills


def test_every_acknowledged_act_outlives_a_kill(tmp_path: Path) -> None:
    toll = run_kills(tmp_path, kills=8, writers=2, longest_life=0.6)

    assert toll.kills == 8
    assert toll.acts > 0
