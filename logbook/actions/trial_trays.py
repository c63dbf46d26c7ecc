"""The trays of a trial: sowing its arms, taking trays in that stand already, leaving some out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from logbook.actions.book import Book
from logbook.actions.doing import Done
from logbook.actions.sowing import SowDraft, SowPlan, sow_within, spread_for
from logbook.actions.striking import checked_reason
from logbook.actions.trays import trays_numbered
from logbook.actions.trials import find_arm, find_trial, layout_of
from logbook.growing.measures import grams
from logbook.growing.numbers import next_numbers, numbers_words
from logbook.growing.places import find_place
from logbook.growing.trials.layout import Spot
from logbook.store.reads import (
    StoredTemplate,
    last_used_number,
    live_numbers,
    newest_trays_numbered,
    read_places,
    read_versions,
    template_of_versions,
)
from logbook.store.reads_trials import StoredTrial, read_trial_trays, read_trials
from logbook.text import Refused, listed, plural

if TYPE_CHECKING:
    from logbook.actions.writing import Act

LARGEST_RUN = 520


@dataclass(frozen=True, slots=True)
class SowTrialDraft:
    """How a trial's next trays are sown. `at` None: now; `grams` is dry seed per tray."""

    at: datetime | None = None
    plan: bool = False
    lot: str = ""
    grams: float | None = None
    numbers: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class SownArm:
    """The trays of one arm as they were sown."""

    arm: str
    colour: str
    numbers: tuple[int, ...]
    batch_id: int


@dataclass(frozen=True, slots=True)
class SownTrial:
    """One sowing of a trial: its run (week) from 1, the arms, and where each tray stands."""

    trial: str
    run: int
    arms: tuple[SownArm, ...]
    spots: tuple[tuple[int, Spot], ...]
    plan: SowPlan
    act_id: int
    notices: tuple[str, ...]


def sow_trial(book: Book, name: str, draft: SowTrialDraft) -> SownTrial:
    """Sow all arms of a trial once, in one act: a batch for each arm, its trays marked.

    Trays are numbered along the blocks in the order that the kept seed number drew. Sowing it
    again is another run, which joins as a block.

    Raises:
        Refused: an arm has no value to sow by, or as sow() does.
    """
    with book.writing() as act:
        trial = find_trial(name, read_trials(act.raw))
        run = 1 + max((tray.run for tray in read_trial_trays(act.raw, trial.id)), default=0)
        places = {place.id: place for place in read_places(act.raw)}
        shelves = [places[place].path for _, place in trial.shelves]
        names = [arm.name for arm in trial.arms]
        spots = layout_of(names, trial.seed, shelves, trial.repeats, run)
        numbers = _numbers(act, draft, len(spots))
        blocks = _blocks(trial, len(spots))
        stand, notices = _stand(act, trial, spots, numbers, planned=_planned(act, draft))
        sown, plan, rows = [], None, []
        for arm in trial.arms:
            mine = [at for at, spot in enumerate(spots) if spot.arm == arm.name]
            version = arm.version_id or trial.version_id
            done = sow_within(
                act,
                SowDraft(
                    template="",
                    trays=len(mine),
                    at=draft.at,
                    plan=draft.plan,
                    numbers=tuple(numbers[at] for at in mine),
                    lot=draft.lot,
                    grams=_seed(trial, arm.name, arm.setting, draft.grams),
                    colours=(arm.colour,),
                ),
                _template(act, version),
                [stand[at] for at in mine],
            )
            plan = plan or done.plan
            sown.append(SownArm(arm.name, arm.colour, done.plan.numbers, done.batch_id))
            rows += [(numbers[at], arm.id, blocks[at]) for at in mine]
        assert plan is not None  # noqa: S101 - a trial has arms
        _write(act, trial, rows, run)
        assert act.act_id is not None  # noqa: S101 - something was written
        order = tuple(zip(numbers, spots, strict=True))
        return SownTrial(trial.name, run, tuple(sown), order, plan, act.act_id, tuple(notices))


def _planned(act: Act, draft: SowTrialDraft) -> bool:
    return draft.plan or (draft.at is not None and draft.at > act.now)


def _numbers(act: Act, draft: SowTrialDraft, count: int) -> tuple[int, ...]:
    if draft.numbers and len(draft.numbers) != count:
        raise Refused(
            f"The trial's sowing has {plural(count, 'tray')}; give as many numbers, or none."
        )
    return draft.numbers or next_numbers(count, last_used_number(act.raw), live_numbers(act.raw))


def _template(act: Act, version: int) -> StoredTemplate:
    template_id = template_of_versions(act.raw, [version])[version]
    return StoredTemplate(template_id, version, False, read_versions(act.raw, [version])[version])


def _seed(trial: StoredTrial, arm: str, setting: str, given: float | None) -> float | None:
    if trial.thing != "density":
        return given
    if not setting:
        raise Refused(
            f'The arm "{arm}" does not say how much seed its trays get; sow them by `logbook sow` '
            "and take them in by `logbook trial add`."
        )
    if given is not None:
        raise Refused("The seed is what this trial compares: each arm has its own amount.")
    return grams(setting)


def _stand(
    act: Act, trial: StoredTrial, spots: Sequence[Spot], numbers: Sequence[int], *, planned: bool
) -> tuple[list[tuple[int, int] | None], list[str]]:
    """Settle where each tray stands: on its block's or arm's shelf where that suits it now."""
    places = {place.id: place for place in read_places(act.raw)}
    template = read_versions(act.raw, [trial.version_id])[trial.version_id]
    dark_first = template.stages[0].light == "dark" and any(
        place.kind == "shelf" and not place.lit and not place.retired for place in places.values()
    )
    stand: list[tuple[int, int] | None] = [None] * len(spots)
    notices: list[str] = []
    for shelf, group in _shelf_groups(trial, spots).items():
        place = places.get(shelf or 0)
        later = place is not None and dark_first and place.lit
        if not planned:
            wanted = place.path if place is not None and not later else ""
            held = [spot for spot in stand if spot is not None]
            got = spread_for(act.raw, act.book, wanted, template, len(group), held)
            for at, spot in zip(group, got.spots, strict=True):
                stand[at] = spot
        away = [numbers[at] for at in group if (stand[at] or (None,))[0] != shelf]
        if place is not None and away:
            when = " when they come to the light" if later else ""
            notices.append(f"On {place.path}{when}, in this order: {listed_numbers(away)}.")
    return stand, notices


def listed_numbers(numbers: Sequence[int]) -> str:
    """Write numbers in the order given, which numbers_words would sort."""
    return " ".join(str(number) for number in numbers)


def _shelf_groups(trial: StoredTrial, spots: Sequence[Spot]) -> dict[int | None, list[int]]:
    """Give, for each shelf where trays belong (None: anywhere), their places in the layout."""
    arm_places = {arm.name: arm.place_id for arm in trial.arms}
    block_places = dict(trial.shelves)
    groups: dict[int | None, list[int]] = {}
    for at, (spot, block) in enumerate(zip(spots, _blocks(trial, len(spots)), strict=True)):
        shelf = arm_places[spot.arm] if block is None else block_places[block]
        groups.setdefault(shelf, []).append(at)
    return groups


def _blocks(trial: StoredTrial, count: int) -> list[int | None]:
    """Give the block of each place in a layout of `count` trays."""
    if not trial.shelves:
        return [None] * count
    return [trial.shelves[at * len(trial.shelves) // count][0] for at in range(count)]


def _write(
    act: Act,
    trial: StoredTrial,
    trays: Sequence[tuple[int, int, int | None]],
    run: int,
    left_out: str = "",
) -> None:
    """Write which arm and block trays are in: (number, arm id, block id)."""
    from logbook.store.tables import TrialTrayRow

    stored = newest_trays_numbered(act.raw, [number for number, _, _ in trays])
    ids = [stored[number].id for number, _, _ in trays]
    note = f"{trial.name}: {left_out}" if left_out else trial.name
    entry = act.entry("leave" if left_out else "join", ids, note=note)
    act.session.add_all(
        TrialTrayRow(
            entry_id=entry,
            tray_id=tray,
            trial_id=trial.id,
            arm_id=arm,
            block_id=block,
            run=run,
            left_out=left_out,
        )
        for tray, (_, arm, block) in zip(ids, trays, strict=True)
    )


def join_trial(
    book: Book,
    name: str,
    arm: str,
    numbers: Sequence[int],
    *,
    run: int | None = None,
    shelf: str = "",
) -> Done:
    """Take trays that stand already, or are cut, into an arm of a trial.

    `run` is the week they belong to (the newest without it), `shelf` the block, where the trial
    has shelves.

    Raises:
        Refused: no such trial, arm, shelf or tray, or a tray whose sowing was struck.
    """
    with book.writing() as act:
        trial = find_trial(name, read_trials(act.raw))
        arm_id = find_arm(trial, arm)
        known = trays_numbered(act.raw, book, list(dict.fromkeys(numbers)), live=False)
        void = [each.stored.number for each in known if each.state.status == "void"]
        if void:
            raise Refused(
                f"The sowing of {numbers_words(void)} was struck; it is no tray to count."
            )
        mine = {tray.tray_id: tray for tray in read_trial_trays(act.raw, trial.id)}
        newest = max((tray.run for tray in mine.values()), default=1)
        run = newest if run is None else run
        if not 1 <= run <= LARGEST_RUN:
            raise Refused(f"Week {run}? Weeks of a trial are counted from 1.")
        block = _named_block(act, trial, shelf)
        _write(act, trial, [(each.stored.number, arm_id, block) for each in known], run)
        moved = [
            f"{each.stored.number} was in {trial.arm(mine[each.stored.id].arm_id).name} before"
            for each in known
            if each.stored.id in mine and mine[each.stored.id].arm_id != arm_id
        ]
        words = f"{numbers_words(numbers)} in {trial.arm(arm_id).name} of {trial.name}"
        assert act.act_id is not None  # noqa: S101 - something was written
        return Done(words, act.act_id, tuple(numbers), tuple(f"{each}." for each in moved))


def _named_block(act: Act, trial: StoredTrial, shelf: str) -> int | None:
    if not trial.shelves:
        if shelf.strip():
            raise Refused(f'The trial "{trial.name}" has no shelves as blocks; leave --shelf out.')
        return None
    places = read_places(act.raw)
    paths = {place.id: place.path for place in places}
    there = listed([paths[place] for _, place in trial.shelves])
    if not shelf.strip():
        raise Refused(f'Which block of "{trial.name}"? Give --shelf, one of {there}.')
    wanted = find_place(shelf, places).id
    for block, place in trial.shelves:
        if place == wanted:
            return block
    raise Refused(f'{paths[wanted]} is no block of "{trial.name}"; its blocks are {there}.')


def leave_out(book: Book, name: str, numbers: Sequence[int], why: str) -> Done:
    """Leave trays of a trial out of its judging, with the reason; they stay in the record.

    Raises:
        Refused: no reason, or a tray that is not in the trial.
    """
    reason = checked_reason(why)
    with book.writing() as act:
        trial = find_trial(name, read_trials(act.raw))
        known = trays_numbered(act.raw, book, list(dict.fromkeys(numbers)), live=False)
        mine = {tray.tray_id: tray for tray in read_trial_trays(act.raw, trial.id)}
        strange = [each.stored.number for each in known if each.stored.id not in mine]
        if strange:
            raise Refused(f'{numbers_words(strange)} is not in the trial "{trial.name}".')
        gone = [each.stored.number for each in known if mine[each.stored.id].left_out]
        if gone:
            raise Refused(f"{numbers_words(gone)} is left out already.")
        runs: dict[int, list[tuple[int, int, int | None]]] = {}
        for each in known:
            tray = mine[each.stored.id]
            runs.setdefault(tray.run, []).append((each.stored.number, tray.arm_id, tray.block_id))
        for run, rows in runs.items():
            _write(act, trial, rows, run, reason)
        assert act.act_id is not None  # noqa: S101 - something was written
        return Done(
            f"left out of {trial.name}: {numbers_words(numbers)}", act.act_id, tuple(numbers)
        )
