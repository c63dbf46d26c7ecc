"""Past harvests as a flat list: out of a book and into another, by the plain commands."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from tests.conftest import CommandLine

HEAD = "crop,sown,cut,trays,grams\n"


def test_a_list_of_harvests_comes_back_as_it_went(cli: CommandLine, tmp_path: Path) -> None:
    # given two trays cut together, one tray in two parts, and one that is cut but not weighed
    cli.done("sow", "kale", "--trays", "3", "--lot", "=KA", "--at", "2026-04-01T08:00")
    cli.done("sow", "radish", "--dry", "--trays", "1", "--at", "2026-04-02T08:00")
    cli.done("weigh", "101-102", "400", "--at", "2026-04-12T08:00", "--sure")
    cli.done("weigh", "104", "100", "--part", "--at", "2026-04-10T08:00", "--sure")
    cli.done("weigh", "104", "120", "--at", "2026-04-11T08:00", "--sure")
    cli.done("did", "cut", "103", "--at", "2026-04-12T08:00")
    # when
    listed = cli.done("export", "--harvests", "-").out
    # then
    assert listed.splitlines() == [
        "crop,sown,cut,trays,grams,lot", "radish,2026-04-02,2026-04-11,1,220,",
        "kale,2026-04-01,2026-04-12,2,400,'=KA",
    ]  # fmt: skip
    sheet = tmp_path / "harvests.csv"
    cli.done("export", "--harvests", str(sheet))
    assert sheet.read_text() == listed
    assert "already a file" in cli("export", "--harvests", str(sheet)).refusal
    other = ("--book", str(tmp_path / "other.book"))
    cli.bare(*other, "begin", "--zone", "UTC")
    cli.bare(*other, "import", "--harvests", str(sheet))
    assert cli.bare(*other, "export", "--harvests", "-").out == listed


def test_lines_that_are_the_same_are_asked_about(
    cli: CommandLine, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = "kale,2026-03-02,2026-03-12,2,400\n"
    for sure in ((), ("--sure",)):
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO((HEAD + line * 2).encode())))
        ran = cli("import", "--harvests", "-", *sure)
        assert ran.code == (0 if sure else 1)
    assert "4 trays" in ran.out
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO((HEAD + "x,y,z,1,2\n").encode())))
    wrong = cli("import", "--harvests", "-")
    assert "line 2: " in wrong.err
    assert "line 2: " not in wrong.out
