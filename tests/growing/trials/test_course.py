"""When a trial is judged: at its planned end, or with a smaller chance where there is none."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest

from logbook.growing.trays.life import Status, TrayState
from logbook.growing.trials.course import Course, course_of
from logbook.growing.trials.kept import PlannedEnd, Trial, TrialArm
from logbook.growing.trials.record import TrayRecord
from tests.room import field_test, moment

START = moment("2026-04-01 08:00")


def at(day: float) -> datetime:
    return START + timedelta(days=day)


def trial(**changes: Any) -> Trial:
    """Two arms of two trays each, sown once."""
    given = {
        "id": 1, "entry_id": 1, "name": "t", "question": "", "factor": "luck", "version_id": 1,
        "measures": "grams", "replicates": 2, "blocks": "", "weeks": 0, "layout_number": 1,
        "made_at": START, "by": "IV",
        "arms": tuple(TrialArm(1, at, arm, "", "", None, None) for at, arm in enumerate("ab")),
    }  # fmt: skip
    return Trial(**{**given, **changes})


def tray(name: int, joined: float, weighed: float | None = None, **more: Any) -> TrayRecord:
    """Even trays are of arm a; days of joining and weighing."""
    status = Status.GROWING if weighed is None else Status.CUT
    state = TrayState(status=status, ended_at=None if weighed is None else at(weighed))
    given = {"state": state, "grams": None if weighed is None else 300.0, **more}
    return TrayRecord(
        number=name,
        name=name,
        arm="ab"[name % 2],
        template=field_test(),
        joined_at=at(joined),
        **given,
    )


FOUR = [tray(name, 0, 10) for name in range(4)]


def test_the_end_is_when_the_planned_trays_are_weighed_discarded_or_left_out() -> None:
    running = course_of(trial(), [*FOUR[:3], tray(3, 0)], UTC)
    assert (running.planned, running.done, running.over) == (4, 3, False)
    assert running.early.startswith("No verdict before the planned end: 3 of 4 trays are weighed")
    assert "Looking costs nothing" in running.early
    for last in (FOUR[3], tray(3, 0, left_out="discarded: mould")):
        over = course_of(trial(), [*FOUR[:3], last], UTC)
        assert (over.over, over.early, over.words, over.threshold) == (True, "", "", 0.05)
    assert course_of(trial(), [], UTC).early.startswith("No verdict before the planned end: 0 of 4")


@pytest.mark.parametrize(
    ("joined", "planned", "changed", "late", "threshold"),
    [(5, 6, False, 0, 0.05), (10, 6, False, 0, 0.05), (10.5, 4, True, 0, 0.01),
     (11, 4, True, 0, 0.01), (11.5, 4, False, 2, 0.05)],
)  # fmt: skip
def test_trays_beyond_the_plan_are_of_it_change_it_or_come_too_late(
    joined: float, planned: int, changed: bool, late: int, threshold: float
) -> None:
    """The first tray was weighed on day 10, the last of the planned ones on day 11."""
    planned_ones = [*FOUR[:3], tray(3, 0, 11)]
    course = course_of(trial(), [*planned_ones, tray(4, joined, 20), tray(5, joined, 20)], UTC)
    assert (course.planned, course.changed, len(course.late)) == (planned, changed, late)
    assert (course.threshold, course.early) == (threshold, "")
    assert ("Its plan changed after trays were weighed" in course.words) is changed
    assert ("2 trays joined after the planned end and aren't judged" in course.words) is bool(late)


@pytest.mark.parametrize(
    ("written", "changed", "early"),
    [(9, False, "3 of 6 trays"), (10, False, "3 of 6"), (11, True, "")],
)
def test_an_end_planned_anew_costs_nothing_until_a_tray_is_weighed(
    written: float, changed: bool, early: str
) -> None:
    """The first tray was weighed on day 10."""
    course = course_of(
        trial(ends=(PlannedEnd(1, 3),), planned_anew=(at(written),)), [*FOUR[:3], tray(3, 0)], UTC
    )
    assert (course.planned, course.changed, course.open) == (6, changed, changed)
    assert early in course.early
    assert bool(course.early) is not changed


def test_a_struck_sowing_is_no_tray_of_the_plan() -> None:
    struck = tray(4, 12, state=TrayState(status=Status.VOID))
    assert not course_of(trial(), [*FOUR, struck], UTC).words


def test_one_tray_per_arm_has_no_planned_end_and_every_look_asks_for_more() -> None:
    weeks = [
        tray(name, 7 * (name // 2), 7 * (name // 2) + 10, run=1 + name // 2) for name in range(24)
    ]
    course = course_of(trial(replicates=1), weeks[:8], UTC)
    assert (course.planned, course.early, course.threshold) == (None, "", 0.01)
    assert "It has no planned end, so a difference must stay below 1 %, not 5 %" in course.words
    # twelve days on which trays were weighed: more looks than the eight that 1 % pays for
    assert course_of(trial(replicates=1), weeks, UTC).threshold == pytest.approx(
        0.01 * (8 / 12) ** 4
    )


def test_a_week_that_was_skipped_is_said_and_the_end_waits_for_the_trays() -> None:
    third = [tray(name, 14, 24, run=3) for name in range(4, 8)]
    course = course_of(trial(weeks=3), [*FOUR, *third], UTC)
    assert course.early.endswith("Week 2 wasn't sown: the end waits for the trays, not for a date.")
    fourth = [tray(name, 21, 31, run=4) for name in range(8, 12)]
    assert course_of(trial(weeks=3), [*FOUR, *third, *fourth], UTC).over


def test_looking_twice_on_one_day_is_one_look() -> None:
    assert course_of(trial(), FOUR, UTC).looks == 1
    evening = timezone(timedelta(hours=-8))
    two = [tray(0, 0, 10.6), tray(1, 0, 10.8)]  # 21:24 and 2:12 UTC, 13:24 and 18:12 in the room
    assert course_of(trial(replicates=1), two, UTC).looks == 2
    assert course_of(trial(replicates=1), two, evening).looks == 1
    assert Course(looks=1).threshold == Course(looks=8).threshold == 0.01
