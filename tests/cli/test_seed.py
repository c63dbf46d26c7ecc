"""Seed lots on the command line: bought, sown from, counted, weighed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.conftest import CommandLine


def lots(cli: CommandLine) -> dict[str, Any]:
    return {each["lot"]: each for each in cli.done("seed", "--json").json["lots"]}


def test_a_bag_is_bought_sown_from_and_weighed(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "FT 1")
    assert lots(cli)["FT 1"]["left_grams"] is None
    cli.done("seed", "add", "field test", "FT 2", "1kg", "--price", "18", "--bought", "2026-04-01")
    cli.done("sow", "field test", "--dry", "--trays", "3", "--lot", "ft-2")
    mine = lots(cli)["FT 2"]
    assert (mine["left_grams"], mine["trays"], mine["price_per_kg"]) == (700, 3, 18)
    cli.done("undo", "3")
    assert lots(cli)["FT 2"]["left_grams"] == 1000
    cli.done("seed", "weigh", "FT 2", "0.9kg")
    assert lots(cli)["FT 2"]["left_grams"] == 900
    cli.done("undo")
    assert lots(cli)["FT 2"]["left_grams"] == 1000


def test_a_bag_is_put_right_by_an_entry_in_the_place_of_the_old_one(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "1kg", "--price", "18", "--supplier", "Hill farm")
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "FT 2")
    right = ("--weight", "900g", "--price", "17.10", "--treated", "--germination", "90%")
    said = cli.done("seed", "change", "ft-2", *right, "--why", "misread")
    assert "replaces entry" in said.out
    mine = lots(cli)["FT 2"]
    assert (mine["left_grams"], mine["price"], mine["supplier"]) == (700, 17.1, "Hill farm")
    assert (mine["treated"], mine["germination_percent"]) == (True, 90)
    assert "like that already" in cli("seed", "change", "FT 2", *right, "--why", "again").refusal
    cli.done("undo")
    assert lots(cli)["FT 2"]["left_grams"] == 800


def test_of_several_bags_the_one_that_is_named_is_put_right(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    for day, grams in (("2026-03-01", "1kg"), ("2026-04-01", "500g"), ("2026-04-02", "300g")):
        cli.done("seed", "add", "field test", "FT 2", grams, "--bought", day)
    wrong = ("seed", "change", "FT 2", "--weight", "700g", "--why", "misread")
    assert "Sun 1 Mar (entry" in cli(*wrong, "--bag", "2026-03-05").refusal
    said = cli.done(*wrong, "--bag", "2026-03-01").err
    assert "Its bag was changed, bought on Sun 1 Mar" in said
    assert lots(cli)["FT 2"]["left_grams"] == 1500
    cli.done(
        "seed",
        "change",
        "FT 2",
        "--bought",
        "2026-04-01",
        "--why",
        "same day",
        "--bag",
        "2026-04-02",
    )
    refused = cli(*wrong, "--bag", "2026-04-01").refusal
    entry = refused.rpartition("entry ")[2].partition(")")[0]
    cli.done(*wrong, "--bag", entry)


def test_seed_runs_out_at_the_pace_of_its_use_where_nothing_is_planned(cli: CommandLine) -> None:
    """Four weeks in which 2 × 200 g were sown: 100 g a week, so 600 g last six weeks."""
    cli.now = "2026-04-01T08:00"
    cli.done("seed", "add", "field test", "FT 2", "1kg")
    for cli.now in ("2026-04-01T08:00", "2026-04-15T08:00"):
        cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "FT 2")
    cli.now = "2026-04-29T08:00"
    (pace,) = cli.done("seed", "--json").json["paces"]
    assert (pace["grams_per_week"], pace["have_grams"]) == (100, 600)
    assert pace["runs_out"] == "2026-06-10"
    assert "at the pace of the last 8 weeks" in cli.done("seed").out
    assert cli.done("shopping", "--json").json["paces"] == [pace]
    assert "nothing" in cli.done("shopping").out
    said = "at 100 g a week it lasts until Wed 10 Jun: order by Wed 3 Jun"
    assert said in " ".join(cli.done("shopping", "--weeks", "6").out.split())
    assert "order today" in " ".join(cli.done("shopping", "--lead", "60").out.split())


def test_several_bags_give_each_their_own_part(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    for lot in ("A 1", "B 2", "C 3"):
        cli.done("seed", "add", "field test", lot, "500g")
    cli.done("sow", "field test", "--dry", "--trays", "4", "--lot", "A 1 = 120 g + B 2 = 280 g")
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "C 3", "--at", "Fri 08:00")
    left = {name: each["left_grams"] for name, each in lots(cli).items()}
    assert left == {"A 1": 380, "B 2": 220, "C 3": 500}


def test_seedlings_are_counted_and_held_against_the_label(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "1kg", "--germination", "95%", "--untreated")
    said = cli.done("seed", "test", "ft2", "400", "340")
    assert said.out.startswith("seed lot FT 2: 340 of 400 up: 85 %, likely 81 to 88 %")
    assert "below the 95 % on the label" in said.err
    assert lots(cli)["FT 2"]["counted"]["germination_percent"] == 85


def test_nonsense_is_a_sentence_and_nothing_is_written(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "1kg")
    assert (
        'There is no seed lot "FT 9". Did you mean "FT 2"?'
        in cli("seed", "weigh", "FT 9", "1kg").refusal
    )
    assert "41 came up of 40 sown?" in cli("seed", "test", "FT 2", "40", "41").refusal
    assert (
        "to today"
        in cli("seed", "add", "field test", "FT 3", "1kg", "--bought", "2026-04-15").refusal
    )
    assert "more than 0 g" in cli("seed", "add", "field test", "FT 3", "0").refusal
    assert list(lots(cli)) == ["FT 2"]


def test_a_sowing_without_a_lot_draws_on_the_bag_that_was_bought_first(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "NEW", "1kg", "--bought", "2026-04-10")
    cli.done("seed", "add", "field test", "OLD", "350g", "--bought", "2026-04-01")
    said = cli.done("sow", "field test", "--dry", "--trays", "3")
    assert "Seed lot OLD is used, as the oldest bag" in said.err
    cli.done("sow", "field test", "--dry", "--trays", "2")
    left = {name: each["left_grams"] for name, each in lots(cli).items()}
    assert left == {"NEW": 850}  # the other is used up
    assert cli.done("batch", "2", "--json").json["lot"] == "OLD + NEW"
    cli.done("sow", "field test", "--dry", "--trays", "1", "--lot", "none")
    assert lots(cli)["NEW"]["left_grams"] == 850


def test_a_plan_draws_when_it_is_soaked_or_sown(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "1kg")
    cli.done("sow", "field test", "--trays", "2", "--at", "2026-04-15T08:00")
    assert lots(cli)["FT 2"]["left_grams"] == 1000
    cli.now = "2026-04-15T08:00"
    assert "Seed lot FT 2 is used" in cli.done("did", "sow", "101-102", "--dry").err
    assert lots(cli)["FT 2"]["left_grams"] == 800


def test_more_than_there_is_is_asked_about_and_nothing_is_lost(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "150g", "--treated")
    said = cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "FT 2").err
    assert "Seed lot FT 2 has 150 g left and this takes 200 g: is that right?" in said
    assert "treated seed must not be eaten" in said
    assert lots(cli)["FT 2"]["left_grams"] == -50
    cli.done("seed", "weigh", "FT 2", "0")
    assert lots(cli) == {}
    (every,) = cli.done("seed", "--all", "--json").json["lots"]
    assert (every["left_grams"], every["drawn_grams"]) == (0, 200)


def test_what_sowings_need_and_what_to_buy_by_when(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "350g", "--price", "7", "--supplier", "Hill farm")
    cli.done("seed", "add", "field test", "FT 3", "900g", "--treated")  # nobody sows that
    for at in ("2026-04-20T08:00", "2026-04-28T08:00"):
        cli.done("sow", "field test", "--trays", "2", "--at", at)
    cli.done("sow", "kale", "--trays", "1", "--at", "2026-04-20T08:00")
    cli.done("sow", "field test", "--trays", "9", "--at", "2026-06-20T08:00")  # beyond the weeks
    first, kale = cli.done("seed", "--json").json["seed"]
    assert first["crop"] == "field test"
    assert (first["need_grams"], first["have_grams"], first["runs_out"]) == (400, 350, "2026-04-28")
    assert (first["buy_grams"], first["buy_by"], first["cost"]) == (50, "2026-04-21", 1)
    assert (kale["have_grams"], kale["buy_by"]) == (None, None)
    assert kale["buy_grams"] == kale["need_grams"] > 0
    said = cli.done("shopping", "--lead", "20").out
    assert "50 g  field test seed, 350 g left, runs out Tue 28 Apr: order today" in said
    assert "last from Hill farm, about 1.00" in " ".join(said.split())
    assert "order by Tue 21 Apr" in cli.done("week").out
    # and: a bag that comes in settles it
    cli.done("seed", "add", "field test", "FT 4", "1kg")
    assert cli.done("seed", "--json").json["seed"][0]["buy_grams"] == 0
    assert "field test" not in cli.done("shopping").out


def test_the_week_and_the_list_as_pages(cli: CommandLine, tmp_path: Path) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("sow", "field test", "--trays", "2", "--at", "2026-04-15T08:00")
    week = cli.done("week", "--columns", "42").out
    assert max(map(len, week.splitlines())) <= 42
    assert "08:00  sow: field test 101 102" in week
    for command in ("week", "shopping"):
        page = tmp_path / f"{command}.html"
        cli.done(command, "--html", str(page))
        cli.done(command, "--html", str(page))  # written anew over its own
        text = page.read_text()
        assert text.startswith("<!doctype html>")
        assert "http" not in text  # it needs nothing else
        assert "field test seed" in text
        page.write_text("mine")
        assert "already a file" in cli(command, "--html", str(page)).refusal


def test_planned_trays_of_two_batches_sown_together_draw_on_the_bag(cli: CommandLine) -> None:
    cli.now = "2026-04-14T08:00"
    cli.done("seed", "add", "field test", "FT 2", "1kg")
    for hour in ("09:00", "10:00"):
        cli.done("sow", "field test", "--dry", "--trays", "2", "--plan", "--at", hour)
    cli.done("did", "sow", "101-104", "--dry")
    mine = lots(cli)["FT 2"]
    assert (mine["left_grams"], mine["trays"]) == (600, 4)
