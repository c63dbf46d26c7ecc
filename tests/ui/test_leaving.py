"""Leaving: q goes back until the round is there, and leaves from it; ctrl+z needs a shell."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.ui import sitting
from tests.ui.racks_book import walk
from tests.ui.steps import press, said
from tests.ui.test_round import six_radishes


def test_q_goes_back_and_leaves_from_the_round_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    left = list[bool]()

    async def story(pilot: Pilot[None]) -> None:
        monkeypatch.setattr(pilot.app, "exit", lambda: left.append(True))
        screens = [type(pilot.app.screen)]
        for key in ("f3", "f4", "q", "q"):
            await press(pilot, key)
            screens.append(type(pilot.app.screen))
        assert screens[0] == screens[4]
        assert screens[1] == screens[3]
        assert left == []
        await press(pilot, "q")
        assert left == [True]
        await press(pilot, "f3", "ctrl+c")
        assert left == [True, True]

    walk(six_radishes(tmp_path), story, (80, 24))


def test_where_no_shell_waits_the_program_is_not_stopped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setattr(sitting, "has_shell", lambda: False)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "ctrl+z")
        assert "No shell to go to" in said(pilot)

    walk(six_radishes(tmp_path), story, (80, 24))
