"""Soak and sowing counted back from when something is wanted."""

import random
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.days import day_of, wall
from logbook.growing.planning.backward import backward, earliest, worked_by
from logbook.growing.trays.chores import RoomHours, change_into
from tests.room import DAY, HOUR, HOURS, LONDON, crop_of, field_test, moment, wall_words


@pytest.mark.parametrize(
    ("ready", "cut"),
    [
        ("2026-04-10 06:59", "2026-04-09 17:00"),
        ("2026-04-10 07:00", "2026-04-10 07:00"),
        ("2026-04-10 19:00", "2026-04-10 19:00"),
        ("2026-04-10 19:01", "2026-04-10 17:00"),
    ],
)
def test_the_cut_is_made_while_the_room_is_worked(ready: str, cut: str) -> None:
    assert wall_words(worked_by(moment(ready), HOURS)) == cut


def test_every_step_of_a_delivery_at_six() -> None:
    """Soak 4 h, 4 days under weight, 1 day blackout, best 60 h later; worked by hand."""
    found = backward(field_test(), moment("2026-04-10 06:00"), HOURS)
    assert found is not None
    # cut on the round of the 9th at 17:00; sown at 11:00, soaked first thing, it is best at 23:00
    assert found.soak_at is not None
    assert [wall_words(at) for at in (found.soak_at, found.sow_at)] == [
        "2026-04-02 07:00",
        "2026-04-02 11:00",
    ]
    changes = [(change.words, wall_words(change.at)) for change in found.changes]
    assert changes == [
        ("weight off, lid on", "2026-04-06 11:00"),
        ("lid off, under lights", "2026-04-07 11:00"),
    ]
    assert wall_words(found.cut_at) == "2026-04-09 17:00"
    assert found.cut.start <= found.cut_at <= found.cut.by


def test_no_sooner_than_the_crop_grows() -> None:
    crop, now = field_test(), moment("2026-04-01 08:00")
    first = earliest(crop, now, HOURS)
    assert first.soak_at == now
    assert wall_words(first.cut_at) == "2026-04-08 12:00"
    at_first = backward(crop, first.cut_at, HOURS, now)
    assert at_first is not None
    assert at_first.sow_at == first.sow_at
    assert backward(crop, first.cut_at - timedelta(minutes=1), HOURS, now) is None


def test_a_soak_that_no_working_day_has_room_for() -> None:
    short = RoomHours(LONDON, 10 * 60, 12 * 60)
    crop = crop_of(Stage("grow", None, light="lit"), soak_seconds=12 * HOUR)
    found = backward(crop, moment("2026-04-10 11:00"), short)
    assert found is not None
    assert not found.soak_at_work
    assert found.sow_at == worked_by(found.sow_at, short)


def _a_crop(draw: random.Random) -> CropTemplate:
    stages = [
        Stage(
            f"stage {place}", draw.randrange(6, 80) * HOUR, draw.choice(("none", "lid", "weight"))
        )
        for place in range(draw.randrange(4))
    ]
    best = draw.randrange(2, 8) * DAY
    spans = sorted(draw.sample(range(best // 2, best * 2), 2))
    cut = CutWindow(min(spans[0], best), best, max(spans[1], best))
    last = Stage("light", None, light="lit")
    return crop_of(*stages, last, cut=cut, soak_seconds=draw.choice((0, 4, 8, 12, 24)) * HOUR)


def test_in_rooms_of_any_hours_all_hands_work_is_within_them() -> None:
    draw = random.Random(3)
    for _ in range(150):
        start = draw.randrange(5, 11) * 60
        hours = RoomHours(ZoneInfo("Europe/London"), start, start + draw.randrange(4, 14) * 60)
        crop = _a_crop(draw)
        # around both changes of the clock
        ready = moment(draw.choice(("2026-03-20", "2026-10-20")) + " 06:00")
        ready += timedelta(hours=draw.randrange(400))
        found = backward(crop, ready, hours)
        assert found is not None
        hands = [found.sow_at, *(each.at for each in found.changes), found.cut_at]
        if found.soak_at is not None and found.soak_at_work:
            hands.append(found.soak_at)
        for at in hands:
            day = day_of(at, hours.zone)
            assert wall(day, hours.start, hours.zone) <= at <= wall(day, hours.end, hours.zone)
        assert found.cut.start <= found.cut_at <= ready
        assert found.sow_at < found.cut_at
        misses = _misses(crop, hours, found.cut_at, day_of(found.sow_at, hours.zone))
        assert abs(found.cut.best - found.cut_at) <= min(misses, default=timedelta.max)


def _misses(
    crop: CropTemplate, hours: RoomHours, cut_at: datetime, near: date
) -> Iterator[timedelta]:
    """How far sowings at every half hour of near days are from their best at the cut."""
    for step in range(-4 * 48, 4 * 48):
        at = wall(near + timedelta(days=step // 48), step % 48 * 30, hours.zone)
        times = [at, at - timedelta(seconds=crop.soak_seconds)]
        for number, stage in enumerate(crop.stages[:-1], 1):
            at += timedelta(seconds=stage.seconds or 0)
            at = hours.walk_at(at) if change_into(crop, number).parts else at
        cut = crop.cut
        start, best, by = (
            at + timedelta(seconds=end)
            for end in (cut.from_seconds, cut.best_seconds, cut.by_seconds)
        )
        begins = [hours.start <= minutes(each, hours) <= hours.end for each in times]
        if start <= cut_at <= by and all(begins) and minutes(times[0], hours) < hours.end:
            yield abs(best - cut_at)


def minutes(at: datetime, hours: RoomHours) -> int:
    """Minutes after midnight by the wall."""
    clock = at.astimezone(hours.zone)
    return clock.hour * 60 + clock.minute
