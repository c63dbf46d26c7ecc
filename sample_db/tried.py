"""The trials of the invented room: what was compared, and how the arms really turn out."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from logbook.growing.measures import grams
from sample_db.sowings import Habit


@dataclass(frozen=True, slots=True)
class TriedArm:
    """An arm, its value ("": a free word will do), and what it really `gives` against the usual."""

    name: str
    setting: str
    gives: float

    @property
    def text(self) -> str:
        """As it is written at a set-up."""
        return f"{self.name}={self.setting}" if self.setting else self.name

    @property
    def seed(self) -> float | None:
        """Dry seed of a tray in g; None for as much as always."""
        return grams(self.setting) if self.setting else None


@dataclass(frozen=True, slots=True)
class Tried:
    """A trial: every batch of its crop of these ages has one tray of each arm.

    `tasted` is when there was a tasting (days ago), `scores` taster → taste of each arm, `words`
    what one said of the second; `decided` is when `adopts` was taken into the template.
    """

    name: str
    crop: str
    question: str
    thing: str
    arms: tuple[TriedArm, TriedArm]
    ages: tuple[int, ...]
    weeks: int
    seed: int
    counts: Mapping[str, float]
    measures: tuple[str, ...]
    tasted: int | None = None
    scores: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    words: tuple[str, str] = ("", "")
    decided: int | None = None
    adopts: str = ""
    why: str = ""
    try_next: str = ""


TRIALS = (
    Tried(
        "thicker broccoli", "broccoli", "Does 25 g of broccoli seed per tray cut more than our 20 g?",
        "density", (TriedArm("usual", "20 g", 1.0), TriedArm("thicker", "25 g", 1.15)),
        (66, 59, 52, 45, 38, 31, 24), 7, 4071, {"yield": 3, "taste": 2, "cost": 1}, ("taste",),
        tasted=14,
        scores={"IV": (7, 7), "TM": (6, 7), "OQ": (7, 6), "the chef": (8, 7)},
        words=("the chef", "stems a shade thinner, I would not send it back"),
        decided=7, adopts="thicker",
        why="it cuts more, and the tasters find no difference.",
        try_next="30 g, with a fan on: watch for mould.",
    ),
    Tried(
        "heavier weight", "sunflower", "Do more hulls come off under two bricks than under one?",
        "the weight on top",
        (TriedArm("one brick", "", 1.0), TriedArm("two bricks", "", 0.98)),
        (13, 6), 4, 2290, {"looks": 3, "yield": 1}, ("looks", "days"),
    ),
)  # fmt: skip


def tried_with(habit: Habit, age: int) -> Tried | None:
    """The trial that a batch is part of, by its crop, trays and age in days."""
    for tried in TRIALS:
        if tried.crop == habit.crop and age in tried.ages and habit.trays == len(tried.arms):
            return tried
    return None
