"""The commands in the spellings that scripts rely on."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.actions.book import open_book
from logbook.actions.trays.tray_page import tray_page
from tests.conftest import CommandLine
from tests.room import FIELD_TOML


def test_a_book_from_its_first_day_to_the_scale(empty_cli: CommandLine, tmp_path: Path) -> None:
    cli = empty_cli
    crop = tmp_path / "crop.toml"
    crop.write_text(FIELD_TOML)

    cli.now = "2026-04-01T08:00"
    made = cli.done("begin", "--name", "Cellar", "--zone", "Europe/London", "--racks", "2",
                    "--shelves", "4", "--slots", "4")  # fmt: skip
    assert made.out.splitlines()[0] == (
        f"Cellar: 2 racks of 4 shelves of 4 slots, times in Europe/London. The book is {cli.book}."
    )
    assert cli.done("templates", "put", str(crop)).out.startswith(
        "field test: version 1 is written."
    )
    assert "field test (version 1)" in cli.done("templates", "show", "field test").out
    (listed,) = [
        row for row in cli.done("templates").out.splitlines() if row.startswith("field test")
    ]
    assert listed.split()[2:4] == ["1", "100"]

    sown = cli.done("sow", "field test", "--dry", "--trays", "4", "--at", "2026-04-01T08:00", "--place",
                    "Rack 1/Shelf 2", "--numbers", "101-104", "--lot", "L-77", "--grams", "28")  # fmt: skip
    assert "batch 1 sown: field test: 4 trays 101–104" in sown.out
    assert "seed 112 g (28 g per tray)" in sown.out
    assert "weight off, lid on Sun 08:00" in sown.out

    cli.now = "2026-04-02T07:30"
    assert cli.done("did", "water", "101-104", "--amount", "300ml").out.startswith(
        "water: 101–104, 07:30"
    )
    assert (
        cli.done("did", "look", "101", "103-104", "--at", "07:20").out
        == "look: 101 103 104, 07:20\n"
    )
    assert cli.done("did", "look", "102").code == 0
    assert (
        cli.done("round").out.splitlines()[0]
        == "Thu 2 Apr  07:30  rehearsal, the round: 0 stops, 0 chores, 0 late"
    )

    cli.now = "2026-04-05T08:00"
    assert cli.done("did", "weight_off", "101 102", "--at", "2026-04-05T07:50+01:00").code == 0
    assert cli.done("skip", "weight_off", "103-104", "--why", "not up yet").code == 0
    looked = cli.done("look", "101", "--emerged", "90", "--height", "4cm", "--mould", "none",
                      "--ready-sign", "tall", "--note", "even")  # fmt: skip
    assert looked.out == "look: 101: 90 % emerged, 4 cm high, no mould, ready sign: tall\n"
    assert cli.done("jot", "101 103-104", "smells of cress").out == "jotted on 101 103 104\n"
    assert (
        cli.done("move", "103", "104", "Rack 2/Shelf 1").out == "moved 103 104 to Rack 2/Shelf 1\n"
    )
    assert cli.done("discard", "104", "--why", "fell").out == "discarded: 104\n"
    cli.now = "2026-04-06T08:00"
    assert cli.done("did", "light_on", "101-102").code == 0
    assert cli.done("did", "light_on", "103").code == 0

    cli.now = "2026-04-08T20:00"
    assert "ready: 101, field test, day 8" in cli.done("due", "--days", "3").out
    assert cli.done("weigh", "101", "594", "--sure", "--at", "19:00").out.startswith(
        "101  594 g, 21.21 g per g of seed"
    )
    assert "part cut, stays on the rack" in cli.done("weigh", "102", "120", "--sure", "--part").out
    assert "cut 594 g" in cli.done("page").out
    assert "smells of cress" in cli.done("page", "--day", "2026-04-05").out
    assert "cut" in cli.done("round", "--day", "2026-04-08").out


def test_more_of_the_same_kind(cli: CommandLine) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "2")
    assert "would sow" in cli.done("sow", "pea", "--trays", "2", "--dry-run").out
    assert (
        "batch 2 planned" in cli.done("sow", "kale", "--trays", "1", "--at", "2026-04-20T08:00").out
    )
    assert "batch 3 planned" in cli.done("sow", "kale", "--trays", "1", "--plan").out
    assert (
        "batch 4 sown" in cli.done("sow", "kale", "--numbers", "7 9", "--at", "yesterday 18:00").out
    )
    assert cli.done("weigh", "101-102", "1.1", "kg", "--sure").out.count("shared out") == 2
    asked = cli("undo").refusal
    assert "cut 1100 g together, trays 101 102, today 07:42. `logbook undo" in asked
    assert "undone: cut" in cli.done("undo", asked.split("undo ")[1].split("`")[0]).out
    assert "Tray 101: field test, growing, day 1" in cli.done("tray", "101").out
    assert "Batch 1: field test version 1" in cli.done("batch", "1").out
    assert "Rack 1" in cli.done("racks").out
    cli.done("jot", "room", "a moth")
    cli.done("jot", "Rack 1/Shelf 2", "lamp hums")
    cli.done("jot", "101", "-3 °C outside")
    assert "-3 °C outside" in cli.done("search", "°c").out
    entry = cli("page", "--json").json["entries"][-1]["id"]
    cli.done("strike", str(entry), "--why", "typo")
    cli.done("templates", "copy", "basil", "thai basil")
    cli.done("templates", "retire", "basil")
    assert "\nbasil:" not in cli.done("templates").out
    cli.done("templates", "retire", "basil", "--back")
    cli.done("places", "add", "Window", "--kind", "rack")
    cli.done("places", "add", "Sill", "--under", "Window", "--slots", "6", "--lamps", "06:00-22:00")
    cli.done("places", "change", "Window/Sill", "--slots", "8", "--lamps", "none")
    cli.done("places", "change", "Window", "--up")
    (sill,) = [row for row in cli.done("places").out.splitlines() if row.startswith("Window/Sill")]
    assert sill.split()[1:] == ["8", "0", "8", "dark"]
    cli.done("places", "retire", "Window")


def test_a_template_printed_as_toml_can_be_put_again(cli: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "again.toml"
    printed = cli.done("templates", "show", "field test", "--toml").out
    path.write_text(printed)
    assert "nothing was written" in cli.done("templates", "put", str(path)).out
    path.write_text(printed.replace("seed_grams = 100", "seed_grams = 101"))
    assert cli.done("templates", "put", str(path)).out.startswith(
        "field test: version 2 is written."
    )
    one, two = (cli.done("templates", "show", "field test", "--toml").out, path.read_text())
    assert one == two


def test_the_book_comes_from_the_environment(
    cli: CommandLine, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOGBOOK_BOOK", str(cli.book))
    monkeypatch.setenv("LOGBOOK_BY", "JM")
    assert (
        cli.bare("--now", "2026-04-14T07:42", "sow", "field test", "--dry", "--trays", "1").code
        == 0
    )
    book = open_book(cli.book)
    assert {line.by for line in tray_page(book, 101).past} == {"JM"}
    assert cli.bare("--by", "AB", "jot", "101", "hello").code == 0
    assert tray_page(book, 101).past[-1].by == "AB"


def test_without_book_or_environment_it_is_in_the_data_folder(
    empty_cli: CommandLine, tmp_path: Path
) -> None:
    assert empty_cli.bare("begin", "--zone", "UTC", "--racks", "1").code == 0
    assert (tmp_path / "xdg" / "data" / "growroom-logbook" / "room.book").is_file()
    assert empty_cli.bare("round", "--brief").code == 0


@pytest.mark.parametrize(
    ("at", "wall"),
    [
        ("07:30", "2026-04-14T07:30:00+01:00"),
        ("2026-04-13T22:00", "2026-04-13T22:00:00+01:00"),
        ("2026-04-13T22:00Z", "2026-04-13T23:00:00+01:00"),
        ("2026-03-20T22:00-05:00", "2026-03-21T03:00:00+00:00"),
        ("yesterday 18:00", "2026-04-13T18:00:00+01:00"),
    ],
)
def test_when_is_iso_8601_or_a_time_of_today(cli: CommandLine, at: str, wall: str) -> None:
    assert cli.done("sow", "kale", "--trays", "1", "--at", at, "--json").json["sow_at"] == wall


def test_us_units_are_read_and_written(empty_cli: CommandLine) -> None:
    cli = empty_cli
    cli.done("begin", "--zone", "America/Chicago", "--units", "us")
    sown = cli.done("sow", "kale", "--trays", "2", "--grams", "40").out
    assert "seed 2.82 oz (1.41 oz per tray)" in sown
    weighed = cli.done("weigh", "101", "7", "--sure", "--json").json
    assert weighed["grams"] == 198.4
    assert "1.5 in high" in cli.done("look", "102", "--height", "1.5").out
    assert (
        "10 floz each"
        in cli.done("did", "water", "102", "--amount", "10").out + cli.done("page").out
    )


def test_a_time_that_is_said_is_the_time_of_what_is_done(cli: CommandLine) -> None:
    """Also when it lies before what is written: a rehearsal of last month, say."""
    cli.done("sow", "kale", "--trays", "1")
    cli.now = "2026-03-02T10:00"
    sown = cli.done("sow", "field test", "--dry", "--trays", "1", "--json").json
    assert sown["sow_at"].startswith("2026-03-02T10:00")
    cli.now = "2026-03-03T08:00"
    cli.done("did", "water", sown["trays"][0])
    days = [entry["at"][:10] for entry in cli.done("page", "--json").json["entries"]]
    assert days == ["2026-03-03"]
