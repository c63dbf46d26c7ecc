"""An order as a chef texts it: "daikon 500g fri", "6 x 50g pea shoots every tue,fri", "2 trays cress"."""

import re
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of, day_words
from logbook.growing.measures import Units
from logbook.growing.orders.weekdays import read_weekdays
from logbook.growing.quantities import ORDER, PACKS
from logbook.growing.when import parse_day_ahead, parse_when
from logbook.text import Refused, clean

HOW = 'Write it like "daikon 500g fri", "pea shoots 6 x 50g every tue,fri" or "2 trays cress tue".'
_WEIGHT = r"\d[\d ]*(?:[.,]\d+)?\s*(?:mg|kg|kilos?|grams?|gr|g|oz|lbs?|pounds?|t|tons?|tonnes?)(?![^\W\d_])"
_AMOUNT = re.compile(
    rf"(?i)(?<![\w.,-])(?:(?P<trays>-?\d+)\s*(?:live\s+)?trays?(?:\s+of)?(?!\w)"
    rf"|(?:(?P<packs>-?\d+)\s*(?:x|×|\*|packs?\s+of)\s*)?(?P<grams>-?{_WEIGHT})"
    rf"(?:\s*[x×*]\s*(?P<times>\d+)(?![\w:]))?)(?:\s+of(?!\w))?"
)
_CLOCK = re.compile(r"(?i)(?:^|\s+)(?:at\s+)?(\d{1,2}[:.]\d{2})$")
_LEAD = re.compile(r"(?i)^(?:for|on|by|next|this)\s+")
MOST_AHEAD = 366
"""An order is for up to so many days ahead."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was texted: a crop or mix by name, packs or live trays, and when as it was written.

    `weekdays` is "" for a single order, of which `day` are the words for its day, '' for none.
    """

    crop: str
    packs: int
    pack_grams: float | None
    weekdays: str = ""
    day: str = ""
    clock: str = ""


def read_order(text: str, now: datetime, zone: ZoneInfo, units: Units = "metric") -> Asked:
    """Read an order; raise Refused with the way to write one."""
    words = clean(text, lines=False)
    found = _AMOUNT.search(words)
    if found is None:
        raise Refused(f"How much is that? {HOW}")
    packs, grams = _amount(found, units)
    before, after = words[: found.start()].strip(" ,"), words[found.end() :].strip(" ,")
    if before and after:
        return _timed(before, packs, grams, after, now, zone)
    pieces = (before or after).split()
    for at in range(1, len(pieces)):
        try:
            return _timed(
                " ".join(pieces[:at]).rstrip(","), packs, grams, " ".join(pieces[at:]), now, zone
            )
        except Refused as refused:
            if pieces[at].casefold() in ("every", "yesterday"):
                raise refused from refused
    if not pieces:
        raise Refused(f"Which crop is that? {HOW}")
    return Asked(" ".join(pieces).rstrip(","), packs, grams)


def _amount(found: re.Match[str], units: Units) -> tuple[int, float | None]:
    if found["trays"]:
        return PACKS.read(found["trays"]), None
    count = found["packs"] or found["times"]
    packs, grams = PACKS.read(count) if count else 1, ORDER.read(found["grams"], units)
    ORDER.checked(packs * grams, units)
    return packs, grams


def _timed(
    crop: str, packs: int, grams: float | None, when: str, now: datetime, zone: ZoneInfo
) -> Asked:
    when = _LEAD.sub("", when)
    clock = _CLOCK.search(when)
    said = clock[1] if clock else ""
    day = when[: clock.start()].strip(" ,") if clock else when
    if said:
        parse_when(said, now, zone)
    if day.casefold().startswith(("every", "daily")):
        return Asked(crop, packs, grams, read_weekdays(day), "", said)
    if day:
        parse_day_ahead(day, now, zone)
    return Asked(crop, packs, grams, "", day, said)


def day_ordered(
    asked: Asked, minute: int, weekdays: str, now: datetime, zone: ZoneInfo
) -> tuple[date, int | None]:
    """The day of a single order and its own minute, else None; raise Refused for a time that is over.

    `minute` is when it is wanted without one of its own; without a day it is the next of `weekdays`.
    """
    clock = asked.clock or f"{minute // 60:02}:{minute % 60:02}"
    if asked.day:
        at = parse_when(f"{asked.day} {clock}", now, zone, ahead=True)
    else:
        days = (
            parse_when(f"{name} {clock}", now, zone, ahead=True)
            for name in weekdays.split(",")
            if name
        )
        soonest = min(days, default=None)
        if soonest is None:
            raise Refused(f"For which day is it? {HOW}", "when")
        at = soonest
    day, today = day_of(at, zone), day_of(now, zone)
    if at < now:
        raise Refused(
            f"{day_words(day, today)} {clock} is past. An order needs a later time.", "when"
        )
    if (day - today).days > MOST_AHEAD:
        raise Refused(f"{day_words(day, today)} is more than a year ahead; check the date.", "when")
    own = None
    if asked.clock:
        local = at.astimezone(zone)
        own = local.hour * 60 + local.minute
    return day, own
