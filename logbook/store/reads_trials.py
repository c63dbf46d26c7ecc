"""Reading trials: what stands of them. Nothing here commits."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from logbook.store.reads import STANDS, WEIGHED_TOGETHER
from logbook.store.rows import Rows, chunks, moment


@dataclass(frozen=True, slots=True)
class StoredArm:
    """An arm of a trial."""

    id: int
    name: str
    setting: str
    colour: str
    version_id: int | None
    place_id: int | None


@dataclass(frozen=True, slots=True)
class StoredTrial:
    """A trial whose set-up stands. `shelves` are (block id, place id) in their order."""

    id: int
    entry_id: int
    name: str
    question: str
    thing: str
    version_id: int
    measures: str
    repeats: int
    blocks: str
    weeks: int
    seed: int
    made_at: datetime
    by: str
    arms: tuple[StoredArm, ...]
    shelves: tuple[tuple[int, int], ...]

    def arm(self, arm_id: int) -> StoredArm:
        """Give one of its arms."""
        return next(arm for arm in self.arms if arm.id == arm_id)


_TRIAL = f"""
SELECT t.id, t.entry_id, t.name, t.question, t.thing, t.version_id, t.measures, t.repeats,
       t.blocks, t.weeks, t.seed, e.at, e."by"
FROM trial t JOIN entry e ON e.id = t.entry_id
WHERE {STANDS} ORDER BY t.id
"""


def read_trials(reading: Rows) -> list[StoredTrial]:
    """Give the standing trials, in the order in which they were set up."""
    arms: dict[int, list[StoredArm]] = {}
    for trial, *row in reading.rows(
        "SELECT trial_id, id, name, setting, colour, version_id, place_id FROM trial_arm "
        "ORDER BY trial_id, position"
    ):
        arms.setdefault(trial, []).append(StoredArm(*row))
    shelves: dict[int, list[tuple[int, int]]] = {}
    for trial, block, place in reading.rows(
        "SELECT trial_id, id, place_id FROM trial_block ORDER BY trial_id, position"
    ):
        shelves.setdefault(trial, []).append((block, place))
    found = []
    for each in reading.rows(_TRIAL):
        columns: list[Any] = [*each[:11], moment(each[11]), each[12]]
        columns += [tuple(arms.get(each[0], ())), tuple(shelves.get(each[0], ()))]
        found.append(StoredTrial(*columns))
    return found


@dataclass(frozen=True, slots=True)
class TrialTray:
    """A tray of a trial: its arm, block and run; `left_out` is why it does not count, or ''."""

    tray_id: int
    arm_id: int
    block_id: int | None
    run: int
    left_out: str


def read_trial_trays(reading: Rows, trial_id: int) -> list[TrialTray]:
    """Give the trays of a trial as the newest standing word on each has them, by tray."""
    newest: dict[int, TrialTray] = {}
    for row in reading.rows(
        "SELECT p.tray_id, p.arm_id, p.block_id, p.run, p.left_out FROM trial_tray p "
        f"JOIN entry e ON e.id = p.entry_id WHERE p.trial_id = ? AND {STANDS} ORDER BY e.id",
        (trial_id,),
    ):
        newest[row[0]] = TrialTray(*row)
    return [newest[tray] for tray in sorted(newest)]


@dataclass(slots=True)
class Happenings:
    """What standing entries say of one tray, besides what makes its state."""

    sown_by: str = ""
    cut_by: str = ""
    waterings: int = 0
    water_ml: float = 0.0
    without_amount: int = 0
    shared: bool = False
    height_mm: float | None = None
    discarded: str = ""
    stems: list[str] = field(default_factory=list)


_HAPPENED = f"""
SELECT et.tray_id, e.kind, e."by", e.note, a.amount_ml, w.shared, l.height_mm, l.stem_colour
FROM entry_tray et JOIN entry e ON e.id = et.entry_id
LEFT JOIN watering a ON a.entry_id = e.id
LEFT JOIN weight w ON w.entry_id = e.id AND w.tray_id = et.tray_id
LEFT JOIN look l ON l.entry_id = e.id
WHERE {STANDS} AND e.kind IN ('sow', 'water', 'look', 'weigh', 'cut', 'discard')
"""


def read_happenings(reading: Rows, trays: Collection[int]) -> dict[int, Happenings]:
    """Give who sowed and cut trays, what water they got and what looks saw, by tray id."""
    found = {tray: Happenings() for tray in trays}
    for tray, kind, by, note, amount, shared, height, stems in _happened(reading, trays):
        mine = found[tray]
        if kind == "sow":
            mine.sown_by = by
        elif kind == "water":
            mine.waterings += 1
            mine.water_ml += amount or 0.0
            mine.without_amount += amount is None
        elif kind == "look":
            mine.height_mm = mine.height_mm if height is None else height
            mine.stems += [stems] if stems else []
        elif kind == "discard":
            mine.discarded = note
        else:
            mine.cut_by = by
            mine.shared = mine.shared or bool(shared)
    return found


def _happened(
    reading: Rows, trays: Collection[int]
) -> Iterator[tuple[int, str, str, str, float | None, int | None, float | None, str | None]]:
    for some in chunks(trays):
        yield from reading.rows(
            f"{_HAPPENED} AND et.tray_id IN ({','.join('?' * len(some))}) ORDER BY e.at, e.id",
            some,
        )


def read_single_weights(
    reading: Rows, template_id: int, leave: Collection[int], most: int = 200
) -> dict[int, list[float]]:
    """Give weights in g of a template's newest cut trays that were weighed singly, by batch.

    `leave` are tray ids that are left aside.
    """
    found: dict[int, list[float]] = {}
    left = most
    for tray, batch, grams in reading.rows(
        "SELECT t.id, t.batch_id, t.cut_grams FROM tray t "
        "JOIN template_version v ON v.id = t.version_id "
        "WHERE v.template_id = ? AND t.cut_grams IS NOT NULL ORDER BY t.ended_at DESC, t.id",
        (template_id,),
    ):
        if tray in leave or _weighed_together(reading, tray):
            continue
        found.setdefault(batch, []).append(grams)
        left -= 1
        if not left:
            break
    return found


def _weighed_together(reading: Rows, tray_id: int) -> bool:
    """Whether a standing weight of a tray was weighed together with others."""
    return bool(
        reading.value(f"SELECT EXISTS ({WEIGHED_TOGETHER}) FROM tray t WHERE t.id = ?", (tray_id,))
    )


@dataclass(frozen=True, slots=True)
class StoredTasting:
    """A tasting of a trial whose set-up stands."""

    id: int
    entry_id: int
    ranks: bool
    seed: int
    at: datetime


@dataclass(frozen=True, slots=True)
class Answer:
    """What a taster said of an arm under an aspect."""

    tasting_id: int
    taster: str
    arm_id: int
    aspect: str
    score: float | None
    words: str


def read_tastings(reading: Rows, trial_id: int) -> list[StoredTasting]:
    """Give the standing tastings of a trial, oldest first."""
    rows = reading.rows(
        "SELECT t.id, t.entry_id, t.ranks, t.seed, e.at FROM tasting t "
        f"JOIN entry e ON e.id = t.entry_id WHERE t.trial_id = ? AND {STANDS} ORDER BY t.id",
        (trial_id,),
    )
    return [StoredTasting(row[0], row[1], bool(row[2]), row[3], moment(row[4])) for row in rows]


def read_answers(reading: Rows, tasting_id: int) -> list[Answer]:
    """Give the standing answers of a tasting, as they were written."""
    rows = reading.rows(
        "SELECT a.tasting_id, a.taster, a.arm_id, a.aspect, a.score, a.words "
        f"FROM tasting_answer a JOIN entry e ON e.id = a.entry_id WHERE a.tasting_id = ? AND {STANDS} "
        "ORDER BY e.id, a.arm_id, a.aspect",
        (tasting_id,),
    )
    return [Answer(*row) for row in rows]


@dataclass(frozen=True, slots=True)
class StoredTriangle:
    """A triangle test of two arms."""

    first_arm_id: int
    second_arm_id: int
    tasters: int
    found: int


def read_triangles(reading: Rows, trial_id: int) -> list[StoredTriangle]:
    """Give the standing triangle tests of a trial, oldest first."""
    rows = reading.rows(
        "SELECT r.first_arm_id, r.second_arm_id, r.tasters, r.found FROM triangle r "
        f"JOIN entry e ON e.id = r.entry_id WHERE r.trial_id = ? AND {STANDS} ORDER BY e.id",
        (trial_id,),
    )
    return [StoredTriangle(*row) for row in rows]


def read_criteria(reading: Rows, trial_id: int) -> tuple[datetime | None, dict[str, float]]:
    """Give when the criteria's weights were said last, and the weights; (None, {}) for none."""
    rows = reading.rows(
        "SELECT e.id, e.written_at, c.name, c.weight FROM trial_criterion c "
        f"JOIN entry e ON e.id = c.entry_id WHERE c.trial_id = ? AND {STANDS} "
        "ORDER BY e.id DESC, c.name",
        (trial_id,),
    )
    if not rows:
        return None, {}
    newest = [row for row in rows if row[0] == rows[0][0]]
    return moment(newest[0][1]), {row[2]: row[3] for row in newest}


@dataclass(frozen=True, slots=True)
class StoredDecision:
    """A decision on a trial; `version_id` is the template version that it made."""

    entry_id: int
    arm_id: int | None
    version_id: int | None
    decided: str
    try_next: str
    at: datetime
    by: str


def read_decisions(reading: Rows, trial_id: int) -> list[StoredDecision]:
    """Give the standing decisions on a trial, oldest first."""
    rows = reading.rows(
        'SELECT d.entry_id, d.arm_id, d.version_id, d.decided, d.try_next, e.at, e."by" '
        "FROM trial_decision d JOIN entry e ON e.id = d.entry_id "
        f"WHERE d.trial_id = ? AND {STANDS} ORDER BY e.id",
        (trial_id,),
    )
    found = []
    for row in rows:
        columns: list[Any] = [*row[:5], moment(row[5]), row[6]]
        found.append(StoredDecision(*columns))
    return found
