"""One check against a number from outside, with its source."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Check:
    """A number of a source beside ours; they are alike within `near`.

    `theirs` is read in the source or computed by another library; it never passes through our code.
    `near` is half of the last digit that the source gives, or what its method differs by.
    """

    source: str
    what: str
    theirs: float
    ours: float
    near: float

    @property
    def alike(self) -> bool:
        """Whether both agree as far as the source says."""
        return abs(self.ours - self.theirs) <= self.near
