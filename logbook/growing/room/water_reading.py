"""Reading what was measured or given of water, as people write it."""

import re
from datetime import datetime
from zoneinfo import ZoneInfo

from logbook.growing.measures import MILLILITRES, Units
from logbook.growing.quantities import EC, PH, WATER
from logbook.growing.room.water import WaterReading
from logbook.growing.when import parse_when
from logbook.text import Refused, clean

_VOLUMES = "|".join(sorted(MILLILITRES, key=len, reverse=True))
_AMOUNT = re.compile(rf"(?i)(?<![\w.,])[-+−]?[\d.,½¼¾⅓⅔⅛]+\s*(?:fl\.? ?oz|(?:{_VOLUMES})s?)\b")
_NAME = r"\b(?:ph|ec)(?![^\W\d])"
_NAMED = re.compile(rf"(?i)({_NAME})\s*[:=]?\s*(.*?)(?={_NAME}|$)")
_BEGINS = re.compile(rf"{_AMOUNT.pattern}|{_NAME}")


def quality_from(text: str) -> WaterReading:
    """Read "6.1 1.2" or "ph 6.1 ec 1200 µS/cm" as pH and EC; raise Refused."""
    cleaned = clean(text, lines=False)
    named = _NAMED.findall(cleaned)
    if named:
        given = {name.casefold(): value.strip(" ,;") for name, value in named}
    else:
        given = dict(zip(("ph", "ec"), cleaned.split(maxsplit=1), strict=False))
    ph, ec = given.get("ph"), given.get("ec")
    if not ph and not ec:
        raise Refused("Write pH and EC, like 6.1 1.2; or one of them, like ec 1.2.")
    return WaterReading(PH.given(ph or None), EC.given(ec or None))


def water_from(text: str, units: Units = "metric") -> WaterReading:
    """Read "300ml" or "ph 6.1 ec 1.2 300 ml", or raise Refused; '' measured nothing."""
    cleaned = clean(text, lines=False)
    found = _AMOUNT.search(cleaned)
    amount = WATER.read(found[0], units) if found else None
    rest = _AMOUNT.sub(" ", cleaned, count=1).strip(" ,;")
    if rest and not re.match(f"(?i){_NAME}", rest):
        raise Refused(f'What is "{rest[:40]}"? Write it like 07:30 300ml ph 6.1 ec 1.2.')
    quality = quality_from(rest) if rest else WaterReading()
    return WaterReading(quality.ph, quality.ec, amount)


def watering_from(
    text: str, now: datetime, zone: ZoneInfo, units: Units = "metric"
) -> tuple[datetime | None, WaterReading]:
    """Read "07:30 300ml ph 6.1 ec 1.2": when (None: not said) and what; a bare number is when."""
    cleaned = clean(text, lines=False).strip(" ,;")
    if not cleaned:
        raise Refused("Write when, how much, pH or EC, like 07:30 300ml ph 6.1 ec 1.2.")
    found = _BEGINS.search(cleaned)
    head = cleaned[: found.start()].strip(" ,;") if found else cleaned
    if not head:
        return None, water_from(cleaned, units)
    return parse_when(head, now, zone), water_from(cleaned[len(head) :], units)
