"""What a crop wants, as texts and back."""

from __future__ import annotations

import pytest

from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_fields import mapping_of
from logbook.growing.measures import Units
from logbook.text import Refused
from tests.room import targets_from

WISHES = {
    "light": "8 to 12",
    "lit_hours": "16 h",
    "temperature": "18 to 24 C",
    "humidity": "at most 65 %",
    "ph": "5.5 to 6.5",
    "ec": "0.8 to 1.6",
    "water": "200 to 400 ml",
}


def test_what_is_written_is_read_back() -> None:
    targets = targets_from(WISHES)
    assert mapping_of(targets) == WISHES
    assert mapping_of(targets_from(None)) == {}


def test_in_us_units_it_is_fahrenheit_and_fluid_ounces() -> None:
    wanted = targets_from({**WISHES, "water": "10-12 floz"})
    texts = {
        each.key: each.value.write(getattr(wanted, each.attribute), "us") for each in Targets.fields
    }
    assert texts["temperature"] == "64.4 to 75.2 F"
    assert texts["water"] == "10 to 12 floz"
    assert "temperature: 64.4 to 75.2 °F" in wanted.lines("us")
    again = targets_from(texts, "us")
    assert again.celsius is not None
    assert again.celsius.low == pytest.approx(18)
    assert again.millilitres is not None
    assert again.millilitres.low == pytest.approx(295.735295625)


@pytest.mark.parametrize(
    ("key", "text", "units", "said"),
    [
        ("light", "many", "metric", "daily light"),
        ("light", "12-8", "metric", "from low to high"),
        ("light", "8-120", "metric", "0 to 100 mol"),
        ("lit_hours", "30", "metric", "0 to 25 h, not 30"),
        ("temperature", "200-300", "metric", "temperature"),
        ("humidity", "40-130 %", "metric", "130 %"),
        ("ph", "5-15", "metric", "pH"),
        ("ec", "1200", "metric", "Write µS"),
        ("water", "-3 ml", "metric", "amount of water"),
        ("water", "3 stone", "us", "unit"),
    ],
)
def test_what_cannot_be_is_said(key: str, text: str, units: Units, said: str) -> None:
    with pytest.raises(Refused, match=said):
        targets_from({key: text}, units)
