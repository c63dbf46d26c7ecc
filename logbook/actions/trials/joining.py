"""Taking trays into a trial that stand already, and leaving trays out of its judging."""

from collections.abc import Sequence

from logbook.actions.book import Book
from logbook.actions.trays.done import Done, done_of, numbers_of
from logbook.actions.trials.finding import find_arm, find_trial
from logbook.actions.trials.judging import lines_of
from logbook.actions.writing import Act
from logbook.growing.numbers import numbers_words
from logbook.growing.trials.kept import Trial
from logbook.store.reads.trays import newest_trays_numbered
from logbook.store.reads.trials import read_trial_trays
from logbook.store.rows import grouped
from logbook.text import Refused, clean_reason, fold, listed

LARGEST_RUN = 520


def write_members(
    act: Act, trial: Trial, trays: Sequence[tuple[int, int, int | None]], run: int,
    left_out: str = "",
) -> None:  # fmt: skip
    """Write which arm and block trays are in: (number, arm id, block id)."""
    stored = newest_trays_numbered(act.reading, [number for number, _, _ in trays])
    ids = [stored[number].id for number, _, _ in trays]
    note = f"{trial.name}: {left_out}" if left_out else trial.name
    entry = act.entry("leave" if left_out else "join", ids, note=note)
    rows = (
        {"tray_id": tray, "arm_id": arm, "block_id": block}
        for tray, (_, arm, block) in zip(ids, trays, strict=True)
    )
    act.put("trial_tray", entry, rows, trial_id=trial.id, run=run, left_out=left_out)


def join_trial(
    book: Book, name: str, arm: str, numbers: Sequence[int], *, run: int | None = None,
    shelf: str = "",
) -> Done:  # fmt: skip
    """Take trays that stand already, or are cut, into an arm of a trial, or raise Refused.

    `run` is the week they belong to (the newest without it), `shelf` the block, where the trial
    has shelves.
    """
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        chosen = find_arm(trial, arm)
        known = act.reading.trays(numbers, live=False)
        numbers = numbers_of(known)
        void = [each.number for each in known if each.state.status == "void"]
        if void:
            raise Refused(
                f"The sowing of {numbers_words(void)} was struck out, so it can't be counted."
            )
        crop = act.reading.version(trial.version_id).crop
        strange = [each for each in known if fold(each.template.crop) != fold(crop)]
        if strange:
            there = numbers_words(each.number for each in strange)
            crops = listed(list(dict.fromkeys(each.template.crop for each in strange)))
            raise Refused(f"{trial.name} is a trial of {crop}, but {there}: {crops}.")
        mine = {tray.tray_id: tray for tray in read_trial_trays(act.reading, trial.id)}
        if run is None:
            run = max((tray.run for tray in mine.values()), default=1)
        if not 1 <= run <= LARGEST_RUN:
            raise Refused(f"Week {run}? Weeks of a trial are counted from 1.")
        block = _named_block(act, trial, shelf)
        write_members(act, trial, [(each.number, chosen.id, block) for each in known], run)
        moved = [
            f"{each.number} was in {trial.arm(mine[each.id].arm_id).name} before."
            for each in known
            if each.id in mine and mine[each.id].arm_id != chosen.id
        ]
        versions = {each.stored.version_id: each.template.name for each in known}
        mates = lines_of(act.reading, trial, versions)
        for version in (each for each in versions if not mates(each, chosen.id)):
            of = [each.number for each in known if each.stored.version_id == version]
            moved.append(
                f"Sown from another template, {versions[version]}: {numbers_words(of)}; "
                "the verdict will say so."
            )
        words = f"{numbers_words(numbers)} in {chosen.name} of {trial.name}"
        return done_of(act, words, numbers, moved)


def _named_block(act: Act, trial: Trial, shelf: str) -> int | None:
    if not trial.shelves:
        if shelf.strip():
            raise Refused(f'The trial "{trial.name}" has no shelves as blocks; name none.')
        return None
    places = act.reading.places
    paths = {place.id: place.path for place in places}
    there = listed([paths[place] for _, place in trial.shelves])
    if not shelf.strip():
        raise Refused(f'Which block of "{trial.name}"? Name its shelf: {there}.')
    wanted = places.find(shelf).id
    block = next((block for block, place in trial.shelves if place == wanted), None)
    if block is None:
        raise Refused(f'{paths[wanted]} is not a block of "{trial.name}"; its blocks are {there}.')
    return block


def leave_out(book: Book, name: str, numbers: Sequence[int], why: str) -> Done:
    """Leave trays of a trial out of its judging, with the reason (else Refused); they stay."""
    reason = clean_reason(why)
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        known = act.reading.trays(numbers, live=False)
        numbers = numbers_of(known)
        mine = {tray.tray_id: tray for tray in read_trial_trays(act.reading, trial.id)}
        strange = [each.number for each in known if each.id not in mine]
        if strange:
            raise Refused(f'{numbers_words(strange)} is not in the trial "{trial.name}".')
        gone = [each.number for each in known if mine[each.id].left_out]
        if gone:
            raise Refused(f"{numbers_words(gone)} is left out already.")
        runs = grouped(
            (
                mine[each.id].run,
                (each.number, mine[each.id].arm_id, mine[each.id].block_id),
            )
            for each in known
        )
        for run, rows in runs.items():
            write_members(act, trial, rows, run, reason)
        return done_of(act, f"left out of {trial.name}: {numbers_words(numbers)}", numbers)
