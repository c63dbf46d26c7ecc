"""Reading a stage from the line that was typed."""

import re
from typing import Any

from logbook.growing.crops.stage_line import EXAMPLE
from logbook.growing.crops.template_fields import Told, made
from logbook.growing.crops.templates import Stage
from logbook.growing.measures import SECONDS, amount, seconds
from logbook.text import Refused, clean, clean_name, listed, nearest

_NUMBER = re.compile(r"[-+−]?(?:\d|[.,]\d)[\d.,]*")


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
    given = {"name": clean_name(name, "stage name"), **_given(rest)}
    if "light" not in given:
        raise Refused("Say whether the stage is dark or lit.")
    return made(Stage, given)


def read_watering(text: str) -> dict[str, Any]:
    """Read "mist 2" into values of a stage by attribute; "none" or nothing for no watering."""
    words = clean(text, lines=False)
    given = {} if words.casefold() in ("", "none", "0") else _given(words)
    if set(given) - {"water", "water_per_day"}:
        raise Refused(f'"{words[:30]}" is not a way of watering; write it like mist 2.')
    return given


def _given(line: str) -> dict[str, Any]:
    """Read what a stage gets into its values by attribute."""
    given: dict[str, Any] = {}
    known, length = _known(), list[str]()
    parts = [part.rstrip(",;") for part in line.split()]
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
    if length:
        given["seconds"] = seconds(" ".join(length), "length of the stage")
    return given


def _once(given: dict[str, Any], field: Told) -> None:
    if field.attribute in given:
        words = list(field.value.typed.values())
        which = f" ({listed(words, joint='or')})" if words else ""
        raise Refused(f"The stage has two {field.label}{which}; leave one out.")
