"""How often a batch of a room in which nothing goes wrong is called below what is usual.

Run by hand: python -m tests.bench.unusual [DRAWS] [DRAW]. Prints, for the fewest and the most batches
before that the limit is set from, the share of low batches that are none, and how many of batches
that gave 20 % and 40 % too little are found. Batch means spread by 8 % here.
"""

import random
import sys

from logbook.growing.yields.unusual import LEAST, MOST, unusual_words

MEAN, SPREAD = 300.0, 0.08


def share_called(
    draws: int, draw: int, before: int, factor: float, *, skewed: bool = False
) -> float:
    """The share of batches with so much of the mean that are called low, after so many others."""
    luck = random.Random(draw)

    def one(of: float) -> float:
        if skewed:
            return of * luck.lognormvariate(-(SPREAD**2) / 2, SPREAD)
        return luck.gauss(of, of * SPREAD)

    called = 0
    for _ in range(draws):
        earlier = [one(MEAN) for _ in range(before)]
        called += bool(unusual_words(one(MEAN * factor), earlier, "metric"))
    return called / draws


def main() -> None:
    """Print the table."""
    draws = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    draw = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    for before in (LEAST, 12, MOST):
        for skewed in (False, True):
            shares = [
                share_called(draws, draw, before, each, skewed=skewed) for each in (1.0, 0.8, 0.6)
            ]
            room = "skewed" if skewed else "normal"
            words = ", ".join(f"{100 * each:.2f} %" for each in shares)
            print(f"{before} before, {room}: as usual, 20 % less, 40 % less: {words}")


if __name__ == "__main__":
    main()
