"""Tasting and looks: blind codes, orders, ranks of tasters, and the triangle test.

Sources: ISO 8587 (ranking, from memory) and M. Friedman (1937, J. Am. Stat. Assoc. 32:675–701)
for ranks; ISO 4120 (triangle test, from memory) for the triangle, which is the binomial with one
right answer in three by guessing.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, permutations, product
from operator import add
from typing import ClassVar

from logbook.growing.trials.distributions import SIGNIFICANCE, special
from logbook.growing.trials.layout import shuffled
from logbook.growing.trials.words import chance_words, p_words
from logbook.text import Refused, listed, plural

FEWEST_TASTERS = 3
"""Below this many tasters ranks show nothing, whatever they are."""

_COUNTABLE = 400_000
"""Steps per taster up to which Friedman's chance is counted exactly."""


def blind_codes(samples: Sequence[str], seed: int) -> dict[str, str]:
    """A three-digit code for each sample that hints at nothing (no 111, 123 or 321)."""
    codes = map(str, range(101, 1000))
    plain = [code for code in codes if len(set(code)) == 3 and code not in "123456789 987654321"]
    if len(samples) > len(plain):
        raise Refused(f"There are three-digit codes for up to {len(plain)} samples.")
    return dict(zip(samples, shuffled(plain, seed, "codes"), strict=False))


@dataclass(frozen=True, slots=True)
class Triangle:
    """A triangle test: `needed` right answers for a difference (None: cannot be shown)."""

    keys: ClassVar = "tasters right needed chance words"

    tasters: int
    right: int
    needed: int | None
    """Fewest right answers that show it."""
    chance: float

    @property
    def shown(self) -> bool:
        """Whether so many right answers show a difference."""
        return self.needed is not None and self.right >= self.needed

    @property
    def words(self) -> str:
        """What it shows, as a sentence."""
        if self.needed is None:
            return (
                f"With {plural(self.tasters, 'taster')} nothing can be shown: even all right "
                "answers could be guesses. Keep the notes and ask more tasters; three is the "
                "least, "
                "twelve is better."
            )
        were = f"{self.right} of {self.tasters} were right and {self.needed} are"
        guessed = f"Guessing alone gives {self.right} or more right {chance_words(self.chance)}."
        if self.shown:
            said = f"Some tasters can tell them apart: {were} enough."
            return f"{said} {guessed} It does not say which is better."
        said = f"It is not shown that anyone can tell them apart: {were} needed."
        return f"{said} {guessed} That does not show that they are the same."


def by_guessing(tasters: int) -> list[float]:
    """Chance that guessing gives at least 0, 1, 2 … right answers (binomial, 1/3, exact)."""
    ways = [math.comb(tasters, wrong) * 2**wrong for wrong in range(tasters + 1)]
    return [upto / 3**tasters for upto in accumulate(ways)][::-1]


def triangle(tasters: int, right: int) -> Triangle:
    """Judge a triangle test at 5 %; Refused for no tasters, over 1,000, or more right answers."""
    if not 1 <= tasters <= 1000:
        raise Refused("Give the number of tasters, from 1 to 1,000.")
    if not 0 <= right <= tasters:
        given = f"{plural(tasters, 'taster')} cannot give {right} right answers"
        raise Refused(f"{given}; give a number from 0 to {tasters}.")
    chances = by_guessing(tasters)
    needed = next((at for at, chance in enumerate(chances) if chance <= SIGNIFICANCE), None)
    return Triangle(tasters, right, needed, chances[right])


@dataclass(frozen=True, slots=True)
class Ranked:
    """One sample: the sum and mean of its ranks (1 is best)."""

    keys: ClassVar = "sample=name rank_sum mean_rank"

    name: str
    rank_sum: float
    mean_rank: float


@dataclass(frozen=True, slots=True)
class Ranks:
    """What tasters' ranks show. p is by χ² and `p_counted` exact where it could be counted."""

    keys: ClassVar = "tasters left_out samples chi_square df p p_counted words"

    tasters: int
    left_out: tuple[str, ...]
    samples: tuple[Ranked, ...]
    chi_square: float | None
    df: int | None
    p: float | None
    p_counted: float | None

    @property
    def judged(self) -> float | None:
        """The chance that it is judged by."""
        return self.p if self.p_counted is None else self.p_counted

    @property
    def shown(self) -> bool:
        """Whether a preference is shown."""
        return self.judged is not None and self.judged <= SIGNIFICANCE

    @property
    def words(self) -> str:
        """What they show, as sentences."""
        named = listed(list(self.left_out), most=5)
        missing = f"Left out, because not every sample was judged: {named}. " if named else ""
        if self.tasters < FEWEST_TASTERS:
            return (
                f"{missing}With {plural(self.tasters, 'taster')} nothing can be shown about taste "
                "in general, however clear it seemed to them. The notes are kept; ask more tasters."
            )
        if self.judged is None:
            return f"{missing}The tasters saw no difference between the samples."
        order = ", then ".join(one.name for one in self.samples[:6])
        chance = f"{chance_words(self.judged)} ({p_words(self.judged)})"
        often = f"with no preference at all, such ranks would come up {chance}"
        if not self.shown:
            order = f"The order of the mean ranks ({order}) may be chance."
            return f"{missing}No preference is shown: {often}. {order}"
        return (
            f"{missing}The tasters agree more than by chance: {often}. Best first: "
            f"{order}. It does not say that each differs from the next."
        )


def ranks(given: Mapping[str, Mapping[str, float]], *, more_is_better: bool = False) -> Ranks:
    """Judge taster → sample → rank (1 is best), or score with `more_is_better`, by Friedman's test.

    Ties share their mean rank. A taster who did not judge every sample is left out and named.
    Raises Refused for fewer than two samples, or no taster who judged all of them.
    """
    samples = list(dict.fromkeys(name for row in given.values() for name in row))
    if len(samples) < 2:
        raise Refused("Ranking needs two samples or more.")
    whole = {taster: row for taster, row in given.items() if len(row) == len(samples)}
    left = tuple(taster for taster in given if taster not in whole)
    if not whole:
        raise Refused("No taster judged every sample, so the ranks cannot be compared.")
    rows = [
        _mean_ranks([-row[name] if more_is_better else row[name] for name in samples])
        for row in whole.values()
    ]
    sums = [math.fsum(row[at] for row in rows) for at in range(len(samples))]
    ordered = tuple(
        Ranked(name, total, total / len(rows))
        for total, name in sorted(zip(sums, samples, strict=True), key=lambda each: each[0])
    )
    df = p = counted = None
    chi = _friedman(rows, sums) if len(rows) >= FEWEST_TASTERS else None
    if chi is not None:
        df = len(samples) - 1
        p, counted = float(special().chdtrc(df, chi)), _counted(rows, sums)
    return Ranks(len(rows), left, ordered, chi, df, p, counted)


def _mean_ranks(values: Sequence[float]) -> list[float]:
    return [
        sum(other < value for other in values) + (sum(other == value for other in values) + 1) / 2
        for value in values
    ]


def _friedman(rows: Sequence[Sequence[float]], sums: Sequence[float]) -> float | None:
    """Friedman's χ², corrected for ties; None when every taster tied everything."""
    count, size = len(rows), len(sums)
    ties = sum(times**3 - times for row in rows for times in Counter(row).values() if times > 1)
    room = 1 - ties / (count * (size**3 - size))
    if room <= 1e-12:
        return None
    return 12 / (count * size * (size + 1)) * _off_middle(sums, count) / room


def _off_middle(sums: Sequence[float], tasters: int) -> float:
    """The sum of squares of rank sums around their middle."""
    middle = tasters * (len(sums) + 1) / 2
    return math.fsum((one - middle) ** 2 for one in sums)


def _counted(rows: Sequence[Sequence[float]], sums: Sequence[float]) -> float | None:
    """Count the exact chance over all orders of every taster's ranks; None if too many."""
    if len(sums) > 5:
        return None
    states: dict[tuple[float, ...], float] = {(0.0,) * len(sums): 1.0}
    for row in rows:
        moves = Counter(permutations(row))
        if len(states) * len(moves) > _COUNTABLE:
            return None
        whole = moves.total()
        following: defaultdict[tuple[float, ...], float] = defaultdict(float)
        for (state, share), (move, times) in product(states.items(), moves.items()):
            following[tuple(map(add, state, move))] += share * times / whole
        states = following
    seen = _off_middle(sums, len(rows)) - 1e-9
    as_far = (share for state, share in states.items() if _off_middle(state, len(rows)) >= seen)
    return min(1.0, math.fsum(as_far))
