"""Air as people write it on one line: temperature, humidity, whether it stands still."""

from __future__ import annotations

import re

from logbook.growing.measures import Units
from logbook.growing.quantities import AIR, HUMIDITY
from logbook.text import Refused, clean


def air_from(text: str, units: Units) -> tuple[float, float, bool | None]:
    """Read "21.4 63", "70F 55% still" as °C, % and whether the air stands still; raise Refused."""
    still: bool | None = None
    parts: list[str] = []
    for word in clean(text, lines=False).split():
        folded = word.casefold().strip(",;")
        if folded in ("still", "moving"):
            still = folded == "still"
        elif parts and not re.search(r"\d", word):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
    if len(parts) != 2:
        raise Refused(
            "Write temperature and humidity, like 21.4 63 or 70F 55%, and still or moving."
        )
    return AIR.read(parts[0], units), HUMIDITY.read(parts[1]), still
