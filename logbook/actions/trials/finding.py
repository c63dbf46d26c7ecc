"""Finding trials and their arms, and listing them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from operator import contains, eq
from typing import ClassVar, TypeVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done
from logbook.actions.trays.striking import strike
from logbook.growing.trials.kept import Decision, Trial, TrialArm
from logbook.store.reads.trays import read_trays
from logbook.store.reads.trials import read_said, read_trial_trays, read_trials
from logbook.text import Refused, fold, listed, nearest
from logbook.ways import Way

Named = TypeVar("Named", Trial, TrialArm)


def _only(name: str, known: Sequence[Named], *fits: Callable[[str, str], bool]) -> Named | None:
    """What one alone fits in the first of the ways in which any one alone does."""
    wanted = fold(name)
    for fit in fits:
        found = [each for each in known if wanted and fit(fold(each.name), wanted)]
        if len(found) == 1:
            return found[0]
    return None


def find_trial(name: str, reading: Reading) -> Trial:
    """Find a standing trial by its name or a part that only one has; raise Refused."""
    trials = read_trials(reading)
    found = _only(name, trials, eq, str.startswith, contains)
    if found is not None:
        return found
    names = [trial.name for trial in trials]
    several = [each for each in names if fold(name) and fold(name) in fold(each)]
    if several:
        fit = listed(several, most=5, joint="or")
        raise Refused(f'"{name[:40]}" matches several trials: {fit}. Type which one.')
    if not names:
        raise Refused(f"There is no trial in the book yet; {Way.TRIAL_NEW} sets one up.")
    raise Refused(
        f'There is no trial "{name[:60]}".{nearest(name, names)} {Way.TRIALS} lists them.'
    )


def arm_names(book: Book, name: str) -> tuple[str, ...]:
    """The names of a trial's arms; raise Refused where there is no such trial."""
    with book.reading() as reading:
        return tuple(arm.name for arm in find_trial(name, reading).arms)


def find_arm(trial: Trial, name: str) -> TrialArm:
    """Find an arm of a trial by its name or a beginning that only one has; raise Refused."""
    found = _only(name, trial.arms, eq, str.startswith)
    if found is not None:
        return found
    names = [arm.name for arm in trial.arms]
    raise Refused(
        f'The trial "{trial.name}" has no arm "{name[:40]}".{nearest(name, names)} Its arms are '
        f"{listed(names, most=8)}."
    )


@dataclass(frozen=True, slots=True)
class TrialLine:
    """A trial in the list. `state` is set up, running, cut or decided."""

    keys: ClassVar = "trial=name crop question thing=factor arms trays off_the_rack=cut state"

    name: str
    crop: str
    question: str
    factor: str
    """What differs between the arms."""
    arms: tuple[str, ...]
    trays: int
    cut: int
    """Trays that are cut or discarded."""
    state: str
    """set up, running, decided …"""


@dataclass(frozen=True, slots=True)
class TrialList:
    """The trials, the newest first."""

    trials: tuple[TrialLine, ...]


def list_trials(book: Book) -> list[TrialLine]:
    """All standing trials, the newest first."""
    with book.reading() as reading:
        trials = read_trials(reading)
        versions = reading.versions({trial.version_id for trial in trials})
        lines = []
        for trial in reversed(trials):
            ids = [tray.tray_id for tray in read_trial_trays(reading, trial.id)]
            live = sum(tray.live for tray in read_trays(reading, ids))
            state = "running" if live else "cut" if ids else "set up"
            if read_said(reading, Decision, trial.id):
                state = "decided"
            arms = tuple(arm.name for arm in trial.arms)
            crop, off = versions[trial.version_id].label(), len(ids) - live
            what = (trial.name, crop, trial.question, trial.factor)
            lines.append(TrialLine(*what, arms, len(ids), off, state))
    return lines


def strike_trial(book: Book, name: str, why: str) -> Done:
    """Strike a trial's set-up with a reason: it is no longer listed; its trays stay as they are."""
    with book.reading() as reading:
        trial = find_trial(name, reading)
    done = strike(book, trial.entry_id, why)
    return replace(done, words=f"struck out the trial {trial.name}")
