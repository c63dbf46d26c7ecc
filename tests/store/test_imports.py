"""What is imported: no ORM, no migrations and no Textual to show a round; nowhere a circle."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from graphlib import CycleError, TopologicalSorter
from pathlib import Path
from textwrap import dedent

import pytest

import logbook
from logbook.actions.book import Book
from tests.actions.days import sow_at

ROOT = Path(logbook.__file__).parents[1]
HEAVY = (
    "alembic", "sqlalchemy", "sqlmodel", "pydantic", "textual", "rich", "plotext", "pendulum",
    "scipy", "numpy", "pandas",
)  # fmt: skip
SHOWS = (["round"], ["round", "--brief"], ["due"], ["page"], ["racks"], ["tray", "101"], ["templates"], ["places"], ["check"])  # fmt: skip


def _loaded(code: str) -> list[str]:
    """Run Python of our own in a fresh interpreter; give which heavy packages it loaded."""
    program = f"import json, sys\n{code}\nprint(json.dumps(sorted(sys.modules)), file=sys.stderr)"
    ran = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True
    )
    modules = json.loads(ran.stderr.splitlines()[-1])
    return [name for name in HEAVY if name in modules]


def test_nothing_heavy_is_loaded_by_the_package_itself() -> None:
    assert _loaded("import logbook, logbook.__main__, logbook.cli.app") == []


def test_what_only_shows_loads_no_orm(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    arguments = [
        ["--book", str(book.file.path), "--now", "2026-04-02T08:00", *show] for show in SHOWS
    ]
    code = f"from logbook.cli.app import run\nassert [run(each) for each in {arguments!r}] == [0] * {len(SHOWS)}"
    assert _loaded(code) == []


def test_what_writes_loads_no_orm(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    arguments = [
        ["--book", str(book.file.path), "--now", "2026-04-02T08:00", *words]
        for words in (
            ["jot", "101", "dry"], ["did", "water", "101"], ["look", "101", "--height", "12"],
            ["move", "101", "Rack 1/Shelf 2"], ["undo"], ["order", "The corner bistro", "radish 500g fri"],
        )
    ]  # fmt: skip
    code = (
        f"from logbook.cli.app import run\nassert [run(each) for each in {arguments!r}] == [0] * 6"
    )
    assert _loaded(code) == []


def test_what_is_loaded_ahead_is_all_that_the_first_acts_load(book: Book) -> None:
    sow_at(book, "2026-04-14 06:00", 2)
    code = f"""
        from datetime import UTC, datetime
        from pathlib import Path
        from logbook.actions.book import open_book
        from logbook.actions.loading import steps_for_writing
        from logbook.actions.trays.round import round_view
        from logbook.clock import FixedClock
        book = open_book(Path({str(book.file.path)!r}), FixedClock(datetime(2026, 4, 14, 7, tzinfo=UTC)))
        round_view(book)
        for step in steps_for_writing():
            step()
        seen = set(sys.modules)
        from logbook.actions.trays.doing import did
        from logbook.actions.trays.noticing import jot
        from logbook.actions.trays.striking import undo
        did(book, "water", (101,))
        jot(book, (102,), "dry")
        undo(book)
        assert set(sys.modules) - seen == set(), set(sys.modules) - seen
    """
    assert _loaded(dedent(code)) == [], "no act needs what is large"


@pytest.mark.parametrize("module", ["growing", "store.reads.entries", "actions.trays.tray_page"])
def test_reading_modules_load_no_orm(module: str) -> None:
    assert _loaded(f"import logbook.{module}") == []


_IMPORT = re.compile(r"^ *from ((?:logbook|sample_db)\S*) import (\([^)]*\)|.*)", re.MULTILINE)


def test_no_module_imports_itself_by_way_of_others() -> None:
    """Imports inside functions and for types alone count."""
    modules = {
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
        for package in ("logbook", "sample_db")
        for path in (ROOT / package).rglob("*.py")
    }
    graph = {}
    for name, path in modules.items():
        text = path.read_text(encoding="utf-8")
        found = set()
        for module, given in _IMPORT.findall(text):
            inner = {f"{module}.{each}" for each in re.findall(r"\w+", given)} & modules.keys()
            found |= inner or {module}
        graph[name] = found - {name}
    assert graph["logbook.actions.trays.doing"] >= {"logbook.actions.book", "logbook.text"}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as circle:
        pytest.fail(f"a circle of imports: {' → '.join(circle.args[1])}")
