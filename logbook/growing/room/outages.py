"""Times in which the power was off: read as they are said, and taken from what was lit."""

import re
from collections.abc import Iterable
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from logbook.growing.wall_hours import Span
from logbook.growing.when import parse_when
from logbook.text import Refused

LONGEST = timedelta(days=31)


def without(spans: Iterable[Span], gaps: Iterable[Span]) -> list[Span]:
    """Spans without what gaps take of them; gaps may overlap."""
    left = list(spans)
    for low, high in gaps:
        parts = (
            part
            for start, end in left
            for part in ((start, min(end, low)), (max(start, high), end))
        )
        left = [(start, end) for start, end in parts if start < end]
    return left


def outage_from(text: str, now: datetime, zone: ZoneInfo) -> Span:
    """Read "14:00 to 16:30", or "yesterday 22:00 to now"; raises Refused."""
    parts = [part.strip() for part in re.split(r"(?i)\s+to\s+|\s*–\s*", text.strip())]
    if len(parts) != 2 or not all(parts):
        raise Refused("Write from when to when: 14:00 to 16:30, or yesterday 22:00 to now.")
    start, end = (parse_when(part, now, zone) for part in parts)
    return start, end
