"""The versions that are declared are those that were tried."""

from __future__ import annotations

import tomllib

from tests.bench.lowest import TRIED, floors
from tests.bench.processes import ROOT


def test_the_lowest_declared_versions_are_those_that_were_started() -> None:
    """After a change run `python -m tests.bench.lowest`, which prints what to put into TRIED."""
    assert floors() == TRIED


def test_textual_stays_below_the_next_major_version() -> None:
    """The app and its driver override what Textual calls inner, which a major may change."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    (textual,) = (each for each in project["dependencies"] if each.startswith("textual>"))
    lowest = TRIED["textual"]
    assert textual == f"textual>={lowest},<{int(lowest.split('.')[0]) + 1}"
