"""What of a crop was packed and sold, beside what was cut."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from logbook.growing.measures import Units, grams_words
from logbook.growing.orders.customer import Mix, Packed
from logbook.growing.orders.wishes import mix_on


@dataclass(frozen=True, slots=True)
class Sold:
    """Of a crop, g: what was packed, and what was delivered less what came back."""

    packed: float = 0.0
    sold: float = 0.0

    def __add__(self, other: "Sold") -> "Sold":
        return Sold(self.packed + other.packed, self.sold + other.sold)

    def words(self, cut: float, units: Units) -> str:
        """Say it beside what was cut, g: "cut 4.2 kg, packed 3.9 kg (93 %), sold 3.6 kg"."""
        share = f" ({100 * self.packed / cut:.0f} %)" if cut else ""
        said = (grams_words(each, units) for each in (cut, self.packed, self.sold))
        return "cut {}, packed {}{share}, sold {}".format(*said, share=share)


@dataclass(frozen=True, slots=True)
class Returned:
    """What a customer sent back of a lot of a crop or a mix (ids), g."""

    day: date
    template: int | None
    mix: int | None
    grams: float


def sold_of(
    packed: Iterable[tuple[date, Packed]], returned: Iterable[Returned],
    mixes: Mapping[int, Sequence[Mix]], since: date, until: date,
) -> dict[int, Sold]:  # fmt: skip
    """By crop (template id) what was packed and sold from a day to another, both included.

    `packed` has the day on which each was packed; it counts as sold on the day of its delivery. A mix
    counts by the shares of its crops. Live trays have no weight and are in neither.
    """
    found: dict[int, Sold] = {}

    def add(template: int | None, mix: int | None, day: date, one: Sold) -> None:
        for crop, share in _shares(template, mix, day, mixes):
            found[crop] = found.get(crop, Sold()) + Sold(one.packed * share, one.sold * share)

    for day, one in packed:
        if one.pack_grams is not None:
            grams = one.packs * one.pack_grams
            here, there = since <= day <= until, since <= one.day <= until
            if here or there:
                add(one.template, one.mix, one.day, Sold(grams * here, grams * there))
    for back in returned:
        if since <= back.day <= until:
            add(back.template, back.mix, back.day, Sold(0.0, -back.grams))
    return found


def _shares(
    template: int | None, mix: int | None, day: date, mixes: Mapping[int, Sequence[Mix]]
) -> Iterator[tuple[int, float]]:
    if template is not None:
        yield template, 1.0
    elif mix is not None and mix in mixes:
        yield from mix_on(mixes[mix], day).shares.items()
