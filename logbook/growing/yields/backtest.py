"""The promise held against the past: what was expected each morning beside what was cut that day."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import fmean
from typing import ClassVar

from logbook.growing.crops.conditions import (
    MOST_TRAYS,
    NONE,
    Conditions,
    Weighed,
    learnt,
    monday_of,
)
from logbook.growing.crops.luck import BatchWeights, Luck, batch_weights
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.crops.yields import (
    NEWEST_BATCHES,
    NEWEST_TRAYS,
    Meant,
    expect,
    luck_of_harvest,
)
from logbook.growing.yields.trays import GoneTray
from logbook.text import plural

PLAIN = 10
"""The plain mean is that of so many trays cut last."""


@dataclass(frozen=True, slots=True)
class Backtest:
    """How often the truth was within the range that holds 4 in 5; how far off the expectation was.

    Errors are the mean distance of a tray's weight from what was expected, and from the mean of the
    last ten trays, in % of what was cut. None where nothing could be held against anything.
    """

    keys: ClassVar = """
        trays trays_inside_percent days days_inside_percent error_percent plain_error_percent
    """

    trays: int
    trays_inside_percent: float | None
    days: int
    days_inside_percent: float | None
    error_percent: float | None
    plain_error_percent: float | None

    def lines(self) -> Iterable[str]:
        """Say it in words."""
        if self.trays_inside_percent is None or self.days_inside_percent is None:
            yield "Nothing to look back on: no tray was weighed after others of its crop."
            return
        yield (
            f"{plural(self.trays, 'tray')}: {self.trays_inside_percent:.0f} % weighed what their range "
            "said, 80 % promised"
        )
        yield (
            f"{plural(self.days, 'day')} with cuts: {self.days_inside_percent:.0f} % of their sums were "
            "in the range"
        )
        if self.error_percent is not None and self.plain_error_percent is not None:
            yield (
                f"expected and cut differ by {self.error_percent:.1f} % on average; the mean of the last "
                f"{PLAIN} trays by {self.plain_error_percent:.1f} %"
            )


class _Past:
    """What a crop had cut up to a morning, oldest first."""

    def __init__(self) -> None:
        self.trays: list[GoneTray] = []
        self.weighed: list[Weighed] = []
        self.shifts, self.learnt = NONE, date.min

    def add(self, one: GoneTray) -> None:
        """Take in a tray that was cut."""
        self.trays.append(one)
        self.weighed.append(Weighed(one.batch, _grams(one), _had(one), one.shared))

    def learn(self, day: date) -> None:
        """Learn anew what shifts weights, once a week, from what was cut before its Monday."""
        monday = monday_of(day)
        if monday > self.learnt:
            self.shifts, self.learnt = learnt(self.weighed[-MOST_TRAYS:]), monday

    def known(self, template: CropTemplate) -> Luck | None:
        """What is expected of it by its newest trays and batches."""
        newest = self.trays[: -NEWEST_TRAYS - 1 : -1]
        batches = list(dict.fromkeys(one.batch for one in newest))[:NEWEST_BATCHES]
        own: tuple[BatchWeights, ...] = batch_weights(
            (one.batch, _grams(one) / self.shifts.factor(_had(one)), one.shared)
            for one in newest
            if one.batch in batches
        )
        return luck_of_harvest(template, own)

    def meant(self, one: GoneTray, luck: Luck | None) -> Meant:
        """A tray as expect() takes it."""
        return Meant(luck, one.batch, factor=self.shifts.factor(_had(one)))

    def plain(self) -> float | None:
        """The mean of the last trays, g."""
        newest = [_grams(one) for one in self.trays[-PLAIN:]]
        return fmean(newest) if newest else None


def _had(one: GoneTray) -> Conditions:
    return Conditions(one.place or None, one.seed_grams, one.ended_at)


def backtest(trays: Iterable[GoneTray], day_of: Callable[[GoneTray], date]) -> Backtest:
    """Replay trays day by day; first harvests that were weighed whole, of crops cut before.

    Each morning is told with what was cut before that day alone. Trays weighed together are in the
    sums of days, and their own weights in no figure.
    """
    cut = [one for one in trays if one.first_grams and not one.lost]
    by_day: dict[date, list[GoneTray]] = {}
    for one in sorted(cut, key=lambda one: (one.ended_at, one.tray)):
        by_day.setdefault(day_of(one), []).append(one)
    past: dict[str, _Past] = {}
    inside: list[bool] = []
    days: list[bool] = []
    off: list[tuple[float, float, float]] = []
    for day, today in by_day.items():
        for crop in {one.crop for one in today} & past.keys():
            past[crop].learn(day)
        known = {one.crop: past[one.crop].known(one.template) for one in today if one.crop in past}
        told = [one for one in today if known.get(one.crop) is not None]
        _single(told, known, past, inside, off)
        whole = expect(past[one.crop].meant(one, known[one.crop]) for one in told)
        if whole is not None:
            days.append(whole.low <= sum(map(_grams, told)) <= whole.high)
        for one in today:
            past.setdefault(one.crop, _Past()).add(one)
    grams = sum(each for each, _, _ in off)
    return Backtest(
        len(inside), _percent(inside), len(days), _percent(days),
        100 * sum(each for _, each, _ in off) / grams if grams else None,
        100 * sum(each for _, _, each in off) / grams if grams else None,
    )  # fmt: skip


def _single(
    told: Sequence[GoneTray], known: Mapping[str, Luck | None], past: Mapping[str, _Past],
    inside: list[bool], off: list[tuple[float, float, float]],
) -> None:  # fmt: skip
    for one in told:
        mine = past[one.crop]
        each, plain = expect([mine.meant(one, known[one.crop])]), mine.plain()
        if each is None or plain is None or one.shared:
            continue
        grams = _grams(one)
        inside.append(each.low <= grams <= each.high)
        off.append((grams, abs(each.grams - grams), abs(plain - grams)))


def _grams(one: GoneTray) -> float:
    return (one.first_grams or 0.0) + one.further_grams


def _percent(kept: Sequence[bool]) -> float | None:
    return 100 * sum(kept) / len(kept) if kept else None
