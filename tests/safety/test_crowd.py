"""Four processes at once; the long run is tests/bench/four_writers.py."""

from __future__ import annotations

from pathlib import Path

from tests.bench.four_writers import run_crowd


def test_four_writers_lose_nothing_and_agree(tmp_path: Path) -> None:
    crowd = run_crowd(tmp_path, seconds=3)

    assert {ack["by"] for ack in crowd.acks} == {"w0", "w1", "w2", "w3"}
