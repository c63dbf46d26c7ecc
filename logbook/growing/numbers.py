"""Tray numbers: lists such as "101 104-109", read and written.

A number means the tray that grows under it; numbers are used again, and a planned tray may have none
yet. So that every list of trays can hold all of them, a tray's name is one whole number: its number
on the tape; or that and above it the day or the tray (id) that tells one life of a number from
another; or below zero its batch, with its place among the trays that wait for their numbers.
"""

import re
from collections.abc import Collection, Iterable, Sequence
from datetime import date
from itertools import chain, groupby, islice

from logbook.text import Refused, clean

LARGEST = 99_999
MOST = 2_000
FIRST = 101
PAST = 90_001
"""Trays that were cut before the book began, and had no number in it, are numbered from here."""

_LIFE = LARGEST + 1
_IDS = 4_000_000
"""More than any day's number (`date.toordinal`): above it stand ids."""
_BATCH = 10_000
_SOME = 5_000
"""Above it stands how many of a batch's trays are meant; at 0 all of them."""

_WRITTEN = re.compile(
    r"#?(?P<first>\d{1,9})(?:-(?P<last>\d{1,9})|@(?P<day>\S+))?"
    r"|b(?P<batch>\d{1,5})(?:[x×](?P<some>[1-9]\d{0,2}))?",
    re.IGNORECASE,
)


def waiting(batch: int, count: int) -> range:
    """The names of a batch's trays that wait for their numbers."""
    return range(-(batch * _BATCH + count), -batch * _BATCH)


def batch_named(name: int) -> tuple[int, int | None] | None:
    """The batch that a name means, and how many of its trays, None for all; None for no batch."""
    batch, which = divmod(-name, _BATCH)
    if name >= 0 or 0 < which < _SOME:
        return None
    return batch, which - _SOME if which else None


def of_these(names: Iterable[int], trays: Sequence[int]) -> tuple[int, ...]:
    """Names as these trays have them: those of a batch that wait, the lives that are meant."""
    found: list[int] = []
    for name in names:
        if batch := batch_named(name):
            found += [each for each in trays if each < 0 and -each // _BATCH == batch[0]][
                : batch[1]
            ]
        else:
            found.append(next((each for each in trays if life_named(each)[0] == name), name))
    return tuple(dict.fromkeys(found))


def in_batch(name: int, batch: int) -> int:
    """A tray's name after it came to another batch: one that waits goes by the new one."""
    return name if name > 0 else -(batch * _BATCH + -name % _BATCH)


def life(number: int, tray: int) -> int:
    """The name of a tray (id) under a number that may be another's by now.

    One that waited for a number to its end goes on by its batch, where no other takes its place.
    """
    return number + _LIFE * (_IDS + tray) if number > 0 else number


def on_day(number: int, day: date) -> int:
    """The name of the tray that had a number on a day."""
    return number + _LIFE * day.toordinal()


def life_named(name: int) -> tuple[int, int | None, date | None]:
    """The number of a name, and the tray (id) or the day of the life that it means."""
    which, number = divmod(name, _LIFE)
    if name <= 0 or not which:
        return name, None, None
    return (number, which - _IDS, None) if which > _IDS else (number, None, date.fromordinal(which))


def name_words(name: int) -> str:
    """Write a tray's name: "23", "23@2027-03-07" or "b12"."""
    if name < 0:
        some = batch_named(name)
        return f"b{-name // _BATCH}" + (f"×{some[1]}" if some and some[1] else "")
    number, _, day = life_named(name)
    return f"{number}@{day}" if day else str(number)


def names_trays(text: str) -> bool:
    """Whether a text is meant as trays, right or wrong, and not as the name of a place."""
    digits, letters = (any(map(kind, text)) for kind in (str.isdigit, str.isalpha))
    return digits and (not letters or _WRITTEN.fullmatch(text.strip()) is not None)


def parse_numbers(text: str, what: str = "tray list") -> tuple[int, ...]:
    """Read "101 103-105, 108" as names in the order written, each once; raise Refused.

    "23@2027-03-07" is the tray that had the number then, "b12" the trays of a batch, "b12x2" two.
    """
    words = clean(text, lines=False)
    numbers: dict[int, None] = {}
    parts = [part for part in re.split(r"[\s,;]+", re.sub(r"\s*[-–]\s*", "-", words)) if part]
    if not parts:
        raise Refused(f"The {what} is empty; write it like 101 103-105.")
    for part in parts:
        found = _WRITTEN.fullmatch(part)
        if not found:
            raise Refused(
                f'"{part[:40]}" in the {what} is not a tray number; write it like 101 103-105.'
            )
        if found["batch"]:
            numbers[-int(found["batch"]) * _BATCH - (_SOME + int(found["some"] or -_SOME))] = None
            continue
        first = int(found["first"])
        last = int(found["last"] or first)
        if last < first:
            raise Refused(f"{part} in the {what} runs backwards; write {last}-{first}.")
        if first < 1 or last > LARGEST:
            raise Refused(f"{part[:40]} in the {what}: tray numbers go from 1 to {LARGEST}.")
        if last - first >= MOST or len(numbers) > MOST:
            raise Refused(f"The {what} names more than {MOST:,} trays at once.")
        if found["day"]:
            numbers[on_day(first, _day(found["day"], part))] = None
        numbers.update(dict.fromkeys(range(first, last + 1) if not found["day"] else ()))
    return tuple(numbers)


def _day(text: str, part: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise Refused(
            f'"{part[:40]}" needs a date after the @; write it like 23@2027-03-07.'
        ) from None


def numbers_words(numbers: Iterable[int], dash: str = "–", joint: str = " ") -> str:
    """Write names shortly: three or more in a row as a range, "101–104 107 108", "b12×4"."""
    return numbers_in_order(
        sorted(set(numbers), key=lambda name: (name < 0, abs(life_named(name)[0]), name)),
        dash,
        joint,
    )


def numbers_within(numbers: Iterable[int], room: int) -> str:
    """The same in so many letters: what has no room is counted, "104 106 +2"."""
    ordered = sorted(set(numbers), key=lambda name: (name < 0, abs(life_named(name)[0]), name))
    for shown in range(len(ordered), 0, -1):
        rest = len(ordered) - shown
        words = numbers_in_order(ordered[:shown]) + (f" +{rest}" if rest else "")
        if len(words) <= room:
            return words
    return f"+{len(ordered)}" if len(ordered) > 1 else numbers_in_order(ordered)


def numbers_in_order(numbers: Iterable[int], dash: str = "–", joint: str = " ") -> str:
    """Write names shortly in the order given: "472 473 101–104"."""
    words: list[str] = []
    for (kind, _), placed in groupby(enumerate(numbers), _run):
        run = [name_words(number) for _, number in placed]
        if kind == "waiting":
            words.append(run[0] if len(run) == 1 else f"{run[0]}×{len(run)}")
        else:
            words += run if len(run) < 3 else [f"{run[0]}{dash}{run[-1]}"]
    return joint.join(words)


def _run(placed: tuple[int, int]) -> tuple[str, int]:
    """What names that are written together have in common."""
    place, name = placed
    if name < 0:
        return ("batch", name) if batch_named(name) else ("waiting", -name // _BATCH)
    number, _, day = life_named(name)
    return ("life", name) if day else ("number", number - place)


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
    """`count` numbers after the last used but those in use; after 9999 comes 101, as on tape."""
    first, used = max(FIRST, (last_used or 0) + 1), set(taken)
    top = 9999 if count + len(used) < 9000 else LARGEST
    numbers = chain(range(first, top + 1), range(FIRST, min(first, top + 1)))
    return tuple(islice((number for number in numbers if number not in used), count))
