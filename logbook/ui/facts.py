"""Facts at the head of a page: label and value, one after the other."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from logbook.growing.crops.yields import Expected
from logbook.growing.measures import Units, grams_words
from logbook.text import clean


def facts(pairs: Sequence[tuple[str, str]], width: int) -> Content:
    """Write label and value pairs one after the other, as many in a line as fit; no value, no fact."""
    lines: list[list[Content]] = []
    used = 0
    for label, value in pairs:
        if not value:
            continue
        fact = Content.assemble(
            (f"{label} " if label else "", "$text-past"), (clean(value, lines=False), "bold")
        )
        if not lines or used + 3 + fact.cell_length > width:
            lines.append([])
            used = 0
        else:
            lines[-1].append(Content("   "))
            used += 3
        lines[-1].append(fact)
        used += fact.cell_length
    return Content("\n").join(Content("").join(line) for line in lines)


def expected_words(expected: Expected | None, units: Units) -> str:
    """Say what a tray is expected to weigh, its spread, and what that rests on."""
    if expected is None:
        return ""
    low, unit = grams_words(expected.low, units).rsplit(" ", 1)
    high = grams_words(expected.high, units)
    spread = f"{low}–{high}" if high.endswith(f" {unit}") else f"{low} {unit} – {high}"
    return f"{grams_words(expected.grams, units)}, {spread} ({expected.rests_on})"
