"""Water against a template's bands."""

from __future__ import annotations

import pytest

from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets
from logbook.growing.room.water import WaterReading, water_marks
from logbook.text import Refused

TARGET = Targets(ph=Band(5.5, 6.5), ec=Band(0.5, 1.2), millilitres=Band(200, 400))


def test_what_is_out_of_band_is_marked() -> None:
    marks = water_marks(WaterReading(ph=7.4, ec=0.3, millilitres=300), TARGET)
    assert [(mark.what, mark.side) for mark in marks] == [
        ("pH", "high"),
        ("EC", "low"),
        ("amount", "in"),
    ]
    assert "pH 7.4 is high (wanted 5.5 to 6.5)" in marks[0].words
    assert "EC 0.3 mS/cm is low" in marks[1].words
    assert marks[2].words == "amount 300 ml per tray is in range"


def test_a_mark_is_written_to_two_digits() -> None:
    (mark,) = water_marks(WaterReading(ph=7.456), TARGET)
    assert mark.words.startswith("pH 7.46 is high")


def test_only_what_was_measured_and_is_wanted_is_judged() -> None:
    assert water_marks(WaterReading(ph=6), Targets()) == ()
    assert water_marks(WaterReading(), TARGET) == ()
    assert len(water_marks(WaterReading(ec=1.0), TARGET)) == 1


@pytest.mark.parametrize(
    ("ph", "ec", "millilitres"),
    [(15.0, None, None), (-1.0, None, None), (float("nan"), None, None), (None, 1200.0, None),
     (None, -0.1, None), (None, None, -5.0)],
)  # fmt: skip
def test_impossible_water_is_refused(
    ph: float | None, ec: float | None, millilitres: float | None
) -> None:
    with pytest.raises(Refused):
        WaterReading(ph, ec, millilitres)
