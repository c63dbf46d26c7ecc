"""Air over time."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.bands import Band
from logbook.growing.room.air import AirReading, band_hours, day_and_night, held, mould_caution
from logbook.growing.wall_hours import WallHours
from logbook.text import Refused

LONDON = ZoneInfo("Europe/London")
START = datetime(2026, 1, 14, tzinfo=UTC)
DAY = timedelta(days=1)
HOUR = timedelta(hours=1)
LAMPS = WallHours(6 * 60, 22 * 60)


def hourly(
    values: Sequence[tuple[float, float]], still: bool | None = None, start: datetime = START
) -> list[AirReading]:
    return [
        AirReading(start + HOUR * number, celsius, humidity, still)
        for number, (celsius, humidity) in enumerate(values)
    ]


def test_day_and_night_are_split_by_the_lamps() -> None:
    # Given 24 °C while lit and 18 °C while dark, read each hour
    readings = hourly([(24, 60) if 6 <= hour < 22 else (18, 80) for hour in range(24)])
    found = day_and_night(readings, LAMPS, START, START + DAY, LONDON)
    assert found.day is not None
    assert found.night is not None
    assert found.day.celsius == pytest.approx(24)
    assert found.night.celsius == pytest.approx(18)
    assert (found.day.hours, found.night.hours) == (16, 8)
    # psychrolib gives 1.194 kPa for 24 °C and 60 % (computed)
    assert found.day.vpd_kpa == pytest.approx(1.194, abs=0.005)


def test_a_reading_is_split_where_the_lamps_switch() -> None:
    # Given one reading at 05:30 that holds for an hour
    reading = AirReading(START + HOUR * 5.5, 20, 60)
    found = day_and_night([reading], LAMPS, START, START + DAY, LONDON)
    assert found.day is not None
    assert found.night is not None
    assert (found.day.hours, found.night.hours) == (0.5, 0.5)


def test_without_lamps_all_is_night_and_without_readings_nothing_is_known() -> None:
    found = day_and_night(hourly([(20, 60)]), None, START, START + DAY, LONDON)
    assert found.day is None
    assert found.night is not None
    nothing = day_and_night([], LAMPS, START, START + DAY, LONDON)
    assert (nothing.day, nothing.night) == (None, None)


def test_hours_below_within_and_above_a_band() -> None:
    # Given six hours at 17 °C, twelve at 21, two at 27, and four with no reading
    readings = hourly([(17, 60)] * 6 + [(21, 60)] * 12 + [(27, 60)] * 2)
    hours = band_hours(readings, lambda reading: reading.celsius, Band(18, 26), START, START + DAY)
    assert (hours.below, hours.within, hours.above) == (6, 12, 2)
    assert hours.unknown == pytest.approx(4)


def test_a_reading_by_hand_stands_for_an_hour_only() -> None:
    readings = [AirReading(START + HOUR * 7, 21, 60), AirReading(START + HOUR * 19, 21, 60)]
    hours = band_hours(readings, lambda reading: reading.celsius, Band(18, 26), START, START + DAY)
    assert (hours.within, hours.unknown) == (2, 22)


def test_the_band_holds_its_ends_and_may_be_open() -> None:
    assert [Band(18, 26).side(value) for value in (17.9, 18, 26, 26.1)] == [-1, 0, 0, 1]
    assert [Band(low=1).side(0), Band(high=1).side(2), Band().side(5)] == [-1, 1, 0]
    assert (Band(5.5, 6.5).words, Band(low=1).words, Band(high=2).words) == (
        "5.5 to 6.5",
        "at least 1",
        "at most 2",
    )
    assert Band().words == "anything"
    with pytest.raises(Refused, match="low to high"):
        Band(3, 2)


def test_damp_and_still_for_long_is_warned_of() -> None:
    # Given seven hours at 21 °C and 90 % (VPD 0.25 kPa), nobody knows whether a fan ran
    readings = hourly([(21, 60)] * 3 + [(21, 90)] * 7 + [(21, 60)] * 3)
    caution = mould_caution(readings, START, START + DAY)
    assert caution is not None
    assert (caution.since, caution.hours) == (START + HOUR * 3, 7)
    assert "damp with air that may be still" in caution.words
    assert "rule of thumb" in caution.words
    assert "0.43 kPa for 6 h" in caution.words


@pytest.mark.parametrize(
    ("hours", "still", "warned"),
    [(5, True, False), (6, True, True), (7, False, False), (12, False, True), (6, None, True)],
)
def test_moving_air_is_given_longer(hours: int, still: bool | None, warned: bool) -> None:
    # Rule of thumb, common practice, no source; the 0.43 kPa: Ohio State AEX-804 (from memory).
    caution = mould_caution(hourly([(21, 90)] * hours, still), START, START + DAY)
    assert (caution is not None) == warned


def test_a_gap_in_the_readings_ends_a_damp_stretch() -> None:
    readings = hourly([(21, 90)] * 4) + hourly([(21, 90)] * 4, start=START + HOUR * 6)
    assert mould_caution(readings, START, START + DAY) is None


def test_no_readings_no_caution() -> None:
    assert mould_caution([], START, START + DAY) is None


readings_lists = st.lists(
    st.builds(
        AirReading,
        st.integers(-300, 3000).map(lambda minute: START + timedelta(minutes=minute)),
        st.floats(-20, 60),
        st.floats(0, 100),
        st.sampled_from([True, False, None]),
    ),
    max_size=40,
)


@given(readings_lists)
def test_hours_add_up_to_the_whole_time(readings: list[AirReading]) -> None:
    end = START + DAY
    hours = band_hours(readings, lambda reading: reading.vpd_kpa, Band(0.4, 1.2), START, end)
    assert hours.below + hours.within + hours.above + hours.unknown == pytest.approx(24)
    parts = day_and_night(readings, LAMPS, START, end, LONDON)
    covered = sum(mean.hours for mean in (parts.day, parts.night) if mean)
    assert covered == pytest.approx(24 - hours.unknown)


@given(readings_lists)
def test_stretches_never_overlap(readings: list[AirReading]) -> None:
    stretches = list(held(readings, START, START + DAY))
    for one, two in pairwise(stretches):
        assert one.start < one.end <= two.start
