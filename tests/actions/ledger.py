"""A grower's own sums beside the book: what was sown, cut, packed and left, by plain arithmetic."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

KEEPS = timedelta(days=7)
"""How long the crops here keep; what the templates say by themselves."""


@dataclass
class Pot:
    """A tray: its number, the seed (g) that it got of each lot, and what was cut of it, by entry."""

    number: int
    crop: str
    seed: Mapping[str, float]
    cuts: dict[int, float] = field(default_factory=dict)
    ended: date | None = None
    lost: bool = False

    def of(self, lot: str) -> float:
        """The share of it that is of a seed lot."""
        return self.seed.get(lot, 0.0) / sum(self.seed.values())


@dataclass
class Crate:
    """A pack lot: the trays whose cuts are in it, by entry, and what went out to whom (or why), g."""

    crop: str
    day: date
    cuts: dict[int, Pot] = field(default_factory=dict)
    out: list[tuple[str, float]] = field(default_factory=list)
    back: list[tuple[str, float]] = field(default_factory=list)
    held: bool = False

    @property
    def grams(self) -> float:
        """What was cut into it."""
        return sum(pot.cuts[entry] for entry, pot in self.cuts.items())

    @property
    def left(self) -> float:
        """What is left of it."""
        return self.grams - sum(gone for _, gone in self.out)

    def got(self, name: str) -> float:
        """What a customer has of it."""
        return sum(each for who, each in self.out if who == name) - sum(
            each for who, each in self.back if who == name
        )

    def of(self, lot: str) -> float:
        """The share of it that is of a seed lot."""
        return sum(pot.cuts[entry] * pot.of(lot) for entry, pot in self.cuts.items()) / self.grams


class Ledger:
    """All that happened, as somebody would keep it on paper."""

    def __init__(self, bags: Mapping[str, float]) -> None:
        self.bags = bags
        self.pots: list[Pot] = []
        self.crates: dict[str, Crate] = {}

    def sow(self, numbers: Iterable[int], crop: str, seed: Mapping[str, float]) -> list[Pot]:
        """Trays of one sowing; seed in g per tray."""
        pots = [Pot(number, crop, seed) for number in numbers]
        self.pots += pots
        return pots

    def growing(self) -> list[Pot]:
        """The trays that are on the racks."""
        return [pot for pot in self.pots if pot.ended is None]

    def cut(self, pot: Pot, grams: float, entry: int, day: date) -> str:
        """A cut goes into the crate of its crop and day, a new one once of that one something is gone."""
        pot.cuts[entry] = grams
        same = [
            code
            for code, crate in self.crates.items()
            if (crate.crop, crate.day) == (pot.crop, day)
        ]
        code = f"{day:%y%m%d}-{pot.crop[:3].upper()}-{len(same) or 1}"
        if same and self.crates[code].out:
            code = f"{code.rpartition('-')[0]}-{len(same) + 1}"
        self.crates.setdefault(code, Crate(pot.crop, day)).cuts[entry] = pot
        return code

    def pack(self, who: str, crop: str, grams: float, today: date, day: date) -> float:
        """What goes out is the oldest that still keeps on the day of the delivery; returns what is lacking."""
        for crate in sorted(self.crates.values(), key=lambda each: each.day):
            fits = crate.crop == crop and not crate.held and crate.day <= today
            if fits and crate.day + KEEPS >= day and crate.left >= 0.5 and grams >= 0.5:
                gone = min(crate.left, grams)
                crate.out.append((who, gone))
                grams -= gone
        return grams

    def seed_left(self) -> dict[str, float]:
        """What is left of each bag."""
        used: Counter[str] = Counter()
        for pot in self.pots:
            used.update(pot.seed)
        return {lot: grams - used[lot] for lot, grams in self.bags.items()}

    def customers(self, lot: str) -> dict[str, float]:
        """Who has how much of a seed lot, g."""
        found: defaultdict[str, float] = defaultdict(float)
        for crate in self.crates.values():
            for who in {name for name, _ in crate.out}:
                found[who] += crate.got(who) * crate.of(lot)
        return {who: grams for who, grams in found.items() if who != "waste" and grams > 1e-6}
