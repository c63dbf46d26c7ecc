"""Harvests of a tray: its first cutting and what grew again, each in one cut or in several."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta


@dataclass(frozen=True, slots=True)
class Harvest:
    """One cutting of a tray."""

    keys = "number at grams done weighed"

    number: int
    """1 is the first; the later ones are regrowth."""
    at: datetime
    """When it was cut last."""
    grams: float
    """All its cuts that were weighed, g."""
    done: bool
    """Whether no more of it is to come."""
    shared: bool = False
    weighed: bool = True
    """Whether every cut of it was weighed."""

    def awaits(self, at: datetime, *, part: bool) -> bool:
        """Whether a weight at a moment is that of its last cut, which was not weighed then."""
        return not self.weighed and at - self.at <= WEIGHED_WITHIN and (self.done or part)


WEIGHED_WITHIN = timedelta(hours=12)
"""So long after a cut that went unweighed a weight is that cut's; later it is of the next one."""


def with_cut(
    harvests: tuple[Harvest, ...], at: datetime, grams: float | None, *, part: bool, shared: bool
) -> tuple[Harvest, ...]:
    """The harvests with one more cut, which goes on with the last one where more of it was to come.

    `grams` None for a cut that was not weighed.
    """
    last = harvests[-1] if harvests else None
    if last is not None and grams is not None and last.awaits(at, part=part):
        last = replace(last, grams=last.grams + grams, weighed=True, shared=last.shared or shared)
    elif last is None or last.done:
        known = grams is not None
        return (*harvests, Harvest(len(harvests) + 1, at, grams or 0.0, not part, shared, known))
    else:
        last = replace(
            last, at=at, grams=last.grams + (grams or 0.0), done=not part,
            shared=last.shared or shared, weighed=last.weighed and grams is not None,
        )  # fmt: skip
    return (*harvests[:-1], last)


def before_unweighed(
    harvests: tuple[Harvest, ...], at: datetime, *, part: bool
) -> tuple[Harvest, ...]:
    """The harvests without the cut whose weight is written now; the same where there is none."""
    if not harvests or not harvests[-1].awaits(at, part=part):
        return harvests
    last = harvests[-1]
    return (*harvests[:-1], *([replace(last, done=False, weighed=True)] if last.grams else []))
