"""What held when: values that hold from a moment until the next one of their kind."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import TypeVar

from logbook.growing.wall_hours import Span

Value = TypeVar("Value")


def stretches(
    changes: Sequence[tuple[datetime, Value]], before: Value, start: datetime, end: datetime
) -> Iterator[tuple[datetime, datetime, Value]]:
    """Cut start to end by what held: `before`, then the `changes` (from when, what), in order."""
    value, low = before, start
    for at, following in sorted(changes, key=lambda change: change[0]):
        if at >= end:
            break
        if at > low:
            yield low, at, value
            low = at
        value = following
    if low < end:
        yield low, end, value


def value_at(changes: Sequence[tuple[datetime, Value]], before: Value, moment: datetime) -> Value:
    """What held at a moment."""
    held = [change for change in sorted(changes, key=lambda one: one[0]) if change[0] <= moment]
    return held[-1][1] if held else before


def gaps(spans: Iterable[Span], start: datetime, end: datetime) -> Iterator[Span]:
    """The time from start to end that none of the spans covers; they may overlap."""
    for low, high in [*sorted(spans), (end, end)]:
        if start < min(low, end):
            yield start, min(low, end)
        start = max(start, high)


def seconds_of(spans: Sequence[Span]) -> float:
    """Add up the seconds of spans."""
    return sum((high - low).total_seconds() for low, high in spans)
