"""The calendar as a file: written anew over itself, and over nothing else."""

from __future__ import annotations

from pathlib import Path

from tests.conftest import CommandLine
from tests.exchange.test_calendar import events


def test_the_command_writes_a_file_and_no_other_over(cli: CommandLine, tmp_path: Path) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("sow", "radish", "--dry", "--trays", "2")
    out = tmp_path / "room.ics"
    assert cli.done("calendar", "--out", str(out)).out == f"3 events written to {out}.\n"
    assert len(events(out.read_bytes().decode())) == 3
    cli.done("calendar", "--out", str(out))
    out.write_text("mine")
    assert "already a file" in cli("calendar", "--out", str(out)).refusal
    assert "from 1 to 52" in cli("calendar", "--weeks", "0").refusal
