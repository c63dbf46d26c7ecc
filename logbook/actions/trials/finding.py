"""Finding trials and their arms, and listing them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.growing.trials.kept import Trial
from logbook.store.reads.trials import read_trial_trays, read_trials
from logbook.text import Refused, fold, listed, nearest
from logbook.ways import Way

if TYPE_CHECKING:
    from logbook.actions.trays.done import Done


def find_trial(name: str, reading: Reading) -> Trial:
    """Find a standing trial by its name or a part that only one has; raise Refused."""
    wanted, trials = fold(name), read_trials(reading)
    exact = [trial for trial in trials if fold(trial.name) == wanted]
    begins = [trial for trial in trials if wanted and fold(trial.name).startswith(wanted)]
    holds = [trial for trial in trials if wanted and wanted in fold(trial.name)]
    for fits in (exact, begins, holds):
        if len(fits) == 1:
            return fits[0]
    names = [trial.name for trial in trials]
    if holds:
        fit = listed([trial.name for trial in holds], most=5, joint="or")
        raise Refused(f'"{name[:40]}" fits several trials: {fit}. Write which.')
    if not names:
        raise Refused(f"There is no trial in the book yet; {Way.TRIAL_NEW} sets one up.")
    raise Refused(
        f'There is no trial "{name[:60]}".{nearest(name, names)} {Way.TRIALS} lists them.'
    )


def arm_names(book: Book, name: str) -> tuple[str, ...]:
    """The names of a trial's arms; raise Refused where there is no such trial."""
    with book.reading() as reading:
        return tuple(arm.name for arm in find_trial(name, reading).arms)


def find_arm(trial: Trial, name: str) -> int:
    """Find an arm of a trial by its name or a beginning that only one has; returns its id."""
    wanted = fold(name)
    exact = [arm for arm in trial.arms if fold(arm.name) == wanted]
    begins = [arm for arm in trial.arms if wanted and fold(arm.name).startswith(wanted)]
    for fits in (exact, begins):
        if len(fits) == 1:
            return fits[0].id
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
    from logbook.store.reads.trays import read_trays
    from logbook.store.reads.trials import read_decisions

    with book.reading() as reading:
        trials = read_trials(reading)
        versions = reading.versions({trial.version_id for trial in trials})
        lines = []
        for trial in reversed(trials):
            ids = [tray.tray_id for tray in read_trial_trays(reading, trial.id)]
            trays = read_trays(reading, ids)
            live = sum(tray.live for tray in trays)
            state = "set up" if not trays else "running" if live else "cut"
            if read_decisions(reading, trial.id):
                state = "decided"
            lines.append(
                TrialLine(
                    trial.name,
                    versions[trial.version_id].label(),
                    trial.question,
                    trial.factor,
                    tuple(arm.name for arm in trial.arms),
                    len(trays),
                    len(trays) - live,
                    state,
                )
            )
    return lines


def strike_trial(book: Book, name: str, why: str) -> Done:
    """Strike a trial's set-up with a reason: it is no longer listed; its trays stay as they are."""
    from logbook.actions.trays.striking import strike

    with book.reading() as reading:
        trial = find_trial(name, reading)
    done = strike(book, trial.entry_id, why)
    return replace(done, words=f"struck the trial {trial.name}")
