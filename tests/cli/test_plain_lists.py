"""What the plain lists say of trays: mould, lateness, weights in the room's units."""

from __future__ import annotations

from tests.conftest import CommandLine


def test_mould_and_lateness_are_said_in_trade_words_by_every_plain_list(cli: CommandLine) -> None:
    # given
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--trays", "2", "--place", "Rack 1/Shelf 1")
    cli.now = "2026-04-06T08:00"
    cli.done("look", "101", "--mould", "spot")
    # then
    racks = cli.done("racks").out
    assert "101 field test day 6: weight off, water, late, mould seen\n" in racks
    assert "102 field test day 6: weight off, water, look, late\n" in racks
    assert ", mould seen, batch 1" in cli.done("tray", "101").out
    assert cli.done("due").out.count(", mould seen, expect") == 1
    assert cli.done("round", "--brief").out.endswith("; mould: 101\n")
    assert [each["mould_seen"] for each in cli.done("due", "--json").json["trays"]] == [True, False]


def test_weights_in_us_units(cli: CommandLine) -> None:
    cli.done("room", "--units", "us")
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--trays", "30", "--numbers", "101-130")
    cli.now = "2026-04-06T08:00"
    assert "expect 17.6 ± 2.6 oz" in cli.done("due").out
    assert " g " not in cli.done("templates").out
    cli.done("room", "--units", "metric")
    assert "30 trays, 15.0 ± 0.4 kg" in cli.done("due").out
