"""Chance that falls the same way every time."""

from random import Random


class Dice:
    """Numbers from a seed, the same on every machine and in every version of Python.

    Only `Random.random()` is used: its sequence for a seed is promised to stay, while that of the
    other methods is not.
    """

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)  # noqa: S311 - a sample, not a secret

    def chance(self, share: float) -> bool:
        """Yes in this share of the throws."""
        return self._random.random() < share

    def between(self, low: float, high: float) -> float:
        """An even number from low to high."""
        return low + (high - low) * self._random.random()

    def whole(self, low: int, high: int) -> int:
        """An even whole number, both ends in reach."""
        return low + int((high - low + 1) * self._random.random())

    def normal(self, middle: float, spread: float) -> float:
        """A nearly normal number: twelve even ones summed have a spread of one."""
        return middle + spread * (sum(self._random.random() for _ in range(12)) - 6.0)
