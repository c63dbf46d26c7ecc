"""What the plain lists say of trays: mould, lateness, weights in the room's units."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import CommandLine


def test_mould_and_lateness_are_said_in_trade_words_by_every_plain_list(cli: CommandLine) -> None:
    # given
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "2", "--place", "Rack 1/Shelf 1")
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


def test_trays_that_have_no_place_are_listed_like_others(cli: CommandLine) -> None:
    # given one tray more than there are slots
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "33", "--numbers", "101-133")
    cli.done("look", "133", "--mould", "spot")
    # then
    assert cli.done("racks").out.splitlines()[-2:] == [
        "No place",
        "    133 field test day 1: mould seen",
    ]


def test_weights_in_us_units(cli: CommandLine) -> None:
    cli.done("room", "--units", "us")
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "30", "--numbers", "101-130")
    cli.now = "2026-04-06T08:00"
    assert "expect 13.6–21.7 oz, 4 in 5 (from the template's guess)" in cli.done("due").out
    assert " g " not in cli.done("templates").out
    cli.done("room", "--units", "metric")
    assert "30 trays, 11.8–18.2 kg, 4 in 5" in cli.done("due").out


def test_the_dew_point_in_us_units(cli: CommandLine) -> None:
    cli.done("room", "--units", "us")
    cli.done("air", "70F", "55%")
    shown = cli.done("air").out
    assert "dew point 53" in shown
    assert "°C" not in shown


def test_air_without_readings_of_late_says_where_some_are(cli: CommandLine) -> None:
    assert cli.done("air").out.count("\n") == 1
    cli.done("air", "21.4", "63", "--place", "Rack 2/Shelf 1", "--at", "2026-04-10T08:00")
    heading, _, line = cli.done("air").out.splitlines()
    assert "no air reading" in heading
    assert line.startswith("  Rack 2/Shelf 1, Fri 10 Apr 08:00: 21.4 °C, 63 %")


def test_harvests_taken_in_as_a_book_are_pointed_to_their_option(
    cli: CommandLine, tmp_path: Path
) -> None:
    path = tmp_path / "h.csv"
    path.write_text("crop,sown,cut,trays,grams\nkale,2025-04-01,2025-04-10,4,800\n")
    assert "Put --harvests before" in cli("import", str(path)).refusal
    path.write_text("a,b\n1,2\n")
    assert "--harvests" not in cli("import", str(path)).refusal


def test_undo_says_which_entry_it_struck_and_when_that_was_written(cli: CommandLine) -> None:
    cli.now = "2026-04-13T17:30"
    cli.done("jot", "room", "fan off")
    cli.now = "2026-04-13T18:29"
    undone = cli.done("undo")
    assert undone.out == "undone: jot\n"
    assert undone.err == "Entry 1, written 17:30.\n"
    assert cli.done("redo").out == "redone: jot\n"


def test_what_is_older_than_an_hour_is_undone_by_its_number_only(cli: CommandLine) -> None:
    cli.done("jot", "room", "fan off")
    cli.done("jot", "room", "fan on")
    cli.now = "2026-04-15T07:42"
    said = 'jot, "fan on", Tue 14 Apr 07:42'
    assert cli("undo").refusal == f"Last written: {said}. `logbook undo 2` undoes it."
    assert f"what you wrote last: entry 2, {said}. `logbook strike 1`" in cli("undo", "1").refusal
    assert cli.done("undo", "2").out == "undone: jot\n"
    assert '"fan off"' in cli("undo").refusal, "and the one before is older still"


def test_what_undo_cannot_take_back_is_named_and_nothing_else_is_undone(cli: CommandLine) -> None:
    cli.done("jot", "room", "fan off")
    cli.done("templates", "retire", "kale")
    assert "Entry 2 can't be undone: template kale retired." in cli("undo").refusal
    assert "kale retired" in cli("strike", "2", "--why", "x").refusal
    assert [each["struck"] for each in cli("page", "--json").json["entries"]] == [False, False]


def test_a_change_that_goes_past_another_says_so(cli: CommandLine) -> None:
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "2", "--place", "Rack 1/Shelf 1")
    cli.now = "2026-04-06T08:00"
    said = cli.done("did", "light_on", "101").err
    assert said.startswith("Skipped on the way: weight off")
    assert "(101)" in said
    cli.done("did", "weight_off", "102")
    assert "Left out" not in cli.done("did", "light_on", "102").err


def test_begin_says_how_many_slots_a_shelf_may_have(cli: CommandLine) -> None:
    assert "1 to 100" in " ".join(cli.bare("begin", "--help").out.split())


def test_trays_batches_and_lots_are_listed_where_none_is_named(cli: CommandLine) -> None:
    assert cli.done("tray").out == "No trays are planned or growing.\n"
    cli.done("sow", "kale", "--trays", "2", "--lot", "KA 12", "--at", "07:00")
    cli.done("sow", "radish", "--trays", "1", "--lot", "RA 7", "--dry")
    cli.done("weigh", "103", "283", "--sure")
    assert cli.done("tray").out.splitlines()[1].split() == [
        "101",
        "kale",
        "1",
        "1",
        "weighted",
        "Rack",
        "1/Shelf",
        "1",
    ]
    assert [each["tray"] for each in cli.done("tray", "--json").json["trays"]] == ["101", "102"]
    assert [each["batch"] for each in cli.done("batch", "--json").json["batches"]] == ["1"]
    every = cli.done("batch", "--all", "--json").json["batches"]
    assert [(each["batch"], each["in_use"], each["cut_grams"]) for each in every] == [
        ("2", 0, 283.0), ("1", 2, 0.0),
    ]  # fmt: skip
    assert "KA 12" in cli.done("lot").out
    assert "RA 7" not in cli.done("lot").out
    assert [each["lot"] for each in cli.done("lot", "--all", "--json").json["lots"]] == [
        "RA 7",
        "KA 12",
    ]


def test_a_page_takes_a_span(cli: CommandLine) -> None:
    cli.done("sow", "kale", "--trays", "1", "--at", "yesterday 08:00")
    cli.done("jot", "101", "dry")
    assert cli.done("page").out.count("\n") == 3  # what was written today of yesterday is there too
    page = cli.done("page", "--from", "2026-04-12", "--to", "yesterday")
    assert page.out.splitlines()[0] == "Sun 12 Apr to Mon 13 Apr"
    assert "sown" in page.out
    assert "dry" not in page.out
    assert "Give --from" in cli("page", "--to", "today").wrong_usage
    assert "is before" in cli("page", "--from", "today", "--to", "yesterday").refusal


def test_a_jot_takes_further_trays_in_front_of_its_text(cli: CommandLine) -> None:
    cli.done("sow", "kale", "--trays", "4")
    assert cli.done("jot", "101", "103-104", "3", "dry", "edges").out == "jotted on 101 103 104\n"
    assert cli.done("page", "--json").json["entries"][-1]["note"] == "3 dry edges"
    assert cli.done("jot", "101", "102 dry").out == "jotted on 101\n"


def test_a_copy_is_named_by_its_bare_name(
    cli: CommandLine, monkeypatch: pytest.MonkeyPatch
) -> None:
    copies = cli.book.parent / "copies"
    copies.mkdir()
    (copies / "old.book").write_bytes(cli.book.read_bytes())
    cli.done("sow", "kale", "--trays", "1")
    monkeypatch.setenv("LOGBOOK_BOOK", str(cli.book))
    assert "No trays" in cli.bare("--book", "old.book", "tray").out
