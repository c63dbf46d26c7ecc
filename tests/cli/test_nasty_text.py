"""Any text in any argument: saved faithfully or refused with a sentence, never terminal codes."""

from __future__ import annotations

import itertools
import json
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from importlib import import_module
from pathlib import Path

import click
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.actions.trials.joining import join_trial
from logbook.actions.trials.setting_up import TrialDraft, set_up
from logbook.actions.trials.tasting import new_tasting
from logbook.cli.app import TABLE, run
from logbook.clock import FixedClock
from logbook.text import HARMFUL, LONGEST_NOTE, clean
from tests.nasty import NASTY, TEXT

NOON = datetime(2026, 4, 14, 12, tzinfo=UTC)

HOLE = "\N{BALLOT BOX}"
TIMES = ("--at", HOLE)


def each(words: str, *options: str) -> list[list[str]]:
    """Give a command once with each of the options holding the text."""
    return [[*words.split(), option, HOLE] for option in options]


COMMANDS = {
    "sow": [
        ["sow", HOLE, "--trays", "2"],
        *(
            ["sow", "radish", "--dry", "--trays", "2", option, HOLE]
            for option in ("--trays", "--at", "--place", "--numbers", "--lot", "--grams",
                           "--soak-at", "--soaked-at", "--ready", "--mark", "--note")
        ),
    ],
    "did": [
        ["did", HOLE, "101"],
        ["did", "water", HOLE],
        ["did", "sow", "103", "--dry", "--lot", HOLE],
        *(["did", "water", "101", option, HOLE]
          for option in ("--at", "--amount", "--ph", "--ec", "--place", "--soaked-at", "--note")),
    ],
    "skip": [["skip", HOLE, "101", "--why", "x"], ["skip", "water", HOLE, "--why", "x"],
             ["skip", "water", "101", "--why", HOLE], ["skip", "water", "101", "--why", "x", *TIMES]],
    "look": [
        ["look", HOLE],
        *(
            ["look", "101", option, HOLE]
            for option in ("--at", "--emerged", "--height", "--mould", "--where", "--stem",
                           "--uneven", "--ready-sign", "--mould-on", "--note")
        ),
    ],
    "jot": [["jot", HOLE, "x"], ["jot", "101", HOLE], ["jot", "room", HOLE],
            ["jot", "room", "x", *TIMES]],
    "move": [["move", "101", HOLE], ["move", HOLE, "Shelf 2"], ["move", "101", "Shelf 2", *TIMES]],
    "despatch": [["despatch", HOLE, "260414-RAD-1", "2"], ["despatch", "Bistro", HOLE, "2"],
                 ["despatch", "Bistro", "260414-RAD-1", HOLE], *each("despatch Bistro 260414-RAD-1 2", "--day", "--at")],
    "cold": [
        ["cold", "out", HOLE, "20g"], ["cold", "out", "260414-RAD-1", HOLE],
        *each("cold out 260414-RAD-1 20g", "--why", "--note", "--at"),
        ["cold", "back", HOLE, "260414-RAD-1", "20g"], ["cold", "back", "Bistro", HOLE, "20g"],
        ["cold", "back", "Bistro", "260414-RAD-1", HOLE], *each("cold back Bistro 260414-RAD-1 20g", "--note", "--at"),
        ["cold", "mix", HOLE, "20g"], ["cold", "mix", "salad", HOLE], *each("cold mix salad 20g", "--at"),
        ["cold", "change", HOLE], *each("cold change 260414-RAD-1", "--code", "--best-before", "--at"),
    ],
    "hold": [["hold", HOLE, "--why", "x"], ["hold", "101", "--why", HOLE],
             ["hold", "101", "--why", "x", *TIMES]],
    "release": [["release", HOLE, "--why", "x"], ["release", "101", "--why", HOLE],
                ["release", "101", "--why", "x", *TIMES]],
    "recall": [["recall", HOLE], ["recall", "101", "--took", HOLE], ["recall", "101", "--days", HOLE],
               ["recall", "101", "--practice", "--took", "3", "--note", HOLE]],
    "discard": [["discard", HOLE, "--why", "x"], ["discard", "101", "--why", HOLE],
                ["discard", "101", "--why", "x", *TIMES]],
    "weigh": [["weigh", "101", HOLE], ["weigh", HOLE, "283"], ["weigh", "101", "283", *TIMES],
              ["weigh", "101", "283", "--sure", "--note", HOLE, "--json"], ["weigh", "101", "283", "--lot", HOLE]],
    "label": [
        *each("label radish --lot x", "--lot", "--size", "--packed", "--best-before", "--organic", "--gtin", "--html",
              "--grid", "--paper", "--skip", "--copies", "--columns"),
        ["label", HOLE, "--lot", "x"],
        *each("tape 101", "--html", "--grid", "--paper", "--skip", "--copies", "--columns"), ["tape", HOLE],
        ["templates", "allergens", HOLE], ["templates", "allergens", "radish", HOLE],
        ["templates", "allergens", "radish", "none", *TIMES],
    ],
    "strike": [
        ["strike", HOLE, "--why", "x"], ["undo", HOLE],
        ["strike", "3", "--why", HOLE],
        *(
            ["strike", "3", "--why", "x", option, HOLE]
            for option in ("--at", "--note", "--trays", "--grams")
        ),
        *(
            ["strike", "2", "--why", "x", option, HOLE]
            for option in ("--at", "--note", "--grams", "--lot", "--template", "--place", "--amount",
                           "--height", "--ready-sign", "--emerged", "--mould", "--where", "--stem",
                           "--uneven")
        ),
    ],
    "search": [["search", HOLE], ["search", HOLE, "--json"], ["search", "x", "--tray", HOLE]],
    "shows": [
        ["page", "--day", HOLE], ["page", "--tray", HOLE], ["page", "--crop", HOLE],
        ["page", "--kind", HOLE], ["tray", HOLE], ["batch", HOLE], ["trace", HOLE], ["trace", HOLE, HOLE], ["trace", HOLE, "--life"], ["due", "--days", HOLE],
        ["round", "--day", HOLE], ["round", "--in", HOLE], ["due", "--in", HOLE], ["racks", "--in", HOLE], ["page", "--from", HOLE], ["page", "--from", "today", "--to", HOLE],
    ],
    "templates": [
        ["templates", "show", HOLE], ["templates", "copy", HOLE, "x"],
        *each("templates copy radish x", "--tray"), ["templates", "copy", "radish", HOLE], ["templates", "retire", HOLE],
        ["templates", "put", HOLE], ["templates", HOLE], ["templates", "put", "x.toml", *TIMES],
        ["templates", "copy", "radish", "y", *TIMES], ["templates", "retire", "kale", *TIMES],
    ],
    "places": [
        ["places", "add", HOLE],
        *(["places", "add", "x", option, HOLE] for option in ("--kind", "--under", "--slots", "--lit", "--zone", "--open")),
        ["places", "change", HOLE, "--slots", "3"],
        *(["places", "change", "Shelf 2", option, HOLE] for option in ("--name", "--slots", "--lit")),
        ["places", "change", "Shelf 2", "--lamps", "none", *TIMES],
        ["places", "retire", HOLE], ["places", "add", "y", *TIMES], ["places", "retire", "Rack 2", *TIMES],
    ],
    "begin": each("--book new.book begin", "--name", "--zone", "--racks", "--shelves", "--slots",
                  "--units", "--lit", "--first-day", "--currency"),
    "room": [
        *each("room", "--name", "--zone", "--units", "--open", "--evening", "--numbers", "--stack", "--sure", "--loss", "--work", "--first-day", "--maker", "--address", "--gs1-prefix", "--phone", "--certificate", "--certified-until", "--at",
              "--currency"),
        *each("light --place Shelf --ppfd 180", "--place", "--ppfd", "--lux", "--lamp", "--grid",
              "--spot", "--height", "--at", "--note"),
        *each("light --place Rack/1 --lux 9000", "--lamp"),
        ["air", HOLE], ["air", "21", HOLE],
        *each("air 21 60", "--place", "--at", "--note"),
        *each("air", "--back", "--batch", "--every"),
        *each("water --ph 6", "--ph", "--ec", "--trays", "--place", "--days", "--at", "--note"),
        ["cleaning", HOLE], ["cleaning", "trays", "--method", HOLE],
        *each("cleaning trays --method soak --with bleach --stock 5% --want 200ppm --volume 5l",
              "--with", "--stock", "--want", "--volume", "--place", "--at", "--note"),
        *each("cleaning", "--days"), ["cleaning", "scale", "--value", HOLE],
        ["records", "assurance", HOLE, "x"], ["records", "assurance", "x", HOLE],
        ["records", "covered", HOLE], *each("records covered", "--all-food", "--all-produce"),
        ["records", "sold", HOLE, "1", "--direct", "1"], ["records", "sold", "2025", HOLE, "--direct", "1"],
        *each("records sold 2025 9 --direct 8", "--direct", "--produce"),
        *each("records assurance x y", "--on"), *each("records review", "--week", "--note"),
        *each("records reviews", "--weeks", "--week"), *each("records organic", "--weeks", "--from", "--to"),
        *each("records", "--event", "--weeks", "--from", "--to"),
        ["upkeep", HOLE], *each("upkeep racks", "--every", "--how", "--known", "--place", "--at"),
        ["racks"],
        ["seed", "--crop", HOLE],
        *(["seed", "add", *words] for words in ([HOLE, "a", "1kg"], ["kale", HOLE, "1kg"], ["kale", "a", HOLE])),
        *each("seed add radish RA-12 1kg", "--supplier", "--price", "--germination", "--tested", "--bought", "--at", "--note"),
        ["seed", "change", HOLE, "--why", "w", "--weight", "1kg"],
        *each("seed change RA-12 --why w", "--why", "--bag", "--weight", "--supplier", "--price", "--germination", "--tested", "--bought"),
        ["seed", "test", HOLE, "50", "40"], ["seed", "test", "RA-12", HOLE, "40"],
        ["seed", "test", "RA-12", "50", HOLE], *each("seed test RA-12 50 40", "--at", "--note"),
        ["seed", "weigh", HOLE, "1kg"], ["seed", "weigh", "RA-12", HOLE],
        *each("seed weigh RA-12 1kg", "--at", "--note"),
    ],
    "power": [
        *each("lamps --place Rack/1 --lamps 3 --watts 18", "--place", "--lamps", "--watts",
              "--amps", "--volts", "--kind", "--light", "--height", "--bought", "--at"),
        ["tariff", HOLE], *each("tariff 0.3", "--from", "--price-at"),
        ["circuit", HOLE, "--breaker", "15", "--volts", "120"],
        ["circuit", "north", "--breaker", "15", "--volts", "120", *TIMES],
        *each("circuit c --breaker 15 --volts 120", "--breaker", "--volts", "--place", "--other",
              "--share"),
        *each("outage --from 07:00 --to 07:30", "--from", "--to", "--place", "--note"),
        *each("bills", "--days", "--batch"),
        *each("yields", "--weeks", "--from", "--to", "--per", "--batch"),
        ["yields", HOLE], ["month", HOLE], *each("month", "--html"),
        *each("calendar", "--weeks", "--out"), *each("week", "--first", "--columns", "--html"),
        *each("shopping", "--weeks", "--lead", "--columns", "--html"),
        *each("costs", "--batch", "--crop", "--weeks", "--from", "--to"),
        ["costs", "set", HOLE, "3"], ["costs", "set", "wage", HOLE],
        *each("costs set wage 3", "--crop", "--from"), ["costs", "prices", HOLE, "--pack", "50g"],
        *each("costs prices radish --pack 50g", "--pack", "--margin", "--weeks"),
        *each("sheet", "--days", "--first", "--columns", "--html"),
        ["sheet", "enter", HOLE], *each("sheet enter water", "--printed"),
    ],
    "safety": [
        ["copy", HOLE], ["restore", HOLE], ["check", "--ahead", HOLE],
        ["handbook", HOLE], ["schema", HOLE],
    ],
    "reckon": [
        *each("reckon light --ppfd 180 --hours 16", "--ppfd", "--lux", "--lamp", "--hours",
              "--want-dli"),
        *each("reckon power --watts 18 --hours 16", "--watts", "--lamps", "--hours", "--price", "--currency",
              "--amps", "--volts", "--power-factor"),
        *each("reckon circuit --amps 3 --breaker 15 --volts 120", "--amps", "--breaker", "--volts",
              "--share"),
        *each("reckon air --temp 21 --rh 60", "--temp", "--rh", "--leaf"),
        *each("reckon dilute --stock 5% --want 200ppm --volume 5l", "--stock", "--want", "--volume",
              "--product"),
        *each("reckon seed --per-cm2 2 --tray 50x25cm --tsw 12g", "--per-cm2", "--tray", "--tsw",
              "--purity", "--germination", "--crop"),
        *each("reckon trays --order 3kg --yield 300g --spread 12% --sure 90%", "--order", "--yield",
              "--spread", "--batch-share", "--sure", "--loss"),
        ["reckon", "luck", HOLE],
        *each("reckon luck batch.csv --trays 3 --batches 2", "--trays", "--batches"),
        ["reckon", "compare", HOLE], *each("reckon compare tray.csv", "--block", "--spread"),
        ["reckon", "ranks", HOLE], ["reckon", HOLE],
        *each("reckon replicates --spread 20", "--spread", "--difference", "--power", "--arms"),
        *each("reckon triangle --tasters 9 --right 6", "--tasters", "--right"),
    ],
    "trial": [
        ["trial", "new", HOLE, "--crop", "radish", "--factor", "x", "--arm", "a", "--arm", "b"],
        *(
            ["trial", "new", "x", "--crop", "radish", "--factor", "density", "--arm", "a=20",
             "--arm", "b=30", option, HOLE]
            for option in ("--crop", "--factor", "--arm", "--question", "--measure", "--replicates",
                           "--shelf", "--weeks", "--draw", "--priority")
        ),
        *(["trial", command, HOLE] for command in ("show", "judge", "sow", "criteria", "taste")),
        ["trial", "plan", HOLE, "--per-arm", "4"],
        ["trial", "add", "salt", HOLE, "101"], ["trial", "add", "salt", "a", HOLE],
        ["trial", "leave-out", "salt", "101", "--why", HOLE],
        ["trial", "leave-out", "salt", HOLE, "--why", "x"],
        ["trial", "decide", "salt", HOLE, "--next", HOLE, "--arm", HOLE],
        ["trial", "adopt", "salt", "a", "--why", HOLE], ["trial", "adopt", "salt", HOLE, "--why", "x"],
        ["trial", "judge", "salt", "--spread", HOLE], ["trial", "judge", "salt", "--seed-price", HOLE],
        ["trial", "taste", "salt", "--taster", HOLE], ["trial", "taste", "salt", "--taste", HOLE],
        ["trial", "taste", "salt", "--taster", HOLE, "--say", "418=" + HOLE],
        ["trial", "criteria", "salt", "--priority", HOLE],
        ["trial", "triangle", "salt", HOLE, "b", "--tasters", "3", "--right", "1"],
        *each("trial triangle salt a b --tasters 3 --right 1", "--tasters", "--right"),
        *each("trial add salt a 102", "--week", "--shelf"),
        *each("trial adopt salt a --why x", "--next"),
        *each("trial sow salt", "--at", "--lot", "--grams", "--numbers", "--place", "--soaked-at"),
        *each("trial taste salt --taster cd", "--draw", "--crunch", "--looks"),
        *each("trial criteria salt", "--seed-price", "--hour-price", "--minutes"),
        *each("trial judge salt", "--hour-price", "--minutes"), *each("trial plan salt", "--per-arm"),
        *(
            [*words.split(), *TIMES]
            for words in (
                "trial new x --crop radish --factor soak --arm a --arm b", "trial add salt a 102",
                "trial leave-out salt 101 --why x", "trial taste salt --taster cd --new",
                "trial triangle salt a b --tasters 3 --right 1", "trial criteria salt yield=2",
                "trial decide salt x", "trial adopt salt a --why x", "trial plan salt --per-arm 4",
            )
        ),
    ],
    "promise": [
        ["promise", HOLE], ["promise", HOLE, "--by", "fri 06:00"],
        *each("promise 500g radish fri", "--by", "--accept"),
    ],
    "plan": each("plan", "--weeks", "--accept"),
    "orders": [
        ["order", HOLE, "radish 500g fri"], ["order", "Bistro", HOLE],
        *each("order Bistro radish 50g every fri", "--from", "--until", "--price", "--at"),
        *(["orders", "change", "7", HOLE], ["orders", "change", HOLE], ["orders", "stop", HOLE]),
        *each("orders change 7", "--from", "--until", "--price", "--at"),
        *each("orders stop 7", "--from", "--at"),
        *(["customer", words, HOLE] for words in ("add", "change", "remove", "pause")),
        *each("customer add shop", "--kind", "--contact", "--weekdays", "--hour", "--at"),
        *each("customer change Bistro", "--name", "--kind", "--contact", "--weekdays", "--hour", "--at"),
        *each("customer pause Bistro --until fri", "--from", "--until", "--order", "--at"),
        *each("customer remove Bistro", "--at"),
        *each("deliveries", "--days"), ["deliveries", "packed", HOLE], ["deliveries", "packed", "B", HOLE],
        *each("deliveries packed Bistro", "--day", "--packs", "--at"),
        ["deliveries", "note", HOLE], *each("deliveries note Bistro", "--day", "--columns", "--html"),
        ["mix", "put", HOLE, "2 radish", "1 kale"], ["mix", "put", "salad", HOLE],
        *each("mix put salad 2radish", "--from", "--rename", "--at"),
        ["mix", "remove", HOLE], ["mix", "remove", "salad", *TIMES],
    ],
    "files": [
        ["export", "x" + HOLE], ["import", HOLE], ["move-book", HOLE, "y"], ["move-book", "y", HOLE], ["import", "--harvests", HOLE], ["export", "--harvests", "h" + HOLE],
        ["import", "--harvests", "past.csv", "--date-order", HOLE],
        ["--book", "new.book", "import", HOLE],
    ],
    "for all": [
        [HOLE], ["--book", HOLE, "round"], ["--now", HOLE, "round"], ["--by", HOLE, "jot", "room", "x"],
        ["--by", HOLE, "me"], ["me", HOLE], ["completion", HOLE], ["--" + HOLE],
    ],
}  # fmt: skip


ELSEWHERE = ["serve", "demo"]
"""Commands that are tested elsewhere: they would begin to serve, or make a sample each time."""


def commands_of(
    command: click.Command, path: list[str]
) -> Iterator[tuple[list[str], click.Command]]:
    """Give a command and those below it, with the words that call them."""
    yield path, command
    if isinstance(command, click.Group):
        for name in command.list_commands(click.Context(command)):
            below = command.get_command(click.Context(command), name)
            assert below is not None
            yield from commands_of(below, [*path, name])


def is_fed(path: list[str], option: str) -> bool:
    """Whether some line above puts any text into an option of a command, or '' an argument."""
    for line in (line for lines in COMMANDS.values() for line in lines):
        words = line[2:] if line[0] == "--book" else line
        if words[: len(path)] != path:
            continue
        before = [word for word, text in itertools.pairwise(words) if HOLE in text]
        if option in before or (not option and any(word[:2] != "--" for word in before)):
            return True
    return False


def test_every_text_that_a_command_takes_is_fed_here() -> None:
    missing = []
    for name, (where, _) in TABLE.items():
        module, function = where.split(":")
        whole = getattr(import_module(f"logbook.cli.{module}"), function)
        for path, command in commands_of(whole, [name]):
            for each_of in command.params:
                flag = isinstance(each_of, click.Option) and (each_of.is_flag or each_of.count)
                option = max(each_of.opts, key=len) if isinstance(each_of, click.Option) else ""
                if not flag and name not in ELSEWHERE and not is_fed(path, option):
                    missing.append(" ".join([*path, option or str(each_of.name)]))
    assert not missing, " ".join(missing)


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a book that holds a sowing and a weight."""
    folder = tmp_path_factory.mktemp("nasty")
    draft = BeginDraft(zone="UTC", racks=1, shelves=2, slots=4)
    book = begin_book(folder / "room.book", draft, FixedClock(NOON), "AB", "sample")
    sow(book, SowDraft("radish", trays=3, at=NOON - timedelta(days=6)))
    weigh(book, [103], 240.0)
    set_up(book, TrialDraft("salt", "radish", "density", ("a=20g", "b=30g"), layout_number=3))
    join_trial(book, "salt", "a", [101])
    new_tasting(book, "salt", seed=4)
    return folder


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """An empty folder to work in; a fault inside the program is not hidden but raised."""

    def raised(fault: BaseException) -> str:
        raise AssertionError from fault

    monkeypatch.setattr("logbook.cli.mishap.keep_trace", raised)
    for variable in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(variable, str(tmp_path / "xdg"))
    monkeypatch.delenv("LOGBOOK_BOOK", raising=False)
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    yield work
    monkeypatch.undo()


def fresh(begun: Path, folder: Path) -> None:
    """Begin anew: nothing in the folder but the book."""
    for path in folder.iterdir():
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink()
    shutil.copy(begun / "room.book", folder / "room.book")


def ran(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    """Run a command; check what holds for any; give its exit code and what it printed."""
    capsys.readouterr()
    code = run(["--book", "room.book", "--now", "2026-04-14T12:00Z", *arguments])
    out, err = capsys.readouterr()
    assert code in (0, 1, 2)
    assert not HARMFUL.search(out), ascii(out)
    assert not HARMFUL.search(err), ascii(err)
    assert "Traceback" not in err
    if code:
        assert err.strip()
    if out.startswith("{\n"):
        json.loads(out, parse_constant=pytest.fail)
    return code, out, err


@pytest.mark.parametrize("command", COMMANDS)
@settings(
    max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_any_text_is_taken_or_refused_with_a_sentence(
    begun: Path, folder: Path, capsys: pytest.CaptureFixture[str], command: str,
    data: st.DataObject,
) -> None:  # fmt: skip
    arguments = data.draw(st.sampled_from(COMMANDS[command]))
    text = data.draw(TEXT)
    fresh(begun, folder)
    ran([part.replace(HOLE, text) for part in arguments], capsys)


@pytest.mark.parametrize("text", ["\x00", "\x1b[31m", "\ud800", "a" * 300, "a..b"])
def test_nothing_is_served_at_an_impossible_name(
    begun: Path, folder: Path, capsys: pytest.CaptureFixture[str], text: str
) -> None:
    fresh(begun, folder)
    (folder / "password").write_text("sown on a monday\n")
    (folder / "password").chmod(0o600)
    assert ran(["serve", "--host", text, "--password-file", "password"], capsys)[0] == 1
    if "\x00" in text or "\ud800" in text:
        assert ran(["serve", "--password-file", text], capsys)[0] == 1


def test_a_template_file_that_is_nested_without_end_is_refused(
    begun: Path, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    fresh(begun, folder)
    (folder / "deep.toml").write_text("crop = " + "[" * 50_000)
    assert ran(["templates", "put", "deep.toml"], capsys)[0] == 1


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("text", ["\x00", "\ud800", "\udcff.book", "a" * 300])
def test_a_sample_is_kept_under_no_impossible_name(
    capsys: pytest.CaptureFixture[str], text: str
) -> None:
    assert ran(["demo", "--keep", text], capsys)[0] == 1


@settings(
    max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(text=TEXT)
def test_a_note_is_kept_as_it_was_typed_but_for_harmful_marks(
    begun: Path, folder: Path, capsys: pytest.CaptureFixture[str], text: str
) -> None:
    fresh(begun, folder)
    code, _, _ = ran(["jot", "101", "--", text], capsys)
    kept = clean(text)
    assert code == (0 if 0 < len(kept) <= LONGEST_NOTE else 1)
    if code == 0:
        _, out, _ = ran(["page", "--json", "--kind", "jot"], capsys)
        (entry,) = json.loads(out)["entries"]
        assert entry["note"] == kept


@settings(
    max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    key=st.sampled_from(
        ["crop", "variety", "seed_grams", "tray", "soak", "medium", "notes", "cut", "mucilage"]
    )
    | TEXT,
    value=TEXT | st.floats() | st.integers() | st.booleans() | st.lists(TEXT, max_size=2),
)
def test_any_template_file_is_taken_or_refused_with_a_sentence(
    begun: Path, folder: Path, capsys: pytest.CaptureFixture[str], key: str, value: object
) -> None:
    import tomli_w

    fresh(begun, folder)
    whole = {
        "crop": "cress",
        "stages": [{"name": "tray", "length": "5d", "light": "lit"}],
        key: value,
    }
    (folder / "cress.toml").write_bytes(tomli_w.dumps(whole).encode("utf-8", "replace"))
    code, _, _ = ran(["templates", "put", "cress.toml"], capsys)
    if code == 0:
        ran(["templates", "show", "--json", "--", str(whole["crop"])], capsys)
        ran(["templates"], capsys)


@pytest.mark.parametrize("text", [text for text in NASTY if text])
def test_each_known_trap_in_the_daily_jobs(
    begun: Path, folder: Path, capsys: pytest.CaptureFixture[str], text: str
) -> None:
    fresh(begun, folder)
    for arguments in (
        ["jot", "101", "--", text],
        ["weigh", "101", text],
        ["did", "water", "102", "--at", text],
        ["move", "102", text],
        ["batch", text],
        ["page", "--tray", text],
        ["strike", text, "--why", "x"],
        ["search", "--", text],
    ):
        ran(arguments, capsys)
