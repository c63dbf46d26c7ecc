"""What lateness, soaks, waterings, shelves and weaker lamps did to the weights of this room's batches."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from statistics import fmean
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.lamps import shelf_pasts
from logbook.actions.yields.gone import gone_trays
from logbook.actions.yields.listing import Span, bounds, template_id
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.trays.chores import RoomHours
from logbook.growing.trays.life import Deed
from logbook.growing.trays.stays import stays_of
from logbook.growing.trials.record import stage_hours
from logbook.growing.yields.effects import STEPS, BatchSeen, Effect, effects
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.deeds import read_deeds
from logbook.store.rows import grouped
from logbook.text import listed
from logbook.ways import Way

MOST = 1_500
"""Of so many trays at most, those that left the rack last."""
OBSERVED = (
    "This is what happened, not a trial: something that goes with lateness may be the cause. A "
    "trial "
    f"of one factor would tell: {Way.TRIAL_NEW}."
)


@dataclass(frozen=True, slots=True)
class Lateness:
    """What is seen of each factor over a span, all of them looked at together."""

    keys: ClassVar = "since until effects untold looks caution"

    since: date
    until: date
    effects: tuple[Effect, ...]
    caution: str = OBSERVED

    @property
    def looks(self) -> str:
        """Say how many things are looked at in the same trays, and what that does to the ranges."""
        if len(self.effects) < 2:
            return ""
        return f"{len(self.effects)} effects come from the same trays, and the ranges allow for it: in 19 lists of 20, every range holds the true effect."

    @property
    def untold(self) -> tuple[str, ...]:
        """What batches did not differ in, or what is not known of them."""
        told = {one.factor for one in self.effects}
        return tuple(name for name in STEPS if name not in told)

    def lines(self) -> Iterator[str]:
        """Say it in words."""
        if not self.effects:
            yield "Too few batches yet: six more than there are crops, with something that differed."
            return
        yield from (one.words for one in self.effects)
        if self.untold:
            yield f"Too little is known, or too much is alike, to judge {listed(self.untold)}."
        yield from filter(None, (self.looks, self.caution))


def lateness(book: Book, crop: str = "", span: Span = Span(26)) -> Lateness:  # noqa: B008 - it is frozen
    """The effects over a span; raises Refused for no such crop, or without the extra for statistics."""
    with book.reading() as reading:
        since, until, start, end = bounds(reading, span)
        trays = gone_trays(reading, start, end, template_id(reading, crop), weights_only=True)[
            -MOST:
        ]
        return Lateness(since, until, tuple(effects(_seen(reading, trays))))


def _seen(reading: Reading, trays: Sequence[GoneTray]) -> list[BatchSeen]:
    """The batches with what was late or long about their trays; discarded trays are left out."""
    cut = [one for one in trays if one.first_grams and not one.lost]
    deeds = read_deeds(reading, [one.tray for one in cut])
    lamps = _Lamps(shelf_pasts(reading))
    found = []
    shelves = {one.place for one in cut if one.place}
    for own in grouped((one.batch, one) for one in cut).values():
        each = [_factors(one, deeds.get(one.tray, []), reading.hours) for one in own]
        weaker = [lamps.weaker(one, deeds.get(one.tray, [])) for one in own]
        faded = [one for one in weaker if one is not None]
        names = dict.fromkeys(name for one in each for name in one)
        factors = {name: fmean(one.get(name, 0.0) for one in each) for name in names}
        factors |= {"lamps weaker": fmean(faded)} if faded else {}
        factors |= {shelf: fmean(one.place == shelf for one in own) for shelf in shelves}
        grams = fmean((one.first_grams or 0.0) + one.further_grams for one in own)
        found.append(BatchSeen(own[0].crop, len(own), grams, factors))
    return found


class _Lamps:
    """How much weaker the lamps over trays were than when they were measured first."""

    def __init__(self, pasts: Mapping[int, ShelfPast]) -> None:
        self.pasts = pasts
        self.told: dict[tuple[int, datetime, datetime], float | None] = {}

    def weaker(self, one: GoneTray, deeds: Sequence[Deed]) -> float | None:
        """The % by which light was missing, over the time in it; None where it isn't known."""
        found = whole = 0.0
        for stay in stays_of(one.template, deeds, one.ended_at):
            if not stay.lit or stay.place is None or stay.place not in self.pasts:
                continue
            key = (stay.place, stay.start, stay.end)
            if key not in self.told:
                self.told[key] = self.pasts[stay.place].faded(stay.start, stay.end)
            faded, seconds = self.told[key], (stay.end - stay.start).total_seconds()
            if faded is not None:
                found, whole = found + faded * seconds, whole + seconds
        return found / whole if whole else None


def _factors(one: GoneTray, deeds: Sequence[Deed], hours: RoomHours) -> Mapping[str, float]:
    """How late each change came, h over the plan, and the rest that STEPS names, of a tray."""
    return lateness_of(one.template, deeds, hours, one.sown_at, one.cut_at, one.ended_at)


def lateness_of(
    template: CropTemplate, deeds: Sequence[Deed], hours: RoomHours, sown_at: datetime | None,
    cut_at: datetime | None, until: datetime,
) -> Mapping[str, float]:  # fmt: skip
    """How late each change of a tray came, h over the plan, and the rest that STEPS names, up to a moment."""
    found = dict[str, float]()
    spent = stage_hours(template, deeds, hours, until)
    for place, stage in enumerate(template.stages[:-1]):
        if stage.seconds is None or stage.name not in spent:
            continue
        late = max(0.0, spent[stage.name] - stage.seconds / 3600)
        lit = stage.light == "dark" and template.stages[place + 1].light == "lit"
        name = "lights late" if lit else "lid or weight late"
        found[name] = found.get(name, 0.0) + late
    entered = [deed.at for deed in deeds if deed.kind == "change"]
    if entered and cut_at is not None:
        best = entered[-1] + timedelta(seconds=template.cut.best_seconds)
        found["cut late"] = max(0.0, (cut_at - best).total_seconds() / 3600)
    soaked = next((deed.at for deed in deeds if deed.kind == "soak"), None)
    if soaked is not None and sown_at is not None and template.soak_seconds:
        over = (sown_at - soaked).total_seconds() - template.soak_seconds
        found["soak too long"] = max(0.0, over / 3600)
    wanted = _waterings_wanted(template, spent)
    given = sum(deed.kind == "water" for deed in deeds)
    if wanted >= 1 and given:
        found["watering missed"] = max(0.0, wanted - given)
    return found


def _waterings_wanted(template: CropTemplate, spent: Mapping[str, float]) -> float:
    """How often the stages that a tray was in wanted water, one off at each end."""
    times = (spent.get(stage.name, 0.0) / 24 * stage.water_per_day for stage in template.stages)
    return max(0.0, sum(times) - 1)
