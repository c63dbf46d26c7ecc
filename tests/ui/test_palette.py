"""The list of all commands: what is typed finds what a command does, not only its name."""

from __future__ import annotations

import pytest
from textual.command import CommandPalette
from textual.pilot import Pilot
from textual.widgets import OptionList

from logbook.actions.book import Book
from logbook.ui.palette import how_well
from tests.ui.list_room import walk
from tests.ui.steps import press, until


@pytest.mark.parametrize(
    ("typed", "screen", "first"),
    [
        ("", "round", "done"), ("water", "round", "done"), ("clean", "round", "cleaning and checks"),
        ("theme", "round", "colours"), ("cost", "round", "costs"), ("und", "page", "undo"),
        ("", "page", "open"),
    ],
)  # fmt: skip
def test_a_command_is_found_by_what_it_does(
    book: Book, typed: str, screen: str, first: str
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, ":", *typed)
        offered = pilot.app.screen.query_one(OptionList)
        assert isinstance(pilot.app.screen, CommandPalette)
        await until(pilot, lambda: offered.option_count > 0)
        assert str(offered.get_option_at_index(0).prompt).strip().startswith(first)

    walk(book, screen, story, (80, 24))


def test_words_are_found_apart_and_in_part() -> None:
    assert how_well("hum dew", "air", "Humidity and dew point.") == 1
    assert how_well("pag", "copy page", "") == 2
    assert how_well("zzz", "air", "Humidity.") == 0
    assert how_well("invoice", "deliveries (E)", "What is promised.") == 1
    assert how_well("fridge", "cold store (J C)", "Pack lots.") == 1
