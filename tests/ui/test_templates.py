"""Crop templates on the screen."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.crops.templates import list_templates
from logbook.actions.trays.weighing import weigh
from logbook.ui.subjects import SowSubject, TemplateSubject
from tests.ui.list_room import SIZES, cutting_room, empty_room, rows, walk, where_to, widest, words
from tests.ui.steps import press


@pytest.mark.parametrize("size", [*SIZES, (140, 40)])
def test_each_template_has_a_line_and_the_one_under_the_cursor_is_told(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        heads = 2
        assert len(rows(pilot)) == 21 + heads
        assert rows(pilot)[heads].startswith("basil")
        assert "starting guess" in words(pilot, "words")
        assert widest(pilot) <= min(size[0], 80) - 3
        await press(pilot, "down")
        assert words(pilot, "words").startswith("beet (version 1)")
        await press(pilot, "enter")
        assert pilot.app.screen.has_class("-full")
        await press(pilot, "escape")
        assert not pilot.app.screen.has_class("-full")

    walk(empty_room(tmp_path), "templates", story, size)


def test_what_it_rests_on_is_said(tmp_path: Path) -> None:
    book = cutting_room(tmp_path)
    weigh(book, [101], 300)

    async def story(pilot: Pilot[None]) -> None:
        radish = next(row for row in rows(pilot) if row.startswith("radish"))
        assert radish.endswith("1 batch")
        assert re.search(r" 2\d\d–3\d\d ", radish)
        assert "will replace it" in words(pilot, "words")  # basil, which has no trays yet
        while "radish" not in words(pilot, "words").split("\n")[0]:
            await press(pilot, "down")
        assert "4 in 5, from 1 batch here" in words(pilot, "words")
        assert "will replace it" not in words(pilot, "words")

    walk(book, "templates", story, (80, 24))


def test_keys_lead_to_the_forms(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async def story(pilot: Pilot[None]) -> None:
        went = where_to(pilot, monkeypatch)
        await press(pilot, "e", "c", "+", "n")
        assert went == [
            TemplateSubject("basil"),
            TemplateSubject("basil", copy=True),
            TemplateSubject(),
            SowSubject("basil"),
        ]

    walk(empty_room(tmp_path), "templates", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_a_template_is_retired_and_taken_back(tmp_path: Path, size: tuple[int, int]) -> None:
    book = empty_room(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "x", "n")
        assert "Retired" not in rows(pilot)
        await press(pilot, "x", "y")
        assert rows(pilot)[-2] == "Retired"
        assert "basil" in rows(pilot)[-1]
        assert "basil" not in [each.name for each in list_templates(book)]
        await press(pilot, "x")
        assert rows(pilot)[2].startswith("basil")

    walk(book, "templates", story, size)
    assert "basil" in [each.name for each in list_templates(book)]
