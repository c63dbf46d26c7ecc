"""`logbook label` and `tape`: text, sheets, code squares, allergens, and what is refused."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
import zxingcpp

from logbook.growing.labels.sheets import EDGE, GRIDS, PAPERS, Grid, code_path, grid_named, placed
from logbook.growing.labels.sticker import Line, Sticker
from logbook.text import Refused
from tests.conftest import CommandLine

MIX = "1 radish + 1 mustard + 2 pea shoots"


@pytest.fixture
def farm(cli: CommandLine) -> CommandLine:
    """A room with a maker and a mix."""
    cli.now = "2026-04-14T12:00"
    cli.done("room", "--maker", "Hill Farm", "--address", "4 Mill Lane; 9 Marsh End")
    cli.done("mix", "put", "Mild mix", MIX)
    return cli


def test_a_label_says_all_that_it_must(farm: CommandLine) -> None:
    """In the EU or the UK the allergens are in capitals (Regulation (EU) No 1169/2011, Article 21)."""
    made = farm.done(
        "label", "mild mix", "--lot", "0414-MIL-1", "--size", "80g", "--organic", "XX-000"
    )
    assert made.out.splitlines() == [
        "Mild mix",
        "pea shoots, radish, mustard",
        "80 g, lot 0414-MIL-1",
        "packed 14 Apr 2026,",
        "best before 21 Apr 2026",
        "Contains: MUSTARD",
        "XX-000",
        "Keep at 5 °C or below",
        "Hill Farm, 4 Mill Lane, 9 Marsh",
        "End",
    ]
    told = farm.done("label", "mild mix", "--lot", "x", "--json").json
    assert told["allergens"] == ["mustard"]
    assert "Annex II" in told["allergen_law"]
    assert told["gs1_elements"] == ""
    (mix,) = farm.done("mix", "list", "--json").json["mixes"]
    assert mix["allergens"] == ["mustard"]
    assert farm.done("mix", "list").out.endswith("25 % mustard; contains mustard\n")
    narrow = farm.done("label", "radish", "--lot", "x", "--columns", "24").out
    assert "net ________, lot x" in narrow.replace("\n", " ")
    assert max(map(len, narrow.splitlines())) <= 24


def test_the_shortest_keeping_of_a_mix_counts_and_its_day_may_be_said(farm: CommandLine) -> None:
    farm.done("mix", "put", "Soft mix", "1 radish + 1 basil")
    label = ("label", "soft mix", "--lot", "x", "--json")
    assert farm.done(*label, "--packed", "2026-04-13").json["best_before"] == "2026-04-18"
    assert farm.done(*label, "--best-before", "16 Apr").json["best_before"] == "2026-04-16"


def test_a_lot_by_its_code_knows_its_crop_and_days(farm: CommandLine) -> None:
    farm.done("sow", "mustard", "--trays", "1", "--at", "2026-04-04T12:00")
    farm.done("weigh", "101", "150", "--sure")
    told = farm.done("label", "260414-mus-1", "--size", "50g", "--json").json
    assert (told["name"], told["lot"], told["allergens"]) == (
        "mustard",
        "260414-MUS-1",
        ["mustard"],
    )
    assert (told["packed_on"], told["best_before"]) == ("2026-04-14", "2026-04-21")
    assert farm("label", "260414-MUS-2").refusal.startswith(
        'No pack lot has the code "260414-MUS-2". There is no crop template'
    )
    farm.done("hold", "101", "--why", "smells")
    assert (
        "on hold, so it may not go out: tray 101@2026-04-04: smells"
        in farm.done("label", "260414-MUS-1").err
    )
    weight = farm.done("page", "--kind", "weigh", "--json").json["entries"][0]["id"]
    farm.done("strike", str(weight), "--why", "other tray")
    assert "is empty: what went into it was struck out" in farm("label", "260414-MUS-1").refusal


def test_a_mixed_lot_has_the_crops_that_went_into_it(farm: CommandLine) -> None:
    for number, crop in (("101", "mustard"), ("102", "radish")):
        farm.done("sow", crop, "--trays", "1", "--at", "2026-04-04T12:00")
        farm.done("weigh", number, "200", "--sure")
    farm.done("mix", "put", "hot", "2 radish + 1 mustard")
    farm.done("customer", "add", "Bistro", "--kind", "kitchen")
    farm.done("order", "Bistro", "hot 4 x 50g wed")
    farm.done("deliveries", "packed", "Bistro")
    farm.done("mix", "put", "hot", "2 radish + 1 kale")
    told = farm.done("label", "260414-HOT-1", "--json").json
    assert told["parts"] == ["radish", "mustard"]
    assert told["allergens"] == ["mustard"]


def test_a_lot_of_organic_seed_alone_is_marked_while_the_certificate_holds(
    farm: CommandLine,
) -> None:
    farm.done("seed", "add", "radish", "ORG-1", "1kg", "--organic")
    for number, lot in (("101", "ORG-1"), ("102", "PLAIN")):
        crop = "radish" if lot == "ORG-1" else "kale"
        farm.done("sow", crop, "--trays", "1", "--lot", lot, "--at", "2026-04-14T11:00")
        farm.done("weigh", number, "200", "--sure")
    assert farm.done("label", "260414-RAD-1", "--json").json["organic"] == ""
    farm.done("room", "--certificate", "XX-000, Some Body")
    assert "Organic: XX-000, Some Body\n" in farm.done("label", "260414-RAD-1").out
    assert farm.done("label", "260414-KAL-1", "--json").json["organic"] == ""
    told = farm.done("label", "260414-KAL-1", "--organic", "XX-000")
    assert told.err == "By the book, not all seed of this lot is organic.\n"


def test_a_live_tray_has_no_weight_and_is_not_kept_cold(farm: CommandLine) -> None:
    farm.done("sow", "mustard", "--trays", "1", "--at", "2026-04-04T12:00")
    farm.done("customer", "add", "Bistro", "--kind", "kitchen")
    farm.done("order", "Bistro", "mustard 1 tray wed")
    farm.done("look", "101", "--ready-sign", "seen")
    farm.done("deliveries", "packed", "Bistro")
    said = farm.done("label", "260414-MUS-1", "--columns", "80").out
    assert "live tray, lot 260414-MUS-1" in said
    assert "°C" not in said


def test_allergens_that_nobody_said_stop_a_label_until_they_are_said(farm: CommandLine) -> None:
    farm.done("templates", "copy", "radish", "clover")
    farm.done("templates", "allergens", "clover", "mustard, celery")
    assert "Contains: CELERY and MUSTARD" in farm.done("label", "clover", "--lot", "x").out
    assert farm.done("templates", "allergens", "clover").out == (
        "clover: celery (by law in the EU and the UK); mustard (by law in the EU and the UK)\n"
    )
    assert 'Did you mean "mustard"' in farm("templates", "allergens", "clover", "mustad").refusal


def test_a_number_of_its_own_is_checked_and_put_into_elements(farm: CommandLine) -> None:
    """629104150021 has check digit 3 (gs1.org)."""
    label = ("label", "radish", "--lot", "0414-RAD-1")
    refused = farm(*label, "--gtin", "6291041500214").refusal
    assert "with 3 it would be 6291041500213" in refused
    elements = "(01)06291041500213(13)260414(15)260421(10)0414-RAD-1"
    assert elements in farm.done(*label, "--gtin", "6291041500213", "--columns", "80").out
    farm.done("room", "--gs1-prefix", "6291041")
    assert farm.done(*label, "--gtin", "50021", "--json").json["gs1_elements"] == elements


def test_what_is_missing_or_wrong_is_said(farm: CommandLine, tmp_path: Path) -> None:
    page = tmp_path / "l.html"
    assert "isn't here" not in farm("label", "nothing", "--lot", "x").refusal
    assert "Which lot?" in farm("label", "radish").refusal
    assert (
        "before the day of packing"
        in farm(
            "label", "radish", "--lot", "x", "--packed", "2026-04-20", "--best-before", "2026-04-19"
        ).refusal
    )
    assert (
        "use 2x5, 2x7, 3x10"
        in farm(
            "label",
            "radish",
            "--lot",
            "x",
            "--html",
            str(page),
            "--paper",
            "letter",
            "--grid",
            "3x7",
        ).refusal
    )
    assert "at least two lines" in farm("room", "--address", "Marsh End").refusal
    farm.done("room", "--address", "")
    assert "full address; `logbook room --maker" in farm("label", "radish", "--lot", "x").refusal
    assert not page.exists()


def test_a_name_that_is_too_long_is_refused_with_larger_labels(
    farm: CommandLine, tmp_path: Path
) -> None:
    farm.done("templates", "copy", "radish", "radish " + "very long name " * 4)
    label = ("label", "radish very", "--lot", "x", "--html", str(tmp_path / "l.html"))
    farm.done("templates", "allergens", "radish very", "none")
    farm.done(*label, "--grid", "2x4")
    with pytest.raises(Refused, match=r"doesn't fit .* \(2x7, 2x4\)"):
        placed(Sticker((Line("word " * 300), Line("x")), "x"), GRIDS[0])
    with pytest.raises(Refused, match="shorter names"):
        placed(Sticker((Line("w" * 200),), "x"), GRIDS[3])


def test_tapes_on_a_sheet_that_is_partly_used_up(farm: CommandLine, tmp_path: Path) -> None:
    farm.done("sow", "radish", "--trays", "2", "--mark", "red")
    assert farm.done("tape", "101-102").out == (
        "101\nradish\nsown 14 Apr 2026\nred\n\n102\nradish\nsown 14 Apr 2026\nred\n"
    )
    page = tmp_path / "t.html"
    told = farm.done("tape", "101-102", "--html", str(page), "--copies", "10", "--skip", "2").out
    assert told.startswith("20 labels on 2 sheets written to ")
    text = page.read_text(encoding="utf-8")
    assert text.count("<svg") == 2
    assert "size: 210.0mm 297.0mm" in text
    assert text.count(">101</text>") == 10
    assert not re.findall(r"(?:src|href)=", text)
    assert "no tray 200" in farm("tape", "200").refusal


@pytest.mark.parametrize("code", ["0414-MIL-1", "tray 101", "Märzgrün 7", "x" * 60])
def test_a_reader_reads_the_code_square(code: str) -> None:
    """Drawn four pixels a module, read by ZXing's C++ library."""
    modules, path = code_path(code)
    square = np.full((modules, modules), 255, dtype=np.uint8)
    for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", path):
        square[int(y), int(x)] = 0
    (found,) = zxingcpp.read_barcodes(np.kron(square, np.ones((4, 4), dtype=np.uint8)))
    assert found.text == code


def test_grids_of_one_name_are_told_apart_by_their_paper() -> None:
    assert [grid_named("a4", "2x7").width, grid_named("letter", "2x7").width] == [99.1, 101.6]
    assert grid_named("letter").name == "2x5"


@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: f"{grid.paper} {grid.name}")
def test_labels_lie_on_the_paper_and_not_over_one_another(grid: Grid) -> None:
    wide, high = PAPERS[grid.paper]
    corners = [grid.corner(at) for at in range(grid.count)]
    assert all(
        x >= 0 and x + grid.width <= wide and y >= 0 and y + grid.height <= high for x, y in corners
    )
    assert all(
        abs(a - c) >= grid.width or abs(b - d) >= grid.height - 0.001
        for at, (a, b) in enumerate(corners)
        for c, d in corners[:at]
    )
    lines = placed(
        Sticker((Line("Mild mix", 1.4, bold=True), *[Line("radish and pea shoots")] * 3), "x"), grid
    )
    assert all(each.width <= 1.1 * each.room for each in lines)
    assert lines[-1].baseline <= grid.height - EDGE


def test_a_room_in_the_us_has_its_units_paper_and_law(
    empty_cli: CommandLine, tmp_path: Path
) -> None:
    """The law's list has wheat and sesame, not mustard (21 U.S.C. 321(qq)): it is said, not in capitals."""
    us = empty_cli
    us.done("begin", "--zone", "America/New_York", "--units", "us")
    us.done("room", "--maker", "Hill Farm", "--address", "4 Mill Lane, Marsh End NY 10000")
    us.done("mix", "put", "hot", "1 wheatgrass + 1 mustard")
    said = us.done("label", "hot", "--lot", "x", "--size", "2oz", "--columns", "80").out
    assert "Net wt 2 oz (56.7 g)" in said
    assert "Contains: WHEAT (gluten) and mustard" in said
    assert "41 °F" in said
    page = tmp_path / "l.html"
    small = us.done("label", "hot", "--lot", "x", "--html", str(page), "--grid", "3x10")
    assert "in the US it must be 1.6 mm" in small.err
    assert "size: 215.9mm 279.4mm" in page.read_text(encoding="utf-8")
