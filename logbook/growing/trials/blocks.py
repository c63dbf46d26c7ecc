"""Trials in blocks: trays that share a shelf or a week are compared with one another.

The model is weight = arm + block + luck (Gomez & Gomez 1984, ch. 2.2), fitted by least squares,
so that a missing tray needs no invented value (ibid. ch. 7): the arms are compared after the
blocks' own luck is taken out, with the error that is left. Two arms in blocks of one tray each
are the paired t test (F = t²).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from logbook.growing.trials.arms import Tray, centred_mean, counts
from logbook.growing.trials.distributions import f_tail
from logbook.growing.trials.linear import added, fit, indicators
from logbook.growing.trials.one_way import Anova
from logbook.text import Refused, fold


@dataclass(frozen=True, slots=True)
class Blocked:
    """The analysis of a trial in blocks; None where it cannot be made.

    `adjusted` are the arms' means in g as if every arm had stood in every block, in the order of
    `names`; `difference_variance[i][j]` times the error mean square is the variance of a gap.
    `missing_cells` are (arm, block) without a weight. `uneven` is the chance of gaps so unlike
    from block to block, where cells hold several trays.
    """

    names: tuple[str, ...]
    anova: Anova | None
    block_f: float | None
    block_p: float | None
    adjusted: tuple[float, ...]
    difference_variance: tuple[tuple[float, ...], ...]
    missing_cells: tuple[tuple[str, str], ...]
    blocks: tuple[str, ...]
    uneven: float | None
    trays: int


def in_blocks(trays: Sequence[Tray]) -> Blocked:
    """Analyse the trays that count and name a block.

    Raises:
        Refused: arms never share a block, so that arm and block cannot be told apart, or there
            are too few trays for an error.
    """
    used = [tray for tray in trays if counts(tray) and tray.block]
    arms = [fold(tray.arm) for tray in used]
    blocks = [fold(tray.block or "") for tray in used]
    weights = [tray.grams or 0.0 for tray in used]
    arm_names = _spellings([tray.arm for tray in used])
    block_names = _spellings([tray.block or "" for tray in used])
    if len(arm_names) < 2:
        raise Refused(
            "Fewer than two arms have a weighed tray in a named block; nothing can be compared."
        )
    import numpy as np

    start = centred_mean(tuple(weights))
    y = [weight - start for weight in weights]
    by_arm = indicators(arms)
    by_block = indicators(blocks)
    both = np.hstack([by_arm, by_block])
    full = fit(y, both)
    count, rows = len(arm_names), len(block_names)
    if full.rank < count + rows - 1:
        raise Refused(
            "Some arms never share a block with the others, so an arm cannot be told apart from "
            "its block; every arm needs trays in blocks that hold other arms too."
        )
    if full.df <= 0:
        raise Refused(
            "There are too few trays in the blocks to see any spread; "
            "each arm needs a tray in at least two blocks."
        )
    of_arms = added(y, by_block, both)
    of_blocks = added(y, by_arm, both)
    error = full.left / full.df
    inverse = full.inverse[:count, :count]
    variance = tuple(
        tuple(float(inverse[i, i] + inverse[j, j] - 2 * inverse[i, j]) for j in range(count))
        for i in range(count)
    )
    block_part = float(np.mean(full.coefficients[count:]))
    adjusted = tuple(float(one) + block_part + start for one in full.coefficients[:count])
    anova = None
    if of_arms is not None:
        f, df_arm, df_error = of_arms
        anova = Anova(f, df_arm, df_error, f_tail(f, df_arm, df_error), error)
    held = set(zip(arms, blocks, strict=True))
    missing = [cell for cell in product(arm_names, block_names) if cell not in held]
    return Blocked(
        names=tuple(arm_names.values()),
        anova=anova,
        block_f=of_blocks[0] if of_blocks else None,
        block_p=f_tail(*of_blocks) if of_blocks else None,
        adjusted=adjusted,
        difference_variance=variance,
        missing_cells=tuple((arm_names[arm], block_names[block]) for arm, block in missing),
        blocks=tuple(block_names.values()),
        uneven=_unevenness(y, arms, blocks, both),
        trays=len(used),
    )


def _spellings(names: Sequence[str]) -> dict[str, str]:
    """Folded name → as it was spelled first, in order of appearance."""
    found: dict[str, str] = {}
    for name in names:
        found.setdefault(fold(name), name)
    return found


def _unevenness(y: list[float], arms: list[str], blocks: list[str], both: object) -> float | None:
    cells = indicators([f"{arm}\n{block}" for arm, block in zip(arms, blocks, strict=True)])
    if len(cells[0]) == len(y) or len(cells) < 4:
        return None
    beyond = added(y, both, cells)
    return f_tail(*beyond) if beyond else None
