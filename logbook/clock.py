"""The one place where the time comes from."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Protocol


class Clock(Protocol):
    """Something that tells the time."""

    def now(self) -> datetime:
        """The present moment, aware, in UTC."""


class SystemClock:
    """The machine's clock."""

    def now(self) -> datetime:
        """The present moment, aware, in UTC, to the second."""
        return datetime.now(UTC).replace(microsecond=0)


@dataclass
class FixedClock:
    """A clock that stands at one moment until it is set: rehearsals, tests, pictures."""

    at: datetime

    def now(self) -> datetime:
        """The moment at which the clock stands."""
        return self.at.astimezone(UTC)


class ToldClock(FixedClock):
    """A clock whose moment somebody said (--now): what is done now is done then."""
