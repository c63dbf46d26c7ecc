"""A terminal that changes its size shows each screen as if it had been opened at that size."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.ui.app import LogbookApp
from tests.ui.snapshots import draw_resized, kept
from tests.ui.test_snapshots import new, sample, scenes

WIDEST = (200, 50)
THROUGH = (WIDEST, (40, 20), (80, 24), WIDEST)
"""The sizes that a terminal goes through, beginning at the one at which a screen is opened."""


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
    for name, (opened, *resized) in drawn.items():
        pictures = (kept(name)["sample 40×20"], kept(name)["sample 80×24"], opened)
        wrong += [
            f"{name} is\n{is_now}\nand was, when it was opened at this size,\n{picture}"
            for is_now, picture in zip(resized, pictures, strict=True)
            if not (_now_in_view(is_now) if name == "tray" else is_now == picture)
        ]
    assert not wrong, "\n\n".join(wrong)


def test_the_first_form_follows_the_size_too() -> None:
    _, narrow, wide, _ = draw_resized(new(), {"begin": ({}, ())}, THROUGH)["begin"]

    assert narrow == kept("begin")["40×20"]
    assert wide == kept("begin")["80×24"]
