"""A trial's arms in columns: what each got, what it cost and what it gave."""

from collections.abc import Callable, Mapping, Sequence
from statistics import fmean

from logbook.growing.currencies import Currency
from logbook.growing.measures import Units, weighing
from logbook.growing.table import Cells, Column, Table, table, turned
from logbook.growing.trials.arms import Arm
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.view import TrialView


def arm_table(view: TrialView, units: Units, width: int, cells: Cells = len) -> Table:
    """An arm a row, or where that is too wide a figure a row with the arms side by side."""
    columns = arm_columns(view, units)
    by_rows = table(columns, view.arms, width, cells)
    if by_rows.whole and not by_rows.folded:
        return by_rows
    beside = turned(columns, view.arms, width, cells)
    return beside if beside.whole else by_rows


def arm_columns(view: TrialView, units: Units) -> tuple[Column[Arm], ...]:
    """The columns; what is known of no arm has no place in the table.

    What 100 g cost and what a kWh gives take the same weight for all arms where no difference is
    shown.
    """
    of = weighing(units)
    counted = _by_arm(view.records)
    kwh = _means(counted, lambda one: one.around.lamp_kwh)
    costs, money = view.costs, view.money
    bare = money.bare

    def mean(arm: Arm) -> str:
        return "" if arm.mean is None else of.figure(arm.mean)

    def spread(arm: Arm) -> str:
        ends = (of.figure(each(arm.weights)) for each in (min, max)) if arm.n > 1 else ()
        return "–".join(dict.fromkeys(ends))

    def per_kwh(arm: Arm) -> str:
        used, cost = kwh.get(arm.name), costs.per_100_g.get(arm.name)
        grams = 100 * costs.per_tray[arm.name] / cost if cost else arm.mean
        return of.figure(grams / used) if grams and used else ""

    per_weight = {name: cost * of.share for name, cost in costs.per_100_g.items()}
    return (
        Column("arm", lambda arm: arm.name, right=False),
        Column("trays", lambda arm: f"{arm.n}/{len(counted.get(arm.name, ()))}", "weighed"),
        Column("per tray", mean, of.unit),
        Column("range", spread, of.unit, spare=2),
        Column(
            "PPFD", _said(_means(counted, lambda one: one.around.ppfd), 0), "µmol/m²/s", spare=3
        ),
        Column("DLI", _said(_means(counted, lambda one: one.around.dli), 1), "mol/m²/d", spare=4),
        Column("light", _said(kwh, 2), "kWh/tray", spare=6),
        Column("cost", _paid(costs.per_tray, bare), money.per("tray"), spare=7),
        Column("cost", _paid(per_weight, bare), money.per(of.priced), spare=1),
        Column("gives", per_kwh, f"{of.unit}/kWh", spare=5),
        Column("looks", _tasted(view, "looks"), "rank", spare=8),
        Column("taste", _tasted(view, "taste"), "rank", spare=9),
    )


def _by_arm(records: Sequence[TrayRecord]) -> dict[str, list[TrayRecord]]:
    found: dict[str, list[TrayRecord]] = {}
    for one in records:
        if not one.left_out:
            found.setdefault(one.arm, []).append(one)
    return found


def _means(
    counted: Mapping[str, Sequence[TrayRecord]], get: Callable[[TrayRecord], float | None]
) -> dict[str, float]:
    """Arm → mean over its weighed trays of which it is known."""
    known = {
        arm: [value for one in trays if one.grams and (value := get(one)) is not None]
        for arm, trays in counted.items()
    }
    return {arm: fmean(values) for arm, values in known.items() if values}


def _said(means: Mapping[str, float], digits: int) -> Callable[[Arm], str]:
    return lambda arm: f"{means[arm.name]:.{digits}f}" if arm.name in means else ""


def _paid(costs: Mapping[str, float], money: Currency) -> Callable[[Arm], str]:
    return lambda arm: money.rate(costs[arm.name]) if arm.name in costs else ""


def _tasted(view: TrialView, aspect: str) -> Callable[[Arm], str]:
    """Mean rank by the tasters, 1 the best."""
    found = (
        [each.ranks for each in view.tasting.aspects if each.aspect == aspect]
        if view.tasting
        else []
    )
    ranks = {one.name: one.mean_rank for each in found if each for one in each.samples}
    return _said(ranks, 1)
