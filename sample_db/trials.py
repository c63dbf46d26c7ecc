"""The trials of the invented room, while its months go by: set up, sown, tasted, decided."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial

from logbook.growing.measures import number_words
from logbook.text import fold
from sample_db.cohort import Cohort
from sample_db.people import OWNER
from sample_db.tried import TRIALS, Tried
from sample_db.versions import version_at
from sample_db.world import World


def await_trials(world: World) -> None:
    """Have the trials set up, tasted and decided at their moments."""
    days = world.days
    for tried in TRIALS:
        world.agenda.put(days.on(max(tried.ages) + 2, 60), partial(_set_up, world, tried))
        if tried.tasted is not None:
            world.agenda.put(days.on(tried.tasted, 240), partial(_taste, world, tried))
        if tried.decided is not None:
            world.agenda.put(days.on(tried.decided, 120), partial(_decide, world, tried))


def _set_up(world: World, tried: Tried, at: datetime) -> None:
    diary = world.diary
    entry = diary.entry("trial", [], at, OWNER, note=f"{tried.name}: {tried.question}")
    trial = TRIALS.index(tried) + 1
    diary.trials.append(
        {
            "id": trial,
            "entry_id": entry,
            "name": tried.name,
            "name_key": fold(tried.name),
            "question": tried.question,
            "thing": tried.thing,
            "version_id": version_at(world.versions[tried.crop], at).id,
            "measures": tried.measures,
            "repeats": 1,
            "blocks": "week",
            "weeks": tried.weeks,
            "seed": tried.seed,
        }
    )
    for position, arm in enumerate(tried.arms):
        diary.trial_arms.append(
            {
                "id": _arm_id(tried, position),
                "trial_id": trial,
                "position": position,
                "name": arm.name,
                "setting": arm.setting,
                "colour": arm.colour,
                "version_id": None,
                "place_id": None,
            }
        )
    words = " and ".join(f"{name} {number_words(each)}" for name, each in tried.counts.items())
    counts = diary.entry("weights", [], at, OWNER, act=entry, note=f"{tried.name}: {words}")
    diary.trial_criteria += [
        {"entry_id": counts, "name": name, "trial_id": trial, "weight": each}
        for name, each in tried.counts.items()
    ]


def _arm_id(tried: Tried, position: int) -> int:
    return 2 * TRIALS.index(tried) + position + 1


def join(world: World, tried: Tried, cohorts: Sequence[Cohort], at: datetime, act: int) -> None:
    """Write which arm the trays of a sowing are in; its week is counted from the first one."""
    trays = [tray for cohort in cohorts for tray in cohort.ids]
    entry = world.diary.entry("join", trays, at, world.by(at), act=act, note=tried.name)
    run = sorted(tried.ages, reverse=True).index(cohorts[0].age) + 1
    world.diary.trial_trays += [
        {
            "entry_id": entry,
            "tray_id": tray,
            "trial_id": TRIALS.index(tried) + 1,
            "arm_id": _arm_id(tried, position),
            "block_id": None,
            "run": run,
            "left_out": "",
        }
        for position, cohort in enumerate(cohorts)
        for tray in cohort.ids
    ]


def _taste(world: World, tried: Tried, at: datetime) -> None:
    diary, trial = world.diary, TRIALS.index(tried) + 1
    sheet = diary.entry("tasting", [], at, OWNER, note=tried.name)
    tasting = len(diary.tastings) + 1
    diary.tastings.append(
        {
            "id": tasting,
            "entry_id": sheet,
            "trial_id": trial,
            "ranks": False,
            "seed": tried.seed,
        }
    )
    for taster, scores in (tried.scores or {}).items():
        entry = diary.entry("taste", [], at, OWNER, note=f"{tried.name}: {taster}")
        answers = [("taste", position, score, "") for position, score in enumerate(scores)]
        if taster == tried.words[0]:
            answers.append(("words", 1, 0.0, tried.words[1]))
        diary.tasting_answers += [
            {
                "entry_id": entry,
                "arm_id": _arm_id(tried, position),
                "aspect": aspect,
                "tasting_id": tasting,
                "taster": taster,
                "score": None if words else score,
                "words": words,
            }
            for aspect, position, score, words in answers
        ]


def _decide(world: World, tried: Tried, at: datetime) -> None:
    names = [arm.name for arm in tried.arms]
    version = world.versions[tried.crop][-1]
    decided = (
        f"adopted {tried.adopts} as {tried.crop} version {version.template.version}: {tried.why}"
    )
    note = f"{tried.name}: {decided} Next: {tried.try_next}"
    entry = world.diary.entry("decide", [], at, OWNER, note=note)
    world.diary.trial_decisions.append(
        {
            "entry_id": entry,
            "trial_id": TRIALS.index(tried) + 1,
            "arm_id": _arm_id(tried, names.index(tried.adopts)),
            "version_id": version.id,
            "decided": decided,
            "try_next": tried.try_next,
        }
    )
