"""A stage as one line that is typed and read: "weighted: 4d, weight, dark, mist 1, look 1".

Before the colon stands the name, after it what the trays get, in any order: a length of time (the
last stage may go without one), open, lid or weight, dark or lit, mist, top or bottom with times a
day, look with times a day. Commas may be left out.
"""

from collections.abc import Iterator
from typing import Any

from logbook.growing.crops.template_values import Value
from logbook.growing.crops.templates import Stage
from logbook.growing.measures import span_words

EXAMPLE = "weighted: 4d, weight, dark, mist 1, look 1"
LABELS = "name: length, open/lid/weight, dark/lit, mist/top/bottom 2, look 1 a day"


def stage_line(stage: Stage) -> str:
    """Write a stage as parse_stage reads it."""
    parts = [] if stage.seconds is None else [span_words(stage.seconds)]
    for each, value, times in _parts(stage):
        word = each.typed.get(value, each.times)
        parts.append(word if times is None else f"{word} {times!r}".removesuffix(".0"))
    return f"{stage.name}: {', '.join(parts)}"


def stage_words(stage: Stage) -> str:
    """Write what a stage is for reading: "4d, weight on, dark, mist 1× a day, look 1×"."""
    parts = ["until the cut" if stage.seconds is None else span_words(stage.seconds)]
    for each, value, times in _parts(stage):
        word = each.said.get(value, each.times)
        day = " a day" if each.typed else ""
        parts.append(word if times is None else f"{word} {times:g}×{day}")
    return ", ".join(parts)


def _parts(stage: Stage) -> Iterator[tuple[Value, Any, float | None]]:
    """List the kinds and values that a line has a word for, with how often a day."""
    for each in Stage.fields:
        kind, value = each.value, getattr(stage, each.attribute)
        if value in kind.typed:
            yield kind, value, getattr(stage, kind.times) if kind.times else None
        elif kind.times and not kind.typed and value:
            yield kind, value, value
