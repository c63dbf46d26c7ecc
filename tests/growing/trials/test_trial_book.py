"""What a book adds to a trial: its chart, its spread, hours in stages, settings, money, advice."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.templates import Stage
from logbook.growing.trays.life import Deed
from logbook.growing.trials.arms import Arm, room_spread
from logbook.growing.trials.chart import DOTS, LEAST_WIDTH, chart
from logbook.growing.trials.criteria import read_weights, weights_text
from logbook.growing.trials.factors import ArmDraft, adopted, setting_of, with_setting
from logbook.growing.trials.money import Prices, costs_of, prices_text, read_prices
from logbook.growing.trials.record import stage_hours
from logbook.growing.trials.replicates import detectable_difference, power_of
from logbook.text import Refused
from tests.room import DAY, HOUR, HOURS, crop_of, field_test, moment

WEIGHTS = st.lists(st.floats(1, 5000), min_size=1, max_size=30).map(tuple)
START = moment("2026-04-01 08:00")


@given(st.lists(WEIGHTS, min_size=1, max_size=8), st.integers(1, 90))
def test_a_chart_has_a_dot_for_each_weight_and_keeps_its_width(
    arms: list[tuple[float, ...]], width: int
) -> None:
    drawn = chart([Arm(f"a{at}", weights) for at, weights in enumerate(arms)], width)
    for line, weights in zip(drawn.lines, arms, strict=True):
        assert len(line.dots) <= max(width, LEAST_WIDTH)
        cells = [DOTS.index(mark) + 1 for mark in line.dots if mark in DOTS]
        # a cell shows up to four trays; no dot is made up and none is lost below that
        assert sum(cells) <= len(weights)
        assert all(cell == 4 for cell in cells) or sum(cells) == len(weights) or 4 in cells


def test_a_chart_joins_what_is_within_a_standard_deviation_and_has_round_weights_below_it() -> None:
    drawn = chart([Arm("a", (100.0, 220.0)), Arm("b", (300.0,)), Arm("c", ())], 11)
    assert [line.dots for line in drawn.lines] == ["•──|──•─", "          •", ""]
    assert drawn.axis == "┬────┬────┬"
    assert drawn.foot == "100 g 300 g"
    assert drawn.lines[2].words == "no weight"


def test_the_spread_is_pooled_within_sowings() -> None:
    # each sowing spreads by 10 % of its own mean: 90, 100, 110 has standard deviation 10
    spread = room_spread({1: (90, 100, 110), 2: (180, 200, 220), 3: (45, 50, 55)}, 20)
    assert spread.percent == pytest.approx(10)
    assert (spread.trays, spread.sowings) == (9, 3)


@pytest.mark.parametrize("sowings", [{}, {1: (100,)}, {1: (100, 110, 120)}, {1: (100,) * 9}])
def test_too_few_own_trays_leave_the_templates_spread(
    sowings: dict[int, tuple[float, ...]],
) -> None:
    assert room_spread(sowings, 17).percent == 17
    assert "the template's figure" in room_spread(sowings, 17).words


def test_trays_that_died_are_no_spread() -> None:
    alive = room_spread({1: (90, 100, 110), 2: (90, 100, 110), 3: (90, 100, 110)}, 20)
    died = room_spread({1: (90, 100, 110, 0), 2: (90, 100, 110), 3: (90, 100, 110)}, 20)
    assert alive == died


def test_the_gap_that_is_seen_is_the_one_with_that_power() -> None:
    seen = detectable_difference(8.0, 12)
    assert seen is not None
    assert power_of(12, seen / 8.0) == pytest.approx(0.8, abs=1e-6)
    assert detectable_difference(8.0, 1) is None
    with pytest.raises(Refused):
        detectable_difference(0.0, 5)


def _deeds(*deeds: Deed) -> list[Deed]:
    return [replace(deed, entry=number) for number, deed in enumerate(deeds, 1)]


def test_hours_in_a_stage_run_from_its_change_to_the_next() -> None:
    deeds = _deeds(
        Deed(0, "sow", START),
        Deed(0, "change", START + timedelta(hours=90), stage=1),
        Deed(0, "change", START + timedelta(hours=120), stage=2),
        Deed(0, "weigh", START + timedelta(hours=200), grams=400),
    )
    spent = stage_hours(field_test(), deeds, HOURS, START + timedelta(days=20))
    assert spent == {"weighted": 90, "blackout": 30, "light": 80}


def test_stages_that_pass_by_themselves_have_their_own_hours() -> None:
    crop = crop_of(
        Stage("first", 10 * HOUR, light="lit", water="mist", water_per_day=1),
        Stage("second", 20 * HOUR, light="lit", water="top", water_per_day=1),
        Stage("third", None, light="lit", water="bottom", water_per_day=1),
    )
    deeds = _deeds(Deed(0, "sow", START), Deed(0, "weigh", START + timedelta(hours=50), grams=9))
    spent = stage_hours(crop, deeds, HOURS, START + timedelta(days=9))
    assert spent == {"first": 10, "second": 20, "third": 20}


def test_a_stage_that_is_not_over_has_no_hours_yet() -> None:
    assert stage_hours(field_test(), _deeds(Deed(0, "sow", START)), HOURS, START) == {}


@pytest.mark.parametrize(
    ("factor", "text", "setting"),
    [
        ("density", "0.12 kg", "120 g"),
        ("density", "1 oz", "28.3495 g"),
        ("soak", "dry", "0h"),
        ("soak", "12h", "12h"),
        ("water", "2 times a day", "2"),
        ("stages", "Blackout 36h", "blackout 36h"),
        ("medium", " hemp mat ", "hemp mat"),
    ],
)
def test_a_setting_is_kept_in_one_form(factor: str, text: str, setting: str) -> None:
    crop = field_test()
    kept = setting_of(factor, ArmDraft("a", text), crop, "metric")
    assert kept == setting
    assert setting_of(factor, ArmDraft("a", kept), crop, "us") == kept
    assert with_setting(crop, factor, kept) != crop


def test_a_name_that_is_no_value_leaves_none() -> None:
    assert setting_of("density", ArmDraft("thin"), field_test(), "metric") == ""
    assert setting_of("density", ArmDraft("30g"), field_test(), "metric") == "30 g"


def test_seed_with_mucilage_is_never_soaked_for_a_trial() -> None:
    crop = field_test(mucilage=True, soak_seconds=0)
    with pytest.raises(Refused, match="gels when soaked"):
        setting_of("soak", ArmDraft("wet", "8h"), crop, "metric")


def test_adopting_changes_the_one_thing_alone() -> None:
    crop = field_test()
    assert adopted(crop, "stages", "long", "blackout 2d") == replace(
        crop, stages=(crop.stages[0], replace(crop.stages[1], seconds=2 * DAY), crop.stages[2])
    )


def test_a_cost_that_one_arm_lacks_is_not_counted() -> None:
    costs = costs_of({"a": 400, "b": 500}, {"seed": {"a": 1.0}}, shown=True)
    assert costs.per_100_g == {}
    assert costs.words == "Nothing can be said about costs: seed is not known."


@given(
    st.dictionaries(
        st.sampled_from(["yield", "taste", "cost"]), st.integers(0, 9).map(float), min_size=1
    )
)
def test_weights_come_back_as_typed(weights: dict[str, float]) -> None:
    assert read_weights(weights_text(weights)) == weights


@pytest.mark.parametrize("text", ["", " , ", "yield", "yield much", "3"])
def test_what_is_no_weight_is_refused(text: str) -> None:
    with pytest.raises(Refused):
        read_weights(text)


PRICED = ("thin", "28g, early")


@pytest.mark.parametrize(
    ("text", "prices"),
    [
        ("", Prices()),
        ("seed 12.50", Prices(seed_per_kg=Decimal("12.5"))),
        ("seed £12,50; Hour 15; minutes 3", Prices(Decimal("12.5"), Decimal(15), 3)),
        (
            "hour 15; THIN 3; 28g, early 4",
            Prices(None, Decimal(15), None, {"thin": 3, "28g, early": 4}),
        ),
        ("seed 0, hour 15, minutes 3, thin 4", Prices(Decimal(0), Decimal(15), 3, {"thin": 4})),
        (
            "seed 0.0045; hour 15.125; minutes 2.33333333",
            Prices(Decimal("0.0045"), Decimal("15.125"), 2.33333333),
        ),
    ],
)
def test_prices_are_read(text: str, prices: Prices) -> None:
    assert read_prices(text, PRICED) == prices
    assert read_prices(prices_text(prices), PRICED) == prices


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("12.50", "must be like seed 12.50"),
        ("seed cheap", "is not a number"),
        ("seed -3", "price of seed"),
        ("hour 15", "needs both"),
        ("minutes 3", "needs both"),
        ("hour 15; minutes -1", "must be 0 to"),
        ("hour 15; wide 4", 'no arm "wide"'),
    ],
)
def test_what_is_no_price_is_refused(text: str, says: str) -> None:
    with pytest.raises(Refused, match=says):
        read_prices(text, PRICED)


def test_work_is_counted_where_every_arm_has_its_minutes() -> None:
    prices = Prices(seed_per_kg=Decimal(10), hour=Decimal(12), minutes={"a": 5})
    parts = prices.per_tray({"a": 80, "b": 120}, ["a", "b"])
    assert parts == {"seed": {"a": 0.8, "b": 1.2}, "work": {"a": 1.0}}
    costs = costs_of({"a": 400, "b": 500}, parts, shown=True)
    assert costs.counted == ("seed",)
    assert "Not included, because not known: work." in costs.words
