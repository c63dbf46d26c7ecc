"""The round for a login banner or cron."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from tests.conftest import CommandLine


def test_brief_is_one_line(cli: CommandLine) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "4")
    assert cli.done("round", "--brief").out == "Tue 14 Apr: nothing due.\n"
    cli.now = "2026-04-15T06:00"
    assert cli.done("round", "--brief").out == "Wed 15 Apr: nothing due; next 07:00.\n"
    cli.now = "2026-04-15T11:30"
    assert cli.done("round", "--brief").out == (
        "Wed 15 Apr: 1 chore at 1 stop, 1 late: water 4 trays, look 4\n"
    )


def test_a_banner_does_not_wait_for_who_writes(
    cli: CommandLine, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.TOLD_SECONDS", 0)
    with closing(sqlite3.connect(cli.book, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        told = cli("round", "--brief", "--if-any")
    assert (told.code, told.out) == (1, "")
    assert told.err == "Another program is still writing to the book. Try again.\n"


def test_brief_names_mould_also_when_nothing_is_due(cli: CommandLine) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "2")
    cli.done("look", "102", "--mould", "spot")
    assert cli.done("round", "--brief").out == "Tue 14 Apr: nothing due; mould: 102.\n"
    cli.done("look", "102", "--mould", "none")
    assert cli.done("round", "--brief").out == "Tue 14 Apr: nothing due.\n"


def test_if_any_is_silent_when_nothing_is_due(cli: CommandLine) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "4")
    for words in (["--if-any"], ["--if-any", "--brief"]):
        quiet = cli.done("round", *words)
        assert (quiet.out, quiet.err) == ("", "")
    cli.now = "2026-04-15T07:30"
    assert cli.done("round", "--if-any", "--brief").out == (
        "Wed 15 Apr: 1 chore at 1 stop: water 4 trays, look 4\n"
    )
    assert len(cli.done("round", "--if-any").out.splitlines()) == 3


def test_the_plain_round_is_in_walking_order(cli: CommandLine) -> None:
    cli.now = "2026-04-10T07:42"
    cli.done("sow", "field test", "--dry", "--trays", "1", "--place", "Rack 2/Shelf 1")
    cli.done("sow", "field test", "--dry", "--trays", "2", "--place", "Rack 1/Shelf 3")
    cli.now = "2026-04-14T07:30"
    cli.done("look", "103", "--mould", "spot", "--at", "2026-04-10T08:00")
    assert cli.done("round").out.splitlines() == [
        "Tue 14 Apr  07:30  the round: 2 stops, 2 chores, 2 late",
        "Rack 1/Shelf 3",
        "  water, look: 102 103, field test, day 5, weighted, late, not watered yet, mould seen on 103",
        "Rack 2/Shelf 1",
        "  water, look: 101, field test, day 5, weighted, late, not watered yet",
        "Later",
        (
            "  weight off, lid on: 102 103, field test, day 5, weighted, 07:42, "
            "mould seen on 103, Rack 1/Shelf 3"
        ),
        "  weight off, lid on: 101, field test, day 5, weighted, 07:42, Rack 2/Shelf 1",
    ]


def test_where_nothing_is_sown_it_says_what_to_do(cli: CommandLine) -> None:
    assert cli.done("due").out == (
        "Nothing will be ready within 7 days. `logbook sow` sows a batch.\n"
    )


def test_the_paper_round_says_when_it_was_written_and_plans_nothing_anew(cli: CommandLine) -> None:
    cli.now = "2026-04-10T07:42"
    cli.done("sow", "field test", "--dry", "--trays", "1", "--place", "Rack 1/Shelf 3")
    cli.now = "2026-04-14T20:30"
    head, *lines = cli.done("round", "--day", "tomorrow").out.splitlines()
    assert head.startswith("Wed 15 Apr  as of Tue 14 Apr 20:30  the round: 1 stop, ")
    late = "  weight off, lid on: 101, field test, day 6, weighted, Wed 07:00"
    assert late in lines
