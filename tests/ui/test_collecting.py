"""Garbage is looked for between keys, not in one."""

from __future__ import annotations

import gc

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.ui.line import keys_in_turn
from tests.ui.racks_book import walk
from tests.ui.steps import press, until


class Python:
    """What Python says of its younger looks for garbage, and the looks at all objects it makes."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.enabled, self.younger, self.made = True, 0, 0
        monkeypatch.setattr(gc, "isenabled", lambda: self.enabled)
        monkeypatch.setattr(gc, "get_count", lambda: (0, 0, self.younger))
        monkeypatch.setattr(gc, "collect", self.collect)

    def collect(self, *_: object) -> int:
        self.made += 1
        return 0


@pytest.fixture
def python(monkeypatch: pytest.MonkeyPatch) -> Python:
    """Give a Python whose garbage the test counts."""
    return Python(monkeypatch)


def test_a_look_follows_a_key_when_one_is_near(
    book: Book, python: Python, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keys_in_turn, "COLLECT_AFTER_SECONDS", 0.0)

    async def story(pilot: Pilot[None]) -> None:
        before = python.made
        python.younger = keys_in_turn.COLLECT_FROM
        await press(pilot, "down")
        await until(pilot, lambda: python.made > before)

    walk(book, story, (80, 24))


@pytest.mark.parametrize(
    ("younger", "enabled", "looks"),
    [
        (keys_in_turn.COLLECT_FROM, True, 1),
        (keys_in_turn.COLLECT_FROM - 1, True, 0),
        (keys_in_turn.COLLECT_FROM, False, 0),
    ],
)
def test_there_is_one_only_when_it_is_near_and_the_start_is_done(
    python: Python, younger: int, enabled: bool, looks: int
) -> None:
    python.younger, python.enabled = younger, enabled
    keys_in_turn.collect_if_near()
    assert python.made == looks
