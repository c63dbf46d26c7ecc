"""`logbook trial …`: one story from the set-up to the template, and what is refused."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from tests.actions.days import counts
from tests.conftest import CommandLine
from tests.trial_room import finished

NEW = (
    "trial", "new", "thick or thin", "--crop", "field test", "--factor", "density", "--arm",
    "thin=80g", "--arm", "thick=120g", "--replicates", "3", "--draw", "7",
)  # fmt: skip
HEAVY = {"thin": (400, 410, 405), "thick": (520, 515, 530)}


def test_a_trial_from_its_set_up_to_the_template(cli: CommandLine) -> None:
    # set up
    cli.now = "2026-04-01T08:00"
    made = cli.done(*NEW, "--question", "Does it pay?", "--priority", "yield=2", "--json").json
    assert made["arms"] == [
        {"arm": "thin", "setting": "80 g"},
        {"arm": "thick", "setting": "120 g"},
    ]
    assert made["trays_per_arm"] == 3
    assert made["gaps"][1]["gap_percent"] == 10
    assert len(made["layout"]) == 6
    # sown
    assert "When did the soak begin? Use --soaked if" in cli("trial", "sow", "thick").wrong_usage
    sown = cli.done("trial", "sow", "thick", "--soaked", "--lot", "L7", "--json").json
    assert sown["week"] == 1
    assert sown["order"] == [str(number) for number in range(101, 107)]
    assert sorted(tray for arm in sown["arms"] for tray in arm["trays"]) == sown["order"]
    # its planned end
    assert (
        "thick or thin: 4 trays per arm" in cli.done("trial", "plan", "thick", "--per-arm", "4").out
    )
    assert "from 1 to 5,000" in cli("trial", "plan", "thick", "--per-arm", "0").refusal
    cli.done("undo")
    # running
    listed = cli.done("trial", "list", "--json").json["trials"]
    assert (listed[0]["state"], listed[0]["trays"]) == ("running", 6)
    assert "Nothing is cut yet" in cli.done("trial", "judge", "thick").out
    # cut
    cli.now = "2026-04-09T08:00"
    for arm in sown["arms"]:
        for number, grams in zip(arm["trays"], HEAVY[arm["arm"]], strict=True):
            cli.done("weigh", number, str(grams), "--sure")
    judged = cli.done("trial", "judge", "thick", "--seed-price", "10", "--json").json
    assert judged["judged"]["design"] == "one way"
    assert judged["judged"]["pairs"][0]["a"] == "thick"
    assert judged["cost_per_100_g"]["thin"] == pytest.approx(0.80 / 4.05)
    assert judged["weighed_up"][0]["arm"] == "thick"
    assert judged["words"].startswith("thick cut more than thin")
    shown = cli.done("trial", "show", "thick")
    assert "What the weights say" in shown.out
    assert "106" in shown.out
    assert all(len(line) <= 80 for line in shown.out.splitlines())
    # tasted
    codes = cli.done("trial", "taste", "thick", "--new", "--draw", "5", "--json").json["codes"]
    order = cli.done("trial", "taste", "thick", "--taster", "AB", "--json").json["order"]
    assert sorted(order) == sorted(codes.values())
    cli.done(
        "trial", "taste", "thick", "--taster", "AB", "--taste", f"{codes['thin']}=7", "--taste",
        f"{codes['thick']}=5", "--say", f"{codes['thick']}=a bit bitter",
    )  # fmt: skip
    assert "AB on thick: a bit bitter" in cli.done("trial", "show", "thick").out
    right = cli.done(
        "trial", "triangle", "thick", "thin", "thick", "--tasters", "12", "--right", "8"
    )
    assert "8 are enough" in right.out
    # weighed up, decided, adopted
    cli.done("trial", "criteria", "thick", "--priority", "yield=2", "--priority", "taste=1")
    weighed = cli.done("trial", "criteria", "thick", "--json").json
    assert weighed["weights"] == {"yield": 2, "taste": 1}
    cli.done("trial", "decide", "thick", "one more week", "--next", "the soak")
    adopted = cli.done("trial", "adopt", "thick", "thick", "--why", "more weight")
    assert "field test: version 2 is written" in adopted.out
    assert cli.done("templates", "show", "field test", "--json").json["seed_grams"] == 120
    decisions = cli.done("trial", "show", "thick", "--json").json["decisions"]
    assert [each["try_next"] for each in decisions] == ["the soak", ""]
    # the decision is struck out; the template's new version is not undone
    assert "field test, version 2" in cli("undo").refusal
    entry = cli.done("page", "--json").json["entries"][-2]["id"]
    cli.done("strike", str(entry), "--why", "too early")
    assert len(cli.done("trial", "show", "thick", "--json").json["decisions"]) == 1


def test_a_dry_run_writes_nothing(cli: CommandLine, book: Book) -> None:
    before = counts(book)
    assert "6 trays in all" in cli.done(*NEW, "--dry-run").out
    assert counts(book) == before


def test_trays_are_taken_in_and_left_out(cli: CommandLine) -> None:
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "field test", "--dry", "--trays", "4")
    cli.done(*NEW)
    assert "101 102 in thin" in cli.done("trial", "add", "thick", "thin", "101", "102").out
    cli.done("trial", "add", "thick", "thick", "103-104", "--week", "1")
    cli.done("trial", "leave-out", "thick", "102", "--why", "stood in the draught")
    trays = cli.done("trial", "show", "thick", "--json").json["trays"]
    assert [each["left_out"] for each in trays] == ["", "stood in the draught", "", ""]


def test_a_finished_trial_prints_no_nan(cli: CommandLine, book: Book) -> None:
    finished(book, {"thin": (400, 400, 400), "thick": (400, 400, 0)})
    cli.now = "2026-04-20T08:00"
    for command in ("judge", "show"):
        for more in ((), ("--json",)):
            assert "nan" not in cli.done("trial", command, "thick", *more).out.casefold().split()


def test_no_trials_are_said(cli: CommandLine) -> None:
    assert cli.done("trial", "list").out == "No trials.\n"


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["show", "nothing"], "There is no trial in the book yet"),
        (["new", "x", "--crop", "field test", "--factor", "density"], "two arms or more"),
        (["new", "x", "--crop", "field test", "--factor", "density", "--arm", "a=1"], "two arms"),
        (["new", "x", "--crop", "field test", "--factor", "soak", "--arm", "a=8", "--arm", "b=0h"],
         "needs h for hours"),
        (["new", "x", "--crop", "field test", "--factor", "y", "--arm", "a", "--arm", "b",
          "--priority", "yield"], "must be like yield=3"),
        (["new", "x", "--crop", "field test", "--factor", "y", "--arm", "a", "--arm", "b",
          "--priority", "yield=much"], "is not a number"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(
    cli: CommandLine, arguments: list[str], sentence: str
) -> None:
    assert sentence in cli("trial", *arguments).refusal


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["judge", "thick", "--spread", "0"], "more than 0"),
        (["judge", "thick", "--seed-price", "cheap"], "is not a number"),
        (["judge", "thick", "--hour-price", "15"], "needs both"),
        (["judge", "thick", "--hour-price", "15", "--minutes", "wide=3"], 'no arm "wide"'),
        (["criteria", "thick"], "No priorities yet"),
        (["taste", "thick"], "There is no tasting"),
        (["taste", "thick", "--taste", "41=7"], "three digits"),
        (["taste", "thick", "--taste", "418", "--taster", "AB"], "must be like 418=7"),
        (["triangle", "thick", "thin", "thin", "--tasters", "3", "--right", "2"], "two different"),
        (["adopt", "thick", "mid", "--why", "x"], 'no arm "mid"'),
        (["adopt", "thick", "thick", "--why", " "], "give a reason"),
        (["sow", "thick", "--numbers", "101-103"], "has 6 trays"),
        (["add", "thick", "thin", "999"], "no tray 999"),
    ],
)
def test_what_a_trial_cannot_do_is_refused(
    cli: CommandLine, arguments: list[str], sentence: str
) -> None:
    cli.done(*NEW)
    assert sentence in cli("trial", *arguments).refusal


def test_the_shell_completes_trials(cli: CommandLine) -> None:
    import click

    from logbook.cli.options import Options
    from logbook.cli.trials.options import complete_trials

    cli.done(*NEW)
    context = click.Context(click.Command("x"), obj=Options(str(cli.book), None, None))
    option = click.Argument(["name"])
    assert complete_trials(context, option, "thi") == ["thick or thin"]
    assert complete_trials(context, option, "x") == []
