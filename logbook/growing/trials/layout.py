"""Where each tray of a trial stands, drawn by chance within blocks, from a kept number.

The order comes from sorting by SHA-256 (FIPS 180-4) of the seed and the place, not from
random.shuffle: Python promises the same numbers for a seed in every version only for
random.random(), and a layout must be drawn again years later, exactly.
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, TypeVar

from logbook.text import Refused, fold

Thing = TypeVar("Thing")

MOST_TRAYS = 5_000


@dataclass(frozen=True, slots=True)
class TrialSpot:
    """One tray's spot: its block, its position there from 1, and its arm."""

    keys: ClassVar = "block arm"

    block: str
    position: int
    arm: str


def shuffled(things: Sequence[Thing], seed: int, label: str) -> tuple[Thing, ...]:
    """The things in an order that depends only on the seed, the label and their number."""

    def drawn(at: int) -> bytes:
        return hashlib.sha256(f"{seed}\n{label}\n{at}".encode()).digest()

    return tuple(things[at] for at in sorted(range(len(things)), key=drawn))


def lay_out(
    arms: Sequence[str], layout_number: int, blocks: Sequence[str] = ("",), replicates: int = 1
) -> tuple[TrialSpot, ...]:
    """Draw the layout of a trial; the same number gives the same one on every machine.

    Every block (shelf or week) gets `replicates` trays of each arm; one block named '' is none.
    Raises Refused for fewer than two arms, a name twice, no replicates, or too many trays.
    """
    if len(arms) < 2:
        raise Refused("A trial needs two arms or more, say with and without.")
    for names, what in ((arms, "arm"), (blocks, "block")):
        if len({fold(name) for name in names}) < len(names):
            raise Refused(f"Two {what}s have the same name; give each {what} its own.")
    if replicates < 1 or not blocks:
        raise Refused("Each arm needs at least one tray in each block.")
    if len(arms) * len(blocks) * replicates > MOST_TRAYS:
        raise Refused(f"A trial may have up to {MOST_TRAYS:,} trays.")
    return tuple(
        TrialSpot(block, position, arm)
        for block in blocks
        for position, arm in enumerate(shuffled(tuple(arms) * replicates, layout_number, block), 1)
    )
