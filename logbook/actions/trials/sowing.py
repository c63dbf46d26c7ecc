"""The trays of a trial: sowing its arms, taking trays in that stand already, leaving some out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import ClassVar, Literal

from logbook.actions.book import Book
from logbook.actions.clocking import likely_now
from logbook.actions.reading import Reading
from logbook.actions.seed.drawing import NO_LOT
from logbook.actions.trays.lots import lots_named
from logbook.actions.trays.numbering import free_numbers
from logbook.actions.trays.sowing import SowDraft, check_within, sow_within
from logbook.actions.trials.allocation import blocks_of, stand
from logbook.actions.trials.finding import find_trial
from logbook.actions.trials.joining import write_members
from logbook.actions.trials.setting_up import layout_of
from logbook.growing.crops.seed_lots import lots_from, lots_grams
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, day_words
from logbook.growing.keys import BatchNumber, TrayNumber
from logbook.growing.measures import grams
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.soaking import Soaked, past_soak, soak_notice
from logbook.growing.trials.kept import Trial, TrialArm, TrialTray
from logbook.growing.trials.layout import TrialSpot
from logbook.store.reads.templates import StoredTemplate, template_of_versions
from logbook.store.reads.trays import read_trays
from logbook.store.reads.trials import read_trial_trays
from logbook.text import Refused, listed, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class SowTrialDraft:
    """How a trial's next trays are sown. `at` None: now; `grams` is dry seed per tray.

    `place` is where they go in a trial that names no shelves ('': the next free slots). `again`
    sows it although it was sown on the same day, `anyway` although its shelves lack room. `soaked`
    is what is said of the soak, "arms" that each arm's seed was soaked as long as it wants.
    """

    at: datetime | None = None
    plan: bool = False
    lot: str = ""
    grams: float | None = None
    numbers: tuple[int, ...] = ()
    place: str = ""
    again: bool = False
    anyway: bool = False
    soaked: Soaked | Literal["arms"] | None = None


@dataclass(frozen=True, slots=True)
class SownArm:
    """The trays of one arm as they were sown; `batch_id` None while nothing is written."""

    keys: ClassVar = "arm colour trays=numbers batch=batch_id"

    arm: str
    colour: str
    numbers: tuple[TrayNumber, ...]
    batch_id: BatchNumber | None = None


@dataclass(frozen=True, slots=True)
class SownTrial:
    """One sowing of a trial: its run (week) from 1, the arms, and where each tray is.

    `places` are paths along `spots`, '' for nowhere yet. `same_day` says which sowing of the same
    day there is already, `lack` which shelves lack room; '' for none. `act_id` is None while
    nothing is written.
    """

    keys: ClassVar = "trial week=run planned sow_at arms order places notices"

    trial: str
    run: int
    arms: tuple[SownArm, ...]
    spots: tuple[tuple[int, TrialSpot], ...]
    places: tuple[str, ...]
    """Where each tray of the order is; empty for nowhere yet."""
    planned: bool
    sow_at: datetime
    act_id: int | None
    notices: tuple[str, ...]
    same_day: str
    lack: str
    asks_soak: bool = False
    """Whether it has to be asked how the seed was soaked."""

    @property
    def order(self) -> tuple[TrayNumber, ...]:
        """The trays in the drawn order."""
        return tuple(number for number, _ in self.spots)


@dataclass(frozen=True, slots=True)
class _Laid:
    """A sowing as it is laid out, not written yet: along its spots the blocks and slots."""

    trial: Trial
    ahead: SownTrial
    blocks: list[int | None]
    slots: list[tuple[int, int] | None]

    def of_arm(self, arm: str) -> list[int]:
        """Where the trays of an arm are in the layout."""
        return [at for at, (_, spot) in enumerate(self.ahead.spots) if spot.arm == arm]

    def draft_of(self, arm: TrialArm, soak: int, draft: SowTrialDraft) -> SowDraft:
        """The draft of the batch that an arm's trays are, its seed soaked for so many seconds."""
        mine, soaked = self.of_arm(arm.name), draft.soaked if soak else None
        if lots_grams(lots_from(draft.lot)) is not None:
            raise Refused("The arms share the seed lot; give it without a weight.")
        if soaked == "now":
            raise Refused(f"Plan the trial ({Way.SOW_PLAN}) to soak its seed first.")
        if soaked == "arms":
            soaked = self.ahead.sow_at - timedelta(seconds=soak)
        elif soaked is not None and self.trial.factor == "soak":
            raise Refused(
                "The soak is what this trial compares: it can't be the same for all arms. Sow it "
                "once each arm has soaked as long as it needs."
            )
        return SowDraft(
            template="", trays=len(mine), at=draft.at, plan=draft.plan, lot=draft.lot or NO_LOT,
            place=draft.place if self.ahead.planned else "", colours=(arm.colour,),
            numbers=tuple(self.ahead.order[at] for at in mine),
            grams=_seed(self.trial, arm, draft.grams), soaked=soaked,
        )  # fmt: skip


def preview_sowing(book: Book, name: str, draft: SowTrialDraft) -> SownTrial:
    """What sowing a trial now comes to, nothing written; Refused as sow_trial(), doubts aside."""
    with book.reading() as reading:
        laid = _laid(reading, name, draft)
        batches = _batches(reading, laid, draft)
        for its, template in batches:
            check_within(reading, its, template)
        return replace(laid.ahead, notices=_notices(reading, laid, batches))


def sow_trial(book: Book, name: str, draft: SowTrialDraft) -> SownTrial:
    """Sow all arms of a trial once, in one act: a batch for each arm, its trays marked.

    Trays are numbered along the blocks in the order that the kept layout number drew. Sowing it
    again is another run, which joins as a block.

    Raises:
        Refused: it was sown on that day already, or its shelves lack room, and the draft does not
            say to do it all the same; no such trial or place, a place beside shelves, a wrong
            count of numbers, an arm without a value to sow by, or as sow() does.
    """
    with book.writing() as act:
        laid = _laid(act.reading, name, draft)
        trial, ahead = laid.trial, laid.ahead
        if ahead.same_day and not draft.again:
            raise Refused(
                f"{ahead.same_day} Nothing was written; use {Way.SOW_AGAIN} if you really sow "
                "another week on the same day."
            )
        if ahead.lack and not draft.anyway:
            raise Refused(
                f"{ahead.lack} Nothing was written; make room, or use {Way.SOW_ANYWAY} to sow "
                "anyway."
            )
        rows, arms, batches = [], [], _batches(act.reading, laid, draft)
        for arm, sown, batch in zip(trial.arms, ahead.arms, batches, strict=True):
            mine = laid.of_arm(arm.name)
            done = sow_within(act, *batch, [laid.slots[at] for at in mine])
            arms.append(replace(sown, batch_id=done.batch_id))
            rows += [(ahead.order[at], arm.id, laid.blocks[at]) for at in mine]
        write_members(act, trial, rows, ahead.run)
        said = _notices(act.reading, laid, batches)
        return replace(ahead, arms=tuple(arms), act_id=act.act_id, notices=said)


def _laid(reading: Reading, name: str, draft: SowTrialDraft) -> _Laid:
    trial = find_trial(name, reading)
    mine = read_trial_trays(reading, trial.id)
    run = 1 + max((tray.run for tray in mine), default=0)
    places = reading.places.by_id
    shelves = [places[place].path for _, place in trial.shelves]
    if draft.place.strip():
        reading.places.find(draft.place)
        own = shelves or [places[arm.place_id].path for arm in trial.arms if arm.place_id]
        if own:
            raise Refused(
                f'The trays of "{trial.name}" go to its shelves, {listed(own)}; '
                "leave the place out."
            )
    spots = layout_of(
        [arm.name for arm in trial.arms], trial.layout_number, shelves, trial.replicates, run
    )
    numbers = draft.numbers or free_numbers(reading, len(spots))
    if len(numbers) != len(spots):
        raise Refused(
            f"The trial's sowing has {plural(len(spots), 'tray')}; give as many numbers, or none."
        )
    numbered = tuple(zip(numbers, spots, strict=True))
    arms = tuple(
        SownArm(arm.name, arm.colour, tuple(sorted(n for n, at in numbered if at.arm == arm.name)))
        for arm in trial.arms
    )
    now = likely_now(reading)
    at = draft.at or now
    planned = draft.plan or at > now
    standing = stand(reading, trial, spots, numbers, wanted=draft.place, planned=planned)
    ahead = SownTrial(
        trial=trial.name,
        run=run,
        arms=arms,
        spots=numbered,
        places=tuple(places[spot[0]].path if spot else "" for spot in standing.spots),
        planned=planned,
        sow_at=at,
        act_id=None,
        notices=(*standing.notices, *lots_named(reading, draft.lot)[1]),
        same_day=_same_day(reading, trial, mine, at),
        lack=" ".join(standing.lacks),
        asks_soak=not planned
        and draft.soaked is None
        and any(_template(reading, trial, arm).template.soak_seconds for arm in trial.arms),
    )
    return _Laid(trial, ahead, blocks_of(trial, len(spots)), standing.spots)


def _batches(
    reading: Reading, laid: _Laid, draft: SowTrialDraft
) -> list[tuple[SowDraft, StoredTemplate]]:
    """What each arm's batch is sown as, and from which version."""
    found = [(arm, _template(reading, laid.trial, arm)) for arm in laid.trial.arms]
    return [
        (laid.draft_of(arm, template.template.soak_seconds, draft), template)
        for arm, template in found
    ]


def _notices(
    reading: Reading, laid: _Laid, batches: Sequence[tuple[SowDraft, StoredTemplate]]
) -> tuple[str, ...]:
    """Which trays are not where they belong, and which arms were soaked too long or too short."""
    now, sown = likely_now(reading), laid.ahead.sow_at

    def soak(its: SowDraft, template: CropTemplate) -> str:
        if isinstance(its.soaked, datetime):
            return soak_notice(template, its.soaked, sown)
        unsaid = laid.ahead.planned and its.soaked is None
        return past_soak(template, sown, now, reading.zone) if unsaid else ""

    soaks = [soak(its, found.template) for its, found in batches]
    arms = [f"{arm.name}: {said}" for arm, said in zip(laid.trial.arms, soaks, strict=True) if said]
    return (*laid.ahead.notices, *arms)


def _same_day(reading: Reading, trial: Trial, mine: Sequence[TrialTray], at: datetime) -> str:
    """Say which trays of a trial were sown, or are planned, on the day of `at`; '' for none."""
    runs = {tray.tray_id: tray.run for tray in mine}
    today = day_of(at, reading.zone)
    there = [
        each
        for each in reading.folded(read_trays(reading, list(runs)))
        if each.state.status != "void"
        and (moment := each.state.sown_at or each.stored.planned_for) is not None
        and day_of(moment, reading.zone) == today
    ]
    if not there:
        return ""
    week = max(runs[each.id] for each in there)
    planned = all(each.state.status == "planned" for each in there)
    verb = "is planned for" if planned else "was sown on"
    numbers = numbers_words(sorted(each.number for each in there))
    return f"{trial.name} {verb} {day_words(today)} already (week {week}: {numbers})."


def _template(reading: Reading, trial: Trial, arm: TrialArm) -> StoredTemplate:
    """The template version that an arm's trays are sown from, retired or not."""
    version = arm.version_id or trial.version_id
    template_id = template_of_versions(reading, [version])[version]
    return StoredTemplate(template_id, version, False, reading.version(version))


def _seed(trial: Trial, arm: TrialArm, given: float | None) -> float | None:
    if trial.factor != "density":
        return given
    if not arm.setting:
        raise Refused(
            f'The arm "{arm.name}" does not say how much seed its trays get; sow them ({Way.SOW}) '
            f"and add them ({Way.TRIAL_ADD})."
        )
    if given is not None:
        raise Refused("The seed is what this trial compares: each arm has its own amount.")
    return grams(arm.setting)
