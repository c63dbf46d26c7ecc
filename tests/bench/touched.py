"""A plugin for pytest that notes which of our functions each test calls, and how long it takes.

`pytest -p tests.bench.touched` writes it as JSON beside `tests`:
test → [seconds of work, [[file, function], …]].
"""

from __future__ import annotations

import json
import sys
from collections.abc import Generator
from pathlib import Path
from time import process_time
from types import FrameType

import pytest

FILE = "touched.json"
HERE = f"{Path.cwd()}/"
OURS = f"{HERE}logbook/"
_found: dict[str, tuple[float, list[tuple[str, str]]]] = {}
_failed: set[str] = set()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """Trace the calls of one test, its fixtures included."""
    seen: set[tuple[str, str]] = set()

    def called(frame: FrameType, _event: str, _arg: object) -> None:
        code = frame.f_code
        if code.co_filename.startswith(OURS):
            seen.add((code.co_filename.removeprefix(HERE), code.co_qualname))

    before, began = sys.gettrace(), process_time()
    sys.settrace(called)
    try:
        return (yield)
    finally:
        sys.settrace(before)
        _found[item.nodeid] = (process_time() - began, sorted(seen))


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    """Note which tests fail."""
    if report.failed:
        _failed.add(report.nodeid)


def pytest_sessionfinish() -> None:
    """Write what was found of the tests that pass."""
    for each in _failed:
        del _found[each]
    Path(FILE).write_text(json.dumps(_found))
