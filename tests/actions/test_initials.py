"""Initials are told once to a terminal and are forgotten when it changes hands."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.actions.initials import Terminal, initials_here, set_initials
from logbook.cli.options import Options
from logbook.text import Refused
from logbook.ways import Way

ONE = Terminal("/dev/pts/3", 1)
OTHER = Terminal("/dev/pts/4", 1)
NEXT_LOGIN = Terminal("/dev/pts/3", 2)


def test_each_terminal_has_its_own_until_it_is_opened_anew(tmp_path: Path) -> None:
    path = tmp_path / "state" / "initials.json"
    set_initials(" AB\x1b ", path, lambda: ONE)
    set_initials("CD", path, lambda: OTHER)
    assert initials_here(path, lambda: ONE) == "AB"
    assert initials_here(path, lambda: OTHER) == "CD"
    assert initials_here(path, lambda: NEXT_LOGIN) == ""
    set_initials("EF", path, lambda: NEXT_LOGIN)
    assert initials_here(path, lambda: NEXT_LOGIN) == "EF"


def test_the_file_is_closed_to_others(tmp_path: Path) -> None:
    path = tmp_path / "state" / "initials.json"
    set_initials("AB", path, lambda: ONE)
    assert path.stat().st_mode & 0o777 == 0o600
    assert path.parent.stat().st_mode & 0o777 == 0o700


@pytest.mark.parametrize("text", ["", "{", "[]", '{"/dev/pts/3": 4}', "\x00", '{"a": {}}'])
def test_a_spoilt_file_is_as_if_nothing_had_been_told(tmp_path: Path, text: str) -> None:
    path = tmp_path / "initials.json"
    path.write_text(text, encoding="utf-8")
    assert initials_here(path, lambda: ONE) == ""
    assert set_initials("AB", path, lambda: ONE) == "AB"


def test_without_a_terminal_it_says_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=str(Way.BY)):
        set_initials("AB", tmp_path / "initials.json", lambda: None)
    assert initials_here(tmp_path / "initials.json", lambda: None) == ""


def test_what_is_said_nearest_wins(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # given every source says something
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    (tmp_path / "growroom-logbook").mkdir()
    settings = tmp_path / "growroom-logbook" / "settings.toml"
    settings.write_text('by = "settings"\n', encoding="utf-8")
    monkeypatch.setenv("LOGBOOK_BY", "variable")
    monkeypatch.setenv("SSH_USER", "ssh")
    monkeypatch.setenv("USER", "login")
    monkeypatch.setattr("logbook.actions.initials.initials_here", lambda: "terminal")
    # then taking the nearest away uncovers the next
    assert Options(None, None, "option").writer == "option"
    options = Options(None, None, None)
    assert options.writer == "variable"
    monkeypatch.delenv("LOGBOOK_BY")
    assert options.writer == "terminal"
    monkeypatch.setattr("logbook.actions.initials.initials_here", lambda: "")
    assert options.writer == "settings"
    settings.unlink()
    assert options.writer == "ssh"
    monkeypatch.delenv("SSH_USER")
    assert options.writer == "login"
    monkeypatch.delenv("USER")
    assert options.writer == "grower"
