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
        "sow", "field test", "--dry", "--trays", "2", "--lot", "ra  12", "--place", "Rack 2/Shelf 1"
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
    assert cli.done("lot", "RA 12").out.splitlines() == [
        (
            "Seed lot RA 12 (also written ra  12): 3 batches, "
            "trays: 1 planned, 2 growing, 2 cut, 1 discarded"
        ),
        "Batch 1: field test, sown Wed 1 Apr 08:00",
        "  cut 08:00: 101, 283 g",
        "  cut Thu 9 Apr 17:00: 102, 290 g",
        "  discarded 08:00: 103",
        "Batch 2: field test, sown Wed 1 Apr 08:00",
        "  growing on Rack 2/Shelf 1: 104 105",
        "Batch 4: field test, planned for Sun 08:00",
        "  planned, no place: 108",
    ]


def test_a_sowing_that_was_struck_is_not_of_the_lot(cli: CommandLine) -> None:
    _room(cli)
    cli.done("undo", "7")
    assert [each["batch"] for each in cli.done("lot", "ra 12", "--json").json["batches"]] == [
        "1",
        "2",
    ]


def test_a_corrected_lot_leads_to_the_same_trays(cli: CommandLine) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "2", "--lot", "RA 21")
    (entry,) = cli.done("page", "--kind", "sow", "--json").json["entries"]
    cli.done("strike", str(entry["id"]), "--why", "misread", "--lot", "RA 12")
    assert "101 102" in cli.done("lot", "RA 12").out
    assert 'Nothing was sown from a seed lot "RA 21"' in cli("lot", "RA 21").refusal


def test_a_lot_that_is_not_there_is_answered_with_those_that_are(cli: CommandLine) -> None:
    assert cli("lot", "RA 12").refusal == 'Nothing was sown from a seed lot "RA 12".'
    _room(cli)
    assert cli("lot", "RA 14").refusal.endswith('Did you mean "RA 13"?')
    assert cli("lot", "zz").refusal.endswith("The newest lots: RA 12 and RA 13.")
    assert "Which seed lot?" in cli("lot", " ").refusal


def test_search_finds_the_sowings_of_a_lot_and_the_page_names_it(cli: CommandLine) -> None:
    _room(cli)
    found = cli.done("search", "RA  12").out
    assert found.count("from lot RA 12") == 2
    assert "sown from lot ra  12 on Rack 2/Shelf 1  104 105" in found
    assert "planned from lot RA 12  108" in found
    assert "RA 13" not in found
    assert "from lot RA 13" in cli.done("page", "--day", "2026-04-01").out
