"""What of a crop was packed and sold, beside what was cut."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from logbook.growing.measures import Units, grams_words
from logbook.growing.orders.customer import Mix, Packed
from logbook.growing.orders.wishes import mix_on


@dataclass(frozen=True, slots=True)
class Sold:
    """What became of cuts, g: what was packed, delivered less what came back, and waste, with what came back."""

    cut: float = 0.0
    """How much of it is known: what went into pack lots; all, where packs are from no lot too."""
    packed: float = 0.0
    sold: float = 0.0
    wasted: float = 0.0

    def __add__(self, other: "Sold") -> "Sold":
        return Sold(
            self.cut + other.cut, self.packed + other.packed, self.sold + other.sold,
            self.wasted + other.wasted,
        )  # fmt: skip

    def __mul__(self, times: float) -> "Sold":
        return Sold(self.cut * times, self.packed * times, self.sold * times, self.wasted * times)

    def percent(self, grams: float) -> float:
        """How many % of what is known so many g are."""
        return 100 * grams / self.cut if self.cut else 0.0

    def words(self, cut: float, units: Units) -> str:
        """Say it beside what was cut, g: "cut 4.2 kg, packed 3.9 kg (93 %), sold 3.6 kg"."""
        said = [f"cut {grams_words(cut, units)}"]
        said += (
            [f"{grams_words(self.cut, units)} of it into pack lots"] if cut - self.cut >= 1 else []
        )
        share = f" ({self.percent(self.packed):.0f} %)" if self.cut else ""
        said += [
            f"packed {grams_words(self.packed, units)}{share}",
            f"sold {grams_words(self.sold, units)}",
        ]
        said += [f"waste {grams_words(self.wasted, units)}"] if self.wasted else []
        return ", ".join(said)


def unlotted_of(
    packed: Iterable[tuple[date, Packed, float]], mixes: Mapping[int, Sequence[Mix]], since: date,
    until: date,
) -> dict[int, Sold]:  # fmt: skip
    """By crop (template id) what was packed and sold from a day to another that is from no pack lot.

    `packed` has the day on which each was packed and its g from no lot; it counts as sold on the day of
    its delivery. A mix counts by the shares of its crops.
    """
    found: dict[int, Sold] = {}
    for day, pack, grams in packed:
        here, there = since <= day <= until, since <= pack.day <= until
        if here or there:
            one = Sold(0.0, grams * here, grams * there)
            for crop, share in _shares(pack, mixes):
                found[crop] = found.get(crop, Sold()) + one * share
    return found


def _shares(pack: Packed, mixes: Mapping[int, Sequence[Mix]]) -> Iterator[tuple[int, float]]:
    if pack.template is not None:
        yield pack.template, 1.0
    elif pack.mix is not None and pack.mix in mixes:
        yield from mix_on(mixes[pack.mix], pack.day).shares.items()
