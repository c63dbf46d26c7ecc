"""Chances from the distributions of statistics; scipy does them and is loaded only here.

The studentized range is integrated here with scipy's normal and gamma functions, because scipy's
own routine takes about 0.1 s for one critical value and a table of pairs needs many.
"""

import math
from collections.abc import Callable, Collection
from functools import cache
from typing import Any

from logbook.text import Refused

SIGNIFICANCE = 0.05
"""A difference is shown when alike arms would give it less often; of pairs, the whole family."""

NODES = 64
"""Gauss–Legendre points along each of the two integrals of the studentized range."""

MANY = 24
"""Degrees of freedom from which on critical values are read off a fitted curve."""


def special() -> Any:
    """Load scipy.special; raise Refused, naming the extra, where scipy is not installed."""
    try:
        from scipy import special as loaded
    except ImportError:
        raise Refused(
            "This needs scipy, which is not installed here: "
            "pip install '.[stats]' in the folder of the program. "
            "There is no ready-made scipy for 32-bit machines."
        ) from None
    return loaded


def numpy() -> Any:
    """Load numpy, which comes with scipy; raise Refused as `special` does."""
    special()
    import numpy as loaded

    return loaded


def f_tail(f: float, above: float, below: float) -> float:
    """Chance of an F at least this large with these degrees of freedom."""
    return float(special().fdtrc(above, below, f))


def f_power(noncentrality: float, above: float, below: float) -> float:
    """Chance that F passes its limit of 5 % when its numerator has this noncentrality.

    A Poisson mixture of beta distributions (Johnson, Kotz & Balakrishnan 1995, Continuous univariate
    distributions 2, ch. 30); scipy's own goes to NaN where the noncentrality is large.
    """
    np, functions = numpy(), special()
    half = noncentrality / 2
    reach = 12 * math.sqrt(half) + 40
    times = np.arange(max(0, int(half - reach)), int(half + reach))
    often = np.exp(functions.xlogy(times, half) - half - functions.gammaln(times + 1))
    limit = above * float(functions.fdtri(above, below, 1 - SIGNIFICANCE))
    inside = functions.betainc(above / 2 + times, below / 2, limit / (limit + below))
    return min(1.0, max(0.0, 1 - float((often * inside).sum())))


@cache
def nodes(count: int = NODES) -> tuple[Any, Any]:
    """Gauss–Legendre points between -1 and 1, and their weights."""
    points, weights = numpy().polynomial.legendre.leggauss(count)
    return points, weights


def crossing(of: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function is 0, by false position (Illinois), which makes few calls.

    `low` where it is not below 0 there; `high` is a first guess, doubled until it is far enough.
    """
    below = of(low)
    if below >= 0:
        return low
    while (above := of(high)) < 0:
        low, below, high = high, above, high * 2
    for _ in range(60):
        at = (low * above - high * below) / (above - below)
        value = of(at)
        if abs(value) < 1e-11 or high - low < 1e-7 * high:
            return at
        if value > 0:
            high, above, below = at, value, below / 2
        else:
            low, below, above = at, value, above / 2
    return high


def range_tail(q: float, arms: int, df: float) -> float:
    """Chance of a studentized range of `arms` means at least q.

    `df` may be infinite (known spread). Absolute error below 1e-7 for df of 2 or more and up to
    40 arms (checked against scipy.stats.studentized_range).
    """
    if q <= 0:
        return 1.0
    if math.isinf(df):
        return min(1.0, max(0.0, 1 - float(_known_range(q, arms)[0])))
    np, gamma = numpy(), special()
    points, weights = nodes()
    low = math.sqrt(2 * float(gamma.gammaincinv(df / 2, 1e-13)) / df)
    high = math.sqrt(2 * float(gamma.gammainccinv(df / 2, 1e-13)) / df)
    scale = (high + low) / 2 + (high - low) / 2 * points
    # the density of a scale, but for a factor that the sum of the shares takes care of
    density = (df - 1) * np.log(scale) - df * (scale**2 - 1) / 2
    share = weights * np.exp(density)
    inside = _known_range(q * scale, arms)
    return min(1.0, max(0.0, float((share * (1 - inside)).sum() / share.sum())))


def _known_range(width: Any, arms: int) -> Any:
    """Chance that the range of `arms` standard normal values stays below each width (1-D)."""
    np = numpy()
    points, weights = nodes(2 * NODES)
    z = 8.5 * points
    ndtr = special().ndtr
    density = 8.5 * weights * np.exp(-(z**2) / 2) / math.sqrt(2 * math.pi)
    between = ndtr(z)[None, :] - ndtr(z[None, :] - np.atleast_1d(width)[:, None])
    return arms * (density * between ** (arms - 1)).sum(axis=1)


def range_critical(chance: float, arms: int, df: float) -> float:
    """Studentized range that is passed with this chance."""
    aim = math.log(chance)
    return crossing(lambda q: aim - math.log(max(range_tail(q, arms, df), 1e-300)), 0.0, 8.0)


def range_criticals(chance: float, arms: int, dfs: Collection[float]) -> dict[float, float]:
    """The critical range for each of many degrees of freedom.

    Past MANY of them, a polynomial through MANY exact values in 1/df gives the rest (to 1e-6 up
    to 40 arms).
    """
    if len(dfs) <= MANY:
        return {df: range_critical(chance, arms, df) for df in dfs}
    np = numpy()
    fitted = np.polynomial.Chebyshev.interpolate(
        lambda turned: np.log([range_critical(chance, arms, 1 / one) for one in turned]),
        MANY - 1,
        domain=[1 / max(dfs), 1 / min(dfs)],
    )
    return {df: math.exp(float(fitted(1 / df))) for df in dfs}
