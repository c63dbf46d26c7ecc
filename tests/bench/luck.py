"""How often the range that should hold 4 times in 5 holds what is cut, in rooms of many kinds.

Run by hand from the project's folder: python -m tests.bench.luck [DRAWS [SEED]]. Each of DRAWS
(20,000) draws is a room with its past sowings, of which the newest count as the book counts them,
and a day to come. Promised are 80 ± 5 for a tray and for a day's sum. Of a room with 3 own trays or
none that is a promise over the rooms that its guess is of: single rooms whose mean or luck is
another are shown beside. Rooms and yields are invented; luck of 8 to 12 % is common practice, no
source.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from random import Random

from logbook.growing.crops.luck import (
    GUESS_DF,
    GUESS_SHARES,
    LUCK_OF_GUESS,
    Guess,
    Sum,
    batch_weights,
    luck_of,
    new_batches,
    together,
)
from logbook.growing.crops.yields import NEWEST_BATCHES

GUESS = Guess(300.0, 20.0)
PAST: dict[int, tuple[int, ...]] = {
    0: (), 3: (3,), 10: (4, 3, 3), 40: (5,) * 8, 100: (5,) * 20,
}  # fmt: skip
"""Own trays, and how many of them each sowing had."""
DAYS = (((1,), "one tray"), ((10,), "ten of one sowing"), ((5, 5), "five each of two sowings"))

Part = Callable[[Random], float]


def normal(chance: Random) -> float:
    return chance.gauss(0, 1)


def skewed(chance: Random) -> float:
    """A gamma of shape 4, which has a skewness of 1; mean 0, standard deviation 1."""
    return chance.gammavariate(4, 0.5) - 2


def heavy(chance: Random) -> float:
    """Student's t with 5 degrees of freedom, to a standard deviation of 1."""
    return chance.gauss(0, 1) / math.sqrt(chance.gammavariate(2.5, 2) / 5 * 5 / 3)


@dataclass(frozen=True)
class Room:
    """A room's luck as shares of its mean; `off` is how far that is from the guess; None: drawn."""

    name: str
    luck: tuple[float, float] | None = (0.10, 0.10)
    """Of batches and of trays."""
    shape: Part = normal
    drift: float = 0.0
    """How much more each sowing gives than the one before."""
    shelves: float = 0.0
    """How much better the one shelf is than the mean of both; a sowing stands on one."""
    off: float | None = None
    wrong: bool = False
    """Whether the guess is wrong for it."""

    def drawn(self, chance: Random) -> Room:
        """The room with all that the guess leaves open."""
        own = GUESS.spread_percent / 100
        off = chance.gauss(0, own) if self.off is None else self.off
        luck = self.luck
        if luck is None:
            whole = LUCK_OF_GUESS * own * (GUESS_DF / chance.gammavariate(GUESS_DF / 2, 2)) ** 0.5
            share = chance.betavariate(*GUESS_SHARES)
            luck = whole * share**0.5, whole * (1 - share) ** 0.5
        return replace(self, off=max(-0.9, off), luck=luck)

    def sowing(self, chance: Random, mean: float, trays: int) -> list[float]:
        """The weights of a sowing, g."""
        assert self.luck is not None
        batch, tray = self.luck
        shelf = chance.choice((-1, 1)) * self.shelves
        shared = mean * (1 + shelf + batch * self.shape(chance))
        return [max(0.0, shared + mean * tray * self.shape(chance)) for _ in range(trays)]


ROOMS = (
    Room("as the guess is", None),
    Room("10 and 10 %"),
    Room("sowings differ more", (0.12, 0.07), wrong=True),
    Room("trays differ more", (0.08, 0.12), wrong=True),
    Room("steadier, 8 and 8 %", (0.08, 0.08), wrong=True),
    Room("drift, 1 % a sowing", drift=0.01),
    Room("two shelves, ± 5 %", shelves=0.05),
    Room("skew", shape=skewed),
    Room("heavy tails", shape=heavy),
    Room("guess 20 % too low", off=0.25, wrong=True),
    Room("guess 20 % too high", off=-1 / 6, wrong=True),
)


def day(kind: Room, own: int, chance: Random) -> list[tuple[Sum, float]]:
    """For each of DAYS what the book says of a room, and what is cut."""
    room, sizes = kind.drawn(chance), PAST[own]
    mean = (GUESS.grams or 0.0) * (1 + (room.off or 0.0))
    past = [
        (number, room.sowing(chance, mean * (1 + room.drift * (number - len(sizes))), size))
        for number, size in enumerate(sizes)
    ]
    newest = past[: -NEWEST_BATCHES - 1 : -1]
    weights = ((number, grams, False) for number, each in newest for grams in each)
    luck = luck_of(GUESS, batch_weights(weights))
    assert luck is not None
    days = []
    for counts, _ in DAYS:
        cut = sum(sum(room.sowing(chance, mean, count)) for count in counts)
        said = luck.sum_of(new_batches(counts))
        days.append((said, cut))
    return days


def held(room: Room, own: int, draws: int, seed: int) -> list[float]:
    """How often the range held, %: for each of DAYS, and for ten trays each of two crops."""
    chance, hits = Random(f"{room.name} {own} {seed}"), [0] * (len(DAYS) + 1)
    before: tuple[Sum, float] | None = None
    for _ in range(draws):
        days = day(room, own, chance)
        pairs = list(days)
        if before is not None:
            pairs.append((together([before[0], days[1][0]]), before[1] + days[1][1]))
        before = days[1]
        for place, (said, cut) in enumerate(pairs):
            hits[place] += max(0.0, said.grams - said.within) <= cut <= said.grams + said.within
    return [100 * each / (draws - (place == len(DAYS))) for place, each in enumerate(hits)]


def table(draws: int, seed: int, rooms: tuple[Room, ...] = ROOMS) -> Iterator[str]:
    heads = [name for _, name in DAYS] + ["ten each of two crops"]
    yield f"{'room':22}{'own trays':>10}" + "".join(f"{head:>26}" for head in heads)
    for room in rooms:
        for own in PAST:
            found = held(room, own, draws, seed)
            beside = room.wrong and own <= 3
            kept = all(75 <= each <= 85 for each in found)
            mark = "beside" if beside else "" if kept else "NOT KEPT"
            figures = "".join(f"{each:26.1f}" for each in found)
            yield f"{room.name:22}{own:10}{figures}  {mark}".rstrip()


if __name__ == "__main__":
    given = [int(each) for each in sys.argv[1:]]
    draws, seed = given + [20_000, 0][len(given) :]
    for line in table(draws, seed):
        print(line, flush=True)
