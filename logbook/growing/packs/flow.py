"""Grams on their way from the bag to the plate, followed forward and back; mixed ones in proportion."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from graphlib import TopologicalSorter
from itertools import chain
from typing import Literal

What = Literal[
    "seed lot", "batch", "tray", "cut", "pack lot",
    "delivery", "own use", "waste", "stock", "unaccounted",
]  # fmt: skip
"""What a node is, in the order of the way."""


@dataclass(frozen=True, slots=True)
class Node:
    """A stop on the way: what it is, and the id of its row, or a seed lot's name.

    A cut is an entry of a tray (ids of both).
    """

    what: What
    id: int | str | tuple[int, int]


@dataclass(frozen=True, slots=True)
class Link:
    """Cut grams that went from one node to another; 0 where none were weighed, as of a live tray."""

    giver: Node
    taker: Node
    grams: float

    @property
    def turned(self) -> "Link":
        """The same grams, looked at from their end."""
        return Link(self.taker, self.giver, self.grams)


@dataclass(frozen=True, slots=True)
class Followed:
    """What was reached from some roots, in the order of the way, with the roots' grams in each."""

    grams_in: float
    """Grams that the roots hold, each gram once."""
    grams: Mapping[Node, float]

    def sum(self, *what: What) -> float:
        """The roots' grams in all nodes of these kinds."""
        return sum(grams for node, grams in self.grams.items() if node.what in what)


@dataclass(frozen=True, slots=True)
class Flow:
    """All links of some nodes: none may be left out of what goes into or out of one that is followed."""

    links: tuple[Link, ...]
    _back: dict[Node, list[Link]] = field(default_factory=dict)
    _forth: dict[Node, list[Link]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for link in self.links:
            self._forth.setdefault(link.giver, []).append(link)
            self._back.setdefault(link.taker, []).append(link.turned)

    def forward(self, roots: Collection[Node]) -> Followed:
        """Where the roots' grams went."""
        return self._followed(roots, self._forth)

    def back(self, roots: Collection[Node]) -> Followed:
        """Where the roots' grams came from."""
        return self._followed(roots, self._back)

    def total(self, node: Node) -> float:
        """All grams that came into a node; of one where the way begins, all that left it."""
        links = self._back.get(node) or self._forth.get(node) or []
        return sum(link.grams for link in links)

    def _followed(self, roots: Collection[Node], ways: Mapping[Node, list[Link]]) -> Followed:
        reached, ahead = dict.fromkeys(roots), list(roots)
        into: dict[Node, list[Link]] = {root: [] for root in roots}
        while ahead:
            for link in ways.get(ahead.pop(), ()):
                into.setdefault(link.taker, []).append(link)
                if link.taker not in reached:
                    reached[link.taker] = None
                    ahead.append(link.taker)
        order = TopologicalSorter(
            {node: {link.giver for link in links} for node, links in into.items()}
        )
        grams, shares, grams_in = dict[Node, float](), dict[Node, float](), 0.0
        for node in order.static_order():
            came = sum(shares[link.giver] * link.grams for link in into[node])
            total = self.total(node)
            if node in roots:
                grams_in += total - came
            grams[node] = total if node in roots else came
            shares[node] = 1.0 if node in roots else came / total if total else 0.0
        return Followed(grams_in, grams)


def settled(links: Iterable[Link]) -> Flow:
    """The links with what became of the rest: of a lot stock, of a cut without a lot "unaccounted".

    Where more was taken from a lot than its standing weights say, less than nothing is unaccounted
    for: so what came in is always what went out, is left, was wasted or is unaccounted for.
    """
    every = tuple(links)
    left: dict[Node, float] = {}
    for node, grams in chain.from_iterable(
        ((link.giver, -link.grams), (link.taker, link.grams)) for link in every
    ):
        if node.what in ("cut", "pack lot"):
            left[node] = left.get(node, 0.0) + grams
    rest = [
        Link(node, Node(_became(node, grams), node.id), grams)
        for node, grams in left.items()
        if abs(grams) > _NOTHING
    ]
    return Flow((*every, *rest))


_NOTHING = 1e-6
"""Grams: less is only the rounding of a sum."""


def _became(node: Node, grams: float) -> What:
    return "stock" if node.what == "pack lot" and grams > 0 else "unaccounted"
