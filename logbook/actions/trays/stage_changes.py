"""Changes between stages, written as they were when they happened."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from logbook.actions.trays.done import entry_on, ids_of
from logbook.actions.trays.entry_words import words_into
from logbook.actions.writing import Act
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.chores import WORDS, change_into
from logbook.growing.trays.forecast import stage_for_chore
from logbook.growing.trays.life import fold_tray
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.deeds import read_deeds
from logbook.text import Refused, listed


def change_stage(
    act: Act, name: str, trays: Sequence[TrayNow], when: datetime, note: str
) -> tuple[list[TrayNow], str]:
    """Write a stage change as of `when`; returns the trays that leave the dark, and its words."""
    groups: dict[int, list[TrayNow]] = {}
    for known in trays:
        target = stage_for_chore(known.template, known.state, name)
        if target is None:
            raise Refused(_no_change(known, name))
        since = known.state.stage_since
        if since is not None and when < since:
            stage = known.template.stages[known.state.stage].name
            raise Refused(
                f'Tray {known.number} came into "{stage}" '
                f"{known.when(since)}; {WORDS[name]} cannot have been "
                "done before that."
            )
        groups.setdefault(target, []).append(known)
    for target, group in sorted(groups.items()):
        chore = change_into(group[0].template, target).chore
        entry_on(act, "change", group, when, chore=chore, stage=target, note=note)
    lit = []
    for target, group in groups.items():
        for known in group:
            stages = known.template.stages
            if (stages[known.state.stage].light, stages[target].light) == ("dark", "lit"):
                lit.append(known)
    words = {
        words_into([known.template for known in group], target, name)
        for target, group in groups.items()
    }
    return lit, words.pop() if len(words) == 1 else WORDS[name]


def passed_over(name: str, trays: Sequence[TrayNow]) -> list[str]:
    """Say which changes lay between the stage of the trays and the one they are led to."""
    passed: dict[str, list[int]] = {}
    for known in trays:
        target = stage_for_chore(known.template, known.state, name) or 0
        for stage in range(known.state.stage + 1, target):
            change = change_into(known.template, stage)
            if change.parts:
                passed.setdefault(change.words, []).append(known.number)
    return [
        f"Skipped on the way: {words} ({numbers_words(numbers)}). If it was done, undo this and "
        "write it first."
        for words, numbers in passed.items()
    ]


def as_of(act: Act, trays: Sequence[TrayNow], when: datetime) -> list[TrayNow]:
    """Trays that went on by themselves after `when` in the stage that they had then."""
    reading = act.reading
    deeds = read_deeds(reading, ids_of(trays))
    found = []
    for known in trays:
        mine = deeds[known.id]
        put_there = max((deed.at for deed in mine if deed.kind in ("sow", "change")), default=when)
        before = [deed for deed in mine if deed.at <= when]
        hours = reading.hours_of(known.state.place)
        found.append(
            replace(known, state=fold_tray(known.template, before, hours, when))
            if put_there <= when
            else known
        )
    return found


def _no_change(known: TrayNow, name: str) -> str:
    state, template = known.state, known.template
    stage = template.stages[state.stage].name
    following = range(state.stage + 1, len(template.stages))
    changes = [change_into(template, each) for each in following]
    ahead = [each.words for each in changes if each.parts]
    rest = f"Still to come: {listed(ahead)}; then the cut." if ahead else "Next is the cut."
    return (
        f'Tray {known.number} is already in "{stage}"; {WORDS[name]} doesn\'t come after it. {rest}'
    )
