"""Tasting a trial's arms blind: codes, an order for each taster, answers, triangle tests."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from logbook.actions.book import Book
from logbook.actions.doing import Done
from logbook.actions.reading import Reading
from logbook.actions.trials import find_arm, find_trial
from logbook.growing.measures import number_words
from logbook.growing.quantities import LAYOUT_NUMBER
from logbook.growing.trials.tasting import (
    Ranks,
    Triangle,
    blind_codes,
    orders,
    ranks,
    triangle,
)
from logbook.store.reads_trials import (
    Answer,
    StoredTasting,
    StoredTrial,
    read_answers,
    read_tastings,
    read_trials,
    read_triangles,
)
from logbook.text import Refused, clean, clean_name, fold, listed, plural

ASPECTS = ("taste", "crunch", "looks")
LOWEST, HIGHEST = 1.0, 9.0
LONGEST_WORDS = 400


@dataclass(frozen=True, slots=True)
class Said:
    """What a taster says of one sample: aspect → score (1–9) or rank, and own words."""

    scores: Mapping[str, float]
    words: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A tasting as it is laid out. `codes` is arm → code: not for the tasters' eyes."""

    trial: str
    number: int
    ranks: bool
    codes: Mapping[str, str]
    seed: int

    def order(self, taster: str) -> tuple[str, ...]:
        """Give the codes in the order in which this taster gets them."""
        return orders([fold(taster)], tuple(self.codes.values()), self.seed)[fold(taster)]


@dataclass(frozen=True, slots=True)
class AspectResult:
    """What the tasters' numbers for one aspect show; `ranks` None where they cannot be compared."""

    aspect: str
    ranks: Ranks | None
    words: str


@dataclass(frozen=True, slots=True)
class TastingResult:
    """A tasting with its answers: the results by aspect, and (arm, taster, words) as written."""

    sheet: Sheet
    tasters: tuple[str, ...]
    aspects: tuple[AspectResult, ...]
    notes: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class TriangleResult:
    """A triangle test of two arms."""

    first: str
    second: str
    result: Triangle


def new_tasting(book: Book, name: str, *, ranked: bool = False, seed: int | None = None) -> Sheet:
    """Set a tasting up: blind three-digit codes from a kept seed number.

    Raises:
        Refused: no such trial, or a bad seed.
    """
    from logbook.store.tables import TastingRow

    drawn = secrets.randbelow(LAYOUT_NUMBER.most) + 1 if seed is None else seed
    LAYOUT_NUMBER.checked(drawn)
    with book.writing() as act:
        trial = find_trial(name, read_trials(act.reading))
        blind_codes([arm.name for arm in trial.arms], drawn)
        entry = act.entry("tasting", [], note=trial.name)
        row = TastingRow(entry_id=entry, trial_id=trial.id, ranks=ranked, seed=drawn)
        act.session.add(row)
        act.session.flush()
        assert row.id is not None  # noqa: S101 - flushed
        tasting = StoredTasting(row.id, entry, ranked, drawn, act.now)
        return _sheet(trial, tasting, len(read_tastings(act.reading, trial.id)))


def _sheet(trial: StoredTrial, tasting: StoredTasting, number: int) -> Sheet:
    names = [arm.name for arm in trial.arms]
    return Sheet(trial.name, number, tasting.ranks, blind_codes(names, tasting.seed), tasting.seed)


def newest_sheet(book: Book, name: str) -> Sheet:
    """Give the newest tasting of a trial; raise Refused where there is none."""
    with book.reading() as reading:
        trial = find_trial(name, read_trials(reading))
        return _newest(reading, trial)[1]


def _newest(reading: Reading, trial: StoredTrial) -> tuple[StoredTasting, Sheet]:
    every = read_tastings(reading, trial.id)
    if not every:
        raise Refused(
            f'There is no tasting of "{trial.name}" yet; `logbook trial taste NAME --new` draws '
            "the codes."
        )
    return every[-1], _sheet(trial, every[-1], len(every))


def taste(book: Book, name: str, taster: str, said: Mapping[str, Said]) -> Done:
    """Write what one taster said, code by code; a taster's newer answers replace older ones.

    Raises:
        Refused: an unknown code or aspect, a score out of range, or nothing said.
    """
    from logbook.store.tables import TastingAnswerRow

    who = clean_name(taster, "taster's name")
    with book.writing() as act:
        trial = find_trial(name, read_trials(act.reading))
        tasting, sheet = _newest(act.reading, trial)
        arms = {code: find_arm(trial, arm) for arm, code in sheet.codes.items()}
        rows = []
        for code, words in said.items():
            if code not in arms:
                raise Refused(
                    f'There is no sample "{code[:20]}"; the codes are {listed(sorted(arms), most=12)}.'
                )
            rows += _answers(tasting, len(arms), code, arms[code], words)
        if not rows:
            raise Refused("Nothing was said of any sample; give scores like 418=7.")
        entry = act.entry("taste", [], note=f"{trial.name}: {who}")
        act.session.add_all(
            TastingAnswerRow(
                entry_id=entry,
                arm_id=arm,
                aspect=aspect,
                tasting_id=tasting.id,
                taster=who,
                score=score,
                words=words,
            )
            for arm, aspect, score, words in rows
        )
        assert act.act_id is not None  # noqa: S101 - something was written
        return Done(f"{who} tasted {plural(len(said), 'sample')} of {trial.name}", act.act_id, ())


def _answers(
    tasting: StoredTasting, samples: int, code: str, arm: int, said: Said
) -> list[tuple[int, str, float | None, str]]:
    rows: list[tuple[int, str, float | None, str]] = []
    top = float(samples) if tasting.ranks else HIGHEST
    what = "rank" if tasting.ranks else "score"
    for aspect, score in said.scores.items():
        if aspect not in ASPECTS:
            raise Refused(f'"{aspect[:20]}" is not tasted; use {listed(list(ASPECTS))}.')
        if not LOWEST <= score <= top:
            raise Refused(
                f"The {what} {number_words(score, 2)} of {code} must lie between 1 and {top:g}."
            )
        rows.append((arm, aspect, score, ""))
    words = clean(said.words, lines=False)
    if len(words) > LONGEST_WORDS:
        raise Refused(f"The words on {code} are longer than {LONGEST_WORDS} characters.")
    if words:
        rows.append((arm, "words", None, words))
    return rows


def write_triangle(book: Book, name: str, arms: tuple[str, str], tasters: int, right: int) -> Done:
    """Write a triangle test of two arms: how many tasters, how many found the odd one.

    Raises:
        Refused: the same arm twice, no tasters, or more right than tasters.
    """
    from logbook.store.tables import TriangleRow

    result = triangle(tasters, right)
    with book.writing() as act:
        trial = find_trial(name, read_trials(act.reading))
        first, second = (find_arm(trial, arm) for arm in arms)
        if first == second:
            raise Refused("A triangle test needs two different arms.")
        said = f"{trial.arm(first).name} and {trial.arm(second).name}"
        entry = act.entry("triangle", [], note=f"{trial.name}: {said}, {right} of {tasters}")
        act.session.add(
            TriangleRow(
                entry_id=entry,
                trial_id=trial.id,
                first_arm_id=first,
                second_arm_id=second,
                tasters=tasters,
                found=right,
            )
        )
        assert act.act_id is not None  # noqa: S101 - something was written
        return Done(f"{said}: {result.words}", act.act_id, ())


def tasting_of(reading: Reading, trial: StoredTrial) -> TastingResult | None:
    """Give the newest tasting of a trial with what its answers show; None where there is none."""
    if not read_tastings(reading, trial.id):
        return None
    tasting, sheet = _newest(reading, trial)
    answers = _newest_answers(read_answers(reading, tasting.id))
    tasters = tuple(dict.fromkeys(answer.taster for answer in answers))
    aspects = []
    for aspect in ASPECTS:
        given: dict[str, dict[str, float]] = {}
        for answer in answers:
            if answer.aspect == aspect and answer.score is not None:
                name = trial.arm(answer.arm_id).name
                given.setdefault(answer.taster, {})[name] = answer.score
        if given:
            aspects.append(_result(aspect, given, ranked=tasting.ranks))
    notes = tuple(
        (trial.arm(answer.arm_id).name, answer.taster, answer.words)
        for answer in answers
        if answer.words
    )
    return TastingResult(sheet, tasters, tuple(aspects), notes)


def _newest_answers(answers: list[Answer]) -> list[Answer]:
    newest: dict[tuple[str, int, str], Answer] = {}
    for answer in answers:
        newest[(fold(answer.taster), answer.arm_id, answer.aspect)] = answer
    return list(newest.values())


def _result(aspect: str, given: Mapping[str, Mapping[str, float]], *, ranked: bool) -> AspectResult:
    try:
        found = ranks(given, more_is_better=not ranked)
    except Refused as refused:
        return AspectResult(aspect, None, str(refused))
    return AspectResult(aspect, found, found.words)


def triangles_of(reading: Reading, trial: StoredTrial) -> tuple[TriangleResult, ...]:
    """Give the triangle tests of a trial."""
    return tuple(
        TriangleResult(
            trial.arm(each.first_arm_id).name,
            trial.arm(each.second_arm_id).name,
            triangle(each.tasters, each.found),
        )
        for each in read_triangles(reading, trial.id)
    )
