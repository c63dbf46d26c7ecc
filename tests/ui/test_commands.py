"""The table of commands, the screens that use it and the keys that the settings give fit together."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.handbook import chapter_text
from logbook.settings import Settings, read_settings
from logbook.text import Refused
from logbook.ui import commands, screen, screens, subjects
from logbook.ui.app import LogbookApp
from logbook.ui.command import Command
from logbook.ui.commands import COMMANDS, EVERYWHERE, SAFE, with_keys
from logbook.ui.screen import LogScreen
from logbook.ui.screens import SCREENS, own_commands
from logbook.ui.screens.trays.tray import TrayScreen
from logbook.ui.screens.trays.weigh import WeighScreen
from logbook.ui.subjects import (
    Subject,
)
from logbook.ui.widgets.bars import Foot
from logbook.ui.widgets.walk_list import WalkList
from tests.ui.forms_room import play
from tests.ui.steps import press, sees

OWN = own_commands()
ONE_MEANING = (
    {
        "done",
        "open",
        "write",
        "measure",
        "pack",
        "accept",
        "release",
        "finish",
        "take_out",
    },  # the main thing here
    {"unfold", "mark"},  # single trays
    {"sow", "sow_from", "sow_arms"},
    {"page", "today"},
    {"batch", "life", "ask_pack"},
    {"skip", "pause"},
    {"below", "offer_after"},
    {"above", "offer_before"},
    {"before", "tray_before", "chapter_before"},
    {"after", "tray_after", "chapter_after"},
)
"""Commands that share a key because they mean the same where they are."""


def test_no_two_commands_have_one_name() -> None:
    names = [command.name for command in (*commands._ALL, *commands._GOING)]
    assert sorted(names) == sorted(set(names))


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_can_do_what_it_lists(name: str) -> None:
    screen = SCREENS[name].screen
    for command in screen.own:
        owner = LogbookApp if COMMANDS[command].everywhere else screen
        assert hasattr(owner, f"action_{COMMANDS[command].action.partition('(')[0]}"), command


def test_a_screen_is_declared_once_and_each_has_its_file() -> None:
    files = {path.stem for path in Path(screens.__file__).parent.glob("*/[a-z]*.py")}
    assert files - {"help"} == set(SCREENS)  # help is drawn over the screen that it speaks of
    kinds = [each.about for each in SCREENS.values() if each.about is not Subject]
    made = [each for name, each in vars(subjects).items() if name.endswith("Subject")]
    assert sorted(map(str, [*kinds, Subject])) == sorted(map(str, made))
    for name, each in SCREENS.items():
        assert issubclass(each.screen, LogScreen)
        leads = COMMANDS.get(name)
        assert (leads is not None and leads.everywhere) == bool(each.key), name
    letters = [each.goes for each in SCREENS.values() if each.goes]
    assert len(letters) == len(set(letters))
    assert all(len(letter) == 1 for letter in letters)


def test_a_letter_of_go_to_is_the_key_itself_where_that_is_a_letter(book: Book) -> None:
    """The round has an F-key; a small letter and its capital lead to two screens."""
    assert not [each.key for each in SCREENS.values() if each.letter and len(each.key) == 1]

    async def story(pilot: Pilot[None]) -> None:
        for letter, heading in (("l", "places"), ("L", "seed"), ("r", "the round"), ("R", "holds")):
            await press(pilot, "g", letter)
            await sees(pilot, heading)

    play(LogbookApp(book), story, (80, 24))


def test_the_same_key_means_the_same_everywhere() -> None:
    by_key: dict[str, set[str]] = {}
    for command in COMMANDS.values():
        for key in command.keys:
            by_key.setdefault(key, set()).add(command.name)
    for key, names in by_key.items():
        assert len(names) == 1 or any(names <= same for same in ONE_MEANING), (key, names)


@pytest.mark.parametrize("name", SCREENS)
def test_no_screen_has_a_key_twice(name: str) -> None:
    keys = [key for command in OWN[name] for key in COMMANDS[command].keys]
    assert sorted(keys) == sorted(set(keys))


def test_every_command_is_on_some_screen_and_has_a_tip() -> None:
    reached = {name for own in OWN.values() for name in own} | set(EVERYWHERE)
    assert reached == set(COMMANDS)
    assert all(command.tip.endswith(".") and command.words for command in COMMANDS.values())


@pytest.mark.parametrize("command", COMMANDS.values(), ids=lambda command: command.name)
def test_every_key_comes_through_every_terminal(command: Command) -> None:
    for key in command.keys:  # whose terminal keeps ctrl+z to itself can stop no program anyway
        assert SAFE.fullmatch(key) or (command.name, key) == ("suspend", "ctrl+z"), key


@pytest.mark.parametrize(
    "key",
    ["ctrl+s", "ctrl+q", "ctrl+z", "ctrl+b", "ctrl+a", "ctrl+i", "ctrl+m", "ctrl+h", "ctrl+["],
)
def test_keys_that_are_eaten_on_the_way_are_not_safe(key: str) -> None:
    assert not SAFE.fullmatch(key)


# keys from the settings


@pytest.mark.parametrize(
    ("wanted", "sentence"),
    [
        ({"wiegh": "y"}, 'not a command. Did you mean "weigh"?'),
        ({"weigh": "ctrl+s"}, 'The key "ctrl+s" for weigh does not come through'),
        ({"weigh": "alt+w"}, "does not come through"),
        ({"weigh": "7"}, "begins a tray number"),
        ({"weigh": ""}, "does not come through"),
        ({"weigh": "j"}, 'give weigh the key "j", which jot has on the same screen'),
        ({"jot": "?"}, 'give jot the key "?", which help has'),
    ],
)
def test_a_key_that_cannot_be_is_refused_in_a_sentence(
    wanted: dict[str, str], sentence: str
) -> None:
    with pytest.raises(Refused) as refused:
        with_keys(wanted, OWN)
    assert sentence in str(refused.value)


def test_two_commands_can_change_places() -> None:
    changed = with_keys({"jot": "l", "look": "j"}, OWN)
    assert changed["jot"].key == "l"
    assert changed["look"].key == "j"


def test_a_command_may_be_called_as_the_footer_calls_it() -> None:
    assert with_keys({"throw out": "ctrl+e"}, OWN)["discard"].key == "ctrl+e"
    assert with_keys({"sow": "ctrl+e"}, OWN)["sow"].key == "ctrl+e"


def test_the_settings_in_the_handbook_are_good_ones(tmp_path: Path) -> None:
    blocks = re.findall(r"```toml\n(.*?)```", chapter_text("first-day"), re.DOTALL)
    (tmp_path / "settings.toml").write_text(blocks[0])
    settings = read_settings(tmp_path / "settings.toml")
    assert settings.keys
    changed = with_keys(settings.keys, OWN)
    assert {command.name for command in changed.values() if command != COMMANDS[command.name]}


def test_a_sign_is_written_as_itself() -> None:
    assert with_keys({"search": "+"}, {})["search"].key == "plus"


def test_a_changed_key_works_and_is_shown(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        foot = pilot.app.screen.query_one(Foot)
        assert "ctrl+e weigh" in str(foot.content)
        await press(pilot, "j")
        assert isinstance(pilot.app.screen, LogScreen)
        await press(pilot, "ctrl+e")
        await sees(pilot, "weigh-in")
        await press(pilot, "ctrl+t")
        await sees(pilot, "the round")
        await press(pilot, "f7")
        await sees(pilot, "weigh-in")
        await press(pilot, "escape")
        await sees(pilot, "the round")
        await press(pilot, "question_mark")
        await sees(pilot, "J  Jot a note")
        listed = [row.text.plain for row in pilot.app.screen.query_one(WalkList).rows]
        assert any("ctrl+e  Weigh the cut" in words for words in listed)

    keys = {"jot": "J", "weigh": "ctrl+e", "back": "ctrl+t"}
    play(LogbookApp(book, Settings(keys=keys)), story)


def test_sentences_name_the_keys_that_the_settings_give(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        await sees(pilot, "No trays yet: ctrl+e sows the first batch.")
        await press(pilot, "f3", "question_mark")
        await sees(pilot, "where ctrl+e sows")
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, LogScreen)
        assert pilot.app.screen.undoes == "ctrl+t undoes."
        await press(pilot, "i", "l")
        await sees(pilot, "F2 finish")

    keys = {"sow": "ctrl+e", "undo": "ctrl+t", "save": "F2", "round": "F9"}
    play(LogbookApp(book, Settings(keys=keys)), story)


def test_no_sentence_of_the_screens_names_a_key_by_itself() -> None:
    said_of_keys = re.compile(
        r"\b(u undoes|n sows|i enters|m (moves|brings)|k strikes|f narrows|F9 (save|finish|makes))\b"
    )
    for path in Path(screen.__file__).parent.rglob("*.py"):
        for line in path.read_text(encoding="utf-8").split("\n"):
            told = re.search(r"[\"'](.*)[\"']", line)
            assert told is None or '"""' in line or not said_of_keys.search(told[1]), (path, line)
    for name in SCREENS:
        purpose = SCREENS[name].screen.purpose
        assert set(re.findall(r"\{(\w+)\}", purpose)) <= set(COMMANDS)


def test_a_screen_that_could_read_nothing_does_none_of_its_own() -> None:
    screen = TrayScreen()
    assert [screen.check_action(name, ()) for name in ("open", "turn", "batch", "help")] == [
        False, False, False, True,
    ]  # fmt: skip
    assert WeighScreen().check_action("write", ())
