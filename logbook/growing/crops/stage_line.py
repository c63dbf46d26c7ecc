"""A stage as one line that is typed and read: "weighted: 4d, weight, dark, mist 1, look 1".

Before the colon stands the name, after it what the trays get, in any order: a length of time (the
last stage may go without one), open, lid or weight, dark or lit, mist, top or bottom with times a
day, look with times a day. Commas may be left out.
"""

from collections.abc import Iterator
from typing import Any

from logbook.growing.crops.template_fields import Told
from logbook.growing.crops.templates import Stage
from logbook.growing.measures import span_words

EXAMPLE = "weighted: 4d, weight, dark, mist 1, look 1"


def stage_line(stage: Stage) -> str:
    """Write a stage as parse_stage reads it."""
    return f"{stage.name}: {', '.join(_typed(stage).values())}"


def _typed(stage: Stage) -> dict[str, str]:
    """Write what a stage gets, by attribute."""
    parts = {} if stage.seconds is None else {"seconds": span_words(stage.seconds)}
    for each, value, times in _parts(stage):
        word = each.value.typed.get(value, each.value.times)
        count = "" if times is None else f" {times!r}".removesuffix(".0")
        parts[each.attribute] = word + count
    return parts


def stage_lines(stage: Stage) -> dict[str, str]:
    """Write a stage as the lines of a form, by attribute: a length, "lid", "mist 2", looks a day."""
    looks = f"{stage.looks_per_day!r}".removesuffix(".0")
    given = {"name": stage.name, "seconds": "", "water": "none", **_typed(stage)}
    return {**given, "looks_per_day": looks}


def stage_words(stage: Stage) -> str:
    """Write what a stage is for reading: "4d, weight on, dark, mist 1× a day, look 1×"."""
    parts = ["until the cut" if stage.seconds is None else span_words(stage.seconds)]
    for each, value, times in _parts(stage):
        word = each.value.said.get(value, each.value.times)
        day = " a day" if each.value.typed else ""
        parts.append(word if times is None else f"{word} {times:g}×{day}")
    return ", ".join(parts)


def _parts(stage: Stage) -> Iterator[tuple[Told, Any, float | None]]:
    """List the fields and values that a line has a word for, with how often a day."""
    for each in Stage.fields:
        kind, value = each.value, getattr(stage, each.attribute)
        if value in kind.typed:
            yield each, value, getattr(stage, kind.times) if kind.times else None
        elif kind.times and not kind.typed and value:
            yield each, value, value
