"""Fixtures: a standing clock, a fresh book through the real migrations, and the command line."""

from __future__ import annotations

import fcntl
import gc
import json
import os
import shutil
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.crops.templates import write_version
from logbook.cli.app import run
from logbook.clock import FixedClock
from logbook.store.server.address import Address
from logbook.store.tables import Table
from logbook.store.writer import Writer
from logbook.ui.line import keys_in_turn
from sample_db import build
from tests.made_once import make_tables_once
from tests.on_server import SERVER, Databases, Statements, closed
from tests.quick_disk import wait_for_no_disk
from tests.room import field_test, moment
from tests.ui.painting import paint_at_rest, read_styles_once

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # so that programs are compiled once, not each time
settings.register_profile("book", deadline=None, derandomize=True, database=None)
settings.register_profile("explore", deadline=None, max_examples=300)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "book"))

NOW = moment("2026-04-14 07:42")


LONGEST = (
    "ui/test_typed_ahead.py", "ui/test_snapshots.py", "pictures/test_pictures.py", "ui/test_forms.py",
    "safety/test_kills.py", "actions/test_year_of_numbers.py",
    "ui/test_forms_of_the_book.py", "serving/test_serve.py", "sample/test_sample_book.py",
    "ui/test_refused_stays.py", "ui/test_real_terminal.py", "ui/test_any_text.py",
    "handbook/test_tour.py", "safety/test_power.py", "safety/test_crowd.py", "safety/test_closed_days.py",
    "actions/test_random_acts.py", "actions/test_kept_folds.py", "cli/test_signs.py", "cli/test_completion_in_shells.py",
    "store/test_imports.py", "growing/planning/test_slots.py", "ui/test_trials.py", "ui/test_weigh.py",
    "store/test_plans.py", "actions/packs/test_random_lots.py", "ui/test_sheet.py", "ui/test_deliveries.py", "ui/test_cold.py",
)  # fmt: skip
"""Files that take long, whatever their number of tests: begun last, they would be waited for."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the files that take longest, then those with most tests."""
    if items and items[0].config.getoption("--server"):
        for item in items:
            if item.get_closest_marker("file") is not None:
                item.add_marker(pytest.mark.skip("it is about the book's file"))
    tests = Counter(item.path for item in items)
    long = {Path(__file__).parent / name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: (long.get(item.path, len(LONGEST)), -tests[item.path]))


def pytest_collection_finish() -> None:
    """Leave all that is imported out of the search for garbage, and search for it seldom."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let no test see or touch the folders, the name or the book of whoever runs it."""
    for name in ("DATA", "CONFIG", "STATE", "CACHE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / "xdg" / name.casefold()))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    for variable in [name for name in os.environ if name.startswith("LOGBOOK_")]:
        monkeypatch.delenv(variable)
    monkeypatch.setenv("USER", "tester")
    monkeypatch.delenv("SSH_USER", raising=False)


@pytest.fixture(scope="session", autouse=True)
def thrifty_screens() -> Iterator[None]:
    """Let no screen paint what nobody looks at, or look for garbage between keys."""
    with pytest.MonkeyPatch.context() as patch:
        paint_at_rest(patch)
        read_styles_once(patch)
        patch.setattr(keys_in_turn, "COLLECT_AFTER_SECONDS", 3600.0)
        yield


@pytest.fixture(scope="session", autouse=True)
def quick_disk() -> Iterator[None]:
    """Let no test wait for the disk, or for scripts that have made the same tables before."""
    with pytest.MonkeyPatch.context() as patch:
        wait_for_no_disk(patch)
        make_tables_once(patch)
        yield


@pytest.fixture(scope="session", autouse=True)
def rows_as_declared() -> Iterator[None]:
    """Let no test write a row that lacks what its table declares, or fills in anything else."""
    unsaid, known = Writer._unsaid, set[tuple[str, ...]]()

    def checked(self: Writer, table: str, row: Mapping[str, Any]) -> dict[str, str | int]:
        filled = unsaid(self, table, row)
        if (table, *row) in known:
            return filled
        columns = Table.metadata.tables[table].columns
        assert set(row) <= {each.name for each in columns}, (table, *row)
        for each in columns:
            given = each.name in row or each.nullable or each.server_default is not None
            if not given and (each.name, each.primary_key) != ("id", True):
                assert each.default is not None, f"{table}.{each.name} must be said"
                default = getattr(each.default, "arg", None)
                assert filled[each.name] == default, f"{table}.{each.name} is filled otherwise"
        known.add((table, *row))
        return filled

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Writer, "_unsaid", checked)
        yield


@pytest.fixture
def clock() -> FixedClock:
    """Give a clock that stands at Tuesday 14 April 2026, 07:42 in London."""
    return FixedClock(NOW)


def pytest_addoption(parser: pytest.Parser) -> None:
    """Let the books of tests be on a server."""
    parser.addoption(
        "--server", action="store_true", help="books on the server that LOGBOOK_TEST_POSTGRES names"
    )


def _filled(where: Path | Address) -> Book:
    clock = FixedClock(NOW - timedelta(days=30))
    draft = BeginDraft("Test room", "Europe/London")
    book = begin_book(where, draft, clock, "tester", "sample")  # so that --now may write to it
    with book.writing() as act:  # as if it had been there from the start
        write_version(act.writer, field_test(), by="tester", now=act.now, why="")
    return book


@pytest.fixture(scope="session")
def book_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make one book through the real migrations; each worker makes its own, each test copies it."""
    return _filled(tmp_path_factory.mktemp("template") / "room.book").file.path


@pytest.fixture(scope="session")
def databases() -> Iterator[Databases]:
    """The worker's databases on the server."""
    found = Databases()
    yield found
    found.end()


SampleMaker = Callable[[Path, datetime, str], Book]


@pytest.fixture(scope="session")
def sample_book(tmp_path_factory: pytest.TempPathFactory) -> SampleMaker:
    """Put the sample of a moment and a zone at a path: built once for all workers, then copied."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent

    def make(path: Path, now: datetime, zone: str) -> Book:
        kept = folder / f"sample-{now.astimezone(UTC):%Y-%m-%d-%H%M}-{zone.replace('/', '-')}.book"
        with (folder / "sample.lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not kept.exists():
                new = kept.with_suffix(".new")
                (kept.with_suffix(".by")).write_text(build(new, now, zone=zone).by)
                new.rename(kept)
        shutil.copyfile(kept, path)
        return open_book(path, FixedClock(now), kept.with_suffix(".by").read_text())

    return make


@pytest.fixture(scope="session")
def statements(request: pytest.FixtureRequest) -> Iterator[Statements | None]:
    """What the tests ask of files, where a server is there to take it too."""
    if not SERVER or request.config.getoption("--server"):
        yield None
        return
    databases: Databases = request.getfixturevalue("databases")
    address = databases.new()
    closed(begin_book(address, BeginDraft()))
    found = Statements(address)
    with pytest.MonkeyPatch.context() as patch:
        found.listen(patch)
        yield found
    found.connection.close()


@pytest.fixture(autouse=True)
def taken_by_both(statements: Statements | None) -> Iterator[None]:
    """Let no test ask a book what only one of the two databases understands."""
    yield
    if statements is not None:
        statements.check()


@pytest.fixture
def new_book(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[[], Book]]:
    """Give a maker of fresh books: two racks of four shelves of four slots, clock at NOW."""
    if request.config.getoption("--server"):
        databases: Databases = request.getfixturevalue("databases")
        yield lambda: databases.book(_filled, FixedClock(NOW), "tester")
        databases.drop()
        return
    template: Path = request.getfixturevalue("book_template")

    def make() -> Book:
        path = tmp_path_factory.mktemp("book") / "room.book"
        shutil.copyfile(template, path)
        return open_book(path, FixedClock(NOW), "tester")

    yield make


@pytest.fixture
def book(new_book: Callable[[], Book]) -> Book:
    """Give a fresh book; its clock stands at NOW until the test sets it."""
    return new_book()


@dataclass(frozen=True, slots=True)
class Ran:
    """What a command gave back."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Standard output, which must be nothing but one JSON value."""
        return json.loads(self.out)

    @property
    def refusal(self) -> str:
        """The one sentence of a refusal; nothing may have been printed as a result."""
        assert self.code == 1, (self.code, self.out, self.err)
        return self._sentence

    @property
    def wrong_usage(self) -> str:
        """As `refusal`, where the command itself misses a part or has two that don't go together."""
        assert self.code == 2, (self.code, self.out, self.err)
        return self._sentence

    @property
    def _sentence(self) -> str:
        assert self.out == ""
        assert "Traceback" not in self.err
        assert "Something went wrong inside" not in self.err
        assert self.err.endswith("\n")
        assert self.err.count("\n") == 1, self.err
        sentence = self.err.strip()
        assert sentence[-1] in ".?", sentence
        return sentence


class CommandLine:
    """Runs `logbook` in this process on one book at one pretended time."""

    def __init__(
        self, book: Path, capture: pytest.CaptureFixture[str], address: Address | None = None
    ) -> None:
        self.book = book
        self.address = address
        self.now = "2026-04-14T07:42"
        self._capture = capture

    def __call__(self, *arguments: str) -> Ran:
        """Run a command on the book at the pretended time."""
        where = str(self.book) if self.address is None else self.address.given
        return self.bare("--book", where, "--now", self.now, *arguments)

    def bare(self, *arguments: str) -> Ran:
        """Run with these arguments alone."""
        self._capture.readouterr()
        code = run(list(arguments))
        printed = self._capture.readouterr()
        assert "\ufdd0" not in printed.out + printed.err, "a Way that nobody put words for"
        return Ran(code, printed.out, printed.err)

    def done(self, *arguments: str) -> Ran:
        """Run a command that must succeed."""
        ran = self(*arguments)
        assert ran.code == 0, ran.err
        return ran


@pytest.fixture
def cli(book: Book, capsys: pytest.CaptureFixture[str]) -> CommandLine:
    """Give the command line on a fresh book at NOW."""
    where = book.file.where
    return CommandLine(book.file.path, capsys, where if isinstance(where, Address) else None)


@pytest.fixture
def empty_cli(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> CommandLine:
    """Give the command line with a path at which there is no book yet."""
    return CommandLine(tmp_path / "rooms" / "room.book", capsys)
