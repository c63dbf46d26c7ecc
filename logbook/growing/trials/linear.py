"""Least squares for blocks with trays missing: fits, and what a term adds to a fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from logbook.growing.trials.distributions import special


@dataclass(frozen=True, slots=True)
class Fit:
    """A least-squares fit: coefficients, left-over sum of squares, its df, (XᵀX)⁻, rank."""

    coefficients: Any
    left: float
    df: int
    inverse: Any
    rank: int


def fit(y: Sequence[float], columns: Any) -> Fit:
    """Fit y (n values) on columns (n × c); columns may be dependent."""
    special()
    import numpy as np

    values = np.asarray(y, dtype=float)
    matrix = np.asarray(columns, dtype=float)
    coefficients, _, rank, _ = np.linalg.lstsq(matrix, values, rcond=None)
    residuals = values - matrix @ coefficients
    inverse = np.linalg.pinv(matrix.T @ matrix)
    left = float(residuals @ residuals)
    return Fit(coefficients, left, len(values) - int(rank), inverse, int(rank))


def indicators(labels: Sequence[str]) -> Any:
    """One column of 0 and 1 for each distinct label, in order of appearance (n × labels)."""
    special()
    import numpy as np

    names = list(dict.fromkeys(labels))
    return np.array([[1.0 if label == name else 0.0 for name in names] for label in labels])


def added(y: Sequence[float], without: Any, full: Any) -> tuple[float, int, int] | None:
    """F, its df and the error df for what `full` explains beyond `without`.

    None when the full fit leaves no spread or no degree of freedom.
    """
    small, large = fit(y, without), fit(y, full)
    gained = large.rank - small.rank
    if large.df <= 0 or gained <= 0 or large.left <= 1e-18 * max(small.left, 1e-300):
        return None
    return max(0.0, small.left - large.left) / gained / (large.left / large.df), gained, large.df
