"""A plugin for pytest that puts faults into functions of the running program, one in each fork.

All tests are collected once; for each fault a fork takes it into the function that the tests call,
and runs the tests that look for it. That takes a tenth of a pytest of its own.
"""

from __future__ import annotations

import ast
import os
import shutil
import signal
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from types import CodeType, FrameType, FunctionType
from typing import Any

import pytest

from tests.bench.mutating import spots

SURVIVED, KILLED, ELSEWHERE = 0, 1, 2
"""How a fault ended; ELSEWHERE is one that lies in no function that can be found."""


@dataclass(frozen=True, slots=True)
class Job:
    """A fault, by the number of its spot in a file, and the tests (ids) that look for it."""

    path: Path
    number: int
    owner: str
    tests: Sequence[str]


@dataclass(eq=False)
class InPlace:
    """Runs jobs instead of the tests; `ends` is the file that gets a line for each, in order."""

    jobs: Sequence[Job]
    ends: Path
    seconds: int
    in_a_fork: bool = field(default=False, init=False)
    early: set[tuple[str, str]] = field(default_factory=set, init=False)
    """Files and functions that were called while modules were imported: too late for a fault."""

    @pytest.hookimpl(tryfirst=True)
    def pytest_load_initial_conftests(self) -> None:
        """Note what is called from here on."""
        here = f"{Path.cwd()}/"

        def called(frame: FrameType, event: str, _arg: object) -> None:
            code = frame.f_code
            if event == "call" and code.co_filename.startswith(f"{here}logbook/"):
                owner = code.co_qualname.partition(".<locals>")[0]
                self.early.add((code.co_filename.removeprefix(here), owner))

        sys.setprofile(called)

    def pytest_collection_finish(self) -> None:
        """What is called now is called by tests."""
        sys.setprofile(None)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Fork for each job."""
        items = {item.nodeid: item for item in session.items}
        base = session.config._tmp_path_factory.getbasetemp()  # type: ignore[attr-defined]
        with self.ends.open("w") as ends:
            for job in self.jobs:
                if not job.owner or (str(job.path), job.owner) in self.early:
                    ends.write(f"{ELSEWHERE}\n")
                    continue
                child = os.fork()
                if not child:
                    self._run_and_exit(job, [items[test] for test in job.tests if test in items])
                code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
                ends.write(f"{KILLED if code < 0 else code}\n")
                ends.flush()
                for each in base.iterdir():
                    shutil.rmtree(each, ignore_errors=True)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """End a fork at the first test that fails."""
        if self.in_a_fork and report.failed:
            os._exit(KILLED)

    def _run_and_exit(self, job: Job, items: Sequence[pytest.Item]) -> None:
        self.in_a_fork = True
        signal.alarm(self.seconds)
        end = KILLED
        try:
            end = SURVIVED if put_in(job) else ELSEWHERE
            for item, following in zip(items, [*items[1:], None], strict=False):
                if end == SURVIVED:
                    item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        finally:
            os._exit(end)


def put_in(job: Job) -> bool:
    """Put a fault into its function; False where that cannot be found, or its code stays the same."""
    module = import_module(".".join(job.path.with_suffix("").parts))
    source = Path(str(module.__file__)).read_text()
    whole, faulty = ast.parse(source), ast.parse(source)
    spots(faulty)[job.number].put_in()
    old, new = (
        next(
            _codes(
                compile(ast.fix_missing_locations(tree), str(module.__file__), "exec"), job.owner
            ),
            None,
        )
        for tree in (whole, faulty)
    )
    function = _function(module, job.owner)
    if function is None or old is None or new is None or _same(old, new):
        return False
    function.__code__ = new
    return True


def _codes(code: CodeType, name: str) -> Iterator[CodeType]:
    for each in code.co_consts:
        if isinstance(each, CodeType):
            if each.co_qualname == name:
                yield each
            yield from _codes(each, name)


def _same(one: CodeType, other: CodeType) -> bool:
    return (
        one.co_code == other.co_code
        and one.co_names == other.co_names
        and all(
            _same(mine, theirs)
            if isinstance(mine, CodeType) and isinstance(theirs, CodeType)
            else type(mine) is type(theirs) and mine == theirs
            for mine, theirs in zip(one.co_consts, other.co_consts, strict=False)
        )
        and len(one.co_consts) == len(other.co_consts)
    )


def _function(module: object, owner: str) -> FunctionType | None:
    """Find a function by its path in a module, within what decorators made of it."""
    found: Any = module
    for name in owner.split("."):
        found = vars(found).get(name)
        if found is None:
            return None
    for wrapper in ("fget", "__func__", "func", "__wrapped__"):
        found = getattr(found, wrapper, found)
    return found if isinstance(found, FunctionType) else None
