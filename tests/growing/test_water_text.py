"""Water on one line: when it was given, how much, its pH and EC."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.measures import Units
from logbook.growing.room.water import WaterReading
from logbook.growing.room.water_reading import quality_from, water_from, watering_from
from logbook.text import Refused

LISBON = ZoneInfo("Europe/Lisbon")
NOW = datetime(2026, 4, 14, 9, 0, tzinfo=LISBON)
AT = datetime(2026, 4, 14, 6, 30, tzinfo=UTC)  # 07:30 by the wall


@pytest.mark.parametrize(
    ("text", "water"),
    [
        ("6.1 1.2", WaterReading(6.1, 1.2)),
        ("6.1", WaterReading(6.1)),
        ("ec 1200 µS/cm", WaterReading(None, 1.2)),
        ("EC: 1.2, pH = 6.1", WaterReading(6.1, 1.2)),
    ],
)
def test_ph_and_ec(text: str, water: WaterReading) -> None:
    assert quality_from(text) == water


@pytest.mark.parametrize(
    ("text", "units", "water"),
    [
        ("300ml", "metric", WaterReading(None, None, 300)),
        ("0.3 L ph 6.1 ec 1.2", "metric", WaterReading(6.1, 1.2, 300)),
        ("ph 6.1 ec 1.2 mS/cm 300 ml", "metric", WaterReading(6.1, 1.2, 300)),
        ("1 cup, ph 6", "us", WaterReading(6.0, None, 236.5882365)),
        ("", "metric", WaterReading()),
    ],
)
def test_an_amount_may_stand_beside_them(text: str, units: Units, water: WaterReading) -> None:
    assert water_from(text, units) == water


@pytest.mark.parametrize(
    ("text", "at", "water"),
    [
        ("07:30", AT, WaterReading()),
        ("07:30 300ml ph 6.1", AT, WaterReading(6.1, None, 300)),
        ("today 07:30, pH 6.1", AT, WaterReading(6.1)),
        ("2026-04-14T07:30 300 ml", AT, WaterReading(None, None, 300)),
        ("300ml ph 6.1 ec 1.2", None, WaterReading(6.1, 1.2, 300)),
        ("0730", AT, WaterReading()),
        ("7.30 300ml", AT, WaterReading(None, None, 300)),
        ("7", AT - timedelta(minutes=30), WaterReading()),
        ("ec 1.2", None, WaterReading(None, 1.2)),
        ("7:30 ph6.1 ec1.2", AT, WaterReading(6.1, 1.2)),
        ("300ml,pH6.1", None, WaterReading(6.1, None, 300)),
    ],
)
def test_a_watering_with_and_without_its_time(
    text: str, at: datetime | None, water: WaterReading
) -> None:
    assert watering_from(text, NOW, LISBON) == (at, water)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Write when"),
        ("soon", "isn't a time"),
        ("soon ph 6", "isn't a time"),
        ("phosphate", "isn't a time"),
        ("07:30 much", "isn't a time"),
        ("6.1 1.2", "isn't a time"),
        ("300ml 6.1", 'What is "6.1"'),
        ("yesterday 300ml", "at what hour"),
        ("07:30 ph sour", "pH"),
        ("300ml ph 19", "0 to 14"),
        ("-3ml", "more than 0"),
        ("0 ml", "more than 0"),
        ("ec 1200", "µS"),
        ("9" * 400 + "ml", "amount"),
    ],
)
def test_what_cannot_be_read_is_said(text: str, said: str) -> None:
    with pytest.raises(Refused, match=said):
        watering_from(text, NOW, LISBON)


@given(st.text(alphabet="0123456789.,:- phecmlLTZµS/=;½", max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    with suppress(Refused):
        at, water = watering_from(text, NOW, LISBON)
        assert at is not None or water != WaterReading()
