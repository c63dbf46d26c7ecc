"""The table of commands and the screens that use it fit together."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec

import pytest

from logbook.ui import commands
from logbook.ui.app import SCREENS, LogbookApp
from logbook.ui.commands import COMMANDS, EVERYWHERE


def test_no_two_commands_have_one_name() -> None:
    names = [command.name for command in commands._ALL]
    assert sorted(names) == sorted(set(names))


MADE = [name for name, (module, _) in SCREENS.items() if find_spec(f"logbook.ui.screens.{module}")]


@pytest.mark.parametrize("name", MADE)
def test_a_screen_can_do_what_it_lists(name: str) -> None:
    module, class_name = SCREENS[name]
    screen = getattr(import_module(f"logbook.ui.screens.{module}"), class_name)
    for command in screen.own:
        assert command in COMMANDS
        owner = LogbookApp if command in EVERYWHERE else screen
        assert hasattr(owner, f"action_{'go_back' if command == 'back' else command}"), command
