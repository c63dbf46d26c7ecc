"""Do the tests notice a fault? `python -m tests.bench.mutants --count 200 --draw 7` tells.

Faults (mutants, from `tests.bench.mutating`) are drawn over the rules of the trade (growing) and
the daily acts and views, put one at a time into a copy of the tree, and looked for by the matching
tests: those of TESTS (no screens, no processes) that call the faulty function, found by one traced
run, quickest first, up to 20 seconds of work. What lies outside functions is looked for by
the tests that call anything of its module, and those in files that import it. A fault is killed
when a test fails, or hangs. Faults in functions are put in by `tests.bench.in_place`; the others
are written into the copy, with a pytest for each.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import random
import shutil
import signal
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NoReturn

from tests.bench.in_place import ELSEWHERE, SURVIVED, InPlace, Job
from tests.bench.mutating import Spot, spots
from tests.bench.touched import FILE

ROOT = Path(__file__).parents[2]
COPIED = ("logbook", "sample_db", "tests", "pyproject.toml", "README.md", "DEVELOPERS.md")
TESTS = ("tests/growing", "tests/actions", "tests/exchange", "tests/cli/test_lots.py")
DAILY = ("trays", "writing")
"""Names of files or folders of actions: what is done and seen every day."""
WORK = 20.0
"""Seconds of tests that look for one fault."""
LIBRARIES = (
    "pytest",
    "sqlmodel",
    "sqlalchemy.orm",
    "pendulum",
    "click",
    "tomli_w",
    "unittest.mock",
)
"""What a run of pytest would load, and is loaded once instead."""

Calls = dict[tuple[str, str], list[str]]


@dataclass(frozen=True, slots=True)
class Mutant:
    """A fault: the number of its spot in a file, and what it says."""

    path: Path
    number: int
    spot: Spot

    @property
    def words(self) -> str:
        """Where it is and what was changed."""
        place = f"{self.path}:{self.spot.line} {self.spot.owner}".rstrip()
        return f"{place}: {self.spot.old}  →  {self.spot.new}"


def modules(root: Path, only: str = "") -> Iterator[Path]:
    """Walk to the modules that are made faulty; paths are relative to the root."""
    for path in sorted(root.glob("logbook/**/*.py")):
        inside = path.relative_to(root / "logbook").with_suffix("").parts
        daily = inside[0] == "actions" and set(inside[1:]) & set(DAILY)
        if only in str(path) and (daily or inside[0] == "growing"):
            yield path.relative_to(root)


def drawn(root: Path, count: int, draw: int, only: str = "") -> list[Mutant]:
    """Draw faults at random over all modules, each spot as likely as another."""
    every = [
        Mutant(path, number, spot)
        for path in modules(root, only)
        for number, spot in enumerate(spots(ast.parse((root / path).read_text())))
    ]
    print(f"{len(every)} possible mutants; {min(count, len(every))} drawn (--draw {draw})")
    return random.Random(draw).sample(every, min(count, len(every)))


def _pytest(
    copy: Path, *arguments: str, seconds: int = 3600, plugins: Sequence[object] = ()
) -> int:
    """Run pytest in the copy, in a child that has the libraries already; below 0 when it hangs."""
    child = os.fork()
    if not child:
        _run_and_exit(copy, arguments, seconds, plugins)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _run_and_exit(
    copy: Path, arguments: Sequence[str], seconds: int, plugins: Sequence[object]
) -> NoReturn:
    import pytest

    signal.alarm(seconds)
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    for name in [each for each in sys.modules if each.partition(".")[0] == "tests"]:
        del sys.modules[name]
    sys.path[:] = [str(copy), *(each for each in sys.path if Path(each).resolve() != ROOT)]
    sys.dont_write_bytecode = True
    os.chdir(copy)
    os._exit(pytest.main(["-q", "-n", "0", *arguments], list(plugins)))


def traced(copy: Path) -> tuple[dict[str, float], Calls]:
    """Run all matching tests once; give each one's seconds, and by file and function their ids."""
    if _pytest(copy, "-p", "tests.bench.touched", *TESTS) != 0:
        print("Some tests fail without any mutant; they are left out.")
    seconds, calls = {}, Calls()
    for test, (took, touched) in json.loads((copy / FILE).read_text()).items():
        seconds[test] = took
        for path, function in touched:
            owner = function.split(".<locals>")[0]
            for key in dict.fromkeys(((path, owner), (path, ""))):
                calls.setdefault(key, []).append(test)
    return seconds, calls


def matching(mutant: Mutant, seconds: dict[str, float], calls: Calls) -> list[str]:
    """Give the tests that look for a fault, the quickest first."""
    path = str(mutant.path)
    in_a_class = mutant.spot.owner[:1].isupper() and "." not in mutant.spot.owner
    tests = calls.get((path, "" if in_a_class else mutant.spot.owner), [])
    if in_a_class or not mutant.spot.owner:
        name = ".".join(mutant.path.with_suffix("").parts)
        theirs = {each for each in {test.partition("::")[0] for test in seconds}
                  if f"from {name} import" in (ROOT / each).read_text()}  # fmt: skip
        tests = tests + [test for test in seconds if test.partition("::")[0] in theirs]
    left, chosen = WORK, []
    for test in sorted(set(tests), key=lambda each: seconds[each]):
        left -= seconds[test]
        if left < 0:
            break
        chosen.append(test)
    return chosen


def in_place(copy: Path, mutants: Sequence[Mutant], tests: Sequence[Sequence[str]]) -> list[int]:
    """How faults end that are put into functions; ELSEWHERE for those that cannot be."""
    jobs = [
        Job(mutant.path, mutant.number, mutant.spot.owner, ids)
        for mutant, ids in zip(mutants, tests, strict=True)
    ]
    ends = copy / "ends.txt"
    _pytest(copy, *TESTS, seconds=24 * 3600, plugins=[InPlace(jobs, ends, round(20 * WORK))])
    return [int(end) for end in ends.read_text().split()]


def killed(copy: Path, mutant: Mutant, tests: list[str]) -> bool:
    """Whether a test notices the fault; the file is whole again afterwards."""
    if not tests:
        return False
    path = copy / mutant.path
    whole = path.read_text()
    tree = ast.parse(whole)
    spots(tree)[mutant.number].put_in()
    listed = copy / "tests.txt"
    listed.write_text("\n".join(tests))
    try:
        path.write_text(ast.unparse(ast.fix_missing_locations(tree)))
        return _pytest(copy, "-x", f"@{listed}", seconds=round(20 * WORK)) != 0
    finally:
        path.write_text(whole)


def main() -> None:
    """Draw, run and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--draw", type=int, default=1)
    parser.add_argument("--only", default="", help="modules whose path holds this")
    asked = parser.parse_args()
    for library in LIBRARIES:
        import_module(library)
    with TemporaryDirectory() as folder:
        copy = Path(folder).resolve()
        for name in COPIED:
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, copy / name)
            else:
                shutil.copy2(ROOT / name, copy / name)
        mutants = drawn(copy, asked.count, asked.draw, asked.only)
        seconds, calls = traced(copy)
        tests = [matching(mutant, seconds, calls) for mutant in mutants]
        survived = []
        for done, (mutant, ids, end) in enumerate(
            zip(mutants, tests, in_place(copy, mutants, tests), strict=True), 1
        ):
            if end == SURVIVED or (end == ELSEWHERE and not killed(copy, mutant, ids)):
                survived.append(mutant)
                print(f"{done:4}  {mutant.words}  ({len(ids)} tests)", flush=True)
    dead = len(mutants) - len(survived)
    print(f"{dead} of {len(mutants)} died ({100 * dead / max(1, len(mutants)):.0f} %)")
    for path, number in Counter(mutant.path for mutant in survived).most_common():
        print(f"{number:4} survived in {path}")


if __name__ == "__main__":
    main()
