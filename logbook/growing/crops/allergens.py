"""Allergens: what the law of a place has named on food, and which crops bring one."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from logbook.text import Refused, fold, listed, nearest

NONE = "none"
"""What a template holds that was looked at and has no allergen; one that says nothing has None."""


@dataclass(frozen=True, slots=True)
class Law:
    """A list of allergens: where it holds, who wrote it, and what each of its groups covers by our names.

    `letters_mm` is how high a small o on a label is at the least (Article 13 of the same regulation; 21 CFR
    101.2(c), from memory: a sixteenth of an inch); small packs may have smaller ones.
    """

    where: tuple[str, ...]
    source: str
    countries: str
    letters_mm: float
    groups: dict[str, str]

    @property
    def names(self) -> frozenset[str]:
        """All that it names, by our names."""
        return frozenset(name for names in self.groups.values() for name in names.split(", "))


EU = Law(
    ("the EU", "the UK"),
    "Regulation (EU) No 1169/2011, Annex II",
    "AT BE BG CY CZ DE DK EE ES FI FR GB GR HR HU IE IS IT LI LT LU LV MT NL NO PL PT RO SE SI SK "
    "AX GF GG GI GP IM JE MF MQ RE YT",
    1.2,
    {
        "cereals containing gluten": "wheat, rye, barley, oats", "crustaceans": "crustaceans",
        "eggs": "eggs", "fish": "fish", "peanuts": "peanuts", "soybeans": "soya", "milk": "milk",
        "nuts": "tree nuts", "celery": "celery", "mustard": "mustard", "sesame seeds": "sesame",
        "sulphur dioxide and sulphites": "sulphites", "lupin": "lupin", "molluscs": "molluscs",
    },
)  # fmt: skip
US = Law(
    ("the US",),
    "Federal Food, Drug, and Cosmetic Act, section 201(qq), as amended by the FASTER Act of 2021",
    "US AS GU MP PR UM VI",
    1.59,
    {
        "milk": "milk", "eggs": "eggs", "fish": "fish", "Crustacean shellfish": "crustaceans",
        "tree nuts": "tree nuts", "peanuts": "peanuts", "wheat": "wheat", "soybeans": "soya",
        "sesame": "sesame",
    },
)  # fmt: skip
LAWS = (EU, US)
GLUTEN = EU.groups["cereals containing gluten"].split(", ")

NAMES = tuple(name for names in EU.groups.values() for name in names.split(", "))
_ALSO = {
    "soy": "soya", "soybean": "soya", "soybeans": "soya", "gluten": "wheat", "oat": "oats",
    "nuts": "tree nuts", "peanut": "peanuts", "egg": "eggs", "sesame seeds": "sesame",
    "lupine": "lupin", "lupins": "lupin", "sulfites": "sulphites", "mollusks": "molluscs",
}  # fmt: skip
_NOTHING = (NONE, "no", "nothing", "-")
_CROPS = {
    "mustard": "mustard, mustards", "celery": "celery, celeriac", "sesame": "sesame",
    "lupin": "lupin, lupins, lupine", "soya": "soya, soy, soybean, soybeans, edamame",
    "wheat": "wheat, wheatgrass, spelt, emmer, einkorn, durum, kamut, khorasan, triticale",
    "rye": "rye, triticale", "barley": "barley, barleygrass", "oats": "oat, oats, oatgrass",
    "peanuts": "peanut, peanuts, groundnut, groundnuts",
}  # fmt: skip
"""Words in the names of crops that are an allergen: the plants that the lists name (EU and US law)."""
_OTHERS = frozenset(
    [
        "alfalfa",
        "amaranth",
        "arugula",
        "basil",
        "beet",
        "beetroot",
        "borage",
        "broccoli",
        "cabbage",
        "carrot",
        "chard",
        "chervil",
        "chia",
        "chives",
        "cilantro",
        "collard",
        "coriander",
        "cress",
        "dill",
        "fennel",
        "flax",
        "kale",
        "kohlrabi",
        "leek",
        "lettuce",
        "linseed",
        "mizuna",
        "mung",
        "nasturtium",
        "onion",
        "orach",
        "parsley",
        "pea",
        "peas",
        "radish",
        "daikon",
        "rapini",
        "rocket",
        "scallion",
        "shiso",
        "sorrel",
        "spinach",
        "sunflower",
        "tatsoi",
        "turnip",
        "choi",
        "choy",
        "marigold",
    ]
)
"""Words in the names of crops that are of plants on neither list."""


def law_of(country: str) -> Law | None:
    """The law of a country (ISO 3166); None where no list is known here."""
    return next((law for law in LAWS if country in law.countries.split()), None)


def allergens_read(text: str) -> str:
    """Read allergens as typed: "mustard, celery", or "none"; raise Refused for another word."""
    words = [fold(word) for word in re.split(r"[,;+\n]|\band\b", text) if word.strip()]
    if len(words) == 1 and words[0] in _NOTHING:
        return NONE
    found = [_ALSO.get(word, word) for word in words]
    for word in found:
        if word not in NAMES:
            raise Refused(
                f'"{word[:40]}" isn\'t on a list of allergens.{nearest(word, list(NAMES))} '
                f"Write {', '.join(NAMES)}, or none.",
                "allergens",
            )
    return ", ".join(name for name in NAMES if name in found)


def by_name(*names: str) -> tuple[str, ...] | None:
    """The allergens that a crop is by its names: "wasabi mustard" is mustard, radish none; None for a stranger."""
    words = {word for name in names for word in re.findall(r"\w+", fold(name))}
    found = tuple(name for name in _CROPS if words & set(_CROPS[name].split(", ")))
    return found if found or words & _OTHERS else None


def known(said: str | None, *names: str) -> tuple[str, ...] | None:
    """What a template's text says, else what the crop is by its names; None where neither is known."""
    if said is None:
        return by_name(*names)
    return () if said == NONE else tuple(said.split(", "))


def together(each: Iterable[tuple[str, ...] | None]) -> tuple[str, ...] | None:
    """The allergens of several crops in the order of the list; None where of one they are not known."""
    found = set[str]()
    for names in each:
        if names is None:
            return None
        found.update(names)
    return tuple(name for name in NAMES if name in found)


def law_words(names: tuple[str, ...]) -> str:
    """Say allergens with the laws that have each named: "mustard (by law in the EU and the UK)"."""
    laws = {
        name: listed([place for law in LAWS if name in law.names for place in law.where])
        for name in names
    }
    return "; ".join(f"{name} (by law in {laws[name]})" for name in names) or NONE


def doubt(said: str | None, *names: str) -> str:
    """What is to be asked about a crop's allergens; '' where nothing is.

    Names are the crop's and the template's: both may tell of one that is not said.
    """
    told, named = known(said, *names), by_name(*names) or ()
    if told is None:
        return "Its allergens aren't set: write them, or none."
    lacking = [name for name in named if name not in told]
    return f"By its name it is an allergen that isn't listed: {listed(lacking)}." if lacking else ""
