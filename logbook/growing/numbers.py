"""Tray numbers: lists such as "101 104-109", read and written."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from itertools import chain, groupby, islice

from logbook.text import Refused, clean

LARGEST = 99_999
MOST = 2_000
FIRST = 101
PAST = 90_001
"""Trays that were cut before the book began, and had no number in it, are numbered from here."""


def parse_numbers(text: str, what: str = "tray list") -> tuple[int, ...]:
    """Read "101 103-105, 108" as numbers in the order written, each once; raise Refused."""
    words = clean(text, lines=False)
    numbers: dict[int, None] = {}
    parts = [part for part in re.split(r"[\s,;]+", re.sub(r"\s*[-–]\s*", "-", words)) if part]
    if not parts:
        raise Refused(f"The {what} is empty; write it like 101 103-105.")
    for part in parts:
        found = re.fullmatch(r"#?(\d{1,9})(?:-(\d{1,9}))?", part)
        if not found:
            raise Refused(
                f'"{part[:40]}" in the {what} is no tray number; write it like 101 103-105.'
            )
        first = int(found[1])
        last = int(found[2]) if found[2] else first
        if last < first:
            raise Refused(f"{part} in the {what} runs backwards; write {last}-{first}.")
        if first < 1 or last > LARGEST:
            raise Refused(f"{part[:40]} in the {what}: tray numbers go from 1 to {LARGEST}.")
        if last - first >= MOST or len(numbers) > MOST:
            raise Refused(f"The {what} names more than {MOST:,} trays at once.")
        numbers.update(dict.fromkeys(range(first, last + 1)))
    return tuple(numbers)


def numbers_words(numbers: Iterable[int], dash: str = "–", joint: str = " ") -> str:
    """Write numbers shortly: three or more in a row as a range, "101–104 107 108"."""
    return numbers_in_order(sorted(set(numbers)), dash, joint)


def numbers_in_order(numbers: Iterable[int], dash: str = "–", joint: str = " ") -> str:
    """Write numbers shortly in the order given: "472 473 101–104"."""
    words: list[str] = []
    for _, placed in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0]):
        run = [str(number) for _, number in placed]
        words += run if len(run) < 3 else [f"{run[0]}{dash}{run[-1]}"]
    return joint.join(words)


def parse_pool(text: str) -> range:
    """Read "1-200" as the numbers that trays take in turn, "none" as none; raise Refused."""
    words = clean(text, lines=False).casefold()
    if words in ("", "none"):
        return range(0)
    found = re.fullmatch(r"(\d{1,5})\s*(?:-|–|to)\s*(\d{1,5})", words)
    if not found or not 1 <= int(found[1]) < int(found[2]) < PAST:
        raise Refused('Write the numbers on your tape like 1-200, or "none".', "numbers")
    return range(int(found[1]), int(found[2]) + 1)


def pool_words(pool: range) -> str:
    """Write a pool of numbers as it is read, "1-200"; "none" where there is none."""
    return f"{pool[0]}-{pool[-1]}" if pool else "none"


def next_numbers(count: int, last_used: int | None, taken: Collection[int]) -> tuple[int, ...]:
    """`count` numbers after the last one used, leaving out those on trays in use.

    Past 9999 the numbers begin again at 101, as tape does.
    """
    first, used = max(FIRST, (last_used or 0) + 1), set(taken)
    top = 9999 if count + len(used) < 9000 else LARGEST
    numbers = chain(range(first, top + 1), range(FIRST, min(first, top + 1)))
    return tuple(islice((number for number in numbers if number not in used), count))
