"""How trays of a crop spread: a part that a sowing shares, a part of each tray, and the mean's own.

One-way random effects (Searle, Casella & McCulloch 1992, Variance Components, ch. 3–4): a weight is
mean + luck of its batch + luck of its tray. How much of the luck is the batches' is never known well
from a few of them, so every share that it may be is kept with its probability (REML likelihood
times a prior), instead of the likeliest alone.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from logbook.growing.crops.chances import t_above

NODES = 16
"""Shares that are looked at, even in the angle whose sine squared is the share."""
LEAST_SPREAD = 1.0
"""A guess is never surer than this, %."""
LUCK_OF_GUESS = 0.61
"""The luck of a tray, its batch's in it, as a share of the guess's own spread; both are of the mean."""
GUESS_DF = 3.93
"""That counts as much as so many degrees of freedom."""
GUESS_SHARES = (0.64, 0.345)
"""The batches' share of the variance of luck before any is weighed, as a beta distribution.

It is between an even one (1, 1) and Jeffreys' (0.5, 0.5). With LUCK_OF_GUESS and GUESS_DF it was
chosen so that 4 in 5 is as true as can be over rooms of all the kinds of tests/bench/luck.py: three
sowings tell little of how sowings differ, so that no choice is exact in each of them.
"""
FADE = 0.8
"""Of the mean of now a batch counts so much as the one that was cut after it."""
DRIFT = 0.01
"""A room's mean may move by so much of itself from sowing to sowing, one way or the other."""


@dataclass(frozen=True, slots=True)
class BatchWeights:
    """What a batch's trays weighed: how many, their mean in g, and the spread of single weights."""

    batch: int
    trays: int
    mean: float
    squares: float = 0.0
    """Sum of squares around the mean of what was weighed apart, g²."""
    df: int = 0


def batch_weights(weights: Iterable[tuple[int, float, bool]]) -> tuple[BatchWeights, ...]:
    """Gather weights (batch, g, whether it is a share of trays weighed together) by batch, in their order.

    A share says as much of the mean as a single weight, and nothing of the luck of trays. Weights
    of nothing (a tray that died) are left out: they are losses, not yields.
    """
    parts: dict[int, tuple[list[float], list[float]]] = {}
    for batch, grams, together in weights:
        if grams > 0:
            parts.setdefault(batch, ([], []))[together].append(grams)
    found = []
    for batch, (mine, ours) in parts.items():
        every = mine + ours
        mean = math.fsum(every) / len(every)
        groups = [[each] for each in mine] + ([ours] if ours else [])
        squares = math.fsum(len(g) * (math.fsum(g) / len(g) - mean) ** 2 for g in groups)
        found.append(BatchWeights(batch, len(every), mean, squares, len(groups) - 1))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Guess:
    """A guess of the mean in g, with its own spread as one standard deviation, %."""

    grams: float | None
    spread_percent: float

    @property
    def share(self) -> float:
        """The spread as a share of the mean."""
        return max(self.spread_percent, LEAST_SPREAD) / 100


class Node(NamedTuple):
    """One share that the batches may have of the luck, and what then holds."""

    chance: float
    ratio: float
    """The batches' variance by that of trays."""
    tray: float
    """The variance of trays, g²."""
    mean: float
    precision: float
    """Of the mean, by the room's own trays and what it may have drifted since, 1/g²."""


class Load(NamedTuple):
    """Trays of a batch, each counted by how many times the crop's mean it gives."""

    batch: int
    trays: float
    squares: float
    """The sum of the squares of what each counts."""


class Sum(NamedTuple):
    """A sum of trays: g, variance in g², and the degrees of freedom of that variance."""

    grams: float
    variance: float
    df: float

    @property
    def within(self) -> float:
        """How far to either side 4 of 5 such sums are, g."""
        return t_of_80(self.df) * math.sqrt(self.variance)


@dataclass(frozen=True, eq=False)
class Luck:
    """What is known of the weights of a crop: the guess, this room's batches, and the nodes."""

    guess: Guess | None
    own: tuple[BatchWeights, ...]
    """The newest first."""
    nodes: tuple[Node, ...]
    df: float
    """Degrees of freedom of the luck of trays at each node."""

    @property
    def trays(self) -> int:
        """On how many of this room's trays it is based."""
        return sum(each.trays for each in self.own)

    @lru_cache(maxsize=2_000)  # noqa: B019 - as many as are shown, and lucks are kept as long
    def sum_of(self, counts: tuple[Load, ...]) -> Sum:
        """The sum of so many trays of each batch; unknown batches are new ones.

        The trays still to be cut of a batch that was cut in part are judged by those that were.
        The nodes become one t distribution, whose inverse variance has their mean and spread.
        """
        found = self._at_nodes(counts)
        grams = sum(chance * each for chance, each, _, _ in found)
        inverse = [(p, 1 / (v + (each - grams) ** 2), own) for p, each, v, own in found]
        middle = sum(p * each for p, each, _ in inverse)
        spread = sum(
            p * ((each / middle - 1) ** 2 + 2 / self.df * (each / middle * own) ** 2)
            for p, each, own in inverse
        )
        return Sum(round(grams, 6), 1 / middle, 2 / spread)

    def at_least(self, counts: tuple[Load, ...], grams: float, others: Sequence[Sum] = ()) -> float:
        """The chance that such a sum is at least so many g, with sums that share no luck with it.

        Far from the middle one t distribution would not do, so the nodes are taken one by one.
        """
        apart = math.fsum(each.variance for each in others)
        grams -= math.fsum(each.grams for each in others)
        whole = math.fsum(
            chance * t_above((grams - mean) / math.sqrt(variance + apart), self.df)
            for chance, mean, variance, _ in self._at_nodes(counts)
        )
        return round(whole, 12)  # a half is a half, and enough where a half is wanted

    def _at_nodes(self, counts: tuple[Load, ...]) -> list[tuple[float, float, float, float]]:
        """Of a sum at each node: its chance, g, variance in g², how much of that is the luck itself."""
        known = {each.batch: each for each in self.own}
        guess, prior = 0.0, 0.0
        if self.guess is not None and self.guess.grams:
            guess = self.guess.grams
            prior = (guess * self.guess.share) ** -2
        trays, found = sum(each.squares for each in counts), []
        told = [(known[each.batch], each.trays) for each in counts if each.batch in known]
        new = [each.trays for each in counts if each.batch not in known]
        new_trays, new_squares = sum(new), sum(count**2 for count in new)
        for node in self.nodes:
            precision = node.precision + prior
            mean = (node.precision * node.mean + prior * guess) / precision
            grams, free, squares = 0.0, float(new_trays), float(new_squares)
            for mine, count in told:
                rest = 1 / (1 + mine.trays * node.ratio)
                grams += count * (1 - rest) * mine.mean
                free += count * rest
                squares += count**2 * rest
            luck = node.tray * (squares * node.ratio + trays)
            variance = luck + free**2 / precision
            own = (luck + free**2 * node.precision / precision**2) / variance
            found.append((node.chance, grams + free * mean, variance, own))
        return found


@lru_cache(maxsize=500)
def luck_of(guess: Guess | None, own: tuple[BatchWeights, ...]) -> Luck | None:
    """Weigh a guess and a room's batches; None where neither says a weight.

    Without a guess all shares that the batches may have of the luck are weighed by Jeffreys' rule
    for a proportion; with one, by GUESS_SHARES, and the luck is as LUCK_OF_GUESS says until the
    room's own outweighs it.
    """
    if not own and (guess is None or guess.grams is None):
        return None
    low, high, nodes = 0.0, math.pi / 2, []
    df = sum(each.df + 1 for each in own) - 1.0 if own else 0.0
    squares = math.fsum(each.squares for each in own)
    if guess is not None:
        df += GUESS_DF
    while True:
        step = (high - low) / NODES
        angles = [low + (place + 0.5) * step for place in range(NODES)]
        said = [_node(angle, guess, own, squares, df) for angle in angles]
        most = max(log for log, _ in said)
        near = [angle for angle, (log, _) in zip(angles, said, strict=True) if log > most - 8]
        nodes = [(math.exp(log - most), node) for log, node in said]
        if len(near) > NODES / 4:
            break
        low, high = max(0.0, near[0] - step), min(math.pi / 2, near[-1] + step)
    whole = sum(chance for chance, _ in nodes)
    made = tuple(node._replace(chance=chance / whole) for chance, node in nodes)
    return Luck(guess, own, made, df)


def _node(
    angle: float, guess: Guess | None, own: Sequence[BatchWeights], squares: float, df: float
) -> tuple[float, Node]:
    """The logarithm of how likely a share of the batches is, and what holds then.

    `squares` (g²) and `df` are of trays within their batches.
    """
    ratio = math.tan(angle) ** 2
    mean, weight, around, log = fitted(ratio, own)
    if guess is not None:
        luck = LUCK_OF_GUESS * guess.share * (mean or guess.grams or 0.0)
        squares += GUESS_DF * luck**2 / (1 + ratio)
        log += GUESS_DF * math.log(luck) - GUESS_DF / 2 * math.log1p(ratio)
        for part, shape in zip((math.sin, math.cos), GUESS_SHARES, strict=True):
            log += (2 * shape - 1) * math.log(part(angle))
    tray = (squares + around) / df
    log -= df / 2 * math.log(tray)
    if guess is None or not own:
        return log, Node(0.0, ratio, tray, mean, weight / tray)
    mean, variance = _of_now(ratio, tray, own)
    if guess.grams is not None:
        apart = (guess.grams * guess.share) ** 2 + variance
        log -= math.log(apart) / 2 + (mean - guess.grams) ** 2 / apart / 2
    return log, Node(0.0, ratio, tray, mean, 1 / variance)


def _of_now(ratio: float, tray: float, own: Sequence[BatchWeights]) -> tuple[float, float]:
    """The room's mean as it is now, g, and its variance, g²: newer batches count more (see FADE)."""
    exact = [each.trays / (1 + each.trays * ratio) for each in own]
    weights = [FADE**age * each for age, each in enumerate(exact)]
    whole = math.fsum(weights)
    mean = math.fsum(w * each.mean for w, each in zip(weights, own, strict=True)) / whole
    age = math.fsum(w * nth for nth, w in enumerate(weights, 1)) / whole
    noise = math.fsum(w * w / one for w, one in zip(weights, exact, strict=True)) / whole**2
    return mean, tray * noise + (DRIFT * mean * age) ** 2


def fitted(ratio: float, own: Sequence[BatchWeights]) -> tuple[float, float, float, float]:
    """At a variance ratio: mean, its weight, squares around it, and the REML terms beside them."""
    if not own:
        return 0.0, 0.0, 0.0, 0.0
    weights = [each.trays / (1 + each.trays * ratio) for each in own]
    weight = math.fsum(weights)
    mean = math.fsum(w * each.mean for w, each in zip(weights, own, strict=True)) / weight
    around = math.fsum(w * (each.mean - mean) ** 2 for w, each in zip(weights, own, strict=True))
    spread = math.fsum(math.log1p(each.trays * ratio) for each in own)
    return mean, weight, around, -(spread + math.log(weight)) / 2


_T = ((1.0, 3.077684), (0.5, 1.885618), (0.25, 1.533206), (0.125, 1.396815), (0.0, 1.281552))
"""1/df, and the t that 80 % are within (any table of Student's t)."""


def t_of_80(df: float) -> float:
    """The t that 80 % are within, for 1 degree of freedom or more (to 1 in 10,000 of itself)."""
    at, inverse = min(1.0, 1 / df), 0.0
    for here, t in _T:
        others = (there for there, _ in _T if there != here)
        inverse += math.prod((at - there) / (here - there) for there in others) / t
    return 1 / inverse


def even(trays: int, batches: int) -> tuple[Load, ...]:
    """So many new trays sown as so many batches, as evenly as it goes."""
    each, more = divmod(trays, batches)
    return new_batches(each + (place < more) for place in range(batches))


def new_batches(counts: Iterable[int]) -> tuple[Load, ...]:
    """So many trays of each of some batches that are not known yet."""
    return tuple(Load(-place, count, count) for place, count in enumerate(counts, 1))


def together(sums: Iterable[Sum]) -> Sum:
    """Sums of several crops as one: they share no luck, so variances add up.

    Much of what is wrong with their spreads they share, being of one room: so the degrees of freedom
    lie between the mean of theirs and Welch's sum of them.
    """
    every = list(sums)
    variance = math.fsum(each.variance for each in every)
    df = variance / math.fsum(each.variance / each.df for each in every)
    many = variance**2 / math.fsum(each.variance**2 for each in every)
    df *= 4 * many / (1 + 3 * many)
    return Sum(math.fsum(each.grams for each in every), variance, df)
