"""A stage as one line that is typed and read: "weighted: 4d, weight, dark, mist 1, look 1".

Before the colon stands the name, after it what the trays get, in any order: a length of time (the
last stage may go without one), open, lid or weight, dark or lit, mist, top or bottom with times a
day, look with times a day. Commas may be left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from logbook.growing.crops.template_fields import Told, made
from logbook.growing.crops.template_values import Value
from logbook.growing.crops.templates import Stage
from logbook.growing.measures import SECONDS, amount, seconds, span_words
from logbook.text import Refused, clean, clean_name, listed, nearest

EXAMPLE = "weighted: 4d, weight, dark, mist 1, look 1"
LABELS = "name: length, open/lid/weight, dark/lit, mist/top/bottom 2, look 1 a day"
_NUMBER = re.compile(r"[-+−]?(?:\d|[.,]\d)[\d.,]*")


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


def _known() -> dict[str, tuple[Told, Any]]:
    """List the words of a line, with their field and the value that each stands for."""
    known: dict[str, tuple[Told, Any]] = {}
    for each in Stage.fields:
        known |= {word: (each, value) for value, word in each.value.typed.items()}
        if each.value.times and not each.value.typed:
            known[each.value.times] = (each, None)
    return known


def parse_stage(line: str) -> Stage:
    """Read a stage; raise Refused with the first word that cannot be understood."""
    words = clean(line, lines=False)
    name, colon, rest = words.rpartition(":")
    if not colon:
        raise Refused(f"Write the stage's name, a colon and what it gets, like {EXAMPLE}.")
    given: dict[str, Any] = {"name": clean_name(name, "stage name")}
    known, length = _known(), list[str]()
    parts = [part.rstrip(",;") for part in rest.split()]
    place = 0
    while place < len(parts):
        word, after = parts[place].casefold(), parts[place + 1 : place + 2]
        place += 1
        if word in known:
            field, value = known[word]
            counts = field.attribute if value is None else field.value.times
            _once(given, field)
            if value is not None:
                given[field.attribute] = value
            if counts:
                given[counts] = 1.0
            if counts and after and _NUMBER.fullmatch(after[0]):
                given[counts] = amount(after[0], f"times a day of {word}").value
                place += 1
        elif re.match(r"[-+−]?[.,]?[\d½¼¾]", word):
            length.append(word)
            if _NUMBER.fullmatch(word) and after and after[0].casefold() in SECONDS:
                length.append(after[0])
                place += 1
        elif word:
            raise Refused(
                f'"{word[:30]}" is not a word for a stage.{nearest(word, list(known))} '
                f"Write it like {EXAMPLE}."
            )
    if "light" not in given:
        raise Refused("Say whether the stage is dark or lit.")
    if length:
        given["seconds"] = seconds(" ".join(length), "length of the stage")
    return made(Stage, given)


def _once(given: dict[str, Any], field: Told) -> None:
    if field.attribute in given:
        words = list(field.value.typed.values())
        which = f" ({listed(words, joint='or')})" if words else ""
        raise Refused(f"The stage has two {field.label}{which}; leave one out.")
