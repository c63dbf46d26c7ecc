"""A terminal that changes its size shows each screen as if it had been opened at that size."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from rich.cells import cell_len

from logbook.ui.app import LogbookApp
from logbook.ui.screen import LogScreen
from logbook.ui.screens import SCREENS
from tests.ui.snapshots import draw_resized, kept
from tests.ui.test_snapshots import new, sample, scenes

WIDEST = (200, 50)
ELSEWHERE = {"chapter"}
THROUGH = (WIDEST, (40, 20), (60, 15), (80, 24), WIDEST)
"""The sizes that a terminal goes through, beginning at the one at which a screen is opened."""


def _keeps_its_name_and_its_width(text: str, name: str, columns: int) -> bool:
    lines = text.split("\n")
    screen = LogbookApp.SCREENS[name.partition(",")[0]]()
    assert isinstance(screen, LogScreen)
    return bool(
        all(cell_len(line) <= columns for line in lines)
        and (name == "round, help" or (screen.heading in lines[0] and re.search(r"\?|esc", text)))
    )


def _now_in_view(text: str) -> bool:
    """Whether the line of now is seen; a tray's page is opened with it in the middle."""
    return "── now" in text


@pytest.fixture(autouse=True)
def _surroundings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("TZ", "Europe/London")


def test_every_screen_and_question_follows_the_size_of_the_terminal(tmp_path: Path) -> None:
    book = sample(tmp_path / "room.book")
    every = scenes(book, alike=True)

    drawn = draw_resized(LogbookApp(book), every, THROUGH)

    wrong = []
    for name, texts in drawn.items():
        wrong += [
            f"{name} has no name, no way on, or lines of more than {columns} columns:\n{text}"
            for text, (columns, _) in zip(texts, THROUGH, strict=True)
            if not _keeps_its_name_and_its_width(text, name, columns)
        ]
        opened, narrow, _, wide, again = texts
        pairs = ((narrow, kept(name)["sample 40×20"]), (wide, kept(name)["sample 80×24"]))
        wrong += [
            f"{name} is\n{is_now}\nand was, when it was opened at this size,\n{picture}"
            for is_now, picture in (*pairs, (again, opened))
            if not (_now_in_view(is_now) if name == "tray" else is_now == picture)
        ]
    assert not wrong, "\n\n".join(wrong)
    assert {name.partition(",")[0] for name in drawn} | {"begin"} >= set(SCREENS) - ELSEWHERE


def test_the_first_form_follows_the_size_too() -> None:
    _, narrow, _, wide, _ = draw_resized(new(), {"begin": ("begin", ())}, THROUGH)["begin"]

    assert narrow == kept("begin")["40×20"]
    assert wide == kept("begin")["80×24"]
