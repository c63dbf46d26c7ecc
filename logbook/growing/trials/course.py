"""How far a trial is on its plan, and what its verdict must pass: looking early must not cost truth.

Who judges a trial every week and stops at the first difference finds one that isn't there in 11
(4 weeks) to 20 (10 weeks) of 100 trials, not in 5 (counted, tests/bench/null_trials.py; Armitage,
McPherson & Rowe 1969, Repeated significance tests on accumulating data, J. R. Stat. Soc. A
132:235–244). So the verdict comes once, when the planned trays are weighed or discarded. A trial
without a planned end, or one whose plan changed after trays were weighed, is judged at every look
and must show more: about 1 % keeps ten looks to 5 % (Pocock 1977, Group sequential methods in the
design and analysis of clinical trials, Biometrika 64:191–199: 0.0106).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import tzinfo
from operator import attrgetter

from logbook.growing.days import day_of
from logbook.growing.measures import number_words
from logbook.growing.trials.distributions import SIGNIFICANCE
from logbook.growing.trials.kept import Trial
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.words import joined
from logbook.text import listed, plural

LOOKS = 8
LOOK = 0.01
"""Nominal chance of each of the first LOOKS looks, counted by days on which trays were weighed.

Later ones get less by the fourth power, so that however many there are at most 5.5 % are spent in all
(counted, tests/bench/null_trials.py).
"""

AFTER_END = "joined after the planned end"
"""Why a late tray doesn't count."""


@dataclass(frozen=True, slots=True)
class Course:
    """How many of the `planned` trays (None: no planned end) are weighed, discarded or left out.

    `changed`: after the first were weighed trays joined beyond the plan, or its end was planned anew.
    `late` are names of trays that joined after the end, `skipped` weeks that were not sown between
    others.
    """

    planned: int | None = None
    done: int = 0
    changed: bool = False
    over: bool = False
    looks: int = 0
    late: frozenset[int] = frozenset()
    skipped: tuple[int, ...] = ()

    @property
    def open(self) -> bool:
        """Whether it is judged at every look, because no end was planned or kept."""
        return self.planned is None or self.changed

    @property
    def threshold(self) -> float:
        """The chance that a difference must stay below."""
        return LOOK * (LOOKS / max(LOOKS, self.looks)) ** 4 if self.open else SIGNIFICANCE

    @property
    def early(self) -> str:
        """Why there is no verdict yet; '' where there may be one."""
        if self.open or self.over:
            return ""
        weeks = listed([str(week) for week in self.skipped], most=4)
        gone = f"Weeks {weeks} weren't" if len(self.skipped) > 1 else f"Week {weeks} wasn't"
        return joined(
            f"No verdict before the planned end: {self.done} of {self.planned:,} trays are weighed or "
            "discarded.",
            "Looking costs nothing; a verdict at each look would find differences that aren't there up "
            "to 20 times in 100.",
            f"{gone} sown: the end waits for the trays, not for a date." if weeks else "",
        )

    @property
    def words(self) -> str:
        """What of its course the verdict must be read with; '' for nothing."""
        said = ""
        if self.open:
            why = "It has no planned end"
            if self.changed:
                why = "Its plan changed after trays were weighed"
            said = (
                f"{why}, so a difference must stay below {number_words(100 * self.threshold, 2)} %, not "
                "5 %: that pays for a look after each day of weighing; a second look on that day costs "
                "nothing."
            )
        late = len(self.late)
        are = "isn't" if late == 1 else "aren't"
        after = f"{plural(late, 'tray')} joined after the planned end and {are} judged: a new trial can."
        return joined(said, after if late else "")


def course_of(trial: Trial, records: Sequence[TrayRecord], zone: tzinfo) -> Course:
    """Where a trial is on its plan, from its trays; those whose sowing was struck are none."""
    trays = sorted(
        (each for each in records if each.state.status != "void"), key=attrgetter("joined_at")
    )
    ends = [each.state.ended_at for each in trays if each.state.ended_at is not None]
    runs = {each.run for each in trays}
    skipped = tuple(sorted(set(range(1, max(runs, default=1))) - runs))
    looks = len({day_of(ended, zone) for ended in ends})
    if trial.per_arm == 1:
        return Course(done=sum(map(_done, trays)), looks=looks, skipped=skipped)
    held = dict.fromkeys((arm.name for arm in trial.arms), 0)
    core: list[TrayRecord] = []
    further: list[TrayRecord] = []
    for tray in trays:
        held[tray.arm] += 1
        unseen = not ends or tray.joined_at <= min(ends)
        (core if held[tray.arm] <= trial.per_arm or unseen else further).append(tray)
    whole = all(number >= trial.per_arm for number in held.values()) and all(map(_done, core))
    late = []
    if whole:
        last = max(max(tray.joined_at, tray.state.ended_at or tray.joined_at) for tray in core)
        late = [tray for tray in further if tray.joined_at > last]
    anew = bool(ends) and any(written > min(ends) for written in trial.planned_anew)
    return Course(
        planned=max(trial.per_arm * len(held), len(core)), done=sum(map(_done, core)),
        changed=anew or len(late) < len(further), over=whole, looks=looks,
        late=frozenset(tray.name for tray in late), skipped=skipped,
    )  # fmt: skip


def _done(tray: TrayRecord) -> bool:
    return tray.grams is not None or bool(tray.left_out)
