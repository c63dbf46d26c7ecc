"""Electricity priced by date and hour."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.currencies import UNSET
from logbook.growing.days import wall
from logbook.growing.room.energy_bill import Bill, bill
from logbook.growing.room.tariffs import OtherHours, Tariff, price_at
from logbook.growing.wall_hours import WallHours, runs
from logbook.text import Refused

LONDON = ZoneInfo("Europe/London")
LAMPS = WallHours(6 * 60, 22 * 60)
OLD = Tariff(date(2026, 1, 1), Decimal("0.20"))
NEW = Tariff(date(2026, 4, 15), Decimal("0.30"))


def lit(first: date, days: int, hours: WallHours = LAMPS) -> list[tuple[datetime, datetime]]:
    start = wall(first, 0, LONDON)
    return list(runs(hours, start, wall(first + timedelta(days=days), 0, LONDON), LONDON))


def test_a_day_at_one_price() -> None:
    # Computed: 72 W × 16 h = 1.152 kWh; × 0.30 = 0.3456.
    spent = bill(72, lit(date(2026, 4, 20), 1), [OLD, NEW], LONDON)
    assert spent.kwh == pytest.approx(1.152)
    assert float(spent.cost) == pytest.approx(0.3456)
    assert spent.unpriced_kwh == 0


def test_a_price_change_at_midnight_splits_a_night() -> None:
    # Given lamps lit 20:00–04:00 and a new price from 15 April
    night = lit(date(2026, 4, 14), 2, WallHours(20 * 60, 4 * 60))[1:2]
    spent = bill(1000, night, [NEW, OLD], LONDON)
    # Then four hours at each price
    assert float(spent.cost) == pytest.approx(4 * 0.20 + 4 * 0.30)


def test_dearer_hours_on_weekdays() -> None:
    peak = OtherHours(WallHours(16 * 60, 19 * 60, frozenset(range(5))), Decimal("0.60"))
    tariff = Tariff(date(2026, 1, 1), Decimal("0.20"), (peak,))
    # 17 April 2026 is a Friday, 18 a Saturday.
    friday = bill(1000, lit(date(2026, 4, 17), 1), [tariff], LONDON)
    saturday = bill(1000, lit(date(2026, 4, 18), 1), [tariff], LONDON)
    assert float(friday.cost) == pytest.approx(13 * 0.20 + 3 * 0.60)
    assert float(saturday.cost) == pytest.approx(16 * 0.20)


def test_a_cheaper_night_past_midnight() -> None:
    cheap = OtherHours(WallHours(22 * 60 + 30, 6 * 60 + 30), Decimal("0.10"))
    tariff = Tariff(date(2026, 1, 1), Decimal("0.30"), (cheap,))
    spent = bill(1000, lit(date(2026, 4, 20), 1, WallHours(0, 8 * 60)), [tariff], LONDON)
    assert float(spent.cost) == pytest.approx(6.5 * 0.10 + 1.5 * 0.30)


def test_the_dearest_of_overlapping_hours_holds() -> None:
    both = (
        OtherHours(WallHours(600, 900), Decimal("0.5")),
        OtherHours(WallHours(660, 720), Decimal("0.9")),
    )
    tariff = Tariff(date(2026, 1, 1), Decimal("0.2"), both)
    assert price_at([tariff], datetime(2026, 1, 5, 11, 30, tzinfo=UTC), LONDON) == Decimal("0.9")
    assert price_at([tariff], datetime(2026, 1, 5, 12, 30, tzinfo=UTC), LONDON) == Decimal("0.5")


def test_days_before_the_first_tariff_are_said_not_guessed() -> None:
    # Given two days, the price known for the second only
    spent = bill(1000, lit(date(2026, 4, 14), 2), [NEW], LONDON)
    assert spent.kwh == pytest.approx(32)
    assert spent.unpriced_kwh == pytest.approx(16)
    assert float(spent.cost) == pytest.approx(16 * 0.30)
    assert "no tariff covers 16 kWh" in spent.words(UNSET)
    assert price_at([NEW], datetime(2026, 4, 14, 12, tzinfo=UTC), LONDON) is None


def test_impossible_tariffs_are_refused() -> None:
    with pytest.raises(Refused, match="price"):
        Tariff(date(2026, 1, 1), Decimal("-0.1"))
    with pytest.raises(Refused, match="price"):
        Tariff(date(2026, 1, 1), Decimal("nan"))
    with pytest.raises(Refused, match="Two tariffs"):
        bill(72, lit(date(2026, 4, 14), 1), [OLD, OLD], LONDON)
    with pytest.raises(Refused, match="Watts"):
        bill(-1, [], [OLD], LONDON)


def test_a_night_of_the_clock_change_costs_an_hour_less() -> None:
    night = WallHours(20 * 60, 12 * 60)
    start, end = night.run(date(2026, 3, 28), LONDON)
    assert bill(1000, [(start, end)], [OLD], LONDON).cost == 15 * Decimal("0.20")


@given(st.dates(date(2026, 3, 20), date(2026, 4, 30)), st.integers(0, 12), st.integers(0, 1439))
def test_energy_is_the_same_however_it_is_priced(first: date, days: int, on: int) -> None:
    spans = lit(first, days, WallHours(on, (on + 600) % 1440))
    peak = OtherHours(WallHours(1000, 200), Decimal("0.9"))
    flat = bill(100, spans, [Tariff(date(2026, 1, 1), Decimal("0.2"))], LONDON)
    split = bill(100, spans, [Tariff(date(2026, 1, 1), Decimal("0.2"), (peak,)), NEW], LONDON)
    assert split.kwh == pytest.approx(flat.kwh)
    assert 0.2 * flat.kwh - 1e-9 <= float(split.cost) <= 0.9 * flat.kwh + 1e-9


def test_nothing_drawn_costs_nothing_and_less_than_nothing_cannot_be() -> None:
    span = [(datetime(2026, 1, 5, 8, tzinfo=UTC), datetime(2026, 1, 5, 10, tzinfo=UTC))]
    tariff = Tariff(date(2026, 1, 1), Decimal("0.5"))
    assert bill(0, span, [tariff], UTC) == Bill()
    assert bill(0.5, span, [tariff], UTC) == Bill(0.001, Decimal("0.0005"))
    with pytest.raises(Refused):
        bill(-0.1, span, [tariff], UTC)


def test_a_hundred_thousand_hours_of_a_tenth_add_up_exactly() -> None:
    """In binary 0.1 is no tenth: 100,000 of them come to 10000.000000018848."""
    span = [(datetime(2026, 1, 5, 8, tzinfo=UTC), datetime(2026, 1, 5, 9, tzinfo=UTC))]
    hour = bill(1000, span, [Tariff(date(2026, 1, 1), Decimal("0.1"))], UTC)
    assert sum((hour.cost for _ in range(100_000)), Decimal(0)) == 10_000
