"""From a seed lot to all that came of it: the second half of a recall."""

from __future__ import annotations

from tests.conftest import CommandLine


def _room(cli: CommandLine) -> None:
    """Sow three batches of one lot, spelled in two ways, and one of another lot."""
    cli.now = "2026-04-01T08:00"
    cli.done(
        "sow", "field test", "--dry", "--trays", "3", "--lot", "RA 12", "--place", "Rack 1/Shelf 1"
    )
    cli.done(
        "sow",
        "field test",
        "--dry",
        "--trays",
        "2",
        "--lot",
        '"ra  12"',
        "--place",
        "Rack 2/Shelf 1",
    )
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "RA 13")
    cli.now = "2026-04-10T08:00"
    cli.done("weigh", "101", "283", "--sure")
    cli.done("weigh", "102", "290", "--sure", "--at", "2026-04-09T17:00")
    cli.done("discard", "103", "--why", "mould")
    cli.done(
        "sow", "field test", "--dry", "--trays", "1", "--lot", "RA 12", "--at", "2026-04-12T08:00"
    )


def test_a_lot_names_every_tray_and_what_became_of_it(cli: CommandLine) -> None:
    _room(cli)
    assert cli.done("trace", "RA 12").out.splitlines() == [
        (
            "Seed lot RA 12 (also written ra  12): 3 batches, "
            "trays: 1 planned, 2 growing, 2 cut, 1 discarded"
        ),
        "Cut 573 g: 573 g in stock",
        "Batch 1: field test, sown Wed 1 Apr 08:00",
        "  cut 08:00: 101, 283 g",
        "  cut Thu 9 Apr 17:00: 102, 290 g",
        "  discarded 08:00: 103",
        "Batch 2: field test, sown Wed 1 Apr 08:00",
        "  growing on Rack 2/Shelf 1: 104 105",
        "Batch 4: field test, planned for Sun 08:00",
        "  planned, no place: 108",
        "Pack lot 260409-FIE-1: packed Thu 9 Apr, field test, best before Thu 16 Apr, 290 g",
        "Pack lot 260410-FIE-1: packed Fri 10 Apr, field test, best before Fri 17 Apr, 283 g",
    ]


def test_a_sowing_that_was_struck_is_not_of_the_lot(cli: CommandLine) -> None:
    _room(cli)
    cli.done("undo", "7")
    assert [each["batch"] for each in cli.done("trace", "ra 12", "--json").json["batches"]] == [
        "1",
        "2",
    ]


def test_a_corrected_lot_leads_to_the_same_trays(cli: CommandLine) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "RA 21")
    (entry,) = cli.done("page", "--kind", "sow", "--json").json["entries"]
    cli.done("strike", str(entry["id"]), "--why", "misread", "--lot", "RA 12")
    assert "101 102" in cli.done("trace", "RA 12").out
    assert 'Nothing in the book is called "RA 21"' in cli("trace", "RA 21").refusal


def test_a_lot_that_is_not_there_is_answered_with_those_that_are(cli: CommandLine) -> None:
    assert cli("trace", "RA 12").refusal == 'Nothing in the book is called "RA 12".'
    _room(cli)
    assert cli("trace", "RA 14").refusal.endswith('Did you mean "RA 13"?')
    assert cli("trace", "zz").refusal.endswith("The newest seed lots: RA 12 and RA 13.")
    assert "Trace what?" in cli("trace", " ").refusal


def test_search_finds_the_sowings_of_a_lot_and_the_page_names_it(cli: CommandLine) -> None:
    _room(cli)
    found = cli.done("search", "RA  12").out
    assert found.count("from lot RA 12") == 2
    assert "sown from lot ra  12 on Rack 2/Shelf 1  104 105" in found
    assert "planned from lot RA 12  108" in found
    assert "RA 13" not in found
    assert "from lot RA 13" in cli.done("page", "--day", "2026-04-01").out


def test_lots_that_are_spelled_alike_are_shown_too_and_said(cli: CommandLine) -> None:
    cli.now = "2026-04-01T08:00"
    for lot in ("DK 10", "DK 10 / DK 11", '"dk10"', "DK 12", "DK 100"):
        cli.done("sow", "field test", "--dry", "--trays", "1", "--lot", lot)
    assert cli.done("trace", "dk 10").out.splitlines() == [
        "Seed lot DK 10: 3 batches, trays: 3 growing",
        "Spelled alike, so shown too; compare the bags: DK 10 / DK 11, dk10",
        "Batch 1: field test, sown 08:00, from DK 10",
        "  growing on Rack 1/Shelf 1: 101",
        "Batch 2: field test, sown 08:00, from DK 10 / DK 11",
        "  growing on Rack 1/Shelf 1: 102",
        "Batch 3: field test, sown 08:00, from dk10",
        "  growing on Rack 1/Shelf 1: 103",
    ]
    found = cli.done("trace", "DK-11", "--json").json
    assert (found["lot"], found["alike"]) == ("DK 10 / DK 11", ["DK 10 / DK 11"])


def test_a_batch_of_two_bags_is_found_by_both_with_the_grams_of_each(cli: CommandLine) -> None:
    cli.now = "2026-04-01T08:00"
    two = ("--lot", "DK 10 = 120 g", "--lot", "DK 11 = 80 g")
    said = cli.done("sow", "field test", "--dry", "--trays", "2", *two).out
    assert "seed 200 g (100 g per tray)" in said
    assert "from DK 10 = 120 g + DK 11 = 80 g" in said
    cli.done("sow", "field test", "--dry", "--trays", "1", "--lot", "DK 11")
    assert cli.done("trace", "DK 10").out.splitlines()[1] == (
        "Batch 1: field test, sown 08:00, from DK 10 = 120 g + DK 11 = 80 g"
    )
    assert "2 batches" in cli.done("trace", "DK 11").out
    page = cli.done("batch", "1", "--json").json
    assert page["lot"] == "DK 10 + DK 11"
    assert page["lots"] == [{"lot": "DK 10", "grams": 120}, {"lot": "DK 11", "grams": 80}]
    assert "seed lot DK 10 = 120 g + DK 11 = 80 g" in cli.done("batch", "1").out
    assert "from lot DK 10 = 120 g + DK 11 = 80 g" in cli.done("search", "DK 11").out
    off = cli.done("sow", "field test", "--dry", "--trays", "2", "--grams", "50", *two).err
    assert "The lots give 200 g of seed, the trays take 100 g: is that right?" in off
    assert (
        "named twice"
        in cli(
            "sow", "field test", "--dry", "--trays", "1", "--lot", "DK 1", "--lot", "dk 1"
        ).refusal
    )


def test_a_bag_that_is_changed_half_way_is_said_tray_by_tray(cli: CommandLine) -> None:
    """Four trays are planned from DK 10; it is empty after two, the others are sown from DK 11."""
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "pea", "--trays", "4", "--at", "2026-04-02T08:00", "--lot", "DK 10 = 500 g")
    cli.now = "2026-04-02T08:00"
    cli.done("did", "sow", "101-102", "--dry", "--lot", "DK 10")
    sown = cli.done("did", "sow", "103-104", "--dry", "--lot", "DK 11", "--json").json
    assert "growing on Rack 1/Shelf 1: 101 102" in cli.done("trace", "DK 10").out
    assert "103" not in cli.done("trace", "DK 10").out
    assert "growing on Rack 1/Shelf 1: 103 104" in cli.done("trace", "DK 11").out
    assert cli.done("tray", "104", "--json").json["lot"] == "DK 11"
    # and: undone, they wait as they were planned
    cli.done("undo", str(sown["entry"]))
    assert 'Nothing in the book is called "DK 11"' in cli("trace", "DK 11").refusal
    assert "planned" in cli.done("trace", "DK 10").out
    # and: the last bag may give the rest of two
    cli.done("did", "sow", "103-104", "--dry", "--lot", "DK 10 = 70 g + DK 11 = 430 g")
    assert cli.done("tray", "103", "--json").json["lot"] == "DK 10 + DK 11"
    batch = cli.done("tray", "103", "--json").json["batch"]
    assert cli.done("batch", batch, "--json").json["seed_grams_per_tray"] == 250
    assert "Only sow takes" in cli("did", "water", "103", "--lot", "DK 11").refusal


def test_a_corrected_sowing_keeps_its_bags_and_takes_others(cli: CommandLine) -> None:
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "A 1 = 90 g + A 2 = 110 g")
    entry = cli.done("page", "--kind", "sow", "--json").json["entries"][-1]
    cli.done("strike", str(entry["id"]), "--why", "other crop", "--template", "pea")
    lots = cli.done("batch", "2", "--json").json["lots"]
    assert [each["grams"] for each in lots] == [90, 110]
    entry = cli.done("page", "--kind", "sow", "--json").json["entries"][-1]
    cli.done("strike", str(entry["id"]), "--why", "misread", "--lot", "A 1 = 90 g + A 3 = 130 g")
    now = cli.done("batch", "3", "--json").json
    assert (now["lot"], now["seed_grams_per_tray"]) == ("A 1 + A 3", 110)


def test_a_lot_is_stored_as_the_book_spells_it_and_that_is_said(cli: CommandLine) -> None:
    def sown(*lots: str) -> tuple[str, str]:
        words = [word for lot in lots for word in ("--lot", lot)]
        ran = cli.done("sow", "field test", "--dry", "--trays", "1", *words, "--json")
        return " + ".join(each["lot"] for each in ran.json["lots"]), ran.err

    assert sown("dk--10") == ("dk--10", "")
    entry = cli.done("page", "--json").json["entries"][-1]["id"]
    cli.done("undo", str(entry))  # so the book has no such lot
    assert sown("DK 10") == ("DK 10", "")
    for typed in ("dk10", "DK-010", "Dk. 10"):
        lot, said = sown(typed)
        assert lot == "DK 10"
        assert f"Seed lot {typed} is stored as DK 10, as the book has it." in said
    assert "spelled like DK 10; compare the bags" in sown("DK 10 / DK 11")[1]
    assert sown('"dk10"') == ("dk10", "")
    assert sown("dk10") == ("dk10", "")
    assert sown("DK 1-0")[0] == "DK 1-0"
    twice = cli("sow", "field test", "--dry", "--trays", "1", "--lot", "dk-11 = 60 g + DK11 = 40 g")
    assert "named twice" in twice.refusal
    cli.done("sow", "field test", "--plan", "--trays", "1", "--at", "tomorrow 9")
    waiting = cli.done("page", "--kind", "plan", "--json").json["entries"][-1]["trays"]
    cli.now = "2026-04-15T09:00"
    done = cli.done("did", "sow", *waiting, "--dry", "--lot", "Dk-10")
    assert "Seed lot Dk-10 is stored as dk10" in done.err
    assert sown("DK 10 and DK 1-0")[0] == "DK 10 + DK 1-0"
    assert sown("DK 10 20g")[0] == "DK 10"
    assert sown("DK 10, lid torn")[0] == "DK 10, lid torn"
