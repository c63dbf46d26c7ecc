"""When it happened is said with --at by every command that writes what happened, and is repeated."""

from __future__ import annotations

import pytest

from tests.conftest import CommandLine

WRITES = (
    ("jot", "101", "-hulls"),
    ("skip", "water", "101", "--why", "wet"),
    ("circuit", "north", "--breaker", "16", "--volts", "230"),
    ("did", "water", "101"),
    ("look", "101", "--height", "4cm"),
    ("move", "101", "Rack 2/Shelf 1"),
    ("discard", "101", "--why", "mould"),
    ("weigh", "101", "283", "--sure"),
    ("air", "21.4", "63"),
    ("water", "--ph", "6.1"),
    ("cleaning", "trays", "--method", "scrub"),
    ("lamps", "--place", "Rack 1/Shelf 1", "--lamps", "2", "--watts", "18"),
    ("trial", "new", "soak", "--crop", "field test", "--factor", "seed", "--arm", "a=100", "--arm",
     "b=120", "--replicates", "2"),
)  # fmt: skip


@pytest.fixture
def room(cli: CommandLine) -> CommandLine:
    """Two trays in the light."""
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--trays", "2", "--dry")
    cli.now = "2026-04-08T08:00"
    cli.done("did", "light_on", "101-102")
    cli.now = "2026-04-14T07:42"
    return cli


@pytest.mark.parametrize("words", WRITES, ids=lambda words: words[0])
def test_a_command_that_writes_takes_the_time(room: CommandLine, words: tuple[str, ...]) -> None:
    room.done(*words, "--at", "Mon 18:00")
    (entry,) = room.done("page", "--day", "2026-04-13", "--json").json["entries"]
    assert entry["at"] == "2026-04-13T18:00:00+01:00"
    assert entry["written_at"] == "2026-04-14T07:42:00+01:00"
    assert "at what hour" in room(*words, "--at", "yesterday").refusal
    assert "at what hour" in room(*words, "--at", "2026-04-13").refusal
    assert "--at is empty" in room(*words, "--at", "").refusal
    assert "is still to come" in room(*words, "--at", "tomorrow 7").refusal


def test_what_was_stored_is_repeated(room: CommandLine) -> None:
    given = ("--amount", "300ml", "--ph", "6.1", "--ec", "1.2", "--at", "0715")
    assert room.done("did", "water", "101", *given).out == (
        "water: 101, 07:15, 300 ml each, pH 6.1, EC 1.2 mS/cm\n"
    )
