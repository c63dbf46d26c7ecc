"""What counts in a trial, as it is typed and read back: "yield 3, taste 2"."""

from __future__ import annotations

import re
from collections.abc import Mapping

from logbook.growing.measures import number_words
from logbook.growing.quantities import PRIORITY
from logbook.text import Refused, clean


def read_weights(text: str) -> dict[str, float]:
    """Read "yield 3, taste=2"; raise Refused for a part that is no name with a number."""
    weights = {}
    for part in clean(text, lines=False).split(","):
        if not part.strip():
            continue
        found = re.fullmatch(r"\s*([^\W\d_]+)\s*[=:]?\s*(\S+)\s*", part)
        if not found:
            raise Refused(f'"{part.strip()[:40]}" must be like yield 3.')
        weights[found[1]] = PRIORITY.named(f"priority of {found[1][:20]}").read(found[2])
    if not weights:
        raise Refused("What counts? Write it like yield 3, taste 2.")
    return weights


def weights_text(weights: Mapping[str, float]) -> str:
    """Write weights as they are typed."""
    return ", ".join(f"{name} {number_words(weight, 2)}" for name, weight in weights.items())
