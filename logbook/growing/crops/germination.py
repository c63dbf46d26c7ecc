"""How much of a seed lot comes up, held against the standard of its kind."""

import re

from logbook.growing.bands import Band
from logbook.text import fold

LEAST_GERMINATION = {
    "asparagus": 70, "beet": 65, "broadbean": 75, "broccoli": 75, "brussels sprout": 70,
    "burdock": 60, "cabbage": 75, "cardoon": 60, "carrot": 55, "cauliflower": 75, "celeriac": 55,
    "celery": 55, "chard": 65, "chicory": 65, "chinese cabbage": 75, "chinese kale": 75,
    "chive": 50, "collard": 80, "cornsalad": 70, "cowpea": 75, "garden cress": 75,
    "upland cress": 60, "watercress": 40, "dandelion": 60, "dill": 60, "endive": 70, "kale": 75,
    "kohlrabi": 75, "leek": 60, "lettuce": 80, "mustard": 75, "onion": 70, "pak choi": 75,
    "parsley": 60, "parsnip": 60, "pea": 80, "radish": 75, "rutabaga": 75, "sage": 60,
    "salsify": 75, "sorrel": 65, "soybean": 75, "spinach": 60, "spinach mustard": 75,
    "sweet corn": 75, "turnip": 80,
}  # fmt: skip
"""Germination standard in percent of vegetable seed in US interstate commerce: 7 CFR 201.31.

Hard seed counts in; what is below may be sold when it says so (201.29). Kinds that are grown as microgreens or near it; sunflower, basil, coriander, rocket and amaranth
are not listed there.
"""

_OTHER_NAMES = {
    "cress": "garden cress", "bok choy": "pak choi", "pak choy": "pak choi", "swede": "rutabaga",
    "lamb s lettuce": "cornsalad", "corn salad": "cornsalad", "napa cabbage": "chinese cabbage",
}  # fmt: skip


def least_germination(crop: str) -> int | None:
    """The germination standard in percent for a crop's name; None where the rule lists none."""
    words = _stems(crop)
    known = {name: name for name in LEAST_GERMINATION} | _OTHER_NAMES
    for name in sorted(known, key=len, reverse=True):
        wanted = _stems(name)
        if any(words[at : at + len(wanted)] == wanted for at in range(len(words))):
            return LEAST_GERMINATION[known[name]]
    return None


def _stems(name: str) -> list[str]:
    """A name's words without plural endings: "Radishes, red" → radish, red."""
    return [
        re.sub(r"(?<=sh|ch|ss)es$|(?<!s)s$", "", word) for word in re.findall(r"\w+", fold(name))
    ]


def germination_words(crop: str, germination_percent: float) -> str | None:
    """Say when a lot germinates below the US standard; None when it reaches it or there is none."""
    least = least_germination(crop)
    if least is None or germination_percent >= least:
        return None
    return (
        f"{Band(low=least).told(germination_percent)} % germination is below the US standard for this kind, "
        f"{least} % with hard seed counted in (7 CFR 201.31). Such seed may be sold: a packet of up "
        'to 1 lb is then marked "Below Standard" (7 CFR 201.29). Sow more of it to make up.'
    )
