"""Harvests of a tray: its first cutting and what grew again, each in one cut or in several."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Harvest:
    """One cutting of a tray."""

    keys = "number at grams done"

    number: int
    """1 is the first; the later ones are regrowth."""
    at: datetime
    """When it was cut last."""
    grams: float
    """All its cuts, g."""
    done: bool
    """Whether no more of it is to come."""
    shared: bool = False


def with_cut(
    harvests: tuple[Harvest, ...], at: datetime, grams: float, *, part: bool, shared: bool
) -> tuple[Harvest, ...]:
    """The harvests with one more cut, which goes on with the last one where more of it was to come."""
    if not harvests or harvests[-1].done:
        return (*harvests, Harvest(len(harvests) + 1, at, grams, not part, shared))
    last = harvests[-1]
    last = replace(
        last, at=at, grams=last.grams + grams, done=not part, shared=last.shared or shared
    )
    return (*harvests[:-1], last)
