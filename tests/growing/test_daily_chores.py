"""Watering and looking come round by the wall clock and do not pile up."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from itertools import islice

import pytest

from logbook.growing.crops.templates import CutWindow, Stage
from logbook.growing.trays.chores import RoomHours, early_seconds, slots, times_of_day
from logbook.growing.trays.forecast import chores_of_tray
from logbook.growing.trays.life import Deed, first_unmet
from tests.room import (
    DAY,
    HOUR,
    HOURS,
    LONDON,
    changed,
    crop_of,
    day,
    moment,
    skipped,
    sown,
    tray_after,
    wall_words,
    watered,
)

SOWN = moment("2026-04-01 08:00")


def lit(per_day: float) -> Stage:
    return Stage("light", None, "none", "lit", "bottom", per_day)


def waterings(
    deeds: list[Deed], now: str, on: str | None = None, per_day: float = 1.0
) -> list[str]:
    """Give when water is due on a tray that is lit from its sowing on."""
    template = crop_of(lit(per_day))
    at = moment(now)
    state = tray_after(template, deeds, at)
    found = chores_of_tray(template, state, at, day(on or now[:10]), HOURS)
    return [wall_words(each.due_at) for each in found if each.chore == "water"]


@pytest.mark.parametrize(
    ("per_day", "clocks"),
    [
        (1, ["07:00"]),
        (2, ["07:00", "17:00"]),
        (3, ["07:00", "12:00", "17:00"]),
        (4, ["07:00", "10:20", "13:40", "17:00"]),
        (0.5, ["07:00"]),
    ],
)
def test_times_of_day_are_spread_over_the_room_s_day(per_day: float, clocks: list[str]) -> None:
    assert [f"{each // 60:02}:{each % 60:02}" for each in times_of_day(per_day, HOURS)] == clocks


def test_the_room_s_own_hours_count() -> None:
    room = RoomHours(LONDON, start=9 * 60, end=15 * 60)
    assert times_of_day(2, room) == (9 * 60, 13 * 60)  # two hours before the end
    assert times_of_day(2, replace(room, evening=14 * 60 + 30)) == (9 * 60, 14 * 60 + 30)
    short = RoomHours(LONDON, start=9 * 60, end=10 * 60)
    assert times_of_day(2, short) == (9 * 60, 9 * 60 + 30)


def test_sown_in_the_morning_the_first_watering_is_tomorrow() -> None:
    assert waterings([sown(SOWN)], "2026-04-01 09:00") == []
    assert waterings([sown(SOWN)], "2026-04-01 09:00", on="2026-04-02") == ["2026-04-02 07:00"]


def test_missed_waterings_do_not_pile_up() -> None:
    assert waterings([sown(SOWN)], "2026-04-05 12:00") == ["2026-04-02 07:00"]
    once = [sown(SOWN), watered(moment("2026-04-05 12:00"))]
    assert waterings(once, "2026-04-05 12:01") == []
    assert waterings(once, "2026-04-06 07:00") == ["2026-04-06 07:00"]


@pytest.mark.parametrize(
    ("at", "due_that_day"),
    [
        ("2026-04-02 03:59", []),
        ("2026-04-02 06:30", []),
        ("2026-04-02 07:42", []),
        ("2026-04-02 23:00", []),
        ("2026-04-01 23:00", ["2026-04-02 07:00"]),
    ],
)
def test_one_watering_answers_one_time(at: str, due_that_day: list[str]) -> None:
    deeds = [sown(SOWN), watered(moment(at))]
    assert waterings(deeds, "2026-04-02 23:30") == due_that_day


def test_twice_a_day_asks_twice() -> None:
    deeds = [sown(SOWN)]
    assert waterings(deeds, "2026-04-01 08:30", per_day=2) == ["2026-04-01 17:00"]
    deeds.append(watered(moment("2026-04-01 17:05")))
    assert waterings(deeds, "2026-04-01 20:00", per_day=2) == []
    assert waterings(deeds, "2026-04-02 08:00", per_day=2) == ["2026-04-02 07:00"]
    deeds.append(watered(moment("2026-04-02 08:00")))
    assert waterings(deeds, "2026-04-02 08:01", per_day=2) == ["2026-04-02 17:00"]


def test_every_second_day_counts_from_the_stage_s_first_day() -> None:
    times = islice(slots(0.5, SOWN, SOWN, HOURS), 4)
    assert [wall_words(each)[:10] for each in times] == [
        "2026-04-03", "2026-04-05", "2026-04-07", "2026-04-09",
    ]  # fmt: skip
    deeds = [sown(SOWN)]
    assert waterings(deeds, "2026-04-02 08:00", per_day=0.5) == []
    assert waterings(deeds, "2026-04-03 08:00", per_day=0.5) == ["2026-04-03 07:00"]
    deeds.append(watered(moment("2026-04-03 08:00")))
    assert waterings(deeds, "2026-04-04 08:00", per_day=0.5) == []
    assert waterings(deeds, "2026-04-05 08:00", per_day=0.5) == ["2026-04-05 07:00"]


def test_a_skipped_watering_comes_at_its_next_time() -> None:
    deeds = [sown(SOWN), skipped(moment("2026-04-02 08:00"), "water")]
    assert waterings(deeds, "2026-04-02 08:01") == []
    assert waterings(deeds, "2026-04-03 07:30") == ["2026-04-03 07:00"]


def test_a_tray_that_comes_dry_into_a_watered_stage_is_due_at_once() -> None:
    template = crop_of(Stage("blackout", DAY, "lid", "dark"), lit(1.0))
    at = moment("2026-04-02 08:30")
    state = tray_after(template, [sown(SOWN), changed(at, 1)], at)
    found = chores_of_tray(template, state, at, day("2026-04-02"), HOURS)
    assert [(each.chore, each.due_at, each.overdue) for each in found] == [("water", at, False)]


def test_a_tray_watered_just_before_the_change_is_not_due_again() -> None:
    template = crop_of(Stage("mist", DAY, "lid", "dark", "mist", 1.0), lit(1.0))
    deeds = [
        sown(SOWN),
        watered(moment("2026-04-02 07:10")),
        changed(moment("2026-04-02 08:30"), 1),
    ]
    at = moment("2026-04-02 09:00")
    found = chores_of_tray(template, tray_after(template, deeds, at), at, day("2026-04-02"), HOURS)
    assert found == []


def test_looks_and_waterings_are_answered_apart() -> None:
    template = crop_of(Stage("light", None, "none", "lit", "top", 1.0, 1.0))
    at = moment("2026-04-02 08:00")

    def due(*deeds: Deed) -> list[str]:
        state = tray_after(template, [sown(SOWN), *deeds], at)
        return [
            each.chore for each in chores_of_tray(template, state, at, day("2026-04-02"), HOURS)
        ]

    assert due() == ["water", "look"]
    assert due(watered(at)) == ["look"]
    assert due(Deed(0, "look", at)) == ["water"]


def test_nothing_is_due_on_a_tray_that_is_gone() -> None:
    at: datetime = moment("2026-04-03 08:00")
    for end in (Deed(0, "cut", at), Deed(0, "discard", at), Deed(0, "weigh", at, grams=300.0)):
        assert waterings([sown(SOWN), end], "2026-04-05 08:00") == []
    part = Deed(0, "weigh", at, grams=120.0, part=True)
    assert waterings([sown(SOWN), part], "2026-04-05 08:00") == ["2026-04-02 07:00"]


def test_a_later_day_shows_the_stage_that_holds_by_then() -> None:
    template = crop_of(Stage("lid", 2 * DAY, "lid", "dark", "mist", 1.0), lit(2.0))
    now = SOWN + timedelta(hours=1)
    state = tray_after(template, [sown(SOWN)], now)
    on = {
        shift: [
            (each.chore, each.stage)
            for each in chores_of_tray(template, state, now, day(f"2026-04-0{shift}"), HOURS)
        ]
        for shift in (2, 3, 4)
    }
    assert on == {
        2: [("water", 0)],
        3: [("light_on", 0), ("water", 0), ("water", 1)],
        4: [("water", 1), ("water", 1)],
    }


# What a deed answers, and what a new stage begins with


@pytest.mark.parametrize(
    ("per_day", "hours"), [(12, 0.5), (4, 1.5), (2, 3), (1, 3), (0.5, 3), (0, 3)]
)
def test_a_chore_may_be_answered_a_quarter_gap_early_and_three_hours_at_most(
    per_day: float, hours: float
) -> None:
    assert early_seconds(per_day) == hours * 3600


@pytest.mark.parametrize(
    ("at", "next_at"),
    [
        ("2026-04-01 21:59", "2026-04-02 01:00"),
        ("2026-04-01 22:00", "2026-04-03 01:00"),
    ],
)
def test_water_of_the_evening_before_answers_the_night_s_only_from_three_hours_on(
    at: str, next_at: str
) -> None:
    # given a room whose day begins at 01:00
    room = RoomHours(LONDON, start=60, end=13 * 60)
    template = crop_of(lit(1.0))
    state = tray_after(template, [sown(SOWN), watered(moment(at))], moment(at), room)
    due = first_unmet(state, template, "water", room)
    assert due is not None
    assert wall_words(due) == next_at


def test_what_was_answered_in_a_stage_is_asked_anew_in_the_next() -> None:
    """A look at 16:30 is early enough for 19:30, but 17:00 is a look of the stage after it."""
    template = crop_of(
        Stage("lid", 2 * DAY, "lid", "dark", "none", 0, 1.0),
        Stage("light", None, "none", "lit", "none", 0, 2.0),
    )
    looked = moment("2026-04-02 16:30")
    deeds = [sown(SOWN), Deed(0, "look", looked), changed(moment("2026-04-02 16:40"), 1)]
    state = tray_after(template, deeds, moment("2026-04-02 17:00"))
    due = first_unmet(state, template, "look", HOURS)
    assert due == moment("2026-04-02 17:00")
    assert state.last_look == looked


def test_a_new_stage_forgets_that_a_change_was_skipped_and_keeps_a_skipped_cut() -> None:
    template = crop_of(
        Stage("weight", DAY, "weight", "dark"),
        Stage("rest", HOUR, "none", "dark"),
        Stage("weight again", HOUR, "weight", "dark"),
        Stage("light", None, "none", "lit"),
        cut=CutWindow(0, 0, DAY),
    )
    skip_at, now = moment("2026-04-02 08:30"), moment("2026-04-02 10:00")
    deeds = [
        sown(SOWN),
        skipped(skip_at, "weight_off"),
        skipped(skip_at, "cut"),
        changed(moment("2026-04-02 08:40"), 1),
        changed(moment("2026-04-02 08:50"), 2),
    ]

    def due(*more: Deed) -> list[tuple[str, str]]:
        state = tray_after(template, [*deeds, *more], now)
        found = [
            each
            for shift in (2, 3)
            for each in chores_of_tray(template, state, now, day(f"2026-04-0{shift}"), HOURS)
        ]
        return [(each.chore, wall_words(each.due_at)) for each in found]

    assert due() == [("weight_off", "2026-04-02 09:50"), ("cut", "2026-04-03 10:00")]
    assert due(changed(moment("2026-04-02 09:50"), 3)) == [("cut", "2026-04-03 09:50")]


@pytest.mark.parametrize(("at", "dry"), [("2026-04-01 19:59", False), ("2026-04-01 20:00", True)])
def test_dry_for_half_a_gap_is_half_of_a_day_where_water_is_daily(at: str, dry: bool) -> None:
    # given the seed was wet at 08:00, and a stage that begins at `at` wants water once a day
    template = crop_of(Stage("blackout", DAY, "lid", "dark"), lit(1.0))
    state = tray_after(template, [sown(SOWN), changed(moment(at), 1)], moment(at))
    due = first_unmet(state, template, "water", HOURS)
    assert due == (moment(at) if dry else moment("2026-04-02 07:00"))


@pytest.mark.parametrize(("at", "dry"), [("2026-04-01 15:59", False), ("2026-04-01 16:00", True)])
def test_dry_for_half_a_gap_counts_from_the_last_water(at: str, dry: bool) -> None:
    """Water twice a day makes a gap of 12 h: dry from 6 h after the watering at 10:00."""
    template = crop_of(Stage("blackout", DAY, "lid", "dark"), lit(2.0))
    deeds = [sown(SOWN), watered(moment("2026-04-01 10:00")), changed(moment(at), 1)]
    state = tray_after(template, deeds, moment(at))
    assert (first_unmet(state, template, "water", HOURS) == moment(at)) is dry
