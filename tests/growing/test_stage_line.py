"""Stages as lines that are typed: what is written is read back as the same stage."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.stage_line import EXAMPLE, stage_line
from logbook.growing.crops.stage_reading import parse_stage
from logbook.growing.crops.starters import starters
from logbook.growing.crops.templates import COVERS, LIGHTS, WATERS, Stage
from logbook.text import LONGEST_NAME, Refused, clean

TIMES = st.floats(0.1, 12).map(lambda value: round(value, 4))
NAMES = st.text(min_size=1, max_size=LONGEST_NAME).map(lambda text: clean(text, lines=False))


@st.composite
def stages(draw: st.DrawFn) -> Stage:
    water = draw(st.sampled_from(WATERS))
    return Stage(
        draw(NAMES.filter(bool)),
        draw(st.none() | st.integers(1, 3_000 * 86_400)),
        draw(st.sampled_from(COVERS)),
        draw(st.sampled_from(LIGHTS)),
        water,
        0.0 if water == "none" else draw(TIMES),
        draw(st.just(0.0) | TIMES),
    )


@given(stages())
def test_a_line_is_read_back_as_the_stage_that_it_was_written_from(stage: Stage) -> None:
    assert parse_stage(stage_line(stage)) == stage


def test_the_starting_templates_can_be_written_as_lines() -> None:
    for template in starters():
        for stage in template.stages:
            assert parse_stage(stage_line(stage)) == stage


def test_the_example_and_shorter_ways_of_writing() -> None:
    whole = Stage("weighted", 4 * 86_400, "weight", "dark", "mist", 1.0, 1.0)
    assert parse_stage(EXAMPLE) == whole
    assert parse_stage("weighted:look dark 4d MIST weight") == whole
    assert parse_stage("light: lit") == Stage("light", None, "none", "lit")
    assert parse_stage("a: b: 2 d 12h, lit, mist 0.5") == Stage(
        "a: b", 216_000, "none", "lit", "mist", 0.5
    )
    assert parse_stage("x: 2,5d dark").seconds == 216_000
    assert parse_stage("x: 2d , dark ; lid") == Stage("x", 172_800, "lid", "dark")
    assert parse_stage("x: dark look 2 mist 3") == Stage("x", None, "none", "dark", "mist", 3, 2)


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("", "a colon and what it gets"),
        ("4d dark", "a colon and what it gets"),
        (": 4d dark", "stage name is empty"),
        ("x: 4d", "dark or lit"),
        ("x: dark lit", "two light states"),
        ("x: dark mist top", "two ways of watering"),
        ("x: dark lid weight", "two covers"),
        ("x: dark look look", "two looks"),
        ("x: -4d dark", "negative"),
        ("x: 4 dark", "needs h for hours or d for days"),
        ("x: lidd dark", 'Did you mean "lid"'),
        ("x: dark nan", "not a word for a stage"),
        ("x: dark [/] [100%]", "not a word for a stage"),
        ("x" * 10_000 + ": dark", "use up to 80"),
    ],
)
def test_what_cannot_be_read_is_said_in_a_sentence(line: str, sentence: str) -> None:
    with pytest.raises(Refused, match=r"\w") as refused:
        parse_stage(line)
    assert sentence in str(refused.value)
