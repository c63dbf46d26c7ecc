"""A filter of the page: one tray, one crop, one kind of entry, or another day."""

import re
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from logbook.growing.kinds import groups
from logbook.growing.numbers import name_words, parse_numbers
from logbook.growing.when import parse_day
from logbook.text import Refused, clean, fold, listed, nearest

KINDS = groups()
"""What a grower may call a kind, and the kinds of entry it stands for."""
_FORMER = {"thrown out": "discard"}
"""Names that a kind once had: they still work, and nothing lists them."""

_DAY = re.compile(r"\d{4}-[\dW-]+|today|yesterday", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class PageFilter:
    """What the page is narrowed to; nothing where all are empty."""

    tray: int | None = None
    crop: str = ""
    kind: str = ""
    day: date | None = None

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of entry asked for; () for all."""
        return KINDS.get(self.kind, ())

    @property
    def words(self) -> str:
        """Say what is shown: "tray 101", "crop radish", "kind water", or ''."""
        if self.tray is not None:
            return f"tray {name_words(self.tray)}"
        if self.crop:
            return f"crop {self.crop}"
        return f"kind {self.kind}" if self.kind else ""


def parse_filter(text: str, now: datetime, zone: ZoneInfo) -> PageFilter:
    """Read "tray 101", "23@2027-03-07", "crop radish", "kind water", a day, or a word alone."""
    words = clean(text, lines=False)
    head, _, rest = words.partition(" ")
    name, rest = head.casefold(), rest.strip()
    if not words or name in ("all", "everything"):
        return PageFilter()
    if name == "tray" or re.fullmatch(r"#?\d{1,5}(@\S*)?|b\d{1,5}", words):
        numbers = parse_numbers(rest if name == "tray" else words, "filter")
        if len(numbers) > 1:
            raise Refused("One tray at a time, like tray 101.")
        return PageFilter(tray=numbers[0])
    if name == "day" or _DAY.fullmatch(words):
        return PageFilter(day=parse_day(rest if name == "day" else words, now, zone))
    if name == "kind" or fold(words) in (*KINDS, *_FORMER):
        return PageFilter(kind=known_kind(rest if name == "kind" else words))
    return PageFilter(crop=rest if name == "crop" and rest else words)


def known_kind(text: str) -> str:
    """A kind as it is written in KINDS; raises Refused for one that is not there."""
    kind = _FORMER.get(fold(text), fold(text))
    if kind not in KINDS:
        raise Refused(
            f'There is no kind "{text[:30]}".{nearest(text, list(KINDS))} '
            f"Kinds: {listed(sorted(KINDS), len(KINDS))}."
        )
    return kind
