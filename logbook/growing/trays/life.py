"""A tray's state: a pure fold over what was done to it.

What happened beats what was planned: a tray is in the stage that its last recorded change put it
in, and every later time follows from there.
"""

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, field, fields, replace
from datetime import date, datetime, timedelta
from enum import StrEnum
from operator import attrgetter

from logbook.growing.crops.templates import CropTemplate, Stage
from logbook.growing.days import day_of
from logbook.growing.kinds import NAMED, kind_of
from logbook.growing.trays.chores import (
    RECURRING,
    RoomHours,
    change_into,
    early_seconds,
    gap_seconds,
    slots,
)
from logbook.growing.trays.cuts import Harvest, with_cut


class Status(StrEnum):
    """What a tray has come to, and the word for it on every screen and in every command."""

    VOID = "void"
    """Its sowing was struck out: it never was."""
    PLANNED = "planned"
    GROWING = "growing"
    CUT = "cut"
    DISCARDED = "discarded"
    SOLD = "sold live"

    @property
    def words(self) -> str:
        """The status in words."""
        return "struck out" if self is Status.VOID else str(self)


@dataclass(frozen=True, slots=True)
class Deed:
    """One standing entry as far as it bears on one tray.

    kind: plan, soak, sow, change, water, look, weigh, cut, cut_part, cut_keep, move, discard, sold_live,
    skip.
    `stage` is the stage that a change led into; `chore` what a skip left out; `grams` what a
    weigh-in gave for this tray, `part` whether more of that harvest follows, `keep` whether the tray
    grows again, `shared` whether others were on the scale too; `sign` whether a look saw the ready sign; `mould` what a look
    said of mould: none, spot, spread, or "" for nothing.
    """

    entry: int
    kind: str
    at: datetime
    stage: int | None = None
    chore: str = ""
    place: int | None = None
    slot: int | None = None
    grams: float | None = None
    part: bool = False
    keep: bool = False
    shared: bool = False
    sign: bool = False
    mould: str = ""
    planned_for: datetime | None = None
    untold: bool = False
    """Whether `at` is that of a clock in doubt, and nobody said when."""

    @property
    def ends(self) -> bool:
        """Whether the tray leaves the rack with it."""
        whole = self.kind == "weigh" and not (self.part or self.keep)
        return whole or self.kind in ("cut", "discard", "sold_live")


def in_their_order(deeds: Iterable[Deed]) -> list[Deed]:
    """One tray's deeds, each of which nobody told the time put after all that was known then."""
    known: datetime | None = None
    found = []
    for deed in sorted(deeds, key=lambda deed: deed.entry):
        at = deed.at if known is None or not deed.untold else max(deed.at, known)
        known = at if known is None else max(known, at)
        found.append(replace(deed, at=at) if at != deed.at else deed)
    return found


@dataclass(frozen=True, slots=True)
class TrayState:
    """Where a tray stands after its deeds, with nothing yet assumed about the time since.

    `mould_at` is when mould was seen on it; a later look that finds none takes it back.
    """

    status: Status = Status.VOID
    planned_for: datetime | None = None
    soaked_at: datetime | None = None
    sown_at: datetime | None = None
    stage: int = 0
    stage_since: datetime | None = None
    place: int | None = None
    slot: int | None = None
    last_water: datetime | None = None
    last_look: datetime | None = None
    wet_since: datetime | None = None
    met: dict[str, datetime] = field(default_factory=dict)
    put_off: dict[str, date] = field(default_factory=dict)
    sign_at: datetime | None = None
    mould_at: datetime | None = None
    harvests: tuple[Harvest, ...] = ()
    unweighed: bool = False
    """Whether it was cut and its weight is still to be written."""
    ended_at: datetime | None = None

    @property
    def live(self) -> bool:
        """Whether the tray is planned or growing."""
        return self.status in (Status.PLANNED, Status.GROWING)

    @property
    def grams(self) -> float | None:
        """All that was weighed of it, g; None where nothing was."""
        weighed = [each.grams for each in self.harvests if each.weighed or each.grams]
        return sum(weighed) if weighed else None

    @property
    def cut_grams(self) -> float | None:
        """All that was cut from it until it left the rack, g; None where a cut was not weighed."""
        return self.grams if self.all_weighed and self.status is Status.CUT else None

    @property
    def all_weighed(self) -> bool:
        """Whether every cut of it was weighed."""
        return not self.unweighed and self.lacks_none

    @property
    def lacks_none(self) -> bool:
        """The same, but for a last cut whose weight may still come."""
        return all(each.weighed for each in self.harvests)

    @property
    def harvest(self) -> int:
        """The number of the harvest that its next cut is of, or its last one was: 1 is the first."""
        done = sum(each.done for each in self.harvests)
        return done if done and self.status is Status.CUT and not self.unweighed else done + 1

    @property
    def part_grams(self) -> float:
        """What was cut of that harvest already, g."""
        return sum(each.grams for each in self.harvests if not each.done)

    @property
    def part_known(self) -> bool:
        """Whether all of that was weighed, so that the rest may be expected."""
        return all(each.done or each.weighed for each in self.harvests)

    @property
    def regrowing_since(self) -> datetime | None:
        """When it was cut and kept to grow again; None before its first harvest."""
        return next((each.at for each in reversed(self.harvests) if each.done), None)


def _enter(state: TrayState, stage: int, at: datetime) -> TrayState:
    put_off = {chore: day for chore, day in state.put_off.items() if chore == "cut"}
    return replace(state, stage=stage, stage_since=at, met={}, put_off=put_off)


def pass_by(state: TrayState, template: CropTemplate, now: datetime) -> TrayState:
    """Move on through changes that ask nothing of the hands and whose time has come."""
    while (
        state.status == "growing"
        and state.stage_since is not None
        and state.stage < len(template.stages) - 1
        and not change_into(template, state.stage + 1).parts
    ):
        at = stage_end(state.stage_since, template.stages[state.stage])
        if at is None or at > now:
            break
        state = _enter(state, state.stage + 1, at)
    return state


def stage_end(since: datetime, stage: Stage) -> datetime | None:
    """When a stage that began at `since` is over by plan; None for an open last stage."""
    return None if stage.seconds is None else since + timedelta(seconds=stage.seconds)


def per_day(stage: Stage, chore: str) -> float:
    """How often a day a stage asks for a recurring chore."""
    return stage.water_per_day if chore == "water" else stage.looks_per_day


def first_unmet(
    state: TrayState, template: CropTemplate, chore: str, hours: RoomHours
) -> datetime | None:
    """The earliest moment of a recurring chore that nothing has answered yet.

    A tray that comes into a watered stage dry for half the usual gap or longer is due for water
    at once. None where the stage does not ask for the chore.
    """
    if state.stage_since is None:
        return None
    stage = template.stages[state.stage]
    times = per_day(stage, chore)
    if times <= 0:
        return None
    answered = state.met.get(chore)
    if chore == "water" and answered is None and state.wet_since is not None:
        dry = (state.stage_since - state.wet_since).total_seconds()
        if state.stage > 0 and dry >= gap_seconds(times) / 2:
            return state.stage_since
        answered = state.wet_since + timedelta(seconds=early_seconds(times))
    after = max(answered, state.stage_since) if answered else state.stage_since
    return next(slots(times, state.stage_since, after, hours), None)


def _met(
    state: TrayState, template: CropTemplate, chore: str, at: datetime, hours: RoomHours
) -> dict[str, datetime]:
    """Let a deed at `at` answer what was due; if nothing was, the next one of the same day."""
    unmet = first_unmet(state, template, chore, hours)
    if unmet is None:
        return state.met
    early = at + timedelta(seconds=early_seconds(per_day(template.stages[state.stage], chore)))
    met = max(state.met.get(chore, at), at)
    if unmet <= early:
        met = max(met, early)
    elif day_of(unmet, hours.zone) == day_of(at, hours.zone):
        met = max(met, unmet)
    return {**state.met, chore: met}


def after_deed(harvests: tuple[Harvest, ...], deed: Deed) -> tuple[Harvest, ...]:
    """A tray's harvests after one more deed, of which only cuts that it outlives and weights bear on them."""
    if deed.kind not in ("weigh", "cut_part", "cut_keep"):
        return harvests
    grams, part = deed.grams or 0.0, deed.part or deed.kind == "cut_part"
    weight = grams if deed.kind == "weigh" else None
    return with_cut(harvests, deed.at, weight, part=part, shared=deed.shared)


def _puts(state: TrayState, deed: Deed) -> bool:
    """Whether a deed says where the tray is."""
    return deed.kind in ("sow", "move") or (deed.kind == "plan" and state.status == "void")


def step(state: TrayState, template: CropTemplate, deed: Deed, hours: RoomHours) -> TrayState:
    """The state after one more deed."""
    state = pass_by(state, template, deed.at)
    if _puts(state, deed):
        state = replace(state, place=deed.place, slot=deed.slot)
    answers = kind_of(deed.kind).answers
    answered = deed.chore if answers == NAMED else answers
    if answered in RECURRING:
        state = replace(state, met=_met(state, template, answered, deed.at, hours))
    match deed.kind:
        case "plan":
            state = replace(state, planned_for=deed.planned_for)
            if state.status == "void":
                state = replace(state, status=Status.PLANNED)
        case "soak":
            state = replace(state, soaked_at=deed.at)
        case "sow":
            state = replace(
                state, status=Status.GROWING, sown_at=deed.at, wet_since=deed.at, put_off={}
            )
            state = _enter(state, 0, deed.at)
        case "change" if deed.stage is not None and state.status == "growing":
            state = _enter(state, min(deed.stage, len(template.stages) - 1), deed.at)
        case "water":
            state = replace(state, last_water=deed.at, wet_since=deed.at)
        case "look":
            sign_at = state.sign_at or (deed.at if deed.sign else None)
            mould_at = {"": state.mould_at, "none": None}.get(deed.mould, deed.at)
            state = replace(state, last_look=deed.at, sign_at=sign_at, mould_at=mould_at)
        case "weigh" | "cut_part" | "cut_keep":
            state = replace(state, harvests=after_deed(state.harvests, deed), unweighed=False)
            if deed.ends:
                state = replace(state, status=Status.CUT, ended_at=deed.at)
            elif deed.keep or deed.kind == "cut_keep":
                put_off = {chore: day for chore, day in state.put_off.items() if chore != "cut"}
                state = replace(state, sign_at=None, put_off=put_off)
        case "cut":
            state = replace(state, status=Status.CUT, ended_at=deed.at, unweighed=True)
        case "discard":
            state = replace(state, status=Status.DISCARDED, ended_at=deed.at)
        case "sold_live":
            state = replace(state, status=Status.SOLD, ended_at=deed.at)
        case "skip" if answered not in RECURRING:
            put_off = {**state.put_off, deed.chore: day_of(deed.at, hours.zone)}
            state = replace(state, put_off=put_off)
    return state


Alike = dict[tuple[Hashable, ...], tuple[TrayState, int | None]]
"""States after deeds that are the same except for the place, and which of the deeds said the place."""
_MAKES = attrgetter(*({each.name for each in fields(Deed)} - {"entry", "place", "slot"}))


def fold_deeds(
    template: CropTemplate, deeds: Iterable[Deed], hours: RoomHours, alike: Alike | None = None
) -> TrayState:
    """Fold a tray's standing deeds, in the order in which they happened, into its state then.

    Most trays of a batch have the same deeds: what is in `alike` is folded once for all of them.
    """
    ordered = sorted(deeds, key=lambda deed: (deed.at, deed.entry))
    key = (id(template), hours, *map(_MAKES, ordered))
    if alike and key in alike:
        state, put = alike[key]
        if put is None:
            return state
        return replace(state, place=ordered[put].place, slot=ordered[put].slot)
    state, put = TrayState(), None
    for nth, deed in enumerate(ordered):
        put = nth if _puts(state, deed) else put
        state = step(state, template, deed, hours)
    if alike is not None:
        alike[key] = state, put
    return state


def fold_tray(
    template: CropTemplate, deeds: Iterable[Deed], hours: RoomHours, now: datetime
) -> TrayState:
    """As fold_deeds, moved on to `now`."""
    return pass_by(fold_deeds(template, deeds, hours), template, now)
