"""Daily light, hours, lux, fading lamps, targets."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.templates import Stage, checked
from logbook.growing.currencies import Currency
from logbook.growing.quantities import PPFD
from logbook.growing.room.light import (
    LAMP_KINDS,
    Spot,
    Survey,
    daily_light,
    from_lux,
    hours_needed,
    judge,
    lamp_kind,
    moles,
    odd_reading,
    percent_of_first,
    ppfd_needed,
)
from logbook.text import Refused
from tests.room import crop_of

LONDON = ZoneInfo("Europe/London")
START = datetime(2026, 4, 14, tzinfo=UTC)


@pytest.mark.parametrize(("ppfd", "dli"), [(105, 6), (210, 12), (315, 18)])
def test_daily_light_is_what_a_trial_reports(ppfd: float, dli: float) -> None:
    """Gerovac et al. 2016, HortScience 51:497: whole mol for 16 h (from memory)."""
    assert round(daily_light(ppfd, 16)) == dli


def test_ppfd_and_hours_for_a_wanted_daily_light() -> None:
    # Computed: 12 mol in 16 h.
    assert ppfd_needed(12, 16) == pytest.approx(208.33, abs=0.005)
    assert hours_needed(208.3333333, 12) == pytest.approx(16, abs=1e-6)
    assert hours_needed(0, 12) is None
    assert hours_needed(0, 0) == 0


@given(st.floats(1, 3000), st.floats(0.1, 24))
def test_hours_needed_undoes_daily_light(ppfd: float, hours: float) -> None:
    assert hours_needed(ppfd, daily_light(ppfd, hours)) == pytest.approx(hours)
    assert ppfd_needed(daily_light(ppfd, hours), hours) == pytest.approx(ppfd)


@pytest.mark.parametrize("hours", [-1.0, 25.5, float("nan")])
def test_impossible_hours_are_refused(hours: float) -> None:
    with pytest.raises(Refused, match="lit hours"):
        daily_light(200, hours)


def test_other_impossible_numbers_are_refused() -> None:
    with pytest.raises(Refused):
        moles(200, -1)
    with pytest.raises(Refused):
        hours_needed(200, -1)
    with pytest.raises(Refused):
        ppfd_needed(12, 0)


def test_lux_is_turned_into_an_estimate() -> None:
    estimate = from_lux(14_200, lamp_kind("metal halide"))
    assert estimate.low < estimate.ppfd < estimate.high
    assert "estimate" in estimate.words


def test_how_far_off_an_estimate_may_be() -> None:
    """10 % for lamps of one spectrum, 15 % for white LEDs, that differ (no source)."""
    assert {name: (kind.lux_per_ppfd, kind.off_percent) for name, kind in LAMP_KINDS.items()} == {
        "sun": (54, 10),
        "cool white fluorescent": (74, 10),
        "high-pressure sodium": (82, 10),
        "metal halide": (71, 10),
        "white LED": (70, 15),
    }
    led = from_lux(7_000, lamp_kind("white LED"))
    assert (led.low, led.ppfd, led.high) == pytest.approx((100 / 1.15, 100, 100 / 0.85))


def test_an_unknown_lamp_is_refused_with_the_known_ones() -> None:
    with pytest.raises(Refused, match="high-pressure sodium"):
        lamp_kind("candle")
    assert lamp_kind("LED") is LAMP_KINDS["white LED"]
    with pytest.raises(Refused, match="lux"):
        from_lux(-1, LAMP_KINDS["sun"])


def test_fading_is_held_against_the_first_reading_at_like_height() -> None:
    def month(number: int) -> datetime:
        return START + timedelta(days=30 * number)

    surveys = [
        Survey(month(0), 200, 150),
        Survey(month(1), 250, 100),  # lamp hung lower: another first
        Survey(month(6), 180, 155),
        Survey(month(7), 225, 105),
        Survey(month(8), 190, None),  # height not written
        Survey(month(9), 170, 150, estimated=True),  # never against a metered one
    ]
    found = [one and round(one, 9) for one in percent_of_first(surveys)]
    assert found == [100, 100, 90, 90, None, 100]


def test_a_dark_first_reading_gives_no_percent() -> None:
    assert percent_of_first([Survey(START, 0, 150)]) == (None,)


def test_too_little_light_names_the_hours_and_their_cost() -> None:
    # 200 µmol, 14 h: 10.08 mol (computed). 12 mol takes 16 h 40 min; 72 W at 0.30 a kWh.
    judged = judge(200, 14, Band(12, 14), cost_per_lit_hour=Decimal("0.072") * Decimal("0.30"))
    assert judged.verdict == "too little"
    assert judged.hours_then == pytest.approx(16.667, abs=0.001)
    assert float(judged.cost_change or 0) == pytest.approx(0.0576, abs=0.0001)
    assert "16 h 40 min per day would meet it" in judged.words
    assert "more per day" in judged.words


@pytest.mark.parametrize(
    ("code", "cost", "said"),
    [("EUR", "0.072", "cost 0.192 EUR more per day"), ("JPY", "12", "cost 32.0 JPY more per day"),
     (None, "0.03", "cost 0.080 more per day")],
)  # fmt: skip
def test_a_change_is_said_to_a_tenth_of_the_least_coin(
    code: str | None, cost: str, said: str
) -> None:
    """From 14 h to 16 h 40 min."""
    assert said in judge(200, 14, Band(12, 14), Decimal(cost), Currency(code)).words


def test_too_much_light_names_fewer_hours() -> None:
    judged = judge(300, 18, Band(8, 12), cost_per_lit_hour=Decimal("0.1"))
    assert judged.verdict == "too much"
    assert judged.hours_then == pytest.approx(11.111, abs=0.001)
    assert "less per day" in judged.words


def test_enough_light_changes_nothing() -> None:
    judged = judge(210, 16, Band(12, 14))
    assert (judged.verdict, judged.hours_then) == ("enough", 16)


@pytest.mark.parametrize("ppfd", [0.0, 50.0])
def test_lamps_too_weak_for_a_day_are_said(ppfd: float) -> None:
    judged = judge(ppfd, 16, Band(12, 14))
    assert judged.verdict == "too little"
    assert judged.hours_then is None
    assert "No number of hours" in judged.words
    assert "208 µmol" in judged.words


def test_lamps_that_are_never_on_are_judged_by_a_whole_day() -> None:
    """12 mol/m² in 24 h are 138.9 µmol/m²/s."""
    for hours in (0, 0.01):
        judged = judge(100, hours, Band(12, 14))
        assert "139 µmol/m²/s for 24 h" in judged.words


def test_very_long_days_are_said() -> None:
    assert "little dark" in judge(160, 16, Band(12, 14)).words


@pytest.mark.parametrize(("low", "high"), [(14.0, 12.0), (-1.0, 5.0), (float("nan"), 5.0)])
def test_an_impossible_target_is_refused(low: float, high: float) -> None:
    with pytest.raises(Refused):
        checked(crop_of(Stage("light", None), targets=Targets(light=Band(low, high))))


@given(st.floats(0, 3000), st.floats(0, 24), st.floats(0, 40), st.floats(0, 40))
def test_the_hours_named_would_meet_the_target(
    ppfd: float, hours: float, one: float, other: float
) -> None:
    target = Band(min(one, other), max(one, other))
    judged = judge(ppfd, hours, target)
    assert "nan" not in judged.words
    assert "inf" not in judged.words
    if judged.hours_then is not None and judged.verdict != "enough":
        then = daily_light(ppfd, judged.hours_then)
        assert target.low is not None
        assert target.high is not None
        assert target.low * 0.999999 - 1e-9 <= then <= target.high * 1.000001 + 1e-9


@pytest.mark.parametrize(
    ("values", "odd"),
    [
        ([190, 1900, 195], 1),
        ([190, 19, 195], 1),
        ([0, 190, 195], 0),
        ([100, 100, 100 * PPFD.times], None),
        ([100, 100, 100 * PPFD.times + 0.1], 2),
        ([190, 1900], None),  # which of two?
        ([0, 0, 0, 4], None),  # in the dark
    ],
)
def test_a_reading_far_from_the_others_is_seen(values: list[float], odd: int | None) -> None:
    spots = [Spot(row, 1, value) for row, value in enumerate(values, 1)]
    found = odd_reading(spots)
    assert found is None if odd is None else found is not None and found[0] is spots[odd]
