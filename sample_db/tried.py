"""What the invented room compares side by side, and how its arms really turn out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Scores = Mapping[str, tuple[float, float]]


@dataclass(frozen=True, slots=True)
class TriedArm:
    """One arm: its value of the one thing, seed in g a tray (None: as always), its mark.

    `gives` is what its trays really give against the usual, which the growers do not know.
    """

    name: str
    setting: str
    seed: float | None
    colour: str
    gives: float


@dataclass(frozen=True, slots=True)
class Tried:
    """A trial: every batch of its crop of these ages has one tray of each arm.

    `tasted` is when there was a tasting (days ago), `scores` taster → taste of each arm, `words`
    what one said; `decided` is when it was decided on, in days ago.
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
    measures: str = "grams"
    tasted: int | None = None
    scores: Scores | None = None
    words: tuple[str, str] = ("", "")
    decided: int | None = None
    adopts: str = ""
    why: str = ""
    try_next: str = ""


TRIALS = (
    Tried(
        "thicker broccoli",
        "broccoli",
        "Does 25 g of broccoli seed a tray cut more than our 20 g?",
        "density",
        (
            TriedArm("usual", "20 g", 20, "white", 1.0),
            TriedArm("thicker", "25 g", 25, "yellow", 1.15),
        ),
        (66, 59, 52, 45, 38, 31, 24),
        7,
        4071,
        {"yield": 3, "taste": 2, "cost": 1},
        "grams taste",
        tasted=14,
        scores={"IV": (7, 7), "TM": (6, 7), "OQ": (7, 6), "the chef at [No. 9]": (8, 7)},
        words=("the chef at [No. 9]", "stems a shade thinner, I would not send it back"),
        decided=7,
        adopts="thicker",
        why="it cuts more, and the tasters find no difference.",
        try_next="30 g, with a fan on: watch for mould.",
    ),
    Tried(
        "heavier weight",
        "sunflower",
        "Do more hulls come off under two bricks than under one?",
        "the weight on top",
        (
            TriedArm("one brick", "", None, "blue", 1.0),
            TriedArm("two bricks", "", None, "pink", 0.98),
        ),
        (13, 6),
        4,
        2290,
        {"looks": 3, "yield": 1},
        "grams looks days",
    ),
)


def tried_with(crop: str, trays: int, age: int) -> Tried | None:
    """Give the trial that a batch of so many trays is part of, by its crop and age in days."""
    for tried in TRIALS:
        if tried.crop == crop and age in tried.ages and trays == len(tried.arms):
            return tried
    return None
