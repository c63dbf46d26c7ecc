"""What a taster types of a sample, and how the arms of a trial are typed in one line."""

from __future__ import annotations

import re

from logbook.actions.trials.tasting import SampleSaid
from logbook.growing.measures import plain
from logbook.growing.trials.tasted import ASPECTS
from logbook.text import Refused, clean


def read_said(text: str) -> SampleSaid:
    """Read up to three numbers (taste, crunch, looks) and own words: "7 6 8 a bit bitter"."""
    words = clean(text, lines=False)
    numbers: list[float] = []
    while len(numbers) < len(ASPECTS):
        found = re.match(r"([+\-−]?\d[\d.,]*)(?:\s+|$)", words)
        if not found:
            break
        numbers.append(plain(found[1].rstrip(","), ASPECTS[len(numbers)]))
        words = words[found.end() :]
    if not numbers and not words:
        raise Refused("Write numbers for taste, crunch and looks, like 7 6 8, or own words.")
    return SampleSaid(dict(zip(ASPECTS, numbers, strict=False)), words)


def read_odd(text: str) -> tuple[int, int]:
    """Read "12 8", tasters and how many of them found the odd cup; words between do no harm."""
    found = re.findall(r"\d+", clean(text, lines=False))
    if len(found) != 2 or max(map(len, found)) > 6:
        raise Refused("Write two whole numbers, like 12 8: twelve tasted, eight were right.")
    return int(found[0]), int(found[1])


def one_line_of(text: str) -> str:
    """What was typed, on one line; '' for nothing."""
    return clean(text, lines=False)


def read_parts(text: str) -> tuple[str, ...]:
    """Cut "thin=28g; thick=34g" into its parts: at ; where there is one, else at commas."""
    words = clean(text, lines=False)
    mark = ";" if ";" in words else ","
    return tuple(part.strip() for part in words.split(mark) if part.strip())
