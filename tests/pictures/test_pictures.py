"""The pictures of README and handbook are what the screens show, and load nothing from outside."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import logbook
from logbook.handbook import FOLDER, WRITTEN, chapter_text
from tests.conftest import SampleMaker
from tests.pictures.drawing import words_of
from tests.pictures.shots import PICTURES, SHOTS, draw_all

README = Path(logbook.__file__).parents[1] / "README.md"
NAMES = [shot.name for shot in SHOTS]


@pytest.fixture(scope="module")
def drawn(sample_book: SampleMaker) -> dict[str, str]:
    return draw_all(sample_book)


def kept(name: str) -> str:
    return (PICTURES / f"{name}.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_no_picture_is_stale(drawn: dict[str, str], name: str) -> None:
    assert words_of(kept(name)) == words_of(drawn[name]), (
        f"{name}.svg is stale; draw it anew with `python -m tests.pictures`."
    )


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_loads_nothing_and_says_something(name: str) -> None:
    svg = kept(name)
    outside = [each for each in re.findall(r"\w+://\S+", svg) if "www.w3.org/2000/svg" not in each]
    assert outside == []
    assert not re.search(r"@font-face|@import|url\(|<script|<image|href", svg)
    assert len(words_of(svg)) > 8
    assert len(svg) < 60_000


def test_pictures_shown_and_pictures_there_are_the_same() -> None:
    shown = {
        (folder / path).resolve()
        for folder, text in (
            (README.parent, README.read_text(encoding="utf-8")),
            *((FOLDER, chapter_text(name)) for name in WRITTEN),
        )
        for path in re.findall(r"!\[[^]]+\]\(([^)]+)\)", text)
    }
    assert shown == set(PICTURES.glob("*.svg"))
    assert {path.stem for path in shown} == set(NAMES)
