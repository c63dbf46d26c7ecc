"""The handbook on the screen: the list, a chapter, its neighbours, at both sizes."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.content import Content
from textual.pilot import Pilot
from textual.widgets import Static

from logbook.handbook import CHAPTERS, Plain, title_of
from logbook.ui.app import LogbookApp
from logbook.ui.commands import COMMANDS, EVERYWHERE
from logbook.ui.screen import LogScreen
from logbook.ui.screens import SCREENS
from logbook.ui.screens.help.chapter import ChapterScreen
from logbook.ui.screens.help.handbook import HandbookScreen
from logbook.ui.screens.help.help import HelpScreen
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.subjects import ChapterSubject
from tests.ui.list_room import SIZES, empty_room, rows, walk, words
from tests.ui.steps import press, screen_text, settle


def chapter_lines(pilot: Pilot[None]) -> list[str]:
    content = pilot.app.screen.query_one("#chapter", Static).content
    assert isinstance(content, Content)
    return content.plain.split("\n")


@pytest.mark.parametrize("size", SIZES)
def test_h_lists_the_chapters_and_enter_opens_one(tmp_path: Path, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert rows(pilot)[: len(CHAPTERS)] == [title_of(name) for name in CHAPTERS]
        await press(pilot, "down", "enter")
        assert isinstance(pilot.app.screen, ChapterScreen)
        assert chapter_lines(pilot)[0] == "A day"
        assert max(len(line) for line in chapter_lines(pilot)) <= size[0] - 4
        await press(pilot, "right")
        assert chapter_lines(pilot)[0] == "A week"
        await press(pilot, "left", "left")
        assert chapter_lines(pilot)[0] == "The first day"
        await press(pilot, "left")
        assert words(pilot, "said") == "This is the first chapter."
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, HandbookScreen)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, RoundScreen)

    async def from_the_round(pilot: Pilot[None]) -> None:
        await press(pilot, "h")
        await story(pilot)

    walk(empty_room(tmp_path), "round", from_the_round, size)


def test_a_chapter_scrolls_and_a_new_one_begins_at_its_top(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        reader = pilot.app.screen.query_one(".scroll")
        await pilot.press("pagedown", "pagedown", "space")
        await settle(pilot)
        assert reader.scroll_offset.y > 30
        await press(pilot, "right")
        assert reader.scroll_offset.y == 0

    walk(empty_room(tmp_path), ChapterSubject("pi"), story, (80, 24))


def test_the_last_chapter_lists_the_plain_commands_it_is_given(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.plain = lambda: [Plain("weigh TRAYS WEIGHT", "Write a cut weight.")]
        app.go(ChapterSubject("keys"))
        await settle(pilot)
        assert "- logbook weigh TRAYS WEIGHT — Write a cut weight." in chapter_lines(pilot)
        await press(pilot, "right")
        assert words(pilot, "said") == "This is the last chapter."

    walk(empty_room(tmp_path), "handbook", story, (80, 24))


def test_every_command_of_the_screens_is_in_help_and_palette(tmp_path: Path) -> None:
    """Between them the screens show every command, and each shows what works on it."""
    helped: set[str] = set()
    offered: set[str] = set()

    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        for name in LogbookApp.SCREENS:
            screen = LogbookApp.SCREENS[name]()
            assert isinstance(screen, LogScreen)
            titles = {command.title for command in app.get_system_commands(screen)}
            here = {*screen.own, *EVERYWHERE}
            lettered = {
                f"{each.words} (g {each.goes})"
                for each in SCREENS.values()
                if each.goes and not each.key
            }
            assert titles == lettered | {
                f"{COMMANDS[own].words} ({COMMANDS[own].key_words})" for own in here
            }
            offered.update(here)
            app.push_screen(HelpScreen(screen))
            await pilot.pause()
            found = {row.key for row in app.screen.query_one("WalkList").rows if row.key}  # type: ignore[attr-defined]
            assert found == here
            assert screen.purpose.split()[0] in screen_text(pilot)
            helped.update(found)
            app.pop_screen()

    walk(empty_room(tmp_path), "round", story, (80, 24))
    assert helped == offered == set(COMMANDS)
