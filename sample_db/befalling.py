"""Mishaps that happen at a moment of their own, and what is jotted."""

from collections.abc import Callable, Mapping
from dataclasses import asdict
from datetime import datetime
from functools import partial

from logbook.actions.trays.noticing import jot
from logbook.growing.trays.looks import Look
from sample_db.cohort import Cohort
from sample_db.cutting import weigh
from sample_db.mishaps import Mishap, RoomNote, What
from sample_db.world import World

BEFORE_THE_ROUND = 1


def await_mishaps(world: World, cohort: Cohort) -> None:
    """Have a cohort's mishaps happen at their moments."""
    for mishap in cohort.mishaps():
        deed = _DEEDS.get(mishap.what)
        if deed is not None:
            minute = BEFORE_THE_ROUND if mishap.what == "skip" else mishap.minute
            at = world.days.at(mishap.ago, minute)
            world.agenda.put(at, partial(deed, world, cohort, mishap))


def await_note(world: World, note: RoomNote) -> None:
    """Have a note jotted on the room or on a place."""
    world.await_act(world.days.at(note.ago, note.minute), jot, (), note.words, note.place)


def seen(world: World, entry: int, look: Look, *, sign: bool = False) -> None:
    """Add what a look saw; an empty look is its entry alone."""
    if not look.empty:
        world.bulk.put("look", entry_id=entry, sign_seen=sign, **asdict(look))


def _skip(world: World, cohort: Cohort, mishap: Mishap, when: datetime) -> None:
    world.do(cohort, "skip", when, chore="water", note=mishap.words)


def _discard(world: World, cohort: Cohort, mishap: Mishap, when: datetime) -> None:
    tray = cohort.ids[-1]
    world.do(cohort, "discard", when, trays=[tray], note=mishap.words)
    world.end(cohort, tray, when, None)


def _mould(world: World, cohort: Cohort, mishap: Mishap, when: datetime) -> None:
    entry = world.do(cohort, "look", when, chore="look", trays=cohort.ids[-1:])
    seen(world, entry, Look(mould="spot", mould_where=mishap.words))


def _sign(world: World, cohort: Cohort, mishap: Mishap, when: datetime) -> None:
    entry = world.do(cohort, "look", when, chore="look", note=mishap.words, sign=True)
    seen(world, entry, Look(sign=cohort.template.sign_to_cut), sign=True)


def _weigh(world: World, cohort: Cohort, _mishap: Mishap, when: datetime) -> None:
    weigh(world, cohort, cohort.ids[0], when)


def _jot(world: World, cohort: Cohort, mishap: Mishap, when: datetime) -> None:
    world.do(cohort, "jot", when, trays=cohort.ids[: mishap.trays], note=mishap.words)


def _move(world: World, cohort: Cohort, mishap: Mishap, when: datetime) -> None:
    tray = cohort.ids[-1]
    entry = world.do(cohort, "move", when, trays=[tray])
    world.place(cohort, entry, mishap.words, [tray])


_DEEDS: Mapping[What, Callable[[World, Cohort, Mishap, datetime], None]] = {
    "skip": _skip, "discard": _discard, "mould": _mould, "sign": _sign, "weigh": _weigh,
    "jot": _jot, "move": _move,
}  # fmt: skip
