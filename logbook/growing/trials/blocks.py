"""Trials in blocks: trays that share a shelf or a week are compared with one another.

The model is weight = arm + block + luck (Gomez & Gomez 1984, ch. 2.2), fitted by least squares,
so that a missing tray needs no invented value (ibid. ch. 7): the arms are compared after the
blocks' own luck is taken out, with the error that is left. Two arms in blocks of one tray each
are the paired t test (F = t²). Where arms have several trays in a block their means there are
compared, so that the error is how the arms' differences vary from block to block (the
block-by-arm mean square, ibid. ch. 3): what holds on these shelves only is not taken for more.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from statistics import fmean
from typing import Any

from logbook.growing.trials.arms import Tray, squares
from logbook.growing.trials.distributions import f_tail, numpy
from logbook.growing.trials.one_way import Anova
from logbook.text import Refused, fold


@dataclass(frozen=True, slots=True)
class Blocked:
    """The analysis of a trial in blocks; None where it cannot be made.

    `adjusted` are the arms' means in g as if every arm had stood in every block, in the order of
    `names`; `difference_variance[i][j]` times the error mean square is the variance of a difference.
    `mean` is the trays' in g, `tray_variance` theirs from tray to tray in g². `missing_cells` are
    (arm, block) without a weight. `uneven` is the chance of differences so unlike from block to
    block, where cells hold several trays; `of_cells` whether these are the error.
    """

    names: tuple[str, ...]
    anova: Anova | None
    block_f: float | None
    block_p: float | None
    mean: float
    tray_variance: float
    adjusted: tuple[float, ...]
    difference_variance: tuple[tuple[float, ...], ...]
    missing_cells: tuple[tuple[str, str], ...]
    blocks: tuple[str, ...]
    uneven: float | None
    trays: int
    cells: int
    of_cells: bool


def in_blocks(trays: Sequence[Tray]) -> Blocked:
    """Analyse the trays that count and name a block.

    Raises Refused where arms never share a block, so that arm and block cannot be told apart, or
    there are too few trays for an error.
    """
    used = [tray for tray in trays if tray.counts and tray.block]
    cells: dict[tuple[str, str], list[float]] = {}
    for tray in used:
        cells.setdefault((fold(tray.arm), fold(tray.block or "")), []).append(tray.grams or 0.0)
    arm_names = _spellings([tray.arm for tray in used])
    block_names = _spellings([tray.block or "" for tray in used])
    count = len(arm_names)
    if count < 2:
        raise Refused(
            "Fewer than two arms have a weighed tray in a named block; nothing can be compared."
        )
    mean = fmean(tray.grams or 0.0 for tray in used)
    # as many unknowns as arms and blocks but one: what cells are more than that is the error
    of_cells = len(cells) < len(used) and len(cells) > count + len(block_names) - 1
    units = [
        (*cell, grams - mean)
        for cell, weights in cells.items()
        for grams in ([fmean(weights)] if of_cells else weights)
    ]
    y = [grams for *_, grams in units]
    by_arm, by_block = (
        indicators([arm for arm, *_ in units]),
        indicators([at for _, at, _ in units]),
    )
    both = numpy().hstack([by_arm, by_block])
    full = fit(y, both)
    if full.rank < count + len(block_names) - 1:
        raise Refused(
            "Some arms never share a block with the others, so an arm cannot be told apart from "
            "its block; every arm needs trays in blocks that hold other arms too."
        )
    if full.df <= 0:
        raise Refused(
            "There are too few trays in the blocks to see any spread; "
            "each arm needs a tray in at least two blocks."
        )
    of_arms, of_blocks = added(y, by_block, both), added(y, by_arm, both)
    inverse = numpy().linalg.pinv(both.T @ both)[:count, :count]
    own = inverse.diagonal()
    variance = own[:, None] + own - 2 * inverse
    adjusted = full.coefficients[:count] + full.coefficients[count:].mean() + mean
    missing = [cell for cell in product(arm_names, block_names) if cell not in cells]
    spare = len(used) - len(cells)
    within = sum(squares(tuple(weights)) for weights in cells.values())
    return Blocked(
        names=tuple(arm_names.values()),
        anova=Anova(*of_arms, f_tail(*of_arms), full.left / full.df) if of_arms else None,
        block_f=of_blocks[0] if of_blocks else None,
        block_p=f_tail(*of_blocks) if of_blocks else None, mean=mean,
        tray_variance=within / spare if spare else full.left / full.df,
        adjusted=tuple(adjusted.tolist()), difference_variance=tuple(map(tuple, variance.tolist())),
        missing_cells=tuple((arm_names[arm], block_names[block]) for arm, block in missing),
        blocks=tuple(block_names.values()), uneven=_unevenness(used), trays=len(used),
        cells=len(cells), of_cells=of_cells,
    )  # fmt: skip


def _spellings(names: Sequence[str]) -> dict[str, str]:
    """Folded name → as it was spelled first, in order of appearance."""
    found: dict[str, str] = {}
    for name in names:
        found.setdefault(fold(name), name)
    return found


def _unevenness(trays: Sequence[Tray]) -> float | None:
    arms, blocks = ([fold(tray.arm) for tray in trays], [fold(tray.block or "") for tray in trays])
    cells = indicators(list(map("\n".join, zip(arms, blocks, strict=True))))
    if len(cells[0]) == len(trays) or len(cells[0]) < 4:
        return None
    both = numpy().hstack([indicators(arms), indicators(blocks)])
    start = trays[0].grams or 0.0
    beyond = added([(tray.grams or 0.0) - start for tray in trays], both, cells)
    return f_tail(*beyond) if beyond else None


@dataclass(frozen=True, slots=True)
class Fit:
    """A least-squares fit: coefficients, left-over sum of squares, its df, rank."""

    coefficients: Any
    left: float
    df: int
    rank: int


def fit(y: Sequence[float], columns: Any) -> Fit:
    """Fit y (n values) on columns (n × c); columns may be dependent."""
    np = numpy()
    values, matrix = np.asarray(y, dtype=float), np.asarray(columns, dtype=float)
    coefficients, _, rank, _ = np.linalg.lstsq(matrix, values, rcond=None)
    residuals = values - matrix @ coefficients
    return Fit(coefficients, float(residuals @ residuals), len(values) - int(rank), int(rank))


def indicators(labels: Sequence[str]) -> Any:
    """One column of 0 and 1 for each distinct label, in order of appearance (n × labels)."""
    names = list(dict.fromkeys(labels))
    return numpy().array([[float(label == name) for name in names] for label in labels])


def added(y: Sequence[float], without: Any, full: Any) -> tuple[float, int, int] | None:
    """F, its df and the error df for what `full` explains beyond `without`.

    None when the full fit leaves no spread or no degree of freedom.
    """
    small, large = fit(y, without), fit(y, full)
    gained = large.rank - small.rank
    if large.df <= 0 or gained <= 0 or large.left <= 1e-18 * max(small.left, 1e-300):
        return None
    return max(0.0, small.left - large.left) / gained / (large.left / large.df), gained, large.df
