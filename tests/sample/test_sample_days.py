"""The hours that the sample's room keeps, whenever it is opened."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.days import day_bounds, day_of, wall
from sample_db.days import Days
from sample_db.dice import Dice

LISBON = ZoneInfo("Europe/Lisbon")
MOMENTS = st.integers(0, 2 * 365 * 86_400).map(
    lambda seconds: datetime(2026, 1, 1, tzinfo=UTC) + timedelta(seconds=seconds)
)


@pytest.mark.parametrize(
    ("clock", "start"),
    [("07:45", "07:00"), ("07:46", "07:30"), ("13:00", "12:30"), ("23:30", "23:00"),
     ("03:09", "02:30"), ("03:10", "03:00"), ("00:04", "00:00")],
)  # fmt: skip
def test_the_day_began_a_little_while_ago(clock: str, start: str) -> None:
    now = datetime.fromisoformat(f"2026-05-06T{clock}").replace(tzinfo=LISBON)
    minute = Days.around(now, LISBON).hours.start
    assert f"{minute // 60:02}:{minute % 60:02}" == start


@given(MOMENTS, st.sampled_from(["Europe/Lisbon", "America/St_Johns", "Asia/Kathmandu"]))
def test_daily_chores_of_today_are_fresh_at_any_moment(now: datetime, zone: str) -> None:
    days = Days.around(now, ZoneInfo(zone))
    start = wall(days.today, days.hours.start, days.hours.zone)
    assert timedelta(0) <= now - start < timedelta(hours=1)
    assert days.hours.start < days.hours.end <= 1440


@given(MOMENTS, st.integers(0, 60), st.floats(0, 1))
def test_this_morning_lies_behind_and_later_lies_ahead_on_the_same_day(
    now: datetime, minute: int, share: float
) -> None:
    days = Days.around(now, LISBON)
    assert days.on(0) - timedelta(seconds=1) <= days.this_morning(minute) <= now
    later = days.later(share)
    assert now - timedelta(seconds=1) <= later <= day_bounds(day_of(now, LISBON), LISBON)[1]


def test_dice_fall_the_same_way_and_stay_in_their_bounds() -> None:
    first, second = Dice(5), Dice(5)
    assert [first.normal(10, 2) for _ in range(5)] == [second.normal(10, 2) for _ in range(5)]
    throws = [first.whole(1, 6) for _ in range(600)]
    assert set(throws) == {1, 2, 3, 4, 5, 6}
    normals = [first.normal(100, 10) for _ in range(2000)]
    mean = sum(normals) / len(normals)
    spread = (sum((each - mean) ** 2 for each in normals) / len(normals)) ** 0.5
    assert mean == pytest.approx(100, abs=1)
    assert spread == pytest.approx(10, abs=0.6)
