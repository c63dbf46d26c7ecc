"""Holds and recalls as plain commands."""

from __future__ import annotations

import csv

import pytest

from tests.conftest import CommandLine


@pytest.fixture
def room(cli: CommandLine) -> CommandLine:
    """Two trays of one bag, one of them cut and packed for a customer."""
    cli.now = "2026-04-06T07:00"
    cli.done("sow", "radish", "--trays", "2", "--lot", "RA 12", "--place", "Rack 1/Shelf 1")
    cli.now = "2026-04-14T08:00"
    cli.done("weigh", "101", "300", "--sure")
    cli.done("customer", "add", "Bistro", "--contact", "01234")
    cli.done("order", "Bistro", "radish 2 x 50g today 20:00")
    cli.done("deliveries", "packed", "Bistro")
    return cli


def test_a_recall_as_lines_letters_csv_and_json(room: CommandLine) -> None:
    said = room.done("recall", "ra12")
    assert said.out.startswith("Recall from seed lot RA 12\nCall 1 customer: 2 packs, 100 g\n")
    assert "Local rules and licensed practice decide." in said.err
    assert "To: Bistro (01234)\n" in room.done("recall", "RA 12", "--letters").out
    (row,) = csv.DictReader(room.done("recall", "RA 12", "--csv").out.splitlines())
    assert (row["customer"], row["lot"], row["grams"]) == ("Bistro", "260414-RAD-1", "100.0")
    found = room.done("recall", "RA 12", "--json").json
    assert [each["contact"] for each in found["customers"]] == ["01234"]
    assert [each["tray"] for each in found["trays"]] == ["102"]


def test_a_practice_is_kept_with_how_long_it_took(room: CommandLine) -> None:
    assert "add --took MINUTES" in room("recall", "RA 12", "--practice").refusal
    said = room.done("recall", "RA 12", "--practice", "--took", "4", "--note", "by phone").out
    assert "practice from seed lot RA 12: 1 customer, 1 lot, 100 g in 4 min" in said
    assert '"by phone"' in room.done("recall").out
    assert room.done("recall", "--json").json["recalls"][0]["seconds"] == 240


def test_a_hold_names_all_it_is_on_and_its_release_too(room: CommandLine) -> None:
    assert room.done("hold", "102", "--why", "glass").out == "on hold: tray 102\n"
    said = room.done("hold", "day 2026-04-14", "--why", "a blade broke").out
    assert said == "on hold: pack lot 260414-RAD-1; in the cold store: 260414-RAD-1 (200 g)\n"
    assert "On hold: 102 (glass)." in room.done("round").out
    assert len(room.done("hold", "--json").json["holds"]) == 2
    assert "on hold" in room("weigh", "102", "250", "--sure").refusal
    assert room.done("release", "102", "--why", "swept").out == "released: tray 102\n"
    assert "Tray 102 is not on hold." in room("release", "102", "--why", "again").refusal
