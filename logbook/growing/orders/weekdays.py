"""Days of the week on which something comes round: "tue,fri"."""

import re
from datetime import date

from logbook.growing.days import DAYS
from logbook.text import Refused, clean, fold

_EVERY_DAY = ("day", "every day", "daily")
_NAME = re.compile(rf"(?i)({'|'.join(DAYS)})[a-z]{{0,6}}")


def read_weekdays(text: str) -> str:
    """Read "Tue, Fri", "tuesdays and fridays" or "every day" as it is kept: "tue,fri"; raise Refused."""
    words = re.split(r"[\s,;/&+]+|\band\b", fold(clean(text, lines=False)).removeprefix("every "))
    if " ".join(words) in _EVERY_DAY:
        return ",".join(DAYS).casefold()
    found = set()
    for word in filter(None, words):
        name = _NAME.fullmatch(word)
        if name is None:
            raise Refused(f'"{word[:20]}" isn\'t a day of the week; write days like tue,fri.')
        found.add(name[1].title())
    return ",".join(day for day in DAYS if day in found).casefold()


def falls_on(weekdays: str, day: date) -> bool:
    """Whether a day is one of these."""
    return DAYS[day.weekday()].casefold() in weekdays.split(",")


def weekdays_words(weekdays: str) -> str:
    """Say them: "Tue, Fri"; "every day" for all seven."""
    names = weekdays.title().split(",")
    return "every day" if len(names) == len(DAYS) else ", ".join(names)
