"""What lies exactly on an edge: midnights, the moment of a change, the ends of a cut window."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import islice

import pytest

from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.trays.chores import RoomHours, change_into, slots, times_of_day
from logbook.growing.trays.forecast import chores_of_tray, stage_starts, tray_window
from logbook.growing.trays.life import Deed, Status
from tests.room import (
    DAY,
    HOUR,
    HOURS,
    LONDON,
    changed,
    crop_of,
    day,
    field_test,
    moment,
    skipped,
    sown,
    tray_after,
    wall_words,
    watered,
)

MIDNIGHT = moment("2026-04-01 00:00")
NIGHTLY = RoomHours(LONDON, start=0, end=12 * 60)
SOWN = moment("2026-04-01 08:00")
DARK = Stage("dark", DAY, "lid", "dark", "mist", 1.0)
LIT = Stage("light", None, "none", "lit", "bottom", 1.0)


def found(
    crop: CropTemplate, deeds: list[Deed], now: datetime, on: str, hours: RoomHours = HOURS
) -> list[tuple[str, str]]:
    """Name the chores of a day with the clock times at which they are due."""
    state = tray_after(crop, deeds, now, hours)
    return [
        (each.chore, wall_words(each.due_at)[5:])
        for each in chores_of_tray(crop, state, now, day(on), hours)
    ]


def test_what_falls_on_midnight_belongs_to_the_day_that_begins() -> None:
    crop = crop_of(DARK, LIT, cut=CutWindow(0, DAY, 2 * DAY))
    ahead = {
        on: found(crop, [sown(MIDNIGHT)], MIDNIGHT, f"2026-04-0{on}", NIGHTLY) for on in (1, 2, 3)
    }
    assert ahead == {
        1: [],
        2: [("light_on", "04-02 00:00")],
        3: [("water", "04-03 00:00"), ("cut", "04-03 00:00")],
    }
    # and on the day itself, from the change on
    at = moment("2026-04-02 00:00")
    deeds = [sown(MIDNIGHT), changed(at, 1)]
    assert found(crop, deeds, at + timedelta(hours=1), "2026-04-02", NIGHTLY) == [
        ("water", "04-02 00:00")
    ]
    wet = [*deeds, watered(at + timedelta(hours=1))]
    assert found(crop, wet, at + timedelta(hours=2), "2026-04-02", NIGHTLY) == []


def test_a_soak_and_a_sowing_at_midnight_are_of_the_day_that_begins() -> None:
    crop = crop_of(LIT, soak_seconds=DAY)
    plan = [Deed(0, "plan", SOWN, planned_for=moment("2026-04-04 00:00"))]
    assert [found(crop, plan, SOWN, f"2026-04-0{on}") for on in (1, 2, 3, 4, 5)] == [
        [],
        [],
        [("soak", "04-03 00:00")],
        [("sow", "04-04 00:00")],
        [],
    ]


def test_water_due_at_the_moment_of_a_change_is_asked_from_then_on_only() -> None:
    """Until the change is made the tray is in the stage that asked; before, the next one asks."""
    room = RoomHours(LONDON, start=8 * 60)
    crop = crop_of(Stage("lid", 2 * DAY, "lid", "dark", "mist", 1.0), LIT)
    deeds = [sown(SOWN), watered(moment("2026-04-02 08:00"))]
    before, at = moment("2026-04-03 07:59"), moment("2026-04-03 08:00")
    change, water = ("light_on", "04-03 08:00"), ("water", "04-03 08:00")
    assert found(crop, deeds, before, "2026-04-03", room) == [change]
    assert found(crop, deeds, at, "2026-04-03", room) == [change, water]
    early = RoomHours(LONDON, start=7 * 60 + 59)
    assert found(crop, deeds, moment("2026-04-03 07:00"), "2026-04-03", early) == [
        change, ("water", "04-03 07:59"),
    ]  # fmt: skip


def test_a_cut_is_overdue_past_the_end_of_its_window_and_late_at_no_moment_before() -> None:
    crop = crop_of(LIT, cut=CutWindow(0, DAY, 2 * DAY))
    end = SOWN + timedelta(days=2)
    for now, overdue in ((end, False), (end + timedelta(seconds=1), True)):
        state = tray_after(crop, [sown(SOWN)], now)
        (cut,) = [
            each
            for each in chores_of_tray(crop, state, now, day("2026-04-03"), HOURS)
            if each.chore == "cut"
        ]
        assert (cut.overdue, cut.later, cut.due_at) == (overdue, False, SOWN + timedelta(days=1))


def test_a_sign_seen_after_the_best_moment_does_not_move_the_cut() -> None:
    crop = crop_of(LIT, cut=CutWindow(0, DAY, 4 * DAY))
    seen = [sown(SOWN), Deed(0, "look", moment("2026-04-03 09:00"), sign=True)]
    now = moment("2026-04-03 10:00")
    assert ("cut", "04-02 08:00") in found(crop, seen, now, "2026-04-03")


def test_the_window_of_a_tray_that_is_gone_is_not_moved_by_time() -> None:
    """While it grows, a late change is taken as made now; what was cut stays as it was then."""
    crop = crop_of(DARK, LIT, cut=CutWindow(0, DAY, 2 * DAY))
    now = SOWN + timedelta(days=5)
    growing = tray_after(crop, [sown(SOWN)], now)
    cut = tray_after(crop, [sown(SOWN), Deed(0, "cut", SOWN + timedelta(days=2))], now)
    moved, stays = tray_window(crop, growing, now), tray_window(crop, cut, now)
    assert moved is not None
    assert stays is not None
    assert (moved.start, stays.start) == (now, SOWN + timedelta(days=1))
    assert tray_window(crop, tray_after(crop, [], now), now) is None


def test_the_window_of_a_late_plan_begins_now() -> None:
    crop = crop_of(LIT, cut=CutWindow(0, DAY, 2 * DAY))
    plan = [Deed(0, "plan", MIDNIGHT, planned_for=SOWN)]
    for now, start in ((MIDNIGHT, SOWN), (SOWN + timedelta(hours=5), SOWN + timedelta(hours=5))):
        window = tray_window(crop, tray_after(crop, plan, now), now)
        assert window is not None
        assert window.start == start
    # and once it is sown, its own day counts and no longer the planned one
    late = SOWN + timedelta(days=1)
    window = tray_window(
        crop, tray_after(crop, [*plan, sown(late)], late), late + timedelta(hours=3)
    )
    assert window is not None
    assert window.start == late


def test_an_open_stage_has_no_end_and_no_stage_after_it() -> None:
    crop = crop_of(Stage("open", None), LIT)
    assert stage_starts(crop, 0, SOWN) == [SOWN]


def test_a_chore_put_off_long_ago_is_due_again_at_its_own_time() -> None:
    """A skip of the 5th asks again on the 6th; what falls due after the skip's day is untouched."""
    crop = field_test()
    early = [sown(SOWN), skipped(moment("2026-04-04 20:00"), "weight_off")]
    assert ("weight_off", "04-05 08:00") in found(
        crop, early, moment("2026-04-05 09:00"), "2026-04-05"
    )
    plan = [
        Deed(0, "plan", MIDNIGHT, planned_for=moment("2026-04-03 10:30")),
        skipped(moment("2026-04-03 11:00"), "sow"),
    ]
    now = moment("2026-04-03 12:00")
    dry = field_test(soak_seconds=0)
    assert [found(dry, plan, now, f"2026-04-0{on}") for on in (3, 4, 5)] == [
        [], [("sow", "04-04 10:30")], [],
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("planned", "now", "tomorrow"),
    [
        ("04-03 08:00", "04-02 20:00", [("soak", "04-03 07:00"), ("sow", "04-03 19:00")]),
        ("04-03 08:00", "04-02 19:30", [("sow", "04-03 08:00")]),
        ("04-03 02:00", "04-02 18:00", [("sow", "04-03 06:00")]),
        ("04-03 02:00", "04-02 18:59", [("sow", "04-03 06:59")]),
        ("04-02 20:00", "04-02 07:30", []),
        ("04-02 20:00", "04-02 13:00", [("sow", "04-03 01:00")]),
    ],
)
def test_a_sowing_waits_for_its_late_soak(
    planned: str, now: str, tomorrow: list[tuple[str, str]]
) -> None:
    """A soak of 12 h that is late is taken as begun at the next walk, and its sowing waits for it."""
    plan = [Deed(0, "plan", MIDNIGHT, planned_for=moment(f"2026-{planned}"))]
    crop, at = field_test(soak_seconds=12 * HOUR), moment(f"2026-{now}")
    assert found(crop, plan, at, "2026-04-03") == tomorrow


def test_a_cut_of_today_is_tomorrows_once_the_day_is_over() -> None:
    """It is best at 20:00 of the 8th; the room is worked from 7 to 19."""
    deeds = [sown(SOWN), changed(moment("2026-04-06 08:00"), 2)]
    for now, listed in (("04-08 18:59", []), ("04-08 19:00", [("cut", "04-08 20:00")])):
        tomorrow = found(field_test(), deeds, moment(f"2026-{now}"), "2026-04-09")
        assert [each for each in tomorrow if each[0] == "cut"] == listed


def test_a_sowing_forgets_what_was_skipped_before_it() -> None:
    plan = [
        Deed(0, "plan", MIDNIGHT, planned_for=SOWN),
        skipped(SOWN, "sow"),
        skipped(SOWN, "cut"),
        sown(moment("2026-04-01 09:00")),
    ]
    assert tray_after(field_test(), plan, SOWN).put_off == {}


def test_every_second_day_leaves_out_the_stage_s_first_day_however_early_it_began() -> None:
    times = islice(slots(0.5, moment("2026-04-01 06:00"), MIDNIGHT, HOURS), 2)
    assert [wall_words(each) for each in times] == ["2026-04-03 07:00", "2026-04-05 07:00"]


def test_a_chore_that_is_never_due_has_no_times_and_a_rare_one_is_at_the_day_s_start() -> None:
    assert list(slots(0, SOWN, SOWN, HOURS)) == []
    assert times_of_day(0.2, HOURS) == (7 * 60,)
    thrice = islice(slots(0.3, SOWN, SOWN, HOURS), 2)
    assert [wall_words(each) for each in thrice] == ["2026-04-04 07:00", "2026-04-07 07:00"]


def test_there_is_no_change_into_the_sowing() -> None:
    assert change_into(field_test(), 0).parts == ()


@pytest.mark.parametrize(
    ("deed", "after"),
    [
        (Deed(0, "change", SOWN, stage=7), 2),
        (Deed(0, "change", SOWN, stage=2), 2),
        (Deed(0, "change", SOWN), 0),
    ],
)
def test_a_change_beyond_the_last_stage_is_one_into_the_last(deed: Deed, after: int) -> None:
    """A template that was shortened has fewer stages than an entry of before may name."""
    assert tray_after(field_test(), [sown(SOWN), deed], SOWN).stage == after


def test_a_change_of_a_tray_that_is_gone_changes_nothing() -> None:
    gone = [sown(SOWN), Deed(0, "cut", SOWN), changed(SOWN + timedelta(hours=1), 1)]
    state = tray_after(field_test(), gone, SOWN + timedelta(hours=2))
    assert (state.status, state.stage) == (Status.CUT, 0)


def test_cuts_are_counted_and_add_up_and_the_last_ends_the_tray() -> None:
    cuts = [
        Deed(0, "weigh", SOWN + timedelta(days=6), grams=120.5, part=True),
        Deed(0, "weigh", SOWN + timedelta(days=7), grams=None, part=True),
    ]
    growing = tray_after(field_test(), [sown(SOWN), *cuts], SOWN + timedelta(days=8))
    assert (growing.harvest, growing.grams, growing.status) == (1, 120.5, Status.GROWING)
    last = Deed(0, "weigh", SOWN + timedelta(days=8), grams=80.0)
    ended = tray_after(field_test(), [sown(SOWN), *cuts, last], SOWN + timedelta(days=9))
    assert (ended.harvest, ended.grams, ended.ended_at) == (1, 200.5, SOWN + timedelta(days=8))


def test_the_first_sign_counts_and_a_clean_look_takes_mould_back() -> None:
    def looked(hour: int, *, sign: bool = False, mould: str = "") -> Deed:
        return Deed(0, "look", SOWN + timedelta(hours=hour), sign=sign, mould=mould)

    looks = [looked(1, sign=True), looked(2, sign=True, mould="spot"), looked(3)]
    state = tray_after(field_test(), [sown(SOWN), *looks], SOWN + timedelta(hours=4))
    assert state.sign_at == SOWN + timedelta(hours=1)
    assert state.mould_at == SOWN + timedelta(hours=2)
    clean = [sown(SOWN), *looks, looked(4, mould="none")]
    assert tray_after(field_test(), clean, SOWN + timedelta(hours=5)).mould_at is None


def test_words_of_a_status() -> None:
    assert [each.words for each in Status] == [
        "struck out", "planned", "growing", "cut", "discarded", "sold live",
    ]  # fmt: skip


def test_a_quiet_change_passes_at_its_moment_and_only_while_the_tray_grows() -> None:
    crop = crop_of(
        Stage("wet", HOUR, "lid", "dark", "mist", 1.0), Stage("dry", HOUR, "lid", "dark"), LIT
    )
    just = SOWN + timedelta(hours=1)
    assert tray_after(crop, [sown(SOWN)], just - timedelta(seconds=1)).stage == 0
    assert tray_after(crop, [sown(SOWN)], just).stage == 1
    gone = [sown(SOWN), Deed(0, "discard", SOWN + timedelta(minutes=5))]
    assert tray_after(crop, gone, just).stage == 0
