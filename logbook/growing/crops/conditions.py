"""By how much shelf, seed and season move a crop's weights, where this room's own trays tell.

Logarithms of weights, with a part that trays of a batch share and a part of each tray. Effects are
normal around none with a spread that the weights themselves choose (best linear unbiased
prediction; Searle, Casella & McCulloch 1992, Variance Components, ch. 7 and 9), so they are shrunk
the more the less is known. A kind of effect is taken only where the weights are better told with
it by TOLD or more, twice the logarithm of the likelihood (Self & Liang 1987: 1 in 20 would be
where there is none).
"""

import math
from collections import Counter
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from statistics import fmean
from typing import NamedTuple

from logbook.growing.crops.luck import BatchWeights, batch_weights
from logbook.growing.crops.yields import NEWEST_BATCHES
from logbook.growing.days import DAY

TOLD = 2.71
SEASON_TOLD = 6.0
"""More is asked of seasons: batches one after another are alike, so years are few."""
LEAST_TRAYS = 6
"""A shelf is looked at from so many trays on."""
LEAST_BATCHES = 6
"""So many batches are needed for shelves and seed."""
SHELF_SPREADS = (0.02, 0.04, 0.08, 0.16)
SEED_SPREADS = (0.1, 0.25, 0.5)
"""Of the power of the seed's grams that the weight goes with."""
SEASON_SPREADS = (0.04, 0.08, 0.16)
YEAR = 365.25 * DAY
MONTH = YEAR / 12
LEAST_YEARS, LEAST_MONTHS = 2.0, 15
"""So long before seasons are looked at, and in so many months something was cut."""
LEAST_VARIANCE = 1e-8
"""Trays that differ less weigh the same, and tell nothing."""
NEWEST, SINCE = 120, timedelta(days=364)
"""Shelves and seed are judged by so many trays of a crop, cut within so long."""
MOST_TRAYS = 1_500
"""Seasons by so many."""
FREQUENT = timedelta(weeks=8)
"""A crop whose newest sowings (NEWEST_BATCHES) were cut within it follows the season by them."""
OTHER_SEED = 0.1
"""Seed that differs by more than this share is another density."""
MOST = 0.5
"""No tray is shifted by more than this, as a logarithm."""


class Conditions(NamedTuple):
    """What a tray had: its shelf, its seed in g, when it was or will be cut; None where unknown."""

    shelf: Hashable = None
    seed_grams: float | None = None
    cut_at: datetime | None = None


NOTHING = Conditions()


class Weighed(NamedTuple):
    """A tray that was weighed: its batch, g, what it had, whether others were on the scale with it."""

    batch: int
    grams: float
    had: Conditions
    shared: bool = False


@dataclass(frozen=True, slots=True)
class Shifts:
    """What shifts a crop's weights, as logarithms; nothing where the room's weights tell of nothing."""

    shelves: tuple[tuple[Hashable, float], ...] = ()
    seed: tuple[float, float] | None = None
    """The power, and the mean logarithm of grams of seed."""
    season: tuple[float, float] | None = None
    """Of the cosine and the sine of the year."""
    seed_grams: float | None = None
    """The mean g of seed of the newest trays that were weighed."""

    @property
    def names(self) -> tuple[str, ...]:
        """What is allowed for."""
        told = (("shelf", self.shelves), ("seed", self.seed), ("season", self.season))
        return tuple(name for name, each in told if each)

    def other_seed(self, grams: float | None) -> str:
        """How the weighed trays were sown beside one of so much seed, where that isn't allowed for."""
        if self.seed is not None or not (grams and self.seed_grams):
            return ""
        share = self.seed_grams / grams
        return "" if abs(share - 1) <= OTHER_SEED else "less seed" if share < 1 else "more seed"

    def factor(self, had: Conditions) -> float:
        """How many times the crop's mean a tray gives that had these conditions."""
        found = dict(self.shelves).get(had.shelf, 0.0)
        if self.seed is not None and had.seed_grams:
            found += self.seed[0] * (math.log(had.seed_grams) - self.seed[1])
        if self.season is not None and had.cut_at is not None:
            cosine, sine = _of_year(had.cut_at)
            found += self.season[0] * cosine + self.season[1] * sine
        return round(math.exp(max(-MOST, min(MOST, found))), 3) if found else 1.0


NONE = Shifts()


def monday_of(day: date) -> date:
    """The Monday of its week: what shifts weights is learnt anew each, from what was cut before."""
    return day - timedelta(days=day.weekday())


def learnt(trays: Sequence[Weighed]) -> Shifts:
    """What a crop's trays tell, the one cut first first: the newest of shelves and seed, all of seasons."""
    dated = [(one.had.cut_at, one) for one in trays if one.had.cut_at is not None]
    if not dated:
        return NONE
    last = dated[-1][0]
    newest = [one for at, one in dated[-NEWEST:] if last - at <= SINCE and not one.shared]
    often = frequent([(at, one.batch) for at, one in dated])
    seed = [one.had.seed_grams for one in newest if one.had.seed_grams]
    found = shifts_of(newest, () if often else _months(dated[-MOST_TRAYS:]))
    return replace(found, seed_grams=fmean(seed)) if seed else found


def frequent(cut: Sequence[tuple[datetime, int]]) -> bool:
    """Whether the newest sowings (when cut, batch; oldest first) are so near that they follow the season."""
    near = {batch for at, batch in cut if cut[-1][0] - at <= FREQUENT}
    return len(near) >= NEWEST_BATCHES


def _months(dated: Sequence[tuple[datetime, Weighed]]) -> list[tuple[datetime, float]]:
    """The mean logarithm of each month's batches, oldest first, at the month's middle."""
    of: dict[int, dict[int, list[float]]] = {}
    for at, one in dated:
        if one.grams > 1:
            month = int(at.timestamp() // MONTH)
            of.setdefault(month, {}).setdefault(one.batch, []).append(math.log(one.grams))
    return [
        (datetime.fromtimestamp((month + 0.5) * MONTH, UTC), fmean(map(fmean, batches.values())))
        for month, batches in sorted(of.items())
    ]


def shifts_of(trays: Sequence[Weighed], months: Sequence[tuple[datetime, float]] = ()) -> Shifts:
    """What the weights of a crop tell: of shelves and seed its newest trays, of seasons its months.

    `months` are the mean logarithms of weight of single months, oldest first.
    """
    season = _season(months)
    kept = [one for one in trays if one.grams > 1]
    own = batch_weights((one.batch, math.log(one.grams), False) for one in kept)
    if len(own) < LEAST_BATCHES or _variances(own)[0] < LEAST_VARIANCE:
        return Shifts(season=season)
    count = Counter(one.had.shelf for one in kept if one.had.shelf is not None)
    named = [shelf for shelf, trays in count.items() if trays >= LEAST_TRAYS]
    shelves = _shelves(kept, own, named, count) if len(named) > 1 else ()
    return Shifts(shelves, _seed(kept, own, Shifts(shelves)), season)


def _shelves(
    trays: Sequence[Weighed], own: Sequence[BatchWeights], named: Sequence[Hashable],
    count: Counter[Hashable],
) -> tuple[tuple[Hashable, float], ...]:  # fmt: skip
    place = {shelf: at for at, shelf in enumerate(named)}

    def row(one: Weighed) -> dict[int, float]:
        return {place[one.had.shelf]: 1.0} if one.had.shelf in place else {}

    found = _effects(_Sums(trays, row, len(named), NONE), own, SHELF_SPREADS)
    if found is None:
        return ()
    mean = math.fsum(found[place[shelf]] * count[shelf] for shelf in named) / len(trays)
    effects = ((shelf, round(found[place[shelf]] - mean, 3)) for shelf in named)
    return tuple(sorted(effects, key=lambda each: str(each[0])))


def _seed(
    trays: Sequence[Weighed], own: Sequence[BatchWeights], known: Shifts
) -> tuple[float, float] | None:
    mine = [one for one in trays if one.had.seed_grams]
    rates = {round(math.log(one.had.seed_grams or 1.0), 2) for one in mine}
    if len(mine) < len(trays) or max(rates) - min(rates) < 0.05:
        return None
    mean = fmean(math.log(one.had.seed_grams or 1.0) for one in mine)

    def row(one: Weighed) -> dict[int, float]:
        return {0: math.log(one.had.seed_grams or 1.0) - mean}

    found = _effects(_Sums(trays, row, 1, known), own, SEED_SPREADS)
    return None if found is None else (round(found[0], 3), round(mean, 4))


def _variances(own: Sequence[BatchWeights]) -> tuple[float, float]:
    """Of logarithms within batches and between them, by analysis of variance; 0 where it can't be told."""
    trays, df = sum(each.trays for each in own), sum(each.df for each in own)
    if not df or len(own) < 2:
        return 0.0, 0.0
    within = math.fsum(each.squares for each in own) / df
    mean = math.fsum(each.trays * each.mean for each in own) / trays
    apart = math.fsum(each.trays * (each.mean - mean) ** 2 for each in own) / (len(own) - 1)
    size = (trays - sum(each.trays**2 for each in own) / trays) / (len(own) - 1)
    return within, max(0.0, (apart - within) / size)


Matrix = list[list[float]]


class _Batch(NamedTuple):
    """Of a batch: its trays, the sum of their logarithms, and that of each column."""

    trays: int
    whole: float
    sums: dict[int, float]


class _Sums:
    """What the likelihood of some columns needs, summed over trays once for all variances."""

    def __init__(
        self, trays: Sequence[Weighed], row: Callable[[Weighed], dict[int, float]], columns: int,
        known: Shifts,
    ) -> None:  # fmt: skip
        self.crossed = [[0.0] * columns for _ in range(columns)]
        self.ahead, self.squares = [0.0] * columns, 0.0
        of: dict[int, list[Weighed]] = {}
        for one in trays:
            of.setdefault(one.batch, []).append(one)
        self.batches: list[_Batch] = []
        for mine in of.values():
            sums, whole = dict[int, float](), 0.0
            for one in mine:
                y = math.log(one.grams / known.factor(one.had))
                whole, self.squares = whole + y, self.squares + y * y
                cells = row(one)
                for at, x in cells.items():
                    sums[at] = sums.get(at, 0.0) + x
                    self.ahead[at] += x * y
                    for other, z in cells.items():
                        self.crossed[at][other] += x * z
            self.batches.append(_Batch(len(mine), whole, sums))

    def normal(self, tray: float, batch: float) -> tuple[Matrix, list[float], float]:
        """X'PX, X'Py and y'Py with the logarithms beside it (REML), at these variances; the mean taken out."""
        columns = range(len(self.ahead))
        within = [[each / tray for each in row] for row in self.crossed]
        ahead, level = [each / tray for each in self.ahead], [0.0] * len(self.ahead)
        weight = target = 0.0
        rest, logs = self.squares / tray, 0.0
        for mine in self.batches:
            share = batch / (tray + mine.trays * batch)
            own = (1 - share * mine.trays) / tray
            for at, x in mine.sums.items():
                ahead[at] -= share * x * mine.whole / tray
                level[at] += x * own
                for other, z in mine.sums.items():
                    within[at][other] -= share * x * z / tray
            weight += mine.trays * own
            target += mine.whole * own
            rest -= share * mine.whole**2 / tray
            logs += math.log1p(mine.trays * batch / tray)
        for at in columns:
            ahead[at] -= level[at] * target / weight
            for other in columns:
                within[at][other] -= level[at] * level[other] / weight
        return within, ahead, rest - target**2 / weight + logs + math.log(weight)


BATCH_SHARES = (0.0, 0.25, 0.5, 1.0)
"""Of how far batches are apart, shelves may be the cause: so much of it is left to the batches."""


def _effects(
    sums: _Sums, own: Sequence[BatchWeights], spreads: Sequence[float]
) -> list[float] | None:
    """The effects of the columns, by the variances that tell the weights best; None for too little."""
    tray, apart = _variances(own)
    bare, best, found = -math.inf, -math.inf, None
    for share in BATCH_SHARES:
        within, ahead, less = sums.normal(tray, share * apart)
        bare = max(bare, -less)
        gain, effects = _shrunk(within, ahead, spreads)
        if gain - less > best:
            best, found = gain - less, effects
    return found if best - bare > TOLD else None


def _shrunk(
    within: Matrix, ahead: Sequence[float], spreads: Sequence[float]
) -> tuple[float, list[float]]:
    """Twice the logarithm by which the best spread of effects tells more than none; the effects."""
    best, found, size = -math.inf, [0.0] * len(ahead), len(ahead)
    for spread in spreads:
        whole = [
            [within[at][other] + (at == other) / spread**2 for other in range(size)]
            for at in range(size)
        ]
        root = _root(whole)
        half = _forward(root, ahead)
        gain = _dot(half, half)
        gain -= 2 * math.fsum(math.log(root[at][at] * spread) for at in range(size))
        if gain > best:
            best, found = gain, _back(root, half)
    return best, found


def _root(of: Matrix) -> Matrix:
    """Cholesky's lower root of a positive matrix."""
    size = len(of)
    root = [[0.0] * size for _ in range(size)]
    for at in range(size):
        for other in range(at + 1):
            rest = of[at][other] - sum(
                a * b for a, b in zip(root[at][:other], root[other][:other], strict=True)
            )
            root[at][other] = math.sqrt(rest) if at == other else rest / root[other][other]
    return root


def _forward(root: Matrix, of: Sequence[float]) -> list[float]:
    found: list[float] = []
    for at, value in enumerate(of):
        rest = value - sum(a * b for a, b in zip(root[at][:at], found, strict=True))
        found.append(rest / root[at][at])
    return found


def _back(root: Matrix, of: Sequence[float]) -> list[float]:
    size = len(of)
    found = [0.0] * size
    for at in reversed(range(size)):
        rest = of[at] - sum(root[more][at] * found[more] for more in range(at + 1, size))
        found[at] = rest / root[at][at]
    return found


def _of_year(at: datetime) -> tuple[float, float]:
    turn = 2 * math.pi * (at.timestamp() % YEAR) / YEAR
    return math.cos(turn), math.sin(turn)


def _season(months: Sequence[tuple[datetime, float]]) -> tuple[float, float] | None:
    """A yearly wave beside a level and a trend, by least squares, shrunk like the rest."""
    if len(months) < LEAST_MONTHS:
        return None
    begun = months[0][0].timestamp()
    times = [(at.timestamp() - begun) / YEAR for at, _ in months]
    if times[-1] < LEAST_YEARS:
        return None
    middle = fmean(times)
    fixed = [[1.0] * len(times), [each - middle for each in times]]
    waves = [
        _apart(list(each), fixed) for each in zip(*(_of_year(at) for at, _ in months), strict=True)
    ]
    logs = _apart([log for _, log in months], fixed)
    cosine, sine = waves
    unit = [_apart(cosine, []), _apart(sine, [cosine])]
    rest = _apart(logs, unit)
    noise = math.fsum(each * each for each in rest) / (len(months) - 4)
    if noise <= 0:
        return None
    within = [[_dot(one, other) / noise for other in waves] for one in waves]
    ahead = [_dot(one, logs) / noise for one in waves]
    gain, found = _shrunk(within, ahead, SEASON_SPREADS)
    return (round(found[0], 3), round(found[1], 3)) if gain > SEASON_TOLD else None


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return math.fsum(a * b for a, b in zip(one, other, strict=True))


def _apart(values: list[float], fixed: Sequence[Sequence[float]]) -> list[float]:
    """What is left of values after orthogonal columns are taken out."""
    for column in fixed:
        share = _dot(values, column) / (_dot(column, column) or 1.0)
        values = [value - share * each for value, each in zip(values, column, strict=True)]
    return values
