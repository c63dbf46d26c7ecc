"""What held when on a shelf, where a tray stood, and what a template wants."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.bands import Band
from logbook.growing.crops.starters import starters
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_fields import mapping_of
from logbook.growing.room.power import LampSet
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.room.tray_uses import tray_uses
from logbook.growing.step_functions import stretches, value_at
from logbook.growing.trays.life import Deed
from logbook.growing.trays.stays import Stay, stays_of
from logbook.growing.wall_hours import WallHours
from logbook.text import Refused
from tests.room import targets_from

DAY = timedelta(days=1)
START = datetime(2026, 4, 1, tzinfo=UTC)
MOMENTS = st.integers(0, 20 * 24).map(lambda hours: START + timedelta(hours=hours))
RADISH = next(template for template in starters() if template.crop == "radish")


def test_lamps_fade_beside_the_first_survey_under_them() -> None:
    """200, then 150 from day 2 on, new lamps at day 4 with 300: half of days 1 to 3 lacks 25 %."""
    old, new = ((START, LampSet(3, 19.3)), (START + 4 * DAY, LampSet(2, 40)))
    surveys = ((START, 200.0), (START + 2 * DAY, 150.0), (START + 4 * DAY, 300.0))
    shelf = ShelfPast(UTC, WallHours(360, 1320), (), (old, new), surveys)
    assert shelf.faded(START, START + 2 * DAY) == 0
    assert shelf.faded(START + DAY, START + 3 * DAY) == pytest.approx(12.5)
    assert shelf.faded(START + 3 * DAY, START + 6 * DAY) == pytest.approx(25)  # of the first alone
    assert shelf.faded(START + 5 * DAY, START + 6 * DAY) is None
    assert ShelfPast(UTC).faded(START, START + DAY) is None


@given(st.lists(st.tuples(MOMENTS, st.integers(0, 9)), max_size=6), MOMENTS, MOMENTS)
def test_stretches_cover_the_time_without_gap_or_overlap(
    changes: list[tuple[datetime, int]], one: datetime, two: datetime
) -> None:
    start, end = min(one, two), max(one, two)
    pieces = list(stretches(changes, -1, start, end))
    reached = start
    for low, high, value in pieces:
        assert low == reached < high
        assert value == value_at(changes, -1, low)
        reached = high
    assert reached == end


def test_a_trays_stretches_follow_its_changes_and_moves() -> None:
    """Sown on 1, to the light (the last stage) on 3, moved on 4, cut on 5."""
    last = len(RADISH.stages) - 1
    deeds = [
        Deed(1, "sow", START, place=1),
        Deed(2, "change", START + 2 * DAY, stage=last),
        Deed(3, "move", START + 3 * DAY, place=2),
        Deed(4, "water", START + 3.5 * DAY),
        Deed(5, "weigh", START + 4 * DAY, grams=200),
        Deed(6, "jot", START + 5 * DAY),
    ]
    assert stays_of(RADISH, deeds, START + 9 * DAY) == (
        Stay(START, START + 2 * DAY, 1, lit=False),
        Stay(START + 2 * DAY, START + 3 * DAY, 1, lit=True),
        Stay(START + 3 * DAY, START + 4 * DAY, 2, lit=True),
    )


def test_a_part_cut_leaves_the_tray_standing() -> None:
    deeds = [Deed(1, "sow", START, place=1), Deed(2, "weigh", START + DAY, grams=90, part=True)]
    (only,) = stays_of(RADISH, deeds, START + 2 * DAY)
    assert only.end == START + 2 * DAY
    assert stays_of(RADISH, deeds[1:], START + 2 * DAY) == ()


@given(st.lists(st.tuples(MOMENTS, MOMENTS), min_size=1, max_size=6))
def test_shares_of_trays_add_up_to_what_the_shelf_used_while_any_stood_there(
    spans: list[tuple[datetime, datetime]],
) -> None:
    lamps = LampSet(3, 19.3)
    shelf = ShelfPast(UTC, WallHours(360, 1320), (), ((START - DAY, lamps),), ())
    lives = {
        tray: (Stay(min(span), max(span), 1, lit=True),)
        for tray, span in enumerate(spans)
        if min(span) < max(span)
    }
    uses = tray_uses(lives, {1: shelf}, ())
    hours = sorted({hour for low, high in spans for hour in _hours(min(low, high), max(low, high))})
    whole = sum(shelf.use(hour, hour + timedelta(hours=1), ()).bill.kwh for hour in hours)
    assert sum(use.use.bill.kwh for use in uses.values()) == pytest.approx(whole)


def _hours(low: datetime, high: datetime) -> list[datetime]:
    return [low + timedelta(hours=step) for step in range(int((high - low) / timedelta(hours=1)))]


def test_targets_come_back_as_they_were_written() -> None:
    wanted = Targets(
        Band(8, 12),
        16,
        Band(18, 24),
        Band(None, 65),
        Band(5.5, 6.5),
        Band(0.8, 1.4),
        Band(250, 400),
    )
    assert targets_from(mapping_of(wanted)) == wanted
    assert targets_from(None) == Targets()
    assert Targets().empty


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("65-75F", 18.333, 23.889),
        ("18 to 24 °C", 18, 24),
        ("at least 18", 18, None),
        ("-5–5", -5, 5),
    ],
)
def test_bands_are_read_in_any_sensible_way(
    text: str, low: float | None, high: float | None
) -> None:
    band = targets_from({"temperature": text}).celsius
    assert band is not None
    assert band.low == (None if low is None else pytest.approx(low, abs=0.001))
    assert band.high == (None if high is None else pytest.approx(high, abs=0.001))


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"light": "12-8"}, "low to high"),
        ({"humidity": "40-130"}, "0 to 100 %"),
        ({"temperature": "18-19-20"}, "cannot be read"),
        ({"lux": "1"}, 'no "lux"'),
        ({"ph": "5-15"}, "0 to 14"),
        ({"lit_hours": "30"}, "lit hours must be 0 to 25 h"),
        ({"light": True}, "must be like"),
    ],
)
def test_targets_that_cannot_be_are_refused(given: dict[str, str], said: str) -> None:
    with pytest.raises(Refused, match=said):
        targets_from(given)


# What was known when


def test_the_first_survey_holds_for_the_time_before_it_too() -> None:
    """100 µmol for 12 h before the first survey and 12 h after, 200 for 24 h from the second."""
    shelf = ShelfPast(
        UTC, WallHours(0, 1440), (), (), ((START + 2 * DAY, 200.0), (START + DAY / 2, 100.0))
    )
    mol, unmeasured = shelf.light(START, START + DAY)
    assert mol == pytest.approx(100 * 86_400e-6)
    assert unmeasured == 0.0
    mol, _ = shelf.light(START + DAY, START + 3 * DAY)
    assert mol == pytest.approx((100 + 200) * 86_400e-6)


def test_without_a_survey_lit_hours_are_unmeasured_and_not_dark() -> None:
    shelf = ShelfPast(UTC, WallHours(360, 1320))
    assert shelf.light(START, START + 2 * DAY) == (0.0, 32.0)


def test_light_before_the_first_lamps_is_unknown() -> None:
    shelf = ShelfPast(UTC, WallHours(360, 1320), (), ((START + DAY, LampSet(2, 50.0)),))
    use = shelf.use(START, START + 3 * DAY, ())
    assert (use.unknown_hours, use.lit_hours) == (16.0, 32.0)
    assert use.bill.kwh == pytest.approx(0.1 * 32)
