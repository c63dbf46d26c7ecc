"""What was out of the usual about a batch that gave little, and what differed for it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from statistics import fmean
from typing import TYPE_CHECKING

from logbook.actions.reading import Reading
from logbook.actions.yields.gone import gone_trays
from logbook.growing.yields.crop_yields import BatchYield, batch_yields
from logbook.growing.yields.trays import GoneTray
from logbook.growing.yields.unusual import with_unusual
from logbook.store.reads.templates import template_of_versions
from logbook.store.reads.trays import read_trays_of_batch

if TYPE_CHECKING:
    from logbook.growing.trials.confounders import Fact

BEFORE = timedelta(weeks=26)
"""Batches so long before it show what is usual."""
COMPARED = 6
"""With so many of the batches before it is compared."""
TRAYS = 4
"""So many trays of each are looked at."""


@dataclass(frozen=True, slots=True)
class Unusual:
    """That a batch gave less than is usual, and what else was different about it."""

    words: str
    differed: tuple[str, ...]


def unusual_batch(reading: Reading, batch: int) -> Unusual | None:
    """What is unusual about a batch, all of whose trays have left the rack; None for nothing."""
    mine = read_trays_of_batch(reading, batch)
    ends = [tray.ended_at for tray in mine if tray.ended_at is not None]
    if not ends or len(ends) < len(mine):
        return None
    end = max(ends) + timedelta(seconds=1)
    version = mine[0].version_id
    template = template_of_versions(reading, [version])[version]
    trays = gone_trays(reading, end - BEFORE, end, template, weights_only=True)
    found = usual_or_not(trays, reading)
    here = next((place for place, one in enumerate(found) if one.batch == batch), None)
    if here is None or not found[here].unusual:
        return None
    before = {one.batch for one in found[here + 1 : here + 1 + COMPARED]}
    return Unusual(found[here].unusual, _differed(reading, trays, batch, before))


def usual_or_not(trays: Sequence[GoneTray], reading: Reading) -> list[BatchYield]:
    """The yields of batches, the newest first, with what is unusual about each."""
    return with_unusual(batch_yields(trays, reading.about.stack), reading.units)


def _differed(
    reading: Reading, trays: Sequence[GoneTray], batch: int, before: Collection[int]
) -> tuple[str, ...]:
    """What was recorded otherwise for a batch than for those before it, in sentences."""
    from logbook.actions.trials.judging import tray_records
    from logbook.growing.trials.facts import facts_of, trial_confounders

    some: list[int] = []
    for each in (batch, *before):
        some += [one.tray for one in trays if one.batch == each][:TRAYS]
    of = {one.tray: one.batch for one in trays}
    arms = {True: f"batch {batch}", False: "before"}
    if not before:
        return ()
    records = [
        replace(record, arm=arms[of[tray] == batch], joined_at=record.state.sown_at)
        for tray, record in tray_records(reading, some).items()
        if record.state.sown_at is not None
    ]
    told = {fact.name: fact for fact in facts_of(records, "")}
    found = trial_confounders(records, "", reading.zone)
    mine = [record.name for record in records if record.arm == arms[True]]
    rest = [record.name for record in records if record.arm == arms[False]]
    return tuple(
        f"{one.words}."
        for one in found.differences
        if one.fact in told and one.fact not in _ALWAYS and _stands_out(told[one.fact], mine, rest)
    )


def _stands_out(fact: Fact, mine: Sequence[int], rest: Sequence[int]) -> bool:
    """Whether a batch's values are none that the batches before had too.

    A number lies beyond all of theirs, a word was that of fewer than half of their trays.
    """
    here = [value for each in mine if (value := fact.of(each)) is not None]
    there = [value for each in rest if (value := fact.of(each)) is not None]
    numbers = [float(value) for value in there if not isinstance(value, str)]
    if len(numbers) == len(there) and not any(isinstance(value, str) for value in here):
        mean = fmean(map(float, here))
        return not min(numbers) - fact.tolerance <= mean <= max(numbers) + fact.tolerance
    return sum(there.count(value) for value in set(here)) < len(there) / 2


_ALWAYS = ("time of sowing",)
"""What always differs between batches."""
