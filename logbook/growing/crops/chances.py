"""Tails of Student's t, without a library: how likely a sum of trays is at least so heavy."""

import math

_STEPS = 200
_ENOUGH = 1e-12


def t_above(t: float, df: float) -> float:
    """The chance that a t of so many degrees of freedom (above 0) is greater than `t`.

    Abramowitz & Stegun 1964, 26.7.1 and 26.5.8: the incomplete beta function as a continued fraction.
    """
    tail = _beta_share(df / 2, 0.5, df / (df + t * t)) / 2
    return tail if t >= 0 else 1 - tail


def _beta_share(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function of x from 0 to 1."""
    if x in (0.0, 1.0):
        return x
    if x > (a + 1) / (a + b + 2):
        return 1 - _beta_share(b, a, 1 - x)
    front = math.exp(
        math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
        + a * math.log(x) + b * math.log1p(-x)
    ) / a  # fmt: skip
    upper, lower, found = 1.0, 1 / (1 - (a + b) * x / (a + 1)), 1 / (1 - (a + b) * x / (a + 1))
    for step in range(1, _STEPS):
        for term in (
            step * (b - step) * x / ((a + 2 * step - 1) * (a + 2 * step)),
            -(a + step) * (a + b + step) * x / ((a + 2 * step) * (a + 2 * step + 1)),
        ):
            lower, upper = 1 / (1 + term * lower), 1 + term / upper
            found *= lower * upper
        if abs(lower * upper - 1) < _ENOUGH:
            break
    return front * found


def odds_words(chance: float) -> str:
    """Say a chance, never as certain where it isn't: "93 times in 100", "more than 99 times in 100"."""
    if chance < 0.01:
        return "less than once in 100"
    if 0.99 < chance < 1:
        return "more than 99 times in 100"
    times = round(100 * chance)
    return "once in 100" if times == 1 else f"{times} times in 100"
