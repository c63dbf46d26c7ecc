"""Reading trials: what stands of them. Nothing here commits."""

from collections.abc import Collection
from dataclasses import replace
from datetime import datetime
from itertools import islice

from logbook.growing.trials import kept
from logbook.growing.trials.kept import Happenings, Trial, TrialArm, TrialTray
from logbook.store.reads.standing import STANDS, WEIGHED_TOGETHER, Said, standing
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
    said = standing(reading, kept.PlannedEnd, "trial_end", order="e.id")
    ends = grouped((end.trial_id, end) for end in said)
    written = "SELECT x.trial_id, e.written_at FROM trial_end x JOIN entry e ON e.id = x.entry_id"
    anew = grouped((trial, moment(at)) for trial, at in reading.rows(written))
    return [
        replace(
            each,
            arms=tuple(arms.get(each.id, ())),
            shelves=tuple(shelves.get(each.id, ())),
            ends=tuple(ends.get(each.id, ())),
            planned_anew=tuple(anew.get(each.id, ())),
        )
        for each in trials
    ]


def arms_of_live(reading: Rows) -> dict[int, str]:
    """The arm's name of each live tray (id) that counts in a standing trial."""
    rows = reading.rows(
        "SELECT x.tray_id, CASE x.left_out WHEN '' THEN a.name ELSE '' END FROM trial_tray x "
        "CROSS JOIN tray t ON t.id = x.tray_id CROSS JOIN trial_arm a ON a.id = x.arm_id "
        f"CROSS JOIN entry e ON e.id = x.entry_id WHERE t.live = 1 AND {STANDS} "
        "AND EXISTS (SELECT 1 FROM trial y JOIN entry m ON m.id = y.entry_id WHERE y.id = x.trial_id AND "
        f"{STANDS.replace('e.id', 'm.id')}) ORDER BY e.id"
    )
    arms: dict[int, str] = dict(rows)
    return {tray: name for tray, name in arms.items() if name}


_SAID = {
    kept.TrialTray: ("trial_tray", "trial_id"),
    kept.Tasting: ("tasting", "trial_id"),
    kept.Answer: ("tasting_answer", "tasting_id"),
    kept.TriangleTest: ("triangle", "trial_id"),
    kept.Decision: ("trial_decision", "trial_id"),
}
"""What entries say of a trial: the table of each, and the column of the trial or tasting."""


def read_said(reading: Rows, shape: type[Said], of: int) -> list[Said]:
    """What standing entries say of a trial (id), or of a tasting, oldest first, those of one entry by its columns."""
    table, column = _SAID[shape]
    order = "e.id, 1, 2, 3, 4"
    return standing(reading, shape, table, f"AND x.{column} = ?", (of,), order=order)


def read_trial_trays(reading: Rows, trial_id: int) -> list[TrialTray]:
    """The trays of a trial as the newest standing word on each has them, by tray."""
    said = grouped((tray.tray_id, tray) for tray in read_said(reading, TrialTray, trial_id))
    return [replace(said[tray][-1], at=said[tray][0].at) for tray in sorted(said)]


_HAPPENED = f"""
SELECT et.tray_id, e.kind, e."by", e.note, a.amount_ml, w.shared, l.height_mm, l.stem_colour
FROM entry_tray et JOIN entry e ON e.id = et.entry_id
LEFT JOIN watering a ON a.entry_id = e.id
LEFT JOIN weight w ON w.entry_id = e.id AND w.tray_id = et.tray_id
LEFT JOIN look l ON l.entry_id = e.id
WHERE {STANDS} AND e.kind IN ('sow', 'water', 'look', 'weigh', 'cut', 'cut_part', 'cut_keep', 'discard')
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
            known = amount is not None and mine.water_ml is not None
            mine.water_ml = mine.water_ml + amount if known else None
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
    """Weights (g) of a template's newest trays weighed singly, by batch, but those to `leave`."""
    cut = reading.rows(
        "SELECT t.id, t.batch_id, t.cut_grams FROM tray t "
        "JOIN template_version v ON v.id = t.version_id "
        "WHERE v.template_id = ? AND t.cut_grams IS NOT NULL ORDER BY t.ended_at DESC, t.id",
        (template_id,),
    )
    together = f"SELECT EXISTS ({WEIGHED_TOGETHER}) FROM tray t WHERE t.id = ?"
    singly = (
        (batch, grams)
        for tray, batch, grams in cut
        if tray not in leave and not reading.value(together, (tray,))
    )
    return grouped(islice(singly, MOST_WEIGHTS))


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
