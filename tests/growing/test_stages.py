"""Stages decide everything: what a change is called, and what late and early ones move."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage, checked
from logbook.growing.trays.chores import change_between, chore_named
from logbook.growing.trays.forecast import (
    Window,
    changes_ahead,
    chores_of_tray,
    cut_window,
    stage_for_chore,
    tray_window,
)
from logbook.growing.trays.life import Deed
from logbook.text import Refused
from tests.room import (
    DAY,
    HOUR,
    HOURS,
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

SOWN = moment("2026-04-01 08:00")

WEIGHT_DARK = Stage("w", DAY, "weight", "dark")
LID_DARK = Stage("l", DAY, "lid", "dark")
LID_LIT = Stage("ll", DAY, "lid", "lit")
OPEN_DARK = Stage("d", DAY, "none", "dark")
OPEN_LIT = Stage("o", DAY, "none", "lit")


@pytest.mark.parametrize(
    ("before", "after", "chore", "words"),
    [
        (WEIGHT_DARK, LID_DARK, "weight_off", "weight off, lid on"),
        (WEIGHT_DARK, OPEN_DARK, "weight_off", "weight off"),
        (WEIGHT_DARK, OPEN_LIT, "weight_off", "weight off, under lights"),
        (WEIGHT_DARK, LID_LIT, "weight_off", "weight off, lid on, under lights"),
        (LID_DARK, OPEN_LIT, "light_on", "lid off, under lights"),
        (LID_DARK, OPEN_DARK, "lid_off", "lid off"),
        (OPEN_DARK, LID_DARK, "lid_on", "lid on"),
        (LID_DARK, WEIGHT_DARK, "weight_on", "lid off, weight on"),
        (OPEN_LIT, WEIGHT_DARK, "weight_on", "weight on, to the dark"),
        (OPEN_LIT, LID_DARK, "light_off", "lid on, to the dark"),
        (OPEN_LIT, OPEN_DARK, "light_off", "to the dark"),
        (LID_LIT, OPEN_LIT, "lid_off", "lid off"),
        (OPEN_LIT, OPEN_LIT, "", ""),
    ],
)
def test_a_change_is_named_by_its_most_telling_part(
    before: Stage, after: Stage, chore: str, words: str
) -> None:
    change = change_between(before, after)
    assert (change.chore, change.words) == (chore, words)


@pytest.mark.parametrize("text", ["weight off", "weight_off", "Weight-Off", " weight  off "])
def test_a_chore_goes_by_its_name_or_its_words(text: str) -> None:
    assert chore_named(text) == "weight_off"


def test_to_the_light_is_a_chore_and_a_stranger_gets_a_hint() -> None:
    assert chore_named("to the light") == "light_on"
    assert chore_named("water, look") == chore_named("water,look") == "water_look"
    with pytest.raises(Refused, match='Did you mean "water"'):
        chore_named("watre")


def test_a_grower_s_own_odd_stages_work() -> None:
    # given: a lid for 36 h, weight in the light for 12 h, a second dark day at the end
    crop = checked(
        crop_of(
            Stage("sweat", 36 * HOUR, "lid", "dark", "mist", 2.0),
            Stage("press", 12 * HOUR, "weight", "lit"),
            Stage("green", 60 * HOUR, "none", "lit", "top", 0.5),
            Stage("bleach", None, "lid", "dark"),
            cut=CutWindow(0, DAY // 2, DAY),
        )
    )
    ahead = changes_ahead(crop, 0, SOWN)
    assert [(each.chore, each.words, wall_words(each.at)) for each in ahead] == [
        ("weight_on", "lid off, weight on, under lights", "2026-04-02 20:00"),
        ("weight_off", "weight off", "2026-04-03 08:00"),
        ("light_off", "lid on, to the dark", "2026-04-05 20:00"),
    ]
    assert wall_words(cut_window(crop, 0, SOWN).best) == "2026-04-06 08:00"


QUIET = crop_of(
    Stage("wet", DAY, "weight", "dark", "mist", 2.0),
    Stage("dry", DAY, "weight", "dark"),
    Stage("light", None, "none", "lit", "bottom", 1.0),
)


def test_stages_that_differ_only_in_watering_pass_by_themselves() -> None:
    assert [each.chore for each in changes_ahead(QUIET, 0, SOWN)] == ["weight_off"]
    for hours_later, stage in ((0, 0), (23, 0), (24, 1), (47, 1), (72, 1)):
        state = tray_after(QUIET, [sown(SOWN)], SOWN + timedelta(hours=hours_later))
        assert state.stage == stage
    late = tray_after(QUIET, [sown(SOWN)], SOWN + timedelta(hours=50))
    assert late.stage_since == SOWN + timedelta(days=1)
    chores = chores_of_tray(QUIET, late, SOWN + timedelta(hours=50), day("2026-04-03"), HOURS)
    assert [each.chore for each in chores] == ["weight_off"]


def test_a_deed_after_a_quiet_change_is_met_in_the_stage_that_held_then() -> None:
    deeds = [sown(SOWN), watered(SOWN + timedelta(hours=30))]
    state = tray_after(QUIET, deeds, SOWN + timedelta(hours=31))
    assert (state.stage, state.last_water) == (1, SOWN + timedelta(hours=30))


@pytest.mark.parametrize("shift", [timedelta(hours=6), timedelta(hours=-5), timedelta(days=2)])
def test_a_change_recorded_late_or_early_moves_what_follows_for_those_trays_only(
    shift: timedelta,
) -> None:
    # given: two trays of one batch; one has its weight off early or late
    crop = field_test()
    planned = changes_ahead(crop, 0, SOWN)
    weight_off = planned[0].at + shift
    now = planned[0].at + timedelta(days=3)

    moved = tray_after(crop, [sown(SOWN), changed(weight_off, 1)], weight_off)
    other = tray_after(crop, [sown(SOWN)], weight_off)

    assert moved.stage_since == weight_off
    assert changes_ahead(crop, moved.stage, weight_off)[0].at == planned[1].at + shift
    assert cut_window(crop, 1, weight_off).best == cut_window(crop, 0, SOWN).best + shift
    assert (other.stage, other.stage_since) == (0, SOWN)
    assert changes_ahead(crop, 0, SOWN) == planned
    assert now > weight_off


def test_a_change_that_is_overdue_is_taken_as_made_now_for_what_follows() -> None:
    crop = field_test()
    now = moment("2026-04-05 14:00")
    state = tray_after(crop, [sown(SOWN)], now)
    window = tray_window(crop, state, now)
    assert window is not None
    assert wall_words(window.best) == "2026-04-09 02:00"
    assert window.best - cut_window(crop, 0, SOWN).best == timedelta(hours=6)


def test_a_chore_finds_the_next_stage_that_it_leads_into() -> None:
    crop = field_test()
    state = tray_after(crop, [sown(SOWN)], SOWN)
    assert stage_for_chore(crop, state, "weight_off") == 1
    assert stage_for_chore(crop, state, "lid_on") == 1
    assert stage_for_chore(crop, state, "light_on") == 2
    assert stage_for_chore(crop, state, "lid_off") == 2
    assert stage_for_chore(crop, state, "weight_on") is None
    assert stage_for_chore(crop, state, "water") is None


def test_a_stage_may_be_jumped_over() -> None:
    crop = field_test()
    at = moment("2026-04-04 09:00")
    state = tray_after(crop, [sown(SOWN), changed(at, 2)], at)
    assert (state.stage, state.stage_since) == (2, at)
    assert changes_ahead(crop, state.stage, at) == []


def test_a_change_put_off_by_a_skip_comes_tomorrow_and_moves_what_follows() -> None:
    # given: weight off is due on the 5th at 08:00 and is skipped that day at 09:00
    crop = field_test()
    skip_at = moment("2026-04-05 09:00")
    state = tray_after(crop, [sown(SOWN), skipped(skip_at, "weight_off")], skip_at)

    def changes(on: str) -> list[tuple[str, str]]:
        found = chores_of_tray(crop, state, skip_at, day(on), HOURS)
        return [
            (each.words, wall_words(each.due_at))
            for each in found
            if "off" in each.chore or "on" in each.chore
        ]

    assert changes("2026-04-05") == []
    assert changes("2026-04-06") == [("weight off, lid on", "2026-04-06 08:00")]
    assert changes("2026-04-07") == [("lid off, under lights", "2026-04-07 08:00")]
    tomorrow = moment("2026-04-06 08:30")
    again = chores_of_tray(crop, tray_after(crop, [sown(SOWN), skipped(skip_at, "weight_off")], tomorrow),
                           tomorrow, day("2026-04-06"), HOURS)  # fmt: skip
    assert ("weight_off", True) in [(each.chore, each.overdue) for each in again]


def test_a_skip_of_an_earlier_stage_s_change_does_not_outlive_the_change() -> None:
    crop = field_test()
    deeds = [
        sown(SOWN),
        skipped(moment("2026-04-05 09:00"), "weight_off"),
        changed(moment("2026-04-05 10:00"), 1),
    ]
    state = tray_after(crop, deeds, moment("2026-04-05 11:00"))
    assert state.put_off == {}


def test_a_cut_put_off_comes_tomorrow_at_its_own_time() -> None:
    crop = field_test()
    deeds = [
        sown(SOWN),
        changed(moment("2026-04-05 08:00"), 1),
        changed(moment("2026-04-06 08:00"), 2),
    ]
    at = moment("2026-04-08 21:00")
    state = tray_after(crop, [*deeds, skipped(at, "cut")], at)
    assert not [
        each
        for each in chores_of_tray(crop, state, at, day("2026-04-08"), HOURS)
        if each.chore == "cut"
    ]
    later = chores_of_tray(crop, state, at, day("2026-04-09"), HOURS)
    assert [wall_words(each.due_at) for each in later if each.chore == "cut"] == [
        "2026-04-09 20:00"
    ]


def test_a_planned_batch_soaks_and_is_sown_on_its_day() -> None:
    crop = field_test()
    written, sow_at = moment("2026-04-01 08:00"), moment("2026-04-03 02:00")
    plan = Deed(0, "plan", written, planned_for=sow_at)
    state = tray_after(crop, [plan], written)

    def chores(now: str, on: str) -> list[tuple[str, str]]:
        return [
            (each.chore, wall_words(each.due_at))
            for each in chores_of_tray(crop, state, moment(now), day(on), HOURS)
        ]

    assert state.status == "planned"
    assert chores("2026-04-01 09:00", "2026-04-01") == []
    assert chores("2026-04-01 09:00", "2026-04-02") == [("soak", "2026-04-02 22:00")]
    assert chores("2026-04-01 09:00", "2026-04-03") == [("sow", "2026-04-03 02:00")]
    assert chores("2026-04-03 09:00", "2026-04-03") == [
        ("soak", "2026-04-02 22:00"),
        ("sow", "2026-04-03 02:00"),
    ]
    soaked = tray_after(crop, [plan, Deed(0, "soak", moment("2026-04-02 23:30"))], written)
    due = chores_of_tray(crop, soaked, moment("2026-04-03 04:00"), day("2026-04-03"), HOURS)
    assert [(each.chore, wall_words(each.due_at)) for each in due] == [("sow", "2026-04-03 03:30")]


@pytest.mark.parametrize(
    ("crop", "words"),
    [
        (crop_of(), "at least one stage"),
        (crop_of(*[OPEN_LIT] * 13), "up to 12 stages"),
        (crop_of(Stage("a", None), OPEN_LIT), "no length"),
        (crop_of(Stage("a", -3600), OPEN_LIT), "a length above 0"),
        (crop_of(Stage("a", 0)), "a length above 0"),
        (crop_of(Stage("a", DAY, "tent")), 'cover "tent" is unknown'),  # type: ignore[arg-type]
        (crop_of(Stage("a", DAY, water_per_day=1.0)), "no way of watering"),
        (crop_of(Stage("a", DAY, water="top", water_per_day=40)), "use 0, or 0.1 to 12"),
        (crop_of(OPEN_LIT, cut=CutWindow(3, 2, 4)), "from, best, by"),
        (crop_of(OPEN_LIT, cut=CutWindow(0, 1, 400 * DAY)), "more than a year"),
        (crop_of(OPEN_LIT, soak_seconds=8 * DAY), "longer than a week"),
        (crop_of(OPEN_LIT, soak_seconds=HOUR, mucilage=True), "gels when soaked"),
        (crop_of(OPEN_LIT, seed_grams=-1.0), "seed per tray"),
        (crop_of(OPEN_LIT, soak_ph=15.0), "pH"),
    ],
)
def test_a_template_that_cannot_be_is_refused_with_what_is_wrong(
    crop: CropTemplate, words: str
) -> None:
    with pytest.raises(Refused, match=words):
        checked(crop)


@pytest.mark.parametrize(
    ("at", "state"),
    [
        ("2026-04-02 07:59", "soon"),
        ("2026-04-02 08:00", "ready"),
        ("2026-04-04 08:00", "ready"),
        ("2026-04-04 08:01", "late"),
    ],
)
def test_a_cut_window_holds_its_ends(at: str, state: str) -> None:
    window = Window(*(moment(f"2026-04-0{day} 08:00") for day in (2, 3, 4)))
    assert window.state(moment(at), HOURS) == state


@pytest.mark.parametrize(
    ("seen", "state"),
    [("2026-04-01 10:00", "ready"), ("2026-04-01 12:00", "ready"), ("2026-04-01 12:01", "soon")],
)
def test_a_sign_to_cut_makes_ready_from_when_it_was_seen(seen: str, state: str) -> None:
    window = Window(*(moment(f"2026-04-0{day} 08:00") for day in (2, 3, 4)))
    assert window.state(moment("2026-04-01 12:00"), HOURS, moment(seen)) == state
