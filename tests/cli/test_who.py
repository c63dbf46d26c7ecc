"""Who writes: the app asks at the first writing only when nobody has told it."""

from __future__ import annotations

import pytest

from logbook.actions import initials
from logbook.actions.initials import Terminal
from logbook.cli.options import Options
from logbook.paths import settings_folder


@pytest.fixture
def here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Be at a terminal."""
    monkeypatch.setattr(initials, "terminal_here", lambda: Terminal("/dev/pts/7", 1))


@pytest.mark.usefixtures("here")
def test_a_login_name_is_a_guess_and_is_asked_about() -> None:
    assert Options(None, None, None).asks_writer is not None


def test_without_a_terminal_nothing_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(initials, "terminal_here", lambda: None)
    assert Options(None, None, None).asks_writer is None


@pytest.mark.usefixtures("here")
def test_who_was_told_is_not_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    assert Options(None, None, "ab").asks_writer is None
    settings_folder().mkdir(parents=True)
    (settings_folder() / "settings.toml").write_text('by = "cd"\n')
    assert Options(None, None, None).asks_writer is None
    monkeypatch.setenv("LOGBOOK_BY", "ef")
    assert Options(None, None, None).asks_writer is None
