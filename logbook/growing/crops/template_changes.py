"""What differs between two versions of a crop template, in words."""

from collections.abc import Sequence
from itertools import zip_longest

from logbook.growing.crops.stage_line import stage_line
from logbook.growing.crops.template_fields import leaves
from logbook.growing.crops.templates import CropTemplate, Stage
from logbook.growing.measures import Units


def what_changed(before: CropTemplate, after: CropTemplate, units: Units = "metric") -> list[str]:
    """Say each field that two templates differ in: "soak: 8h, was 4h"."""
    lines = []
    for leaf in leaves(CropTemplate):
        then, now = leaf.of(before), leaf.of(after)
        if leaf.name == "stages":
            lines += _stages_changed(then, now)
        elif then != now and leaf.told.value.lines:
            lines.append(f"{leaf.told.label}: changed")
        elif then != now:
            said = [
                "none" if value in (None, "") else leaf.told.value.words(value, units)
                for value in (now, then)
            ]
            lines.append(f"{leaf.told.label}: {said[0]}, was {said[1]}")
    return lines


def _stages_changed(then: Sequence[Stage], now: Sequence[Stage]) -> list[str]:
    both = zip_longest(then, now)
    return [
        f"stage {place}: {'none' if new is None else stage_line(new)}, "
        f"was {'none' if old is None else stage_line(old)}"
        for place, (old, new) in enumerate(both, 1)
        if old != new
    ]
