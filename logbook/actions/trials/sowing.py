"""The trays of a trial: sowing its arms, taking trays in that stand already, leaving some out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.clocking import likely_now
from logbook.actions.reading import Reading
from logbook.actions.trays.sowing import SowDraft, check_within, sow_within
from logbook.actions.trials.allocation import Allocation, blocks_of, stand
from logbook.actions.trials.finding import find_trial
from logbook.actions.trials.joining import write_members
from logbook.actions.trials.setting_up import layout_of
from logbook.growing.days import day_of, day_words
from logbook.growing.keys import BatchNumber, TrayNumber
from logbook.growing.measures import grams
from logbook.growing.numbers import next_numbers, numbers_words
from logbook.growing.room.places import find_place
from logbook.growing.trials.kept import Trial, TrialArm, TrialTray
from logbook.growing.trials.layout import TrialSpot
from logbook.store.reads.templates import StoredTemplate, template_of_versions
from logbook.store.reads.trays import last_used_number, live_numbers, read_trays
from logbook.store.reads.trials import read_trial_trays, read_trials
from logbook.text import Refused, listed, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class SowTrialDraft:
    """How a trial's next trays are sown. `at` None: now; `grams` is dry seed per tray.

    `place` is where they go in a trial that names no shelves ('': the next free slots). `again`
    sows it although it was sown on the same day, `anyway` although its shelves lack room.
    """

    at: datetime | None = None
    plan: bool = False
    lot: str = ""
    grams: float | None = None
    numbers: tuple[int, ...] = ()
    place: str = ""
    again: bool = False
    anyway: bool = False


@dataclass(frozen=True, slots=True)
class SownArm:
    """The trays of one arm as they were sown; `batch_id` None while nothing is written."""

    keys: ClassVar = "arm colour trays=numbers batch=batch_id"

    arm: str
    colour: str
    numbers: tuple[TrayNumber, ...]
    batch_id: BatchNumber | None


@dataclass(frozen=True, slots=True)
class SownTrial:
    """One sowing of a trial: its run (week) from 1, the arms, and where each tray stands.

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
    """Where each tray of the order stands; empty for nowhere yet."""
    planned: bool
    sow_at: datetime
    act_id: int | None
    notices: tuple[str, ...]
    same_day: str
    lack: str

    @property
    def order(self) -> tuple[TrayNumber, ...]:
        """The trays in the drawn order."""
        return tuple(number for number, _ in self.spots)


@dataclass(frozen=True, slots=True)
class _Laid:
    """A sowing as it is laid out: along the spots the numbers, blocks and slots."""

    trial: Trial
    run: int
    at: datetime
    planned: bool
    spots: tuple[TrialSpot, ...]
    numbers: tuple[int, ...]
    blocks: list[int | None]
    standing: Allocation
    paths: dict[int, str]
    same_day: str

    def of_arm(self, arm: str) -> list[int]:
        """Give where the trays of an arm are in the layout."""
        return [at for at, spot in enumerate(self.spots) if spot.arm == arm]

    def draft_of(self, arm: TrialArm, draft: SowTrialDraft) -> SowDraft:
        """Give the draft of the batch that an arm's trays are."""
        mine = self.of_arm(arm.name)
        return SowDraft(
            template="",
            trays=len(mine),
            at=draft.at,
            plan=draft.plan,
            place=draft.place if self.planned else "",
            numbers=tuple(self.numbers[at] for at in mine),
            lot=draft.lot,
            grams=_seed(self.trial, arm.name, arm.setting, draft.grams),
            colours=(arm.colour,),
        )

    def sown(self, batches: Mapping[str, int], act_id: int | None) -> SownTrial:
        """Give it as a sowing, with the arms' batches where they are written."""
        arms = tuple(
            SownArm(
                arm.name,
                arm.colour,
                tuple(sorted(self.numbers[at] for at in self.of_arm(arm.name))),
                batches.get(arm.name),
            )
            for arm in self.trial.arms
        )
        return SownTrial(
            trial=self.trial.name,
            run=self.run,
            arms=arms,
            spots=tuple(zip(self.numbers, self.spots, strict=True)),
            places=tuple(self.paths[spot[0]] if spot else "" for spot in self.standing.spots),
            planned=self.planned,
            sow_at=self.at,
            act_id=act_id,
            notices=tuple(self.standing.notices),
            same_day=self.same_day,
            lack=" ".join(self.standing.lacks),
        )


def preview_sowing(book: Book, name: str, draft: SowTrialDraft) -> SownTrial:
    """Give what sowing a trial now comes to, nothing written.

    Raises:
        Refused: no such trial or place, a wrong count of numbers, a place beside shelves, or as
            sow() does.
    """
    with book.reading() as reading:
        laid = _laid(reading, name, draft)
        for arm in laid.trial.arms:
            found = _template(reading, arm.version_id or laid.trial.version_id)
            check_within(reading, laid.draft_of(arm, draft), found)
        return laid.sown({}, None)


def sow_trial(book: Book, name: str, draft: SowTrialDraft) -> SownTrial:
    """Sow all arms of a trial once, in one act: a batch for each arm, its trays marked.

    Trays are numbered along the blocks in the order that the kept seed number drew. Sowing it
    again is another run, which joins as a block.

    Raises:
        Refused: it was sown on that day already, or its shelves lack room, and the draft does not
            say to do it all the same; an arm has no value to sow by, or as sow() does.
    """
    with book.writing() as act:
        laid = _laid(act.reading, name, draft)
        ahead = laid.sown({}, None)
        if ahead.same_day and not draft.again:
            raise Refused(
                f"{ahead.same_day} Nothing was written; give {Way.SOW_AGAIN} if another week is "
                "really to be sown on the same day."
            )
        if ahead.lack and not draft.anyway:
            raise Refused(
                f"{ahead.lack} Nothing was written; make room, or give {Way.SOW_ANYWAY} to sow all the same."
            )
        trial, rows, batches = laid.trial, [], {}
        for arm in trial.arms:
            mine = laid.of_arm(arm.name)
            done = sow_within(
                act,
                laid.draft_of(arm, draft),
                _template(act.reading, arm.version_id or trial.version_id),
                [laid.standing.spots[at] for at in mine],
            )
            batches[arm.name] = done.batch_id
            rows += [(laid.numbers[at], arm.id, laid.blocks[at]) for at in mine]
        write_members(act, trial, rows, laid.run)
        return laid.sown(batches, act.act_id)


def _laid(reading: Reading, name: str, draft: SowTrialDraft) -> _Laid:
    trial = find_trial(name, read_trials(reading))
    mine = read_trial_trays(reading, trial.id)
    run = 1 + max((tray.run for tray in mine), default=0)
    places = reading.places.by_id
    shelves = [places[place].path for _, place in trial.shelves]
    if draft.place.strip():
        find_place(draft.place, list(places.values()))
        own = shelves or [places[arm.place_id].path for arm in trial.arms if arm.place_id]
        if own:
            raise Refused(
                f'The trays of "{trial.name}" go to its shelves, {listed(own)}; '
                "leave the place out."
            )
    spots = layout_of([arm.name for arm in trial.arms], trial.seed, shelves, trial.repeats, run)
    numbers = _numbers(reading, draft, len(spots))
    now = likely_now(reading)
    at = draft.at or now
    planned = draft.plan or at > now
    return _Laid(
        trial=trial,
        run=run,
        at=at,
        planned=planned,
        spots=spots,
        numbers=numbers,
        blocks=blocks_of(trial, len(spots)),
        standing=stand(reading, trial, spots, numbers, wanted=draft.place, planned=planned),
        paths={place.id: place.path for place in places.values()},
        same_day=_same_day(reading, trial, mine, at),
    )


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
    week = max(runs[each.stored.id] for each in there)
    verb = (
        "is planned for" if all(each.state.status == "planned" for each in there) else "was sown on"
    )
    numbers = numbers_words(sorted(each.stored.number for each in there))
    return f"{trial.name} {verb} {day_words(today)} already (week {week}: {numbers})."


def _numbers(reading: Reading, draft: SowTrialDraft, count: int) -> tuple[int, ...]:
    if draft.numbers and len(draft.numbers) != count:
        raise Refused(
            f"The trial's sowing has {plural(count, 'tray')}; give as many numbers, or none."
        )
    taken = live_numbers(reading)
    return draft.numbers or next_numbers(count, last_used_number(reading), taken)


def _template(reading: Reading, version: int) -> StoredTemplate:
    template_id = template_of_versions(reading, [version])[version]
    template = reading.versions([version])[version]
    return StoredTemplate(template_id, version, False, template)


def _seed(trial: Trial, arm: str, setting: str, given: float | None) -> float | None:
    if trial.thing != "density":
        return given
    if not setting:
        raise Refused(
            f'The arm "{arm}" does not say how much seed its trays get; sow them ({Way.SOW}) and '
            f"take them in ({Way.TRIAL_ADD})."
        )
    if given is not None:
        raise Refused("The seed is what this trial compares: each arm has its own amount.")
    return grams(setting)
