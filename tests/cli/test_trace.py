"""From a bag to a kitchen's plate and back, by the commands of a day."""

from __future__ import annotations

import csv

import pytest

from tests.conftest import CommandLine

DAY = "2026-04-14"


@pytest.fixture
def room(cli: CommandLine) -> CommandLine:
    """A tray of a bag cut and weighed today; half of it is packed for a kitchen."""
    cli.now = "2026-04-04T08:00"
    cli.done("seed", "add", "field test", "RA 12", "1kg", "--supplier", "Hill farm")
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "RA 12")
    cli.now = f"{DAY}T08:00"
    cli.done("weigh", "101", "400", "--sure")
    cli.done("order", "Bistro", "field test 2 x 100g tue 18:00")
    cli.done("deliveries", "packed", "Bistro")
    return cli


def test_json_says_back_forward_and_grams_that_add_up(room: CommandLine) -> None:
    found = room.done("trace", "Bistro", DAY, "--json").json
    assert set(found) == {
        "root", "back", "forward", "grams_in", "grams_out", "grams_stock", "grams_waste",
        "grams_unaccounted", "customers", "may_have_got",
    }  # fmt: skip
    assert found["root"] == f"Bistro@{DAY}"
    assert (found["grams_in"], found["grams_out"]) == (200, 200)
    lot = found["back"][0]["code"]
    assert found["back"][-1] == {
        "what": "seed lot", "code": "RA 12", "day": "2026-04-04", "grams": 200,
        "words": "Hill farm, 1000 g",
    }  # fmt: skip
    customers = [{"customer": "Bistro", "lots": [lot], "grams": 200, "day": DAY}]
    assert found["customers"] == customers
    for code in (lot, "RA 12", "Hill farm", "101", "b1", f"pack lot {lot}"):
        seen = room.done("trace", code, "--json").json
        assert seen["customers"] == customers
        assert (seen["grams_in"], seen["grams_out"], seen["grams_stock"]) == (400, 200, 200)


def test_a_trace_reads_from_the_bag_to_the_kitchen(room: CommandLine) -> None:
    lines = room.done("trace", "hill farm").out.splitlines()
    assert lines[:5] == [
        "Supplier Hill farm",
        "Cut 400 g: 200 g went out, 200 g in stock",
        "Customers",
        "  Bistro, Tue 14 Apr: 200 g of 260414-FIE-1",
        "Seed lot RA 12: bought Sat 4 Apr, Hill farm, 1000 g",
    ]
    assert lines[-1] == (
        "Pack lot 260414-FIE-1: packed Tue 14 Apr, field test, best before Tue 21 Apr, 400 g"
    )


def test_csv_has_a_row_for_each_step(room: CommandLine) -> None:
    rows = list(csv.DictReader(room.done("trace", "RA 12", "--csv").out.splitlines()))
    assert [(row["way"], row["what"]) for row in rows if row["grams"] != "0.0"] == [
        ("root", "seed lot"), ("forward", "batch"), ("forward", "tray"), ("forward", "cut"),
        ("forward", "pack lot"), ("forward", "delivery"), ("forward", "stock"),
    ]  # fmt: skip
    assert rows[-2]["code"] == "Bistro"


def test_a_pack_tells_its_life(room: CommandLine) -> None:
    told = room.done("trace", "260414-FIE-1", "--life").out.splitlines()
    assert len(told) == 10
    assert told[1] == "seed: RA 12 (Hill farm, 1000 g, bought Sat 4 Apr)"
    assert "same seed: 1 tray growing; packs at Bistro" in told
    assert "ask about a pack lot" in room("trace", "RA 12", "--life").refusal


def test_a_tick_that_is_taken_back_leads_nowhere(room: CommandLine) -> None:
    room.done("undo")
    assert room.done("trace", "RA 12", "--json").json["customers"] == []
    assert "got nothing" in room("trace", "Bistro").refusal
