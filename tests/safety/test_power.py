"""The plug pulled, on paper; the long run is tests/bench/power_loss.py."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.bench.power_loss import (
    Disk,
    Verify,
    beginning,
    bringing_up_to_date,
    copying,
    daily_work,
    going_back,
    pull_plug,
    taking_in,
    taking_out,
)
from tests.bench.processes import new_book
from tests.bench.recording import (
    Make,
    Op,
    Rename,
    Said,
    Sync,
    Truncate,
    Unlink,
    Write,
    can_record,
    record,
)

WHY_NOT = can_record()
pytestmark = pytest.mark.skipif(bool(WHY_NOT), reason=WHY_NOT)


def unsynced(ops: list[Op]) -> set[str]:
    """Give what waits for a sync at the end: files with their bytes, folders with their names."""
    waiting: set[str] = set()
    for op in ops:
        match op:
            case Write(path) | Truncate(path):
                waiting.add(path)
            case Make(path) | Unlink(path) | Rename(path):
                waiting.add(str(Path(path).parent))
                if isinstance(op, Unlink):
                    waiting.discard(path)
            case Sync(path):
                waiting.discard(path)
            case _:
                pass
    return waiting


def test_all_is_synced_before_an_act_is_acknowledged(tmp_path: Path) -> None:
    book = new_book(tmp_path / "home" / "room.book")

    ops = record(
        ["tests.bench.writer", str(book), "w", "--acts", "4", "--seed", "1"],
        tmp_path / "home",
        tmp_path / "log",
    )

    acks = [place for place, op in enumerate(ops) if isinstance(op, Said) and '"ack"' in op.text]
    assert len(acks) == 4
    for before, ack in zip([0, *acks], acks, strict=False):
        assert any(isinstance(op, Write) and op.path == str(book) for op in ops[before:ack])
        assert unsynced(ops[:ack]) == set()


def test_a_plain_command_syncs_before_it_answers(tmp_path: Path) -> None:
    book = new_book(tmp_path / "home" / "room.book")

    ops = record(
        ["logbook", "--book", str(book), "jot", "room", "aired"], tmp_path / "home", tmp_path / "l"
    )

    said = next(place for place, op in enumerate(ops) if isinstance(op, Said))
    assert any(isinstance(op, Sync) for op in ops[:said])
    assert unsynced(ops[:said]) == set()


@pytest.mark.parametrize("make", [beginning, taking_in, taking_out, bringing_up_to_date])
def test_what_is_made_anew_is_whole_or_not_there_after_a_power_cut(
    make: Callable[[Path], tuple[Disk, list[Op], Verify]], tmp_path: Path
) -> None:
    """Each in a folder that is made for it, but for the book that is brought up to date."""
    disk, ops, verify = make(tmp_path)

    made = pull_plug(
        disk, ops, verify, scratch=tmp_path, images=0, chance=random.Random(2), share=0.02
    )

    assert made > 10


@pytest.mark.parametrize("what", ["work", "copying", "back"])
def test_after_a_power_cut_the_book_is_whole_with_all_that_was_acknowledged(
    what: str, tmp_path: Path
) -> None:
    disk, ops, verify = {
        "work": lambda: daily_work(tmp_path, acts=3, seed=4),
        "copying": lambda: copying(tmp_path),
        "back": lambda: going_back(tmp_path),
    }[what]()

    made = pull_plug(
        disk, ops, verify, scratch=tmp_path, images=1, chance=random.Random(1), share=0.2
    )

    assert made > 20
