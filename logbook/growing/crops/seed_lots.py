"""Seed lots: as they are written, several with the grams of each, and which are spelled alike."""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import ClassVar

from logbook.growing.measures import Units, grams_words
from logbook.growing.quantities import SEED_OF_LOT
from logbook.text import Refused, clean, clean_name, fold

SEVERAL = "DK 10 = 120 g + DK 11 = 80 g"
_JOINT = " + "
_AND = re.compile(r"\s*(?:,(?!\d)|[;&])\s*|\s+(?:\+|and)\s+")
_WITH_GRAMS = re.compile(r"(.+?)[\s:]\s*(\d[\d.,]*\s*(?:g|kg|oz|lb))\.?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SeedLot:
    """A lot that a batch was sown from."""

    keys: ClassVar = "lot grams"

    lot: str
    """As it was written."""
    grams: float | None = None
    """Dry seed taken from it for all trays, where that was weighed."""
    apart: bool = field(default=False, compare=False)
    """Whether it was put in quotes: no other spelling of the book is meant."""


def lots_from(text: str, units: Units = "metric") -> tuple[SeedLot, ...]:
    """Read a lot, or several like SEVERAL; Refused for a bad weight, or a lot named twice.

    "RA 12 50 g, RA 13 25 g" is two lots, for each says its weight.
    """
    if not text.strip():
        return ()
    if len(several := parted(clean(text, lines=False), units)) > 1 and lots_grams(several):
        refuse_twice(several)
        return several
    parts = re.split(r"\s\+\s", clean(text, lines=False)) if _JOINT in text else [text]
    lots = [_lot_from(part, units) for part in parts]
    refuse_twice(lots)
    return tuple(lots)


def parted(text: str, units: Units = "metric") -> tuple[SeedLot, ...]:
    """What a text names if it lists lots, with the weights that stand behind them."""
    if '"' in text or "=" in text:
        return ()
    found = []
    for part in _AND.split(text):
        said = _WITH_GRAMS.fullmatch(part.strip())
        name, grams = (said[1], SEED_OF_LOT.read(said[2], units)) if said else (part, None)
        if not name.strip():
            return ()
        found.append(SeedLot(clean_name(name, "seed lot"), grams))
    return tuple(found)


def refuse_twice(lots: Sequence[SeedLot]) -> None:
    """Raise Refused where a lot is named twice, in whatever spelling."""
    for place, each in enumerate(lots):
        same = fold if each.apart else plain
        if same(each.lot) in {same(other.lot) for other in lots[:place]}:
            raise Refused(f"Seed lot {each.lot} is named twice; add its weights up.", about="lot")


def _lot_from(text: str, units: Units) -> SeedLot:
    name, _, weight = text.rpartition("=")
    if name.strip() and re.match(r"\s*([-+.,]?\d|\S+\s*(g|kg|oz|lb)\s*$)", weight):
        return replace(_lot_from(name, units), grams=SEED_OF_LOT.read(weight, units))
    bare = re.fullmatch(r'\s*"([^"]+)"\s*', text)
    return SeedLot(clean_name(bare[1] if bare else text, "seed lot"), apart=bare is not None)


def lots_words(lots: Iterable[SeedLot], units: Units = "metric") -> str:
    """Write lots as they are read."""
    return _JOINT.join(
        each.lot if each.grams is None else f"{each.lot} = {grams_words(each.grams, units)}"
        for each in lots
    )


def drawn_of(lots: Sequence[SeedLot], whole: float | None) -> list[float | None]:
    """Seed that a batch took from each of its lots, g, of `whole` in all; None where not known.

    Lots that were not weighed gave an even part of the rest each.
    """
    told = sum(each.grams for each in lots if each.grams is not None)
    rest = sum(each.grams is None for each in lots)
    even = None if whole is None else max(0.0, whole - told) / max(1, rest)
    return [even if each.grams is None else each.grams for each in lots]


def shares_of(lots: Sequence[SeedLot], whole: float | None) -> list[float]:
    """What part of a batch is of each of its lots, by their seed; even where that is not known."""
    grams = drawn_of(lots, whole)
    known = [each for each in grams if each is not None]
    if len(known) < len(lots) or not sum(known):
        return [1 / len(lots)] * len(lots)
    return [each / sum(known) for each in known]


def lots_grams(lots: Sequence[SeedLot]) -> float | None:
    """All seed taken from lots, g; None where one of them was not weighed, or there are none."""
    known = [each.grams for each in lots if each.grams is not None]
    return sum(known) if known and len(known) == len(lots) else None


def plain(text: str) -> str:
    """A lot's name without what two spellings of one bag differ in: "DK-010" and "dk10" are one."""
    parted = re.sub(r"(?<=\d)[\s_.-]+(?=\d)", "-", fold(text))
    joined = re.sub(r"(?<!\d)[\s_.#-]+|[\s_.#-]+(?!\d)", "", parted)
    return re.sub(r"(?<!\d)0+(?=\d)", "", joined)


def _spelled(text: str) -> set[str]:
    """What a lot's name comes to, the whole and its parts, without case, signs and leading zeros.

    "DK 10 / 11" is DK 10 and DK 11; "RA 48/2" is a bag of RA 48.
    """
    folded = fold(text)
    bagless = re.sub(r"(\d+)/(\d+)", lambda at: at[1 if len(at[2]) < len(at[1]) else 0], folded)
    letters = re.match(r"[^\d/,;&+|]*", folded)
    found = set[str]()
    for part in (folded, *re.split(r"[/,;&+|]|\band\b", bagless)):
        short = letters is not None and re.fullmatch(r"\s*\d+\s*", part)
        plain = re.sub(r"[\W_]+", "", f"{letters[0]}{part}" if short and letters else part)
        found.add(re.sub(r"(?<!\d)0+(?=\d)", "", plain))
    return found - {""} or {folded}


def alike(one: str, other: str) -> bool:
    """Whether two names may well be of one lot: "DK 10", "dk10", "DK-010", "DK 10 / DK 11"."""
    return like(one)(other)


def like(name: str) -> Callable[[str], bool]:
    """What tells of other names whether they are alike."""
    spelled = _spelled(name)
    return lambda other: not spelled.isdisjoint(_spelled(other))
