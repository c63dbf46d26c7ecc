"""Growers' usual ranges, crop by crop, from memory: a 10 × 20 in tray."""

from dataclasses import dataclass, replace

from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.templates import Water

_USUAL = Targets(
    light=Band(8, 14), lit_hours=16, celsius=Band(16, 24), humidity=Band(40, 70),
    ph=Band(5.5, 6.5), ec=Band(None, 1.6),
)  # fmt: skip

_COOL = replace(_USUAL, light=Band(6, 12), celsius=Band(15, 21))
_WARM = replace(_USUAL, light=Band(9, 16), celsius=Band(20, 26))


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
    wants: Targets = _USUAL
    keeps: float = 7.0
    """Days in the cold store (from memory)."""
    again: tuple[float, float] | None = None
    """Days from a cut to the next, and g cut then, of a crop that grows again (from memory)."""


_GELS = "The seed gels when wet: sow it dry and mist it lightly."

RANGES = (
    Range("sunflower", (100, 150), (8, 12), (3, 4), (8, 12), (300, 500),
          sign="seed leaves open, before the first true leaves show",
          note="Hulls cling: mist and brush them off by day 6."),
    Range("pea shoots", (200, 300), (8, 24), (3, 5), (8, 14), (170, 490), wants=_COOL,
          sign="first tendrils", again=(10, 150)),
    Range("radish", (25, 50), (0, 0), (2, 4), (6, 10), (200, 350)),
    Range("broccoli", (15, 25), (0, 0), (3, 4), (7, 12), (150, 250)),
    Range("red cabbage", (15, 25), (0, 0), (3, 4), (8, 12), (150, 250)),
    Range("kohlrabi", (15, 25), (0, 0), (3, 4), (8, 12), (150, 250)),
    Range("pak choi", (12, 20), (0, 0), (3, 4), (8, 12), (140, 230)),
    Range("mizuna", (8, 15), (0, 0), (2, 4), (8, 12), (120, 200), weight=False),
    Range("mustard", (8, 15), (0, 0), (3, 4), (8, 12), (120, 200), mucilage=True,
          note=_GELS),
    Range("kale", (15, 25), (0, 0), (3, 4), (8, 12), (150, 250)),
    Range("red amaranth", (6, 12), (0, 0), (3, 5), (8, 16), (65, 115), wants=_WARM, weight=False),
    Range("basil", (5, 10), (0, 0), (4, 6), (14, 25), (70, 120), wants=_WARM,
          weight=False, mucilage=True, sign="first true leaves", keeps=5),
    Range("red shiso", (6, 12), (0, 0), (5, 7), (16, 25), (60, 110), wants=_WARM,
          weight=False, sign="first true leaves", keeps=5),
    Range("coriander", (25, 40), (0, 8), (5, 7), (16, 25), (100, 200), wants=_COOL,
          sign="first true leaves", note="Sow split seed. The soak may be left out."),
    Range("dill", (10, 20), (0, 0), (4, 6), (16, 25), (80, 140), wants=_COOL,
          weight=False, sign="first true leaves"),
    Range("leek", (12, 20), (0, 0), (5, 7), (14, 21), (90, 150), wants=_COOL, sign="stems straight"),
    Range("beet", (25, 45), (4, 8), (4, 6), (11, 20), (120, 200)),
    Range("chard", (25, 45), (4, 8), (4, 6), (11, 20), (120, 200)),
    Range("rocket", (8, 15), (0, 0), (3, 4), (7, 12), (120, 180), weight=False, mucilage=True),
    Range("cress", (8, 15), (0, 0), (3, 4), (7, 12), (120, 180), weight=False, mucilage=True),
    Range("wheatgrass", (250, 450), (8, 12), (2, 3), (7, 12), (250, 450),
          medium="none, or coir", lit_water="top", sign="second blade splitting", again=(8, 200)),
)  # fmt: skip
