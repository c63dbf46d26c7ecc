"""What is typed at the weigh-in: a tray, its grams, Enter."""

import re
from dataclasses import dataclass
from datetime import datetime
from itertools import takewhile

from logbook.growing.measures import Units
from logbook.growing.numbers import LARGEST, numbers_words, parse_numbers
from logbook.growing.trays.weighing import checked_grams, weight_of
from logbook.text import Refused, clean

_PART = re.compile(r"(?:\s*\*|(?<=[\s\d])p(?:art)?)\s*$", re.IGNORECASE)
_KEEP = re.compile(r"(?:\s*\*\*|(?<=\s)k|(?<=[\s\d])keep)\s*$", re.IGNORECASE)
_WHEN = re.compile(r"(?:^|\s)(?:at\b(?P<at>.*)|(?P<day>(?:today|yesterday)\b.*))$", re.IGNORECASE)
_ONE = r"(?:\d[\d.,]*[½¼¾⅓⅔⅛]?|[.,]\d+|[½¼¾⅓⅔⅛])\s*[^\W\d_]*\.?"
_WEIGHT = re.compile(rf"(?:(?P<trays>\S.*)\s)?(?P<weight>[-−]?{_ONE}(?:[-−+]?{_ONE})*)")
_TRAYS = re.compile(r"[#b]?\d+(?:[-–@x×][\d-]+)?", re.IGNORECASE)
_POUNDS = re.compile(r"(?<=\d)\s*(lbs?)\.?\s+(?=[\d.,]+\s*oz)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Typed:
    """A line of the till: trays by number, g in all, whether more of this harvest will be cut.

    `keep` is whether they were left to grow again.

    `bare` is the number as typed when it was nothing but a whole number, so that it could just as
    well be meant as a tray; None otherwise. `at` is when it was cut, None for now; who reads the
    time that `parted_from_time` gives puts it in.
    `unsure` are numbers between pluses that another would take for trays, or for parts of a sum.
    """

    numbers: tuple[int, ...]
    grams: float
    part: bool = False
    keep: bool = False
    bare: int | None = None
    at: datetime | None = None
    unsure: tuple[int, ...] = ()


def parse_till(text: str, offered: int | None, units: Units = "metric") -> Typed:
    """Read "117 283", "283" (for the tray offered), "117-120 1150", "117 283 p", "117+283*".

    A space stands between the trays and their weight, which may be a sum: "117 180+140", "320-38"
    less its tub. With no space a plus is one ("117+283"), all but the last number are trays, and a
    plus in front ("+180+140") adds up for the tray offered. A p or * at the end says part cut, a k
    or ** that it was cut and grows again. A bare weight is g, or oz in US units. Raise Refused when
    it cannot be read, or no tray can weigh that.
    """
    words = clean(text, lines=False)
    rest = _KEEP.sub("", words)
    keep = rest != words
    rest = _PART.sub("", words) if not keep else rest
    part = not keep and rest != words
    rest, unsure = _spaced(re.sub(r"(\d)\s*[-–]\s+(?=\d)", r"\1-", rest))
    rest = rest.strip()
    if not rest:
        if offered is None:
            raise Refused("Write a tray number and its weight, like 117 283.")
        other = "or another tray and its weight, like 117 283"
        raise Refused(f"Write the weight of tray {offered}, {other}.")
    found = _WEIGHT.fullmatch(_POUNDS.sub(r"\1", rest))
    if found and not found["trays"] and _is_range(rest):
        raise Refused(_unreadable(rest))
    if not found:
        raise Refused(_unreadable(rest))
    weight = weight_of(found["weight"], units)
    if found["trays"]:
        numbers = parse_numbers(found["trays"].replace("+", " "))
        unsure += tuple(int(each) for each in found["weight"].split("+")[:-1] if each.isdecimal())
    elif offered is not None:
        numbers = (offered,)
    else:
        raise Refused("Which tray? Write its number, then the weight, like 117 283.")
    if 0 < numbers[0] <= LARGEST:
        checked_grams(weight / len(numbers), numbers[0])
    alone = not found["trays"] and not (part or keep) and found["weight"].isdigit()
    bare = int(found["weight"]) if alone else None
    return Typed(numbers, weight, part, keep, bare, unsure=unsure)


def _spaced(text: str) -> tuple[str, tuple[int, ...]]:
    """A line with a space for a plus between trays and weight; trays that might be of a sum."""
    text = re.sub(r"\s*\+\s*", "+", re.sub(r";|,(?=\s)", " ", text))
    if text.startswith("+"):
        return text[1:], ()
    *before, last = text.split("+")
    trays = list(takewhile(_TRAYS.fullmatch, before))
    between = tuple(int(each) for each in trays[1:] if each.isdecimal())
    return " ".join([*trays, "+".join([*before[len(trays) :], last])]), between


def parted_from_time(text: str) -> tuple[str, str | None]:
    """Part "283 p yesterday 17:40" or "283 at 17:40" from the time at its end; None for none."""
    words = clean(text, lines=False)
    found = _WHEN.search(words)
    if not found:
        return text, None
    return words[: found.start()], (found["at"] or found["day"] or "").strip()


def trays_so_far(text: str) -> tuple[int, ...]:
    """The trays that a line begun so far names; () while it names none."""
    bare = _PART.sub("", _KEEP.sub("", text))
    text = _POUNDS.sub(r"\1", text if bare == text else bare.rstrip())
    before, space, _ = _spaced(clean(text + "|", lines=False)[:-1])[0].rpartition(" ")
    if not space or not before.strip():
        return ()
    try:
        return parse_numbers(before.replace("+", " "))
    except Refused:
        return ()


def _is_range(text: str) -> bool:
    """Whether a text is trays, first and last, rather than a weight less its tub."""
    ends = re.fullmatch(r"(\d+)[-−](\d+)", text)
    return ends is not None and int(ends[1]) <= int(ends[2])


def _unreadable(text: str) -> str:
    try:
        numbers = parse_numbers(text)
    except Refused:
        return f'"{text[:40]}" cannot be read; write a tray and its weight, like 117 283.'
    return f"The weight of {numbers_words(numbers)} is missing; type it after a space."
