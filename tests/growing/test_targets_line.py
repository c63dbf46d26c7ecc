"""Targets on one line of the template form."""

from __future__ import annotations

import pytest

from logbook.growing.target_text import targets_from, targets_from_line, targets_line
from logbook.text import Refused

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
    assert targets_from_line(targets_line(targets)) == targets
    assert targets_from_line("") == targets_from(None)
    assert targets_line(targets_from(None)) == ""


def test_it_reads_as_people_write() -> None:
    assert targets_from_line("Light 8-12; lit hours 16; ; pH 5.5-6.5 ") == targets_from(
        {"light": "8-12", "lit_hours": "16", "ph": "5.5-6.5"}
    )


@pytest.mark.parametrize("text", ["8-12", "brightness 3", "light many", "ph 20-30 h"])
def test_what_cannot_be_read_is_said(text: str) -> None:
    with pytest.raises(Refused):
        targets_from_line(text)
