"""Tasting a trial's arms blind: codes, an order for each taster, answers, triangle tests."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trials.finding import find_arm, find_trial
from logbook.growing.measures import number_words
from logbook.growing.quantities import LAYOUT_NUMBER
from logbook.growing.trials.kept import Tasting, Trial
from logbook.growing.trials.tasted import ASPECTS, Sheet, sheet_of
from logbook.growing.trials.tasting import blind_codes, triangle
from logbook.store.reads.trials import read_said
from logbook.text import Refused, clean, clean_name, listed, plural
from logbook.ways import Way

LOWEST, HIGHEST = 1.0, 9.0
LONGEST_WORDS = 400


@dataclass(frozen=True, slots=True)
class SampleSaid:
    """What a taster says of one sample: aspect → score (1–9) or rank, and own words."""

    scores: Mapping[str, float]
    words: str = ""


def new_tasting(book: Book, name: str, *, ranked: bool = False, seed: int | None = None) -> Sheet:
    """Set a tasting up: blind three-digit codes from a kept draw number, or a fresh one."""
    drawn = secrets.randbelow(LAYOUT_NUMBER.most) + 1 if seed is None else seed
    LAYOUT_NUMBER.checked(drawn)
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        blind_codes([arm.name for arm in trial.arms], drawn)
        entry = act.entry("tasting", [], note=trial.name)
        said = act.add("tasting", entry_id=entry, trial_id=trial.id, ranks=ranked, seed=drawn)
        tasting = Tasting(said, entry, ranked, drawn, act.now)
        return sheet_of(trial, tasting, len(read_said(act.reading, Tasting, trial.id)))


def newest_sheet(book: Book, name: str) -> Sheet:
    """The newest tasting of a trial; raise Refused where there is none."""
    with book.reading() as reading:
        trial = find_trial(name, reading)
        return _newest(reading, trial)[1]


def _newest(reading: Reading, trial: Trial) -> tuple[Tasting, Sheet]:
    every = read_said(reading, Tasting, trial.id)
    if not every:
        raise Refused(
            f'There is no tasting of "{trial.name}" yet; {Way.TASTE_NEW} draws the codes.'
        )
    return every[-1], sheet_of(trial, every[-1], len(every))


def taste(book: Book, name: str, taster: str, said: Mapping[str, SampleSaid]) -> Done:
    """Write what a taster said, code by code, or raise Refused; newer answers replace older."""
    who = clean_name(taster, "taster's name")
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        tasting, sheet = _newest(act.reading, trial)
        arms = {code: find_arm(trial, arm).id for arm, code in sheet.codes.items()}
        rows = []
        for code, words in said.items():
            if code not in arms:
                raise Refused(
                    f'There is no sample "{code[:20]}"; the codes are {listed(sorted(arms), most=12)}.'
                )
            rows += _answers(tasting, len(arms), code, arms[code], words)
        if not rows:
            raise Refused("No sample was scored; give scores like 418=7.")
        entry = act.entry("taste", [], note=f"{trial.name}: {who}")
        act.put("tasting_answer", entry, rows, tasting_id=tasting.id, taster=who)
        return done_of(act, f"{who} tasted {plural(len(said), 'sample')} of {trial.name}", ())


def checked_said(sheet: Sheet, said: SampleSaid) -> SampleSaid:
    """What was said of one sample, or Refused for a number that is no score or rank of it."""
    for score in said.scores.values():
        _check_score(score, len(sheet.codes) if sheet.ranks else None)
    return said


def _check_score(score: float, ranks: int | None, of: str = "") -> None:
    what, top = ("score", HIGHEST) if ranks is None else ("rank", float(ranks))
    if not LOWEST <= score <= top:
        raise Refused(f"The {what} {number_words(score, 2)}{of} must be between 1 and {top:g}.")


def _answers(
    tasting: Tasting, samples: int, code: str, arm: int, said: SampleSaid
) -> list[dict[str, Any]]:
    """Rows of answers, their columns by name."""
    rows: list[dict[str, Any]] = []
    for aspect, score in said.scores.items():
        if aspect not in ASPECTS:
            raise Refused(f'"{aspect[:20]}" is not part of a tasting; use {listed(list(ASPECTS))}.')
        _check_score(score, samples if tasting.ranks else None, f" of {code}")
        rows.append({"arm_id": arm, "aspect": aspect, "score": score, "words": ""})
    words = clean(said.words, lines=False)
    if len(words) > LONGEST_WORDS:
        raise Refused(f"The words on {code} are longer than {LONGEST_WORDS} characters.")
    own = {"arm_id": arm, "aspect": "words", "score": None, "words": words}
    return [*rows, own] if words else rows


def write_triangle(book: Book, name: str, arms: tuple[str, str], tasters: int, right: int) -> Done:
    """Write a triangle test of two arms, how many tasted and were right, or raise Refused."""
    result = triangle(tasters, right)
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        first, second = (find_arm(trial, arm) for arm in arms)
        if first == second:
            raise Refused("A triangle test needs two different arms.")
        said = f"{first.name} and {second.name}"
        entry = act.entry("triangle", [], note=f"{trial.name}: {said}, {right} of {tasters}")
        act.put(
            "triangle", entry, trial_id=trial.id, first_arm_id=first.id, second_arm_id=second.id,
            tasters=tasters, found=right,
        )  # fmt: skip
        return done_of(act, f"{said}: {result.words}", ())
