"""The crop templates that a new book begins with: growers' working ranges, from memory.

Each is a starting guess: the middle of a usual range for a 10 × 20 in tray, to be replaced by
what a room's own trays show. Buckwheat, nightshades and raw kidney or lima beans are left out on
purpose: they are not safe to eat as young greens.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage, Water, checked
from logbook.growing.days import DAY

GUESS_NOTE = "Starting guess: your own trays will replace it."


@dataclass(frozen=True, slots=True)
class Range:
    """Growers' usual range of one crop: g dry seed, soak h, covered days, days in all, g cut."""

    crop: str
    seed: tuple[float, float]
    soak: tuple[float, float]
    covered: tuple[float, float]
    days: tuple[float, float]
    cut: tuple[float, float]
    weight: bool = True
    mucilage: bool = False
    medium: str = "coir"
    lit_water: Water = "bottom"
    sign: str = "seed leaves open"
    note: str = ""


RANGES = (
    Range("sunflower", (100, 150), (8, 12), (3, 4), (8, 12), (300, 500),
          sign="first true leaves", note="Hulls cling: mist and brush them off by day 6."),
    Range("pea shoots", (200, 300), (8, 24), (3, 5), (8, 14), (300, 500), sign="first tendrils"),
    Range("radish", (25, 50), (0, 6), (2, 4), (6, 10), (200, 350)),
    Range("broccoli", (15, 25), (0, 0), (3, 4), (7, 12), (150, 250)),
    Range("mustard", (8, 15), (0, 0), (3, 4), (8, 12), (120, 200),
          note="Mustard is an allergen that buyers must be told of in the EU and the UK."),
    Range("kale", (15, 25), (0, 0), (3, 4), (8, 12), (150, 250)),
    Range("red amaranth", (6, 12), (0, 0), (3, 5), (8, 16), (80, 150), weight=False),
    Range("basil", (5, 10), (0, 0), (4, 6), (14, 25), (90, 150), weight=False, mucilage=True,
          sign="first true leaves"),
    Range("coriander", (25, 40), (0, 8), (5, 7), (16, 25), (100, 200), sign="first true leaves",
          note="Sow split seed."),
    Range("beet", (25, 45), (8, 24), (4, 6), (11, 20), (120, 200)),
    Range("chard", (25, 45), (8, 24), (4, 6), (11, 20), (120, 200)),
    Range("rocket", (8, 15), (0, 0), (3, 4), (7, 12), (120, 180), weight=False, mucilage=True),
    Range("cress", (8, 15), (0, 0), (3, 4), (7, 12), (120, 180), weight=False, mucilage=True),
    Range("wheatgrass", (250, 450), (8, 12), (2, 3), (7, 12), (250, 450), medium="none, or coir",
          lit_water="top", sign="second blade splitting"),
)  # fmt: skip


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
            Stage("under weight", covered - DAY, "weight", "dark", "mist", 1.0, 1.0),
            Stage("blackout", DAY, "lid", "dark", "none", 0.0, 1.0),
        ]
    light = Stage("light", None, "none", "lit", given.lit_water, 1.0, 1.0)
    soak = 0 if given.mucilage else round(_middle(given.soak)) * 3600
    grams = _middle(given.cut)
    days = (round(given.days[0] * DAY), _half_days(_middle(given.days)), round(given.days[1] * DAY))
    template = CropTemplate(
        name=given.crop, crop=given.crop, stages=(*dark, light),
        cut=CutWindow(*(max(0, end - covered) for end in days)),
        seed_grams=round(_middle(given.seed), 1), soak_seconds=soak, medium=given.medium,
        sign_to_cut=given.sign, expected_grams=grams,
        spread_percent=round((given.cut[1] - given.cut[0]) / 3 / grams * 100),
        mucilage=given.mucilage, guess=True, notes=f"{given.note} {GUESS_NOTE}".strip(),
    )  # fmt: skip
    return checked(template)


def starters() -> tuple[CropTemplate, ...]:
    """The templates of a new book, as version 1."""
    return tuple(replace(starter(given), version=1) for given in RANGES)
