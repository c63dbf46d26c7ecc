"""What the invented room has learned about its crops: own versions, and how its trays turn out."""

from dataclasses import dataclass

from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets

HOUR = 3600


@dataclass(frozen=True, slots=True)
class Learned:
    """A template version of the room's own, made from the newest one of `base`.

    `hours` are the lengths of the dark stages; `cut` is from, best, by in days after the light
    came on; `weeks` says how long ago it was written.
    """

    name: str
    weeks: int
    why: str
    seed: float
    hours: tuple[int, ...]
    cut: tuple[float, float, float]
    grams: float
    spread: float
    base: str = ""
    variety: str = ""
    soak: int | None = None
    soak_ph: float | None = None
    waterings: float = 1.0
    notes: str = ""


LEARNED = (
    Learned("radish, pink stem", 13, "second radish, for the colour on the plate", 34, (48, 24),
            (3, 5, 7), 255, 10, base="radish", variety="pink stem", soak=4,
            notes="Goes leggy [really] in the dark: never a second night under the lid."),
    Learned("sunflower", 9, "three whole days under weight: fewer hulls left on", 118, (72, 24),
            (4, 5, 7), 392, 10, soak=9, soak_ph=6.0, waterings=2,
            notes="Drain well before sowing. Brush hulls off dry, not wet."),
    Learned("pea shoots", 8, "12 h of soaking is enough; 24 h went sour in August", 230, (72, 24),
            (6, 7, 9), 415, 9, soak=12, waterings=2),
    Learned("radish", 8, "best a day sooner than the guess, the spread is ± 9 %", 36, (48, 24),
            (4, 5, 7), 288, 9),
    Learned("mustard", 6, "11 g stood too thick, mould twice", 9.5, (60, 24),
            (4, 6, 8), 158, 11),
    Learned("beet", 6, "a longer night evens the stand out", 32, (96, 24), (8, 10, 13), 162, 12,
            soak=7),
    Learned("red amaranth", 5, "guess was too heavy for our trays", 8, (96,), (5, 8, 11), 98, 12),
    Learned("kale", 5, "cut on day 10: after that it is leaf, not kale", 19, (60, 24), (4, 5.5, 8),
            190, 10),
    Learned("pea shoots", 3, "230 g → 215 g: same weight, 6 % less seed", 215, (72, 24),
            (6, 7, 9), 418, 9, soak=12, waterings=2),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Truth:
    """How a crop's trays really turn out: middle in g, tray-to-tray spread and drift in %."""

    grams: float
    spread: float
    drift_per_week: float = 0.0


TRUTHS = {
    "sunflower": Truth(396, 9, -0.4), "pea shoots": Truth(416, 8), "radish": Truth(290, 9, 0.3),
    "radish, pink stem": Truth(252, 10), "broccoli": Truth(206, 9), "mustard": Truth(160, 11),
    "kale": Truth(188, 9, -0.3), "red amaranth": Truth(97, 12), "basil": Truth(118, 11, 0.5),
    "coriander": Truth(141, 12), "beet": Truth(164, 11), "chard": Truth(150, 10),
    "rocket": Truth(142, 10), "cress": Truth(155, 9), "wheatgrass": Truth(338, 8),
}  # fmt: skip

LOTS = {
    "sunflower": "SU-{}A", "pea shoots": "PS-{}", "radish": "RA {}/2", "radish, pink stem": "RP-{}",
    "broccoli": "BR-{}", "mustard": "MU-{}", "kale": "KA-{}b", "red amaranth": "AM-{}",
    "basil": "BA-{}", "coriander": "CO-{}", "beet": "BE-{}", "chard": "CH-{}", "rocket": "RO-{}",
    "cress": "CR-{}", "wheatgrass": "WG-{}",
}  # fmt: skip
_WARM = Band(17, 24)
_DRY = Band(40, 70)
_WATER = (Band(5.5, 6.5), Band(0.3, 1.4))
TARGETS = {
    "sunflower": Targets(Band(8, 14), 16, _WARM, _DRY, *_WATER),
    "pea shoots": Targets(Band(6, 11), 16, _WARM, _DRY, *_WATER),
    "radish": Targets(Band(8, 12), None, _WARM, _DRY, *_WATER),
    "radish, pink stem": Targets(Band(8, 12), None, _WARM, _DRY, *_WATER),
    "kale": Targets(Band(9, 13), None, _WARM, _DRY, *_WATER),
    "beet": Targets(Band(9, 13), None, _WARM, _DRY, *_WATER),
    "red amaranth": Targets(Band(9, 14), None, Band(20, 26), _DRY, *_WATER),
}
"""What the room wants for its crops: its own wishes, from what it read and saw."""
WEEKS_PER_LOT = 5


def lot_of(crop: str, weeks_ago: int) -> str:
    """The seed lot that a batch was sown from: a new sack every few weeks."""
    return LOTS[crop].format(48 - weeks_ago // WEEKS_PER_LOT * 7)
