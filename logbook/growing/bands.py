"""A band: the lowest and highest value that a crop wants of something."""

from dataclasses import dataclass

from logbook.growing.measures import number_words
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Band:
    """Wanted lowest and highest value, in the unit of what is judged; None leaves that end open."""

    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        if self.low is not None and self.high is not None and not self.low <= self.high:
            raise Refused(
                f"A band goes from low to high, not from {number_words(self.low, 2)} "
                f"to {number_words(self.high, 2)}."
            )

    def side(self, value: float) -> int:
        """−1 below, 0 within (ends included), 1 above."""
        low = self.low is not None and value < self.low
        return -1 if low else int(self.high is not None and value > self.high)

    def told(self, value: float, digits: int = 1) -> str:
        """Write a value with the digits it takes to see on which side it is: never 80 below 80."""
        tries = (number_words(value, more) for more in range(digits, digits + 6))
        return next(
            (text for text in tries if self.side(float(text)) == self.side(value)), f"{value:g}"
        )

    @property
    def words(self) -> str:
        """Write it: "5.5 to 6.5", "at least 1", "at most 2", "6"."""
        return self.written(2)

    def written(self, digits: int) -> str:
        """Write it with at most `digits` decimals."""
        low, high = (
            None if end is None else number_words(end, digits) for end in (self.low, self.high)
        )
        if low is not None and high is not None:
            return low if low == high else f"{low} to {high}"
        if low is not None:
            return f"at least {low}"
        return "anything" if high is None else f"at most {high}"
