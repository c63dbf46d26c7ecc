"""The first walk at or after a moment, at the edges of the room's day."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.growing.trays.chores import RoomHours
from tests.room import HOURS, LONDON, moment, wall_words


@pytest.mark.parametrize(
    ("at", "walk"),
    [
        ("2026-04-01 00:00", "2026-04-01 07:00"),
        ("2026-04-01 06:59", "2026-04-01 07:00"),
        ("2026-04-01 07:00", "2026-04-01 07:00"),
        ("2026-04-01 12:34", "2026-04-01 12:34"),
        ("2026-04-01 18:59", "2026-04-01 18:59"),
        ("2026-04-01 19:00", "2026-04-02 07:00"),
        ("2026-04-01 23:59", "2026-04-02 07:00"),
        ("2026-03-28 23:30", "2026-03-29 07:00"),  # the night of 23 hours
        ("2026-10-24 23:30", "2026-10-25 07:00"),  # and of 25
        ("2026-12-31 19:00", "2027-01-01 07:00"),
    ],
)
def test_a_walk_is_the_moment_itself_while_the_room_is_worked(at: str, walk: str) -> None:
    assert wall_words(HOURS.walk_at(moment(at))) == walk


def test_a_room_that_is_worked_round_the_clock_is_walked_at_every_moment() -> None:
    always = RoomHours(LONDON, 0, 1440)
    for at in ("2026-04-01 00:00", "2026-04-01 03:00", "2026-04-01 23:59"):
        assert always.walk_at(moment(at)) == moment(at)


@pytest.mark.parametrize(
    ("start", "end", "evening", "last"),
    [(420, 1140, None, 1020), (420, 660, None, 540), (420, 659, None, 539), (420, 480, None, 450),
     (420, 1140, 1139, 1139)],
)  # fmt: skip
def test_the_last_round_is_two_hours_before_the_end_or_when_the_room_says(
    start: int, end: int, evening: int | None, last: int
) -> None:
    assert replace(HOURS, start=start, end=end, evening=evening).last_round == last
