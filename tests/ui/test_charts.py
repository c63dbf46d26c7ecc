"""Charts and the drawing of a shelf as text."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.room.light import Grid, Spot
from logbook.ui.chart_scale import thinned
from logbook.ui.charts import bar, line_chart
from logbook.ui.light_drawing import shelf_drawing

FLOATS = st.floats(allow_nan=True, allow_infinity=True, width=32)


def test_a_chart_keeps_to_its_size_and_has_no_escape_codes() -> None:
    points = [(float(hour), 20 + math.sin(hour)) for hour in range(24)]
    text = line_chart(points, 60, 10, span=(0, 24), ticks=[(0, "00"), (12, "12")], levels=[20.5])
    lines = text.splitlines()
    assert len(lines) == 10
    assert max(map(len, lines)) <= 60
    assert "\x1b" not in text
    assert "12" in lines[-1]


@given(st.lists(st.tuples(FLOATS, FLOATS), max_size=12))
def test_numbers_that_are_none_end_nothing(points: list[tuple[float, float]]) -> None:
    assert isinstance(line_chart(points, 40, 8, span=(-1e3, 1e3)), str)


def test_nothing_to_draw_or_no_room_gives_nothing() -> None:
    assert line_chart([], 40, 8, span=(0, 1)) == ""
    assert line_chart([(math.nan, 1.0)], 40, 8, span=(0, 1)) == ""
    assert line_chart([(0.5, 1.0)], 5, 8, span=(0, 1)) == ""
    assert line_chart([(0.5, 1.0)], 40, 8, span=(0, 1)) != ""


def test_a_chart_draws_the_same_whatever_was_drawn_before() -> None:
    points = [(float(hour), float(hour % 5)) for hour in range(24)]
    first = line_chart(points, 50, 9, span=(0, 24))
    line_chart([(1.0, 900.0), (2.0, -900.0)], 30, 6, span=(0, 3), levels=[5])
    assert line_chart(points, 50, 9, span=(0, 24)) == first


def test_a_bare_console_gets_marks_that_its_font_has(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "linux")
    text = line_chart([(0.0, 1.0), (1.0, 2.0)], 40, 8, span=(0, 1))
    assert "*" in text
    assert not any("\u2800" <= mark <= "\u28ff" for mark in text)


def by_round(by: float) -> float:
    """The nearest of what a person counts by: 1, 2, 2.5, 3, 4, 5, times a power of ten."""
    size = by / 10.0 ** math.floor(math.log10(by))
    return min((1, 2, 2.5, 3, 4, 5), key=lambda each: abs(each - size))


def _names(text: str) -> dict[int, float]:
    """Give the values beside the rows of a chart, the uppermost row 0."""
    found = {}
    for row, line in enumerate(text.splitlines()):
        name, axis, _ = line.partition("┤")
        if axis:
            found[row] = float(name)
    return found


@pytest.mark.parametrize("marker", ["linux", "xterm"])
@pytest.mark.parametrize("height", range(5, 16))
@pytest.mark.parametrize(
    ("low", "high"), [(17.2, 23.5), (0.31, 1.04), (45.0, 46.0), (-3.2, 3.9), (68, 99), (21, 21)]
)
def test_the_scale_is_true_to_its_rows_and_the_line_to_the_scale(
    monkeypatch: pytest.MonkeyPatch, low: float, high: float, height: int, marker: str
) -> None:
    monkeypatch.setenv("TERM", marker)
    points = [(float(hour), low + (high - low) * hour / 24) for hour in range(25)]
    text = line_chart(points, 60, height, span=(0, 24), ticks=[(0, "00"), (12, "12")])
    lines, names = text.splitlines(), _names(text)
    assert len(lines) == height
    assert len(names) >= 2
    (first, at_first), (last, at_last) = min(names.items()), max(names.items())
    a_row = (at_first - at_last) / (last - first)
    by = (max(names.values()) - min(names.values())) / (len(names) - 1)
    assert by / 10.0 ** math.floor(math.log10(by)) == pytest.approx(by_round(by))
    for row, name in names.items():
        assert name == pytest.approx(at_last + a_row * (last - row))
    drawn = [row for row in range(height - 2) if re.split("[│┤]", lines[row])[1]]
    for row, value in ((max(drawn), low), (min(drawn), high)):
        assert abs(at_last + a_row * (last - row) - value) <= a_row * 0.6


def test_many_points_are_thinned_to_means() -> None:
    points = [(float(at), 1.0) for at in range(1000)]
    assert len(thinned(points, (0, 1000), 80)) <= 80
    assert {y for _, y in thinned(points, (0, 1000), 80)} == {1.0}


def test_a_shelf_is_drawn_back_row_first_and_readable_without_colour() -> None:
    """Readings toward a reflecting wall run higher (common practice, no source)."""
    spots = [Spot(1, 1, 100), Spot(2, 1, 160), Spot(3, 1, 200)]
    assert shelf_drawing(Grid(3, 1), spots, 50) == [
        "back   ███ 200",
        "middle ▓▓▓ 160",
        "front  ░░░ 100",
        "PPFD   ░ 0+   ▒ 120+   ▓ 150+   █ 180+",
    ]


def test_a_spot_that_was_left_out_is_a_dot_and_columns_without_room_are_counted() -> None:
    lines = shelf_drawing(Grid(2, 9), [Spot(1, 1, 100)], 38)
    assert "·" in lines[0]
    assert lines[-2].strip() == "4 more to the right"
    assert all(len(line) <= 38 for line in lines)


def test_a_bar_stays_in_its_width() -> None:
    assert bar(0.5, 10) == "█" * 5
    assert bar(9, 10) == "█" * 10
    assert bar(-1, 10) == ""
