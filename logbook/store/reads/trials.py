"""Reading trials: what stands of them. Nothing here commits."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import datetime

from logbook.growing.trials import kept
from logbook.growing.trials.kept import Happenings, Trial, TrialArm, TrialTray
from logbook.store.reads.standing import STANDS, WEIGHED_TOGETHER
from logbook.store.rows import Rows, grouped, moment

MOST_WEIGHTS = 200
"""So many of the newest single weights tell of a crop's spread."""


def read_trials(reading: Rows) -> list[Trial]:
    """The standing trials, in the order in which they were set up."""
    every_arm = reading.make(
        TrialArm,
        "SELECT trial_id, id, name, setting, colour, version_id, place_id FROM trial_arm "
        "ORDER BY trial_id, position",
    )
    arms = grouped((arm.trial_id, arm) for arm in every_arm)
    blocks = "SELECT trial_id, id, place_id FROM trial_block ORDER BY trial_id, position"
    shelves = grouped((trial, (block, place)) for trial, block, place in reading.rows(blocks))
    trials = reading.make(
        Trial,
        "SELECT t.id, t.entry_id, t.name, t.question, t.thing AS factor, t.version_id, t.measures, "
        't.repeats AS replicates, t.blocks, t.weeks, t.seed AS layout_number, e.at AS made_at, e."by" '
        f"FROM trial t JOIN entry e ON e.id = t.entry_id WHERE {STANDS} ORDER BY t.id",
    )
    return [
        replace(each, arms=tuple(arms.get(each.id, ())), shelves=tuple(shelves.get(each.id, ())))
        for each in trials
    ]


def read_trial_trays(reading: Rows, trial_id: int) -> list[TrialTray]:
    """The trays of a trial as the newest standing word on each has them, by tray."""
    said = reading.make(
        TrialTray,
        "SELECT p.tray_id, p.arm_id, p.block_id, p.run, p.left_out FROM trial_tray p "
        f"JOIN entry e ON e.id = p.entry_id WHERE p.trial_id = ? AND {STANDS} ORDER BY e.id",
        (trial_id,),
    )
    newest = {tray.tray_id: tray for tray in said}
    return [newest[tray] for tray in sorted(newest)]


_HAPPENED = f"""
SELECT et.tray_id, e.kind, e."by", e.note, a.amount_ml, w.shared, l.height_mm, l.stem_colour
FROM entry_tray et JOIN entry e ON e.id = et.entry_id
LEFT JOIN watering a ON a.entry_id = e.id
LEFT JOIN weight w ON w.entry_id = e.id AND w.tray_id = et.tray_id
LEFT JOIN look l ON l.entry_id = e.id
WHERE {STANDS} AND e.kind IN ('sow', 'water', 'look', 'weigh', 'cut', 'discard')
"""


def read_happenings(reading: Rows, trays: Collection[int]) -> dict[int, Happenings]:
    """Who sowed and cut trays, what water they got and what looks saw, by tray id."""
    found = {tray: Happenings() for tray in trays}
    for tray, kind, by, note, amount, shared, height, stems in reading.rows_of(
        f"{_HAPPENED} AND et.tray_id IN (ids) ORDER BY e.at, e.id", trays
    ):
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


def read_single_weights(
    reading: Rows, template_id: int, leave: Collection[int]
) -> dict[int, list[float]]:
    """Weights in g of a template's newest cut trays that were weighed singly, by batch.

    `leave` are tray ids that are left aside.
    """
    found: dict[int, list[float]] = {}
    left = MOST_WEIGHTS
    for tray, batch, grams in reading.rows(
        "SELECT t.id, t.batch_id, t.cut_grams FROM tray t "
        "JOIN template_version v ON v.id = t.version_id "
        "WHERE v.template_id = ? AND t.cut_grams IS NOT NULL ORDER BY t.ended_at DESC, t.id",
        (template_id,),
    ):
        together = f"SELECT EXISTS ({WEIGHED_TOGETHER}) FROM tray t WHERE t.id = ?"
        if tray in leave or reading.value(together, (tray,)):
            continue
        found.setdefault(batch, []).append(grams)
        left -= 1
        if not left:
            break
    return found


def read_tastings(reading: Rows, trial_id: int) -> list[kept.Tasting]:
    """The standing tastings of a trial, oldest first."""
    return reading.make(
        kept.Tasting,
        "SELECT t.id, t.entry_id, t.ranks, t.seed, e.at FROM tasting t "
        f"JOIN entry e ON e.id = t.entry_id WHERE t.trial_id = ? AND {STANDS} ORDER BY t.id",
        (trial_id,),
    )


def read_answers(reading: Rows, tasting_id: int) -> list[kept.Answer]:
    """The standing answers of a tasting, as they were written."""
    return reading.make(
        kept.Answer,
        "SELECT a.tasting_id, a.taster, a.arm_id, a.aspect, a.score, a.words "
        "FROM tasting_answer a JOIN entry e ON e.id = a.entry_id "
        f"WHERE a.tasting_id = ? AND {STANDS} ORDER BY e.id, a.arm_id, a.aspect",
        (tasting_id,),
    )


def read_triangles(reading: Rows, trial_id: int) -> list[kept.TriangleTest]:
    """The standing triangle tests of a trial, oldest first."""
    return reading.make(
        kept.TriangleTest,
        "SELECT r.first_arm_id, r.second_arm_id, r.tasters, r.found FROM triangle r "
        f"JOIN entry e ON e.id = r.entry_id WHERE r.trial_id = ? AND {STANDS} ORDER BY e.id",
        (trial_id,),
    )


def read_criteria(reading: Rows, trial_id: int) -> tuple[datetime | None, dict[str, float]]:
    """When the criteria's weights were said last, and the weights; (None, {}) for none."""
    rows = reading.rows(
        "SELECT e.id, e.written_at, c.name, c.weight FROM trial_criterion c "
        f"JOIN entry e ON e.id = c.entry_id WHERE c.trial_id = ? AND {STANDS} "
        "ORDER BY e.id DESC, c.name",
        (trial_id,),
    )
    if not rows:
        return None, {}
    newest, said_at = rows[0][:2]
    return moment(said_at), {name: weight for entry, _, name, weight in rows if entry == newest}


def read_decisions(reading: Rows, trial_id: int) -> list[kept.Decision]:
    """The standing decisions on a trial, oldest first."""
    return reading.make(
        kept.Decision,
        'SELECT d.entry_id, d.arm_id, d.version_id, d.decided, d.try_next, e.at, e."by" '
        "FROM trial_decision d JOIN entry e ON e.id = d.entry_id "
        f"WHERE d.trial_id = ? AND {STANDS} ORDER BY e.id",
        (trial_id,),
    )
