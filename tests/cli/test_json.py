"""JSON that scripts rely on: keys, types, offsets; nothing else on standard output."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from tests.conftest import CommandLine

CHORES = {
    "water_look",
    "soak", "sow", "weight_on", "weight_off", "lid_on", "lid_off", "light_on", "light_off",
    "water", "look", "cut",
}  # fmt: skip


def aware(text: Any) -> datetime:
    """Read an ISO 8601 moment that must carry its offset."""
    assert isinstance(text, str)
    at = datetime.fromisoformat(text)
    assert at.utcoffset() is not None
    return at


def sow_field(cli: CommandLine, at: str, *more: str) -> Any:
    cli.now = at
    soak = () if "--soaked-at" in more else ("--dry",)
    return cli.done("sow", "field test", "--trays", "4", "--json", *soak, *more).json


def test_sow(cli: CommandLine) -> None:
    sown = sow_field(cli, "2026-04-01T08:00", "--soaked-at", "04:00")
    assert sown["batch"] == "1"
    assert sown["trays"] == ["101", "102", "103", "104"]
    assert sown["soak_at"] == "2026-04-01T04:00:00+01:00"
    assert sown["sow_at"] == "2026-04-01T08:00:00+01:00"
    assert sown["changes"] == [
        {"chore": "weight_off", "at": "2026-04-05T08:00:00+01:00"},
        {"chore": "light_on", "at": "2026-04-06T08:00:00+01:00"},
    ]
    assert sown["cut"] == {
        "from": "2026-04-08T08:00:00+01:00",
        "best": "2026-04-08T20:00:00+01:00",
        "by": "2026-04-10T08:00:00+01:00",
    }
    assert sown["seed_grams"] == 400


def test_sow_across_a_clock_change_keeps_elapsed_time(cli: CommandLine) -> None:
    sown = sow_field(cli, "2026-03-26T08:00")
    assert [each["at"] for each in sown["changes"]] == [
        "2026-03-30T09:00:00+01:00",
        "2026-03-31T09:00:00+01:00",
    ]


def test_sow_without_a_soak_has_none(cli: CommandLine) -> None:
    assert cli.done("sow", "kale", "--trays", "1", "--json").json["soak_at"] is None


def test_round(cli: CommandLine) -> None:
    sow_field(cli, "2026-04-01T08:00", "--place", "Rack 1/Shelf 2")
    cli.now = "2026-04-05T09:00"
    found = cli.done("round", "--json").json
    assert found["day"] == "2026-04-05"
    chores = {each["chore"]: each for each in found["chores"]}
    assert set(chores) == {"weight_off", "water_look"} <= CHORES
    change = chores["weight_off"]
    assert change["trays"] == ["101", "102", "103", "104"]
    assert (change["batch"], change["crop"], change["place"]) == (
        "1",
        "field test",
        "Rack 1/Shelf 2",
    )
    assert (change["day_number"], change["stage"]) == (5, "weighted")
    assert change["due_at"] == "2026-04-05T08:00:00+01:00"
    assert change["overdue"] is True
    assert change["late"] is True
    cli.now = "2026-04-05T08:59"
    soon = cli.done("round", "--json").json["chores"]
    assert [(each["overdue"], each["late"]) for each in soon if each["chore"] == "weight_off"] == [
        (True, False)
    ]
    ahead = cli.done("round", "--day", "2026-04-06", "--json").json
    assert ahead["day"] == "2026-04-06"
    assert {(each["chore"], each["day_number"], each["stage"]) for each in ahead["chores"]} == {
        ("light_on", 6, "blackout")
    }
    for each in ahead["chores"]:
        aware(each["due_at"])


def test_an_empty_round(cli: CommandLine) -> None:
    found = cli.done("round", "--json").json
    assert (found["day"], found["chores"], found["late"]) == ("2026-04-14", [], 0)
    assert cli.done("round", "--json", "--if-any").json["chores"] == []


def test_a_planned_batch_on_the_round(cli: CommandLine) -> None:
    sow_field(cli, "2026-04-01T08:00", "--at", "2026-04-03T10:00")
    (soak, sow) = cli.done("round", "--day", "2026-04-03", "--json").json["chores"]
    assert (soak["chore"], soak["due_at"]) == ("soak", "2026-04-03T06:00:00+01:00")
    assert (sow["chore"], sow["due_at"]) == ("sow", "2026-04-03T10:00:00+01:00")
    assert {soak["day_number"], sow["day_number"]} == {1}
    assert soak["place"] == "bench"


def test_due(cli: CommandLine) -> None:
    sow_field(cli, "2026-04-01T08:00")
    assert cli.done("due", "--days", "0", "--json").json["trays"] == []
    for now, days, state in (
        ("2026-04-01T08:00", "7", "soon"),
        ("2026-04-06T08:00", "3", "soon"),
    ):
        cli.now = now
        assert {
            each["state"] for each in cli.done("due", "--days", days, "--json").json["trays"]
        } == {state}
    cli.done("did", "weight_off", "101-104", "--at", "2026-04-05T08:00")
    cli.done("did", "light_on", "101-104")
    for now, state in (("2026-04-08T09:00", "ready"), ("2026-04-10T08:01", "late")):
        cli.now = now
        tray = cli.done("due", "--json").json["trays"][0]
        assert (tray["tray"], tray["crop"], tray["state"]) == ("101", "field test", state)
        assert tray["expected_grams"] == 500
        assert aware(tray["from"]) < aware(tray["best"]) < aware(tray["by"])
        assert tray["best"] == "2026-04-08T20:00:00+01:00"
    assert tray["day_number"] == 10


def test_weigh(cli: CommandLine) -> None:
    sow_field(cli, "2026-04-01T08:00")
    cli.now = "2026-04-08T20:00"
    one = cli.done("weigh", "101", "594", "--sure", "--json").json
    assert {key: one[key] for key in ("tray", "grams", "grams_per_gram_seed", "day_number")} == {
        "tray": "101",
        "grams": 594,
        "grams_per_gram_seed": 5.94,
        "day_number": 8,
    }
    several = cli.done("weigh", "102 103", "1001", "--sure", "--json").json["trays"]
    assert [(each["tray"], each["grams"], each["shared"]) for each in several] == [
        ("102", 500.5, True), ("103", 500.5, True),
    ]  # fmt: skip


def test_weigh_without_seed_has_no_ratio(cli: CommandLine, tmp_path: Any) -> None:
    path = tmp_path / "x.toml"
    path.write_text('crop = "mix"\n[[stages]]\nname = "x"\nlight = "lit"\n[cut]\nbest = "1d"\n')
    cli.done("templates", "put", str(path))
    cli.done("sow", "mix", "--trays", "1")
    assert cli.done("weigh", "101", "50", "--sure", "--json").json["grams_per_gram_seed"] is None
    assert cli.done("due", "--json").json["trays"] == []


def test_page(cli: CommandLine) -> None:
    sow_field(cli, "2026-04-01T08:00")
    cli.done("jot", "101 103", 'a "quote" [/] 🌱')
    cli.done("jot", "room", "struck soon")
    cli.done("undo")
    found = cli.done("page", "--json").json
    assert found["day"] == "2026-04-01"
    assert [each["kind"] for each in found["entries"]] == ["sow", "jot", "jot", "strike"]
    jot = found["entries"][1]
    assert isinstance(jot["id"], int)
    assert (jot["trays"], jot["by"], jot["note"], jot["struck"]) == (
        ["101", "103"], "tester", 'a "quote" [/] 🌱', False,
    )  # fmt: skip
    assert aware(jot["at"])
    assert found["entries"][2]["struck"] is True
    assert cli.done("page", "--kind", "jot", "--tray", "103", "--json").json["entries"] == [jot]
    assert cli.done("page", "--crop", "sunflower", "--json").json["entries"] == []


def test_entries_of_air_and_light_carry_their_numbers(cli: CommandLine) -> None:
    cli.done("air", "21.44", "63", "--place", "Rack 1/Shelf 1")
    cli.done("light", "--place", "Rack 1/Shelf 1", "--ppfd", "180", "200", "160")
    cli.done("jot", "room", "warm")
    air, light, jot = cli.done("page", "--json").json["entries"]
    numbers = ["air_readings", "celsius", "max_celsius", "humidity_percent", "min_humidity_percent"]
    assert [air[key] for key in numbers] == [1, 21.44, 21.44, 63, 63]
    numbers = ["mean_ppfd", "min_ppfd", "max_ppfd", "light_spots"]
    assert [light[key] for key in numbers] == [180, 160, 200, 3]
    assert (air["mean_ppfd"], light["celsius"], jot["humidity_percent"]) == (None, None, None)


def test_templates_and_places(cli: CommandLine) -> None:
    shown = cli.done("templates", "show", "field test", "--json").json
    assert (shown["name"], shown["version"], shown["soak"], shown["guess"]) == (
        "field test",
        1,
        "4h",
        False,
    )
    assert shown["stages"][0]["length"] == "4d"
    names = [each["name"] for each in cli.done("templates", "--json").json["templates"]]
    assert len(names) >= 15
    assert names == sorted(names)
    places = cli.done("places", "--json").json["places"]
    assert {"place": "Rack 1/Shelf 1", "kind": "shelf", "slots": 4, "used": 0, "free": 4,
            "lamp_on": "06:00", "lamp_off": "22:00", "retired": False} in places  # fmt: skip


def test_the_other_pages_are_json_too(cli: CommandLine) -> None:
    sow_field(cli, "2026-04-01T08:00")
    cli.done("jot", "101", "pale")
    assert cli.done("tray", "101", "--json").json["status"] == "growing"
    assert cli.done("batch", "1", "--json").json["cut_grams"] == 0
    assert cli.done("racks", "--json").json["racks"][0]["rack"] == "Rack 1"
    assert cli.done("search", "pale", "--json").json["entries"][0]["trays"] == ["101"]


def test_standard_output_stays_json_when_there_is_more_to_say(cli: CommandLine) -> None:
    full = cli.done("sow", "kale", "--trays", "6", "--place", "Rack 1/Shelf 1", "--json")
    assert full.json["batch"] == "1"
    assert "has room for only 4 of the 6 trays" in full.err
    odd = cli("weigh", "101", "5940", "--json").refusal
    assert "times the expected 200 g: is that right? Nothing is written; add --sure" in odd
    assert "Tray 101: not due before Wed 22 Apr 07:42, still covered (weighted)." in odd
    assert cli.done("weigh", "101", "5940", "--sure", "--json").json["grams"] == 5940
    mould = cli.done("look", "102", "--mould", "spot")
    assert mould.out == "look: 102: a spot of mould\n"
    assert mould.err.startswith("Do not sell or taste")
