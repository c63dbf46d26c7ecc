"""Watering and looking come round by the wall clock and do not pile up."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import islice

import pytest

from logbook.growing.chores import RoomHours, slots, times_of_day
from logbook.growing.forecast import chores_of_tray
from logbook.growing.life import Deed
from logbook.growing.templates import Stage
from tests.room import (
    DAY,
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
        (2, ["07:00", "13:00"]),
        (3, ["07:00", "11:00", "15:00"]),
        (4, ["07:00", "10:00", "13:00", "16:00"]),
        (0.5, ["07:00"]),
    ],
)
def test_times_of_day_are_spread_over_the_room_s_day(per_day: float, clocks: list[str]) -> None:
    assert [f"{each // 60:02}:{each % 60:02}" for each in times_of_day(per_day, HOURS)] == clocks


def test_the_room_s_own_hours_count() -> None:
    room = RoomHours(LONDON, start=9 * 60, end=15 * 60)
    assert times_of_day(2, room) == [9 * 60, 12 * 60]


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
    assert waterings(deeds, "2026-04-01 08:30", per_day=2) == ["2026-04-01 13:00"]
    deeds.append(watered(moment("2026-04-01 13:05")))
    assert waterings(deeds, "2026-04-01 20:00", per_day=2) == []
    assert waterings(deeds, "2026-04-02 08:00", per_day=2) == ["2026-04-02 07:00"]
    deeds.append(watered(moment("2026-04-02 08:00")))
    assert waterings(deeds, "2026-04-02 08:01", per_day=2) == ["2026-04-02 13:00"]


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
        3: [("light_on", 0), ("water", 0)],
        4: [("water", 1)],
    }
