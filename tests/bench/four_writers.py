"""Four processes write and read one book at once, as fast as they can.

    python -m tests.bench.four_writers [--seconds 60] [--writers 4] [--folder DIR]

No error may reach any of them, no acknowledged act may be missing or half there, and when they
have ended all must see the same. Prints how long writing and reading took (p50, p99, longest).
"""

from __future__ import annotations

import argparse
import json
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from tests.bench.processes import new_book, start_writer
from tests.bench.whole import Ack, acks_in, assert_whole


@dataclass
class Crowd:
    """What a run came to: latencies in ms."""

    acks: list[Ack]
    writes: list[float]
    reads: list[float]


def run_crowd(folder: Path, seconds: float, writers: int = 4) -> Crowd:
    """Let writers write and read for some seconds and verify; AssertionError for what is wrong."""
    book = new_book(folder / "room.book")
    said = [folder / f"{number}.said" for number in range(writers)]
    running = [
        start_writer(
            book, f"w{number}", each, "--seconds", str(seconds), "--reads", "--seed", str(number)
        )
        for number, each in enumerate(said)
    ]
    lines: list[dict[str, object]] = []
    while any(process.poll() is None and '"done"' not in each.read_text()
              for each, process in zip(said, running, strict=True)):  # fmt: skip
        time.sleep(0.02)
    for process in running:
        _, complaints = process.communicate("2026-04-14T07:30:00+00:00\n", timeout=120)
        assert process.returncode == 0, complaints
        assert complaints == "", complaints
    for each in said:
        lines += [json.loads(line) for line in each.read_text().splitlines()]
    refused = [line["why"] for line in lines if line["said"] == "refused"]
    assert not refused, refused[:5]
    digests = {line["digest"] for line in lines if line["said"] == "view"}
    assert len(digests) == 1, "the views of the processes differ"
    acks = [ack for each in said for ack in acks_in(each.read_text())]
    assert_whole(book, acks)
    times = {
        kind: sorted(float(str(line["ms"])) for line in lines if line["said"] == kind)
        for kind in ("ack", "read")
    }
    return Crowd(acks, times["ack"], times["read"])


def part(times: list[float], share: float) -> float:
    """Give a quantile of sorted times."""
    return times[min(len(times) - 1, int(share * len(times)))]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60)
    parser.add_argument("--writers", type=int, default=4)
    parser.add_argument("--folder", type=Path)
    given = parser.parse_args()
    folder = given.folder or Path(tempfile.mkdtemp(prefix="crowd-"))
    crowd = run_crowd(folder, given.seconds, given.writers)
    print(f"{given.writers} processes, {given.seconds:g} s: {len(crowd.acks):,} acts, none lost")
    for what, times in (("write", crowd.writes), ("read", crowd.reads)):
        print(
            f"{what}: p50 {part(times, 0.5):.0f} ms, p99 {part(times, 0.99):.0f} ms, "
            f"longest {times[-1]:.0f} ms"
        )


if __name__ == "__main__":
    main()
