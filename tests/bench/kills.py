"""Kill the program with SIGKILL at random moments, over and over, and look for what is missing.

    python -m tests.bench.kills [--kills 200] [--writers 2] [--seed N] [--folder DIR]

Several writers work on one book. Again and again one of them is killed while the others go on;
then the book is reopened: every acknowledged act must be there, none half there, and SQLite's
integrity check must be content. Every fifth kill hits a plain command (`logbook jot`).
"""

from __future__ import annotations

import argparse
import random
import subprocess
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

from tests.bench.processes import new_book, start_command, start_writer
from tests.bench.whole import Ack, acks_in, assert_whole

LONGEST_LIFE = 0.6
COMMAND_LIFE = 2.5


@dataclass
class Toll:
    """What a run came to."""

    kills: int = 0
    acts: int = 0
    commands: int = 0
    acks: list[Ack] = field(default_factory=list)


@dataclass
class _Running:
    process: subprocess.Popen[str]
    said: Path
    read: int = 0

    def ready(self) -> bool:
        return '"ready"' in self.said.read_text()


def _acks(folder: Path) -> list[Ack]:
    found = []
    for said in folder.glob("*.said"):
        found += acks_in(said.read_text())
    return found


def run_kills(
    folder: Path,
    kills: int,
    writers: int = 2,
    seed: int | None = None,
    longest_life: float = LONGEST_LIFE,
) -> Toll:
    """Kill writers `kills` times and verify after each; raise AssertionError for what is lost."""
    chance = random.Random(seed)
    book = new_book(folder / "room.book")
    toll, started = Toll(), 0
    running: list[_Running] = []
    commands: list[Ack] = []
    try:
        while toll.kills < kills:
            while len(running) < writers:
                started += 1
                said = folder / f"{started}.said"
                said.touch()
                running.append(_Running(start_writer(book, f"w{started}", said), said))
            if toll.kills % 5 == 4:
                commands += _kill_command(book, toll.kills, chance)
            else:
                victim = running.pop(chance.randrange(len(running)))
                _wait_ready(victim)
                time.sleep(chance.uniform(0, longest_life))
                victim.process.kill()
                victim.process.communicate()
                assert victim.process.returncode == -9, victim.said.read_text()[-500:]
            toll.kills += 1
            assert_whole(book, [*_acks(folder), *commands], summaries=toll.kills % 20 == 0)
    finally:
        for each in running:
            each.process.kill()
            each.process.communicate()
    toll.acks, toll.commands = [*_acks(folder), *commands], len(commands)
    toll.acts = len(toll.acks)
    assert_whole(book, toll.acks)
    return toll


def _wait_ready(running: _Running) -> None:
    end = time.monotonic() + 60
    while not running.ready():
        assert running.process.poll() is None, running.process.communicate()
        assert time.monotonic() < end
        time.sleep(0.01)


def _kill_command(book: Path, number: int, chance: random.Random) -> list[Ack]:
    note = f"command-{number}/0"
    process = start_command(book, "cli", "jot", "room", note)
    time.sleep(chance.uniform(0.2, COMMAND_LIFE))
    process.kill()
    said, _ = process.communicate()
    if "jotted on the room\n" not in said:
        return []
    return [{"kind": "jot", "act": _act_of(book, note), "note": note, "by": "cli"}]


def _act_of(book: Path, note: str) -> int | None:
    from logbook.store.file.book_file import BookFile

    with BookFile(book).reading() as reading:
        row = reading.row("SELECT id FROM entry WHERE note = ?", (note,))
    return None if row is None else int(row[0])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--writers", type=int, default=2)
    parser.add_argument("--seed", type=int)
    parser.add_argument("--folder", type=Path)
    given = parser.parse_args()
    folder = given.folder or Path(tempfile.mkdtemp(prefix="kills-"))
    began = time.monotonic()
    toll = run_kills(folder, given.kills, given.writers, given.seed)
    print(
        f"{toll.kills} kills survived in {time.monotonic() - began:.0f} s: {toll.acts:,} acts "
        f"acknowledged ({toll.commands} by plain commands), {toll.acts:,} found, none half there, "
        f"integrity ok"
    )


if __name__ == "__main__":
    main()
