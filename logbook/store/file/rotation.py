"""Which of the daily copies to keep: the newest days, the last of each week, of each month."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Keeping:
    """How many daily copies, last-of-the-week copies and last-of-the-month copies stay."""

    daily: int = 7
    weekly: int = 8
    monthly: int = 24


def days_kept(days: Collection[date], keeping: Keeping) -> set[date]:
    """Which of the days' copies stay: a day stays when any of the three rules keeps it.

    A day counts for its ISO week and its calendar month; of each the newest copy stays.
    """
    newest = sorted(set(days), reverse=True)
    kept = set(newest[: keeping.daily])
    kept |= _last_of(newest, keeping.weekly, lambda day: day.isocalendar()[:2])
    kept |= _last_of(newest, keeping.monthly, lambda day: (day.year, day.month))
    return kept


def _last_of(newest: list[date], most: int, group: Callable[[date], tuple[int, int]]) -> set[date]:
    last = {group(day): day for day in reversed(newest)}
    return set(sorted(last.values(), reverse=True)[:most])
