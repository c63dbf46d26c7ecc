"""What --json prints is what `logbook schema` says, key by key."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import timedelta
from functools import cache
from pathlib import Path
from typing import Any

import click
import pytest
from jsonschema import Draft202012Validator, FormatChecker

from logbook.cli.app import top_context
from logbook.cli.listing import every_command, words_of
from logbook.cli.schemas import names, schema_of
from tests.conftest import NOW, CommandLine, SampleMaker
from tests.room import FIELD_TOML

SHOWN = [
    ("round",),
    ("round", "--day", "2026-04-16"),
    ("due", "--days", "30"),
    ("page",),
    ("page", "--day", "2026-04-10"),
    ("search", "mould"),
    ("page", "--from", "2026-04-10", "--to", "2026-04-12"),
    ("tray",),
    ("batch",),
    ("trace", "--all"),
    ("tray", "101"),
    ("tray", "450"),
    ("tray", "494"),
    ("batch", "1"),
    ("templates", "allergens"),
    ("room", "--maker", "Hill Farm", "--address", "4 Mill Lane; 9 Marsh End"),
    ("label", "mustard", "--lot", "0414-MUS-1", "--size", "50g"),
    ("tape", "469"),
    ("trace", "su-48a"),
    ("trace", "batch 1"),
    ("racks",),
    ("me",),
    ("templates",),
    ("templates", "show", "radish"),
    ("templates", "show", "basil"),
    ("templates", "copy", "radish", "radish, thick"),
    ("templates", "retire", "radish, thick"),
    ("templates", "retire", "radish, thick", "--back"),
    ("places", "--retired"),
    ("places", "add", "Top", "--under", "Rack 1", "--lamps", "06:00-20:00"),
    ("places", "change", "Rack 1/Top", "--slots", "2"),
    ("places", "change", "Rack 1/Top", "--up"),
    ("places", "retire", "Rack 1/Top"),
    ("sow", "sunflower", "--trays", "3", "--dry-run"),
    ("sow", "radish", "--dry", "--trays", "3", "--at", "2026-04-13T08:00", "--place", "Rack 1/Shelf 2"),
    ("weigh", "450", "390", "--sure"),
    ("weigh", "459-460", "5000", "--part", "--sure"),
    ("did", "water", "469", "--amount", "300ml"),
    ("skip", "water", "469", "--why", "wet"),
    ("look", "469", "--mould", "spot"),
    ("jot", "450", "a [note]"),
    ("move", "470", "Dark rack/Shelf 2"),
    ("undo",),
    ("redo",),
    ("hold", "472", "--why", "a glass broke"),
    ("hold",),
    ("recall", "su-48a"),
    ("recall", "su-48a", "--took", "3"),
    ("recall",),
    ("release", "472", "--why", "clean"),
    ("discard", "471", "--why", "dropped"),
    ("strike", "40", "--why", "wrong"),
    ("check",),
    ("restore",),
    ("room",),
    ("room", "--units", "us", "--day", "06:30-20:00"),
    ("room", "--units", "metric"),
    ("lamps",),
    ("lamps", "--place", "Rack 1/Shelf 1", "--lamps", "2", "--watts", "18"),
    ("light",),
    ("light", "--place", "Rack 1/Shelf 1", "--ppfd", "200", "180", "190"),
    ("air",),
    ("air", "--batch", "1"),
    ("air", "--hours", "400"),
    ("air", "21.4", "63", "--place", "Rack 1/Shelf 1"),
    ("water", "--days", "90"),
    ("water", "--ph", "6.1", "--ec", "1.2"),
    ("cleaning",),
    ("cleaning", "trays", "--method", "scrub"),
    ("upkeep", "racks"),
    ("records",),
    ("records", "reviews"),
    ("records", "reviews", "--week", "today"),
    ("records", "review"),
    ("records", "covered"),
    ("records", "sold", "2025", "900", "--direct", "500"),
    ("records", "covered"),
    ("records", "organic"),
    ("records", "assurance"),
    ("upkeep",),
    ("cleaning", "racks"),
    ("round",),
    ("seed",),
    ("week",),
    ("shopping", "--weeks", "2"),
    ("calendar", "--weeks", "2", "--deliveries"),
    ("seed", "--all"),
    ("seed", "add", "radish", "RA 99", "1kg", "--price", "18.50", "--germination", "92%"),
    ("seed", "test", "RA 99", "100", "91"),
    ("seed", "weigh", "RA 99", "340g"),
    ("tariff",),
    ("tariff", "0.30", "--from", "2026-04-01"),
    ("circuit",),
    ("circuit", "north", "--breaker", "16", "--volts", "230"),
    ("outage", "--from", "yesterday 18:00", "--to", "yesterday 20:15"),
    ("outage",),
    ("bills",),
    ("bills", "--batch", "152"),
    ("costs",),
    ("costs", "--batch", "152"),
    ("costs", "rates"),
    ("costs", "prices", "radish", "--pack", "50g"),
    ("yields",),
    ("month",),
    ("yields", "--per", "shelf"),
    ("yields", "radish", "--batches"),
    ("yields", "--backtest"),
    ("yields", "--lateness"),
    ("trial", "list"),
    ("trial", "show", "heavier weight"),
    ("reckon", "light", "--ppfd", "180", "200", "220", "--hours", "16", "--want-dli", "12"),
    ("reckon", "light", "--lux", "9000", "--lamp", "sun"),
    ("reckon", "power", "--watts", "36", "--hours", "16", "--price", "0.2"),
    ("reckon", "power", "--watts", "36", "--amps", "0.3", "--volts", "230"),
    ("reckon", "circuit", "--amps", "9", "8", "--breaker", "16", "--volts", "230"),
    ("reckon", "air", "--temp", "21C", "--rh", "55"),
    ("reckon", "air", "--temp", "21C", "--rh", "0", "--leaf", "20C"),
    ("reckon", "dilute", "--stock", "5.25%", "--want", "200ppm", "--volume", "10L"),
    ("reckon", "seed", "--per-cm2", "1.9", "--tray", "10x20in", "--tsw", "9", "--crop", "pea"),
    ("reckon", "replicates", "--spread", "8%"),
    ("reckon", "replicates", "--spread", "8%", "--difference", "10%"),
    ("reckon", "triangle", "--tasters", "12", "--right", "8"),
    ("reckon", "triangle", "--tasters", "2", "--right", "2"),
]  # fmt: skip


def tightened(schema: Any) -> Any:
    """Give the schema with no room for keys that it does not name."""
    if isinstance(schema, list):
        return [tightened(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    made = {key: tightened(value) for key, value in schema.items()}
    if "required" in made:
        made["additionalProperties"] = False
    return made


@cache
def validator_of(name: str) -> Any:
    return Draft202012Validator(tightened(schema_of(name)), format_checker=FormatChecker())


def faults(name: str, value: Any) -> list[str]:
    validator = validator_of(name)
    return [f"{fault.json_path}: {fault.message}" for fault in validator.iter_errors(value)]


@pytest.fixture(scope="module")
def sample(sample_book: SampleMaker, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample book at NOW; what some of these write does not disturb the others."""
    path = tmp_path_factory.mktemp("sample") / "sample.book"
    sample_book(path, NOW, "Europe/Lisbon")
    return path


def name_of(words: tuple[str, ...]) -> str:
    return next(name for name in reversed(names()) if [*words][: len(name.split())] == name.split())


@pytest.mark.parametrize("words", SHOWN, ids=" ".join)
def test_json_is_what_the_schema_says(
    sample: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    command_line = CommandLine(sample, capsys)
    name = name_of(words)
    assert faults(name, command_line.done(*words, "--json").json) == []


def test_what_begins_a_book_and_a_template(cli: CommandLine, tmp_path: Path) -> None:
    begun = ("--book", str(tmp_path / "new.book"), "begin", "--zone", "UTC", "--lamps", "none")
    assert faults("begin", cli.bare(*begun, "--json").json) == []
    file = tmp_path / "crop.toml"
    file.write_text(FIELD_TOML)
    assert faults("templates put", cli.done("templates", "put", str(file), "--json").json) == []


def test_judged_files(cli: CommandLine, tmp_path: Path) -> None:
    pytest.importorskip("scipy")
    trial, tasting = tmp_path / "trial.csv", tmp_path / "tasting.csv"
    trial.write_text("arm,grams,block\na,251,1\nb,263,1\na,244,2\nb,270,2\n")
    tasting.write_text("taster,A,B\nx,1,2\ny,2,1\nz,1,2\n")
    batches = tmp_path / "batches.csv"
    batches.write_text("batch,grams\na,300\na,310\nb,330\n")
    for name, file in (
        ("reckon compare", trial), ("reckon ranks", tasting), ("reckon luck", batches),
    ):  # fmt: skip
        assert faults(name, cli.done(*name.split(), str(file), "--json").json) == []
    trial.write_text("arm,grams\na,251\nb,263\n")
    alone = cli.done("reckon", "compare", str(trial), "--spread", "8%", "--json").json
    assert faults("reckon compare", alone) == []


def test_trials(sample: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The sample's judged trial, and a new one from set-up to tasting."""
    pytest.importorskip("scipy")
    command_line = CommandLine(sample, capsys)

    def given(name: str, *words: str) -> Any:
        return command_line.done(*name.split(), *words, "--json").json

    arms = ("--arm", "thin=28g", "--arm", "thick=40g", "--replicates", "2", "--draw", "1")
    new = ("density", "--crop", "radish", "--factor", "density", *arms)
    for name, words in (
        ("trial judge", ("thicker broccoli",)),
        ("trial show", ("thicker broccoli",)),
        ("trial criteria", ("thicker broccoli",)),
        ("trial new", (*new, "--dry-run")),
        ("trial new", new),
        ("trial judge", ("density",)),
        ("trial sow", ("density",)),
        ("trial taste", ("density", "--new", "--draw", "3")),
        ("trial taste", ("density", "--taster", "AB")),
        ("trial show", ("density",)),
    ):
        assert faults(name, given(name, *words)) == [], name


def test_what_looks_after_the_book(cli: CommandLine, tmp_path: Path) -> None:
    cli.done("sow", "kale", "--trays", "2")
    copy = cli.done("copy", "--json").json
    assert faults("copy", copy) == []
    assert faults("copy", cli.done("copy", "--daily", "--json").json) == []
    assert cli.done("copy", "--daily", "--json").json == {"copy": None}
    assert faults("restore", cli.done("restore", "--json").json) == []
    cli.done("jot", "101", "lost soon")
    assert faults("restore", cli.done("restore", copy["copy"], "--dry-run", "--json").json) == []
    assert faults("restore", cli.done("restore", copy["copy"], "--yes", "--json").json) == []
    assert faults("check", cli.done("check", "--mend", "--json").json) == []
    out = tmp_path / "out"
    assert faults("export", cli.done("export", str(out), "--json").json) == []
    assert faults("export", cli.done("export", "--harvests", "-", "--json").json) == []
    fresh = cli.bare("--book", str(tmp_path / "new.book"), "import", str(out), "--json")
    assert faults("import", fresh.json) == []
    sheet = tmp_path / "past.csv"
    sheet.write_text("crop,sown,cut,trays,grams\nkale,2026-01-02,2026-01-12,2,400\nodd,x,y,1,1\n")
    assert faults("import", json.loads(cli("import", "--harvests", str(sheet), "--json").out)) == []


def with_json() -> Iterator[str]:
    """Name every command that has --json."""
    for ctx, command in every_command(top_context()):
        if any(
            isinstance(option, click.Option) and "--json" in option.opts
            for option in command.params
        ):
            yield words_of(ctx)


def test_every_command_with_json_has_a_schema_and_no_other() -> None:
    assert list(with_json()) == names()


@pytest.mark.parametrize("name", names())
def test_schema_prints_a_valid_schema(cli: CommandLine, name: str) -> None:
    printed = cli.done("schema", *name.split()).json
    Draft202012Validator.check_schema(printed)
    assert printed["title"] == f"logbook {name} --json"


def test_the_list_of_schemas_and_an_unknown_one(cli: CommandLine) -> None:
    assert cli.done("schema").out.split("\n")[:-1] == names()
    assert 'no schema for "rond"' in cli("schema", "rond").refusal


def test_a_schema_would_notice() -> None:
    """The test itself: a key that is missing, new, or of another type is a fault."""
    good = {"day": "2026-04-14", "last_day": "2026-04-14", "entries": []}
    assert faults("page", good) == []
    assert faults("page", {"day": "2026-04-14"})
    assert faults("page", {**good, "more": 1})
    assert faults("page", {**good, "day": f"{NOW + timedelta(days=1):%d.%m.%Y}"})
