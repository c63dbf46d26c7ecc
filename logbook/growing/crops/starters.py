"""The crop templates that a new book begins with: growers' working ranges, from memory.

Each is a starting guess: the middle of a usual range for a 10 × 20 in tray, to be replaced by
what a room's own trays show. Buckwheat is left out on purpose: large amounts of its young greens
make skin burn in the sun. What must not be eaten at all is in growing.crops.unsafe.
"""

from dataclasses import replace

from logbook.growing.crops.allergens import NONE, by_name
from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage, checked
from logbook.growing.crops.usual_ranges import RANGES, Range
from logbook.growing.days import DAY

GUESS_NOTE = "Starting guess: your own trays will replace it."


def _middle(ends: tuple[float, float]) -> float:
    return (ends[0] + ends[1]) / 2


def _half_days(days: float) -> int:
    """Days as seconds, to the half day."""
    return round(days * 2) * DAY // 2


def starter(given: Range) -> CropTemplate:
    """Make the starting template of a usual range.

    Covered days are under weight but for the last, which is dark under a lid; small or
    mucilaginous seed has the lid alone. The spread puts the usual range at about ± 1.5 standard
    deviations of the middle.
    """
    covered = _half_days(_middle(given.covered))
    dark = [Stage("under a lid", covered, "lid", "dark", "mist", 1.0, 1.0)]
    if given.weight:
        dark = [
            Stage("weighted", covered - DAY, "weight", "dark", "mist", 1.0, 1.0),
            Stage("blackout", DAY, "lid", "dark", "none", 0.0, 1.0),
        ]
    light = Stage("light", None, "none", "lit", given.lit_water, 1.0, 1.0)
    grams = _middle(given.cut)
    days = (round(given.days[0] * DAY), _half_days(_middle(given.days)), round(given.days[1] * DAY))
    again, again_grams = given.again or (None, None)
    template = CropTemplate(
        name=given.crop, crop=given.crop, stages=(*dark, light),
        cut=CutWindow(*(max(0, end - covered) for end in days)),
        seed_grams=round(_middle(given.seed), 1), soak_seconds=round(_middle(given.soak)) * 3600,
        medium=given.medium,
        sign_to_cut=given.sign, expected_grams=grams,
        spread_percent=round((given.cut[1] - given.cut[0]) / 3 / grams * 100),
        regrow_seconds=None if again is None else _half_days(again), regrow_grams=again_grams, keeping_days=given.keeps,
        allergens=", ".join(by_name(given.crop) or ()) or NONE,
        mucilage=given.mucilage, guess=True, targets=given.wants, notes=f"{given.note} {GUESS_NOTE}".strip(),
    )  # fmt: skip
    return checked(template)


def starters() -> tuple[CropTemplate, ...]:
    """The templates of a new book, as version 1."""
    return tuple(replace(starter(given), version=1) for given in RANGES)
