"""Which daily copies stay."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from logbook.actions.care.keeping import days_kept
from logbook.settings import Settings

START = date(2024, 1, 1)


def kept_after(days: int, keeping: Settings) -> list[date]:
    """Make a copy a day and rotate after each, as the program does."""
    kept: set[date] = set()
    for number in range(days):
        kept = days_kept(kept | {START + timedelta(days=number)}, keeping)
    return sorted(kept)


def test_three_years_leave_seven_days_eight_weeks_and_24_months() -> None:
    kept = kept_after(3 * 365, Settings())
    last = START + timedelta(days=3 * 365 - 1)

    assert all(last - timedelta(days=back) in kept for back in range(7))
    weeks = {day.isocalendar()[:2] for day in kept}
    assert all((last - timedelta(weeks=back)).isocalendar()[:2] in weeks for back in range(8))
    months = {(day.year, day.month) for day in kept}
    assert {(2025, month) for month in range(1, 13)} <= months
    assert len(months) == 24
    assert len(kept) <= 7 + 8 + 24


def test_a_month_keeps_its_last_day_and_a_week_its_sunday() -> None:
    kept = kept_after(200, Settings())

    assert date(2024, 5, 31) in kept
    assert all(day.isoweekday() == 7 for day in kept if date(2024, 6, 1) <= day < date(2024, 6, 29))


@given(st.sets(st.dates(date(2020, 1, 1), date(2030, 1, 1)), max_size=80))
def test_what_is_kept_stays_kept_and_the_newest_is_always_kept(days: set[date]) -> None:
    kept = days_kept(days, Settings())

    assert kept <= days
    assert days_kept(kept, Settings()) == kept
    assert not days or max(days) in kept


def test_nothing_is_kept_where_nothing_is_asked_for() -> None:
    assert days_kept({START}, Settings(keep_daily=0, keep_weekly=0, keep_monthly=0)) == set()
