"""A stage as one line that is typed and read: "under weight: 4d, weight, dark, mist 1, look 1".

Before the colon stands the name, after it what the trays get, in any order: a length of time (the
last stage may go without one), open, lid or weight, dark or lit, mist, top or bottom with times a
day, look with times a day. Commas may be left out.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from logbook.growing.measures import SECONDS, amount, seconds, span_words
from logbook.growing.templates import Stage
from logbook.text import Refused, clean, clean_name, nearest

EXAMPLE = "under weight: 4d, weight, dark, mist 1, look 1"
LABELS = "name: length, open/lid/weight, dark/lit, mist/top/bottom 2, look 1 a day"
_COVERS = {"open": "none", "lid": "lid", "weight": "weight"}
_LIGHTS = {"dark": "dark", "lit": "lit"}
_WATERS = {"mist": "mist", "top": "top", "bottom": "bottom"}
_KNOWN = [*_COVERS, *_LIGHTS, *_WATERS, "look"]
_NUMBER = re.compile(r"[-+−]?(?:\d|[.,]\d)[\d.,]*")


def stage_line(stage: Stage) -> str:
    """Write a stage as parse_stage reads it."""
    parts = [] if stage.seconds is None else [span_words(stage.seconds)]
    parts += ["open" if stage.cover == "none" else stage.cover, stage.light]
    if stage.water != "none":
        parts.append(f"{stage.water} {_times(stage.water_per_day)}")
    if stage.looks_per_day:
        parts.append(f"look {_times(stage.looks_per_day)}")
    return f"{stage.name}: {', '.join(parts)}"


def _times(value: float) -> str:
    """Write times a day so that reading gives the same number again."""
    return repr(int(value)) if value == int(value) else repr(value)


def parse_stage(line: str) -> Stage:
    """Read a stage; raise Refused with the first word that cannot be understood."""
    words = clean(line, lines=False)
    name, colon, rest = words.rpartition(":")
    if not colon:
        raise Refused(f"Write the stage's name, a colon and what it gets, like {EXAMPLE}.")
    stage = Stage(clean_name(name, "name of the stage"), None)
    given: dict[str, Any] = {}
    length: list[str] = []
    parts = [part.rstrip(",;") for part in rest.split()]
    place = 0
    while place < len(parts):
        word, after = parts[place].casefold(), parts[place + 1 : place + 2]
        place += 1
        times = 1.0
        if (word in _WATERS or word == "look") and after and _NUMBER.fullmatch(after[0]):
            times = amount(after[0], f"times a day of {word}").value
            place += 1
        if not word:
            continue
        if word in _COVERS:
            _once(given, "cover", _COVERS[word], "covers (open, lid or weight)")
        elif word in _LIGHTS:
            _once(given, "light", _LIGHTS[word], "light states (dark or lit)")
        elif word in _WATERS:
            _once(given, "water", _WATERS[word], "ways of watering (mist, top or bottom)")
            given["water_per_day"] = times
        elif word == "look":
            _once(given, "looks_per_day", times, "looks")
        elif re.match(r"[-+−]?[.,]?[\d½¼¾]", word):
            length.append(word)
            if _NUMBER.fullmatch(word) and after and after[0].casefold() in SECONDS:
                length.append(after[0])
                place += 1
        else:
            raise Refused(
                f'"{word[:30]}" is no word of a stage.{nearest(word, _KNOWN)} '
                f"Write it like {EXAMPLE}."
            )
    if "light" not in given:
        raise Refused("Say whether the stage is dark or lit.")
    if length:
        given["seconds"] = seconds(" ".join(length), "length of the stage")
    return replace(stage, **given)


def _once(given: dict[str, Any], key: str, value: object, what: str) -> None:
    if key in given:
        raise Refused(f"The stage has two {what}; leave one out.")
    given[key] = value
