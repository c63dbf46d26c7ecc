"""The round on paper: lines with a short code each, and how a line that comes back is read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Annotated, ClassVar

from logbook.growing.keys import TrayNumber
from logbook.growing.numbers import life_named, names_trays, numbers_words, of_these, parse_numbers
from logbook.growing.quantities import WATER
from logbook.growing.trays.chores import CHORES
from logbook.text import Refused, clean

UPKEEP = "upkeep"
"""The chore of a line that is a cleaning or check of its place."""
LETTERS = "BCDFGHJKLMNPRSTVWXZ"
"""No vowels, so that no word comes of them; nothing that looks like a digit."""
_FEW = 300
_TIME = re.compile(r"(\d{1,2})[:.h](\d{2})", re.IGNORECASE)
_CODE = re.compile(f"[{LETTERS}]{{2,3}}", re.IGNORECASE)
_WEIGHT = re.compile(r"(\S+)=(\S+)")


@dataclass(frozen=True, slots=True)
class SheetLine:
    """A line of the sheet: a chore on trays of a place, at the time at which it is planned.

    A cleaning or check of the place has no trays; `duty` is its entry (id).
    """

    keys: ClassVar = "code day at chore words place crop trays=numbers about"

    code: str
    day: date
    at: datetime
    """When the round offers it."""
    chore: Annotated[str, (*CHORES, UPKEEP)]
    words: str
    place: str
    crop: str
    numbers: tuple[TrayNumber, ...]
    trays: tuple[int, ...]
    """The trays' ids: a number may be another tray's when the sheet comes back."""
    about: str
    """What else is worth knowing on the way, like the seed to weigh."""
    duty: int | None = None


def codes(first: int, count: int) -> list[str]:
    """The codes of a sheet's lines, which go on from line `first` of all sheets ever printed."""
    length = 2 if count <= _FEW else 3
    return [_code(first + at, length) for at in range(count)]


def _code(number: int, length: int) -> str:
    letters = []
    for _ in range(length):
        number, letter = divmod(number, len(LETTERS))
        letters.append(LETTERS[letter])
    return "".join(reversed(letters))


@dataclass(frozen=True, slots=True)
class Told:
    """A line of the paper as it is read: what was done, when, on which of its trays."""

    code: str
    """The line's code, or the words of a chore that is on no line."""
    at: time | None
    only: tuple[int, ...]
    """The trays that are named; none for all of the line."""
    but: tuple[int, ...]
    amount_ml: float | None
    grams: tuple[tuple[int, str], ...]
    """Weights by tray, as written."""
    note: str

    def names(self, line: Sequence[int]) -> tuple[int, ...]:
        """The names of the trays that are meant, of those of the line; raise Refused for others."""
        only, but = of_these(self.only, line), of_these(self.but, line)
        weighed = of_these((name for name, _ in self.grams), line)
        if astray := {*only, *but, *weighed}.difference(line):
            raise Refused(
                f"{self.code} is for {numbers_words(life_named(name)[0] for name in line)}, not for "
                f"{numbers_words(life_named(name)[0] for name in astray)}."
            )
        meant = tuple(name for name in only or weighed or line if name not in but)
        if weighed and set(weighed) != set(meant):
            raise Refused(
                f"{self.code}: give a weight for each of its trays, like 101=240 102=255."
            )
        return meant


def read_line(text: str) -> Told:
    """Read "RB 7:30 1-14 not 6 300ml": a code or a chore, then in this order what differs.

    A cut takes weights by tray, "RC 17:30 101=240 102=255"; what is left over is a note. Raises
    Refused.
    """
    words = clean(text, lines=False).split()
    if not words:
        raise Refused("The line is empty; write it like RB 7:30 1-14 not 6.")
    code = [words.pop(0)]
    while words and not _CODE.fullmatch(code[0]) and words[0].isalpha() and words[0] != "not":
        code.append(words.pop(0))
    at = _time(words)
    only = _trays(words)
    but: tuple[int, ...] = ()
    if words and words[0].casefold() in ("not", "without"):
        words.pop(0)
        but = _trays(words)
        if not but:
            raise Refused('Which trays not? Write them after "not", like not 6.')
    grams = []
    while words and (found := _WEIGHT.fullmatch(words[0])):
        words.pop(0)
        grams += [(name, found[2]) for name in parse_numbers(found[1])]
    amount = (
        WATER.read(words.pop(0)) if words and re.fullmatch(r"\d\S*(?i:ml|l|oz)", words[0]) else None
    )
    name = " ".join(code)
    return Told(
        name.upper() if _CODE.fullmatch(name) else name, at, only, but, amount, tuple(grams),
        " ".join(words),
    )  # fmt: skip


def rest_of(text: str) -> tuple[time | None, str]:
    """What follows the code: a time, and the rest as it is; what a check showed is no tray."""
    words = clean(text, lines=False).split()[1:]
    return _time(words), " ".join(words)


def _time(words: list[str]) -> time | None:
    found = _TIME.fullmatch(words[0]) if words else None
    if found is None:
        return None
    hour, minute = int(found[1]), int(found[2])
    if hour > 23 or minute > 59:
        raise Refused(f'"{words[0]}" isn\'t a time of day. Write it like 7:30.')
    words.pop(0)
    return time(hour, minute)


def _trays(words: list[str]) -> tuple[int, ...]:
    taken: list[str] = []
    while words and names_trays(words[0].rstrip(",")) and "=" not in words[0]:
        taken.append(words.pop(0))
    return parse_numbers(" ".join(taken)) if taken else ()


def of_day(lines: Iterable[SheetLine]) -> dict[date, list[SheetLine]]:
    """The lines of a sheet by day, in their order."""
    days: dict[date, list[SheetLine]] = {}
    for line in lines:
        days.setdefault(line.day, []).append(line)
    return days
