"""What of a crop was packed and sold, beside what was cut."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from logbook.growing.measures import Units, grams_words
from logbook.growing.orders.customer import Mix, Packed
from logbook.growing.orders.wishes import mix_on


@dataclass(frozen=True, slots=True)
class Sold:
    """Of a crop, g: what was packed, what was delivered less what came back, what of its lots was waste."""

    packed: float = 0.0
    sold: float = 0.0
    wasted: float = 0.0

    def __add__(self, other: "Sold") -> "Sold":
        return Sold(self.packed + other.packed, self.sold + other.sold, self.wasted + other.wasted)

    def words(self, cut: float, units: Units) -> str:
        """Say it beside what was cut, g: "cut 4.2 kg, packed 3.9 kg (93 %), sold 3.6 kg"."""
        share = f" ({100 * self.packed / cut:.0f} %)" if cut else ""
        said = (grams_words(each, units) for each in (cut, self.packed, self.sold))
        waste = f", waste {grams_words(self.wasted, units)}" if self.wasted else ""
        return "cut {}, packed {}{share}, sold {}".format(*said, share=share) + waste


@dataclass(frozen=True, slots=True)
class Left:
    """What left a lot of a crop or a mix (ids) otherwise, g: sent back by a customer, or waste."""

    day: date
    template: int | None
    mix: int | None
    grams: float
    why: str


def sold_of(
    packed: Iterable[tuple[date, Packed]], left: Iterable[Left],
    mixes: Mapping[int, Sequence[Mix]], since: date, until: date,
) -> dict[int, Sold]:  # fmt: skip
    """By crop (template id) what was packed and sold from a day to another, both included.

    `packed` has the day on which each was packed; it counts as sold on the day of its delivery. A mix
    counts by the shares of its crops. Live trays have no weight and are in neither.
    """
    found: dict[int, Sold] = {}

    def add(template: int | None, mix: int | None, day: date, one: Sold) -> None:
        for crop, share in _shares(template, mix, day, mixes):
            found[crop] = found.get(crop, Sold()) + Sold(
                one.packed * share, one.sold * share, one.wasted * share
            )

    for day, pack in packed:
        if pack.pack_grams is not None:
            grams = pack.packs * pack.pack_grams
            here, there = since <= day <= until, since <= pack.day <= until
            if here or there:
                add(pack.template, pack.mix, pack.day, Sold(grams * here, grams * there))
    for one in left:
        if since <= one.day <= until:
            back, waste = (one.grams * (one.why == why) for why in ("returned", "waste"))
            add(one.template, one.mix, one.day, Sold(0.0, -back, waste))
    return found


def _shares(
    template: int | None, mix: int | None, day: date, mixes: Mapping[int, Sequence[Mix]]
) -> Iterator[tuple[int, float]]:
    if template is not None:
        yield template, 1.0
    elif mix is not None and mix in mixes:
        yield from mix_on(mixes[mix], day).shares.items()
