"""Other names of crops, in the US and the UK: whichever a grower types is understood."""

from logbook.text import fold

SAME = (
    ("rocket", "arugula", "roquette"), ("coriander", "cilantro"), ("beet", "beetroot"),
    ("chard", "silverbeet"), ("pak choi", "bok choy", "pak choy", "bok choi"),
    ("red shiso", "red perilla"), ("red amaranth", "amaranth"), ("cress", "garden cress"),
    ("radish", "daikon"), ("pea shoots", "pea tendrils"), ("aubergine", "eggplant"), ("spring onion", "scallion"),
)  # fmt: skip
"""Names of one crop each, common usage."""


def other_names(name: str) -> tuple[str, ...]:
    """What else a crop is called, folded; nothing for one that has no other name here."""
    wanted = fold(name)
    return next((tuple(n for n in names if n != wanted) for names in SAME if wanted in names), ())
