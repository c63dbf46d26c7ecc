"""What lies ahead of trays if nothing else happens."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import ClassVar

from logbook.growing.days import day_of
from logbook.growing.keys import TrayNumber
from logbook.growing.trays.chores import RECURRING, Chore
from logbook.growing.trays.forecast import changes_ahead, chores_of_tray
from logbook.growing.trays.tray_now import TrayNow


@dataclass(frozen=True, slots=True)
class Ahead:
    """What is ahead of trays; `chore` can be done today, '' where it comes later or asks none."""

    keys: ClassVar = "at words chore=of today late trays"

    at: datetime
    words: str
    chore: str = ""
    late: bool = False
    """Whether it is late, as the round says it."""
    trays: tuple[TrayNumber, ...] = ()
    """On a batch's page: which trays."""
    of: Chore | None = None
    """The chore that it is or belongs to; null for a change that asks nothing of the hands."""

    @property
    def today(self) -> bool:
        """Whether it can be done today."""
        return bool(self.chore)


def ahead_of(tray: TrayNow) -> list[Ahead]:
    """What lies ahead of a tray: today's chores, changes of any day, the cut window."""
    state, template, now, hours = tray.state, tray.template, tray.now, tray.hours
    if not state.live or tray.held:
        return []
    asked = chores_of_tray(template, state, now, tray.today, hours)
    chores = {chore.chore: chore for chore in asked}
    ahead: list[Ahead] = []

    def add(at: datetime, words: str, chore: str = "") -> None:
        due = chores.get(chore)
        late = due is not None and due.late
        ahead.append(Ahead(at, words, chore if due is not None else "", late, (), chore or None))

    for name in ("soak", "sow", *RECURRING):
        if name in chores:
            add(chores[name].due_at, chores[name].words, name)
    if state.status == "planned" and state.planned_for is not None:
        start, stage = max(state.planned_for, now), 0
        if "sow" not in chores:
            ahead.append(Ahead(state.planned_for, "sow", of="sow"))
    else:
        start, stage = state.stage_since or now, state.stage
    for place, change in enumerate(changes_ahead(template, stage, start, now)):
        words = f"{change.words} (to {template.stages[change.stage].name})"
        if place == 0 and change.chore in chores:
            add(chores[change.chore].due_at, words, change.chore)
        else:
            tonight = place == 0 and day_of(change.at, hours.zone) == tray.today
            chore = change.chore if tonight else ""
            ahead.append(Ahead(change.at, words, chore, of=change.chore or None))
    if (window := tray.window) is not None:
        if state.sign_at is not None and "cut" in chores:
            add(state.sign_at, "cut now: ready sign seen", "cut")
        may = "ready to cut since then" if window.start <= now else "may be cut from then on"
        ahead.append(Ahead(window.start, may, of="cut"))
        if state.sign_at is None:
            add(window.best, "best to cut", "cut")
        by = "should have been cut by then" if window.by <= now else "should be cut by then"
        ahead.append(Ahead(window.by, by, of="cut"))
    return sorted(ahead, key=lambda each: each.at)


def ahead_of_all(trays: Sequence[TrayNow]) -> list[Ahead]:
    """What lies ahead of a batch's trays; those that share it are named together."""
    groups: dict[tuple[datetime, str], list[tuple[int, Ahead]]] = {}
    for tray in trays:
        for each in ahead_of(tray):
            groups.setdefault((each.at, each.words), []).append((tray.number, each))
    ahead = [
        replace(group[0][1], trays=tuple(sorted(number for number, _ in group)))
        for group in groups.values()
    ]
    return sorted(ahead, key=lambda each: (each.at, each.trays))
