"""A crop as growers commonly do it, from soak to scale. Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.growing.days import day_number
from logbook.growing.trays.forecast import changes_ahead, chores_of_tray, cut_window, tray_window
from logbook.growing.trays.life import Deed
from logbook.growing.trays.looks import Look, sees_sign
from logbook.growing.trays.weighing import checked_grams
from tests.room import HOURS, LONDON, changed, day, field_test, moment, sown, tray_after, wall_words

SOWN = moment("2026-04-01 08:00")


def test_soaked_four_days_under_weight_one_dark_then_two_and_a_half_lit_is_day_eight_and_ready() -> (
    None
):
    # common practice, no source
    crop = field_test()
    window = cut_window(crop, 0, SOWN)
    assert crop.soak_seconds == 4 * 3600
    assert [
        (each.chore, each.words, wall_words(each.at)) for each in changes_ahead(crop, 0, SOWN)
    ] == [
        ("weight_off", "weight off, lid on", "2026-04-05 08:00"),
        ("light_on", "lid off, under lights", "2026-04-06 08:00"),
    ]
    assert wall_words(window.best) == "2026-04-08 20:00"
    assert day_number(SOWN, window.best, LONDON) == 8
    assert window.state(window.best, HOURS) == "ready"
    assert window.state(window.start - timedelta(seconds=1), HOURS) == "soon"
    assert window.state(window.by + timedelta(seconds=1), HOURS) == "late"


def test_true_leaves_mean_cut_now_whatever_the_clock_says() -> None:
    # common practice, no source: cut when true leaves appear, before it turns bitter
    crop = field_test()
    seen_at = moment("2026-04-07 09:00")
    deeds = [
        sown(SOWN),
        changed(moment("2026-04-05 08:00"), 1),
        changed(moment("2026-04-06 08:00"), 2),
    ]
    before = tray_after(crop, deeds, seen_at)
    assert not [
        each
        for each in chores_of_tray(crop, before, seen_at, day("2026-04-07"), HOURS)
        if each.chore == "cut"
    ]

    after = tray_after(crop, [*deeds, Deed(0, "look", seen_at, sign=True)], seen_at)

    cuts = [
        each
        for each in chores_of_tray(crop, after, seen_at, day("2026-04-07"), HOURS)
        if each.chore == "cut"
    ]
    window = tray_window(crop, after, seen_at)
    assert [(each.due_at, each.later) for each in cuts] == [(seen_at, False)]
    assert window is not None
    assert window.state(seen_at, HOURS, after.sign_at) == "ready"


@pytest.mark.parametrize(
    ("look", "sign", "seen"),
    [
        (Look(true_leaves=True), "first true leaves", True),
        (Look(sign="First  True Leaves"), "first true leaves", True),
        (Look(sign="seen"), "first tendrils", True),
        (Look(true_leaves=True), "first tendrils", False),
        (Look(sign="yellowing"), "first true leaves", False),
        (Look(true_leaves=False), "first true leaves", False),
        (Look(sign="tall"), "", True),
        (Look(), "", False),
    ],
)
def test_a_sign_counts_when_it_is_the_template_s(look: Look, sign: str, seen: bool) -> None:
    assert sees_sign(look, sign) is seen


def test_594_g_cut_from_100_g_of_seed_is_5_94_g_per_g() -> None:
    # common practice, no source
    assert checked_grams(594, 101) / 100 == pytest.approx(5.94)
