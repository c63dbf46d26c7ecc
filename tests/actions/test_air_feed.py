"""A sensor's feed: what becomes a reading, what is skipped, and that nothing grows without end."""

from __future__ import annotations

import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.room.air import air_at, write_air
from logbook.actions.room.air_feed import MOST_HELD, Feed
from logbook.actions.trays.page import page
from logbook.actions.trays.striking import undo
from logbook.text import Refused
from tests.actions.room_book import SHELF, moment, room_book, stand_at


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return room_book(tmp_path, at=moment(2, 12))


def _line(**given: Any) -> bytes:
    return json.dumps(given).encode()


def test_the_lines_of_a_minute_become_one_reading_and_a_write_one_entry(book: Book) -> None:
    feed = Feed(book, SHELF)
    for celsius in (20.0, 21.0, 22.0):
        feed.take(_line(celsius=celsius, humidity=50))
    feed.take(_line(celsius=25, humidity=40, at="2026-04-02T11:30:00+00:00"))
    assert feed.held == 2
    assert feed.write() == 2
    first, second = air_at(book, SHELF).readings
    assert first.celsius == 25
    assert second.celsius == pytest.approx(21)
    assert len(page(book, kind="air")) == 1


def test_a_feed_played_again_stores_nothing_twice(book: Book) -> None:
    lines = [
        _line(celsius=20 + place, humidity=50, place=name, at=f"2026-04-02T11:3{minute}:10+00:00")
        for place, name in enumerate(("Rack 1", SHELF))
        for minute in range(3)
    ]
    for new, known in ((6, 0), (0, 6)):
        feed = Feed(book)
        for line in lines:
            feed.take(line)
        assert feed.write() == new
        assert (feed.known, feed.entries) == (known, int(known == 0))
    assert len(air_at(book, SHELF).readings) == 3


def test_a_minute_that_is_not_over_waits_for_its_rest(book: Book) -> None:
    feed = Feed(book, SHELF)
    stand_at(book, moment(2, 12) + timedelta(seconds=59))
    feed.take(_line(celsius=20, humidity=50))
    assert feed.write(whole=True) == 0
    feed.take(_line(celsius=22, humidity=50))
    stand_at(book, moment(2, 12) + timedelta(seconds=60))
    feed.take(_line(celsius=30, humidity=50))
    assert feed.write(whole=True) == 1
    assert feed.held == 1
    assert [one.celsius for one in air_at(book, SHELF).readings] == [21]


def test_places_units_and_stillness_are_read(book: Book) -> None:
    feed = Feed(book)
    feed.take(_line(fahrenheit=70, rh="55 %", place="Rack 1", still=True))
    feed.take(_line(temp="21.5 C", humidity=55, place=SHELF, still=False))
    feed.write()
    (rack,) = air_at(book, "Rack 1").readings
    assert rack.celsius == pytest.approx((70 - 32) / 1.8)
    assert rack.still is True
    assert air_at(book, SHELF).readings[0].still is False


@pytest.mark.parametrize(
    "line",
    [
        b"garbage",
        b"[]",
        b"null",
        b'{"celsius": 21}',
        b'{"celsius": NaN, "humidity": 50}',
        b'{"celsius": 1e999, "humidity": 50}',
        b'{"celsius": 21, "humidity": 130}',
        b'{"celsius": 21, "humidity": 0.6}',
        b'{"celsius": true, "humidity": 50}',
        b'{"celsius": 21, "humidity": 50, "place": "Attic"}',
        b'{"celsius": 21, "humidity": 50, "place": {"a": 1}}',
        b'{"celsius": 21, "humidity": 50, "still": "yes"}',
        b'{"celsius": 21, "humidity": 50, "at": "2031-01-01"}',
        b'{"celsius": 21, "humidity": 50, "at": 12}',
        b"\xff\xfe\x00",
        b"[" * 5000,
    ],
)
def test_a_bad_line_is_counted_and_skipped(book: Book, line: bytes) -> None:
    feed = Feed(book)
    feed.take(line)
    assert (feed.bad, feed.held) == (1, 0)
    assert feed.last_bad


@pytest.mark.parametrize("at", ["yesterday", "07:30", "yesterday 07:30", "2026-04-02"])
def test_a_line_says_the_whole_moment(book: Book, at: str) -> None:
    feed = Feed(book)
    feed.take(_line(celsius=21, humidity=50, at=at))
    assert "the date too" in feed.last_bad


@given(st.lists(st.binary(max_size=60), max_size=40))
def test_no_bytes_stop_the_feed(
    tmp_path_factory: pytest.TempPathFactory, lines: list[bytes]
) -> None:
    feed = Feed(_shared(tmp_path_factory))
    for line in lines:
        feed.take(line)
    assert feed.bad + feed.taken == sum(bool(line.strip()) for line in lines)


_BOOKS: list[Book] = []


def _shared(factory: pytest.TempPathFactory) -> Book:
    if not _BOOKS:
        _BOOKS.append(room_book(factory.mktemp("feed"), at=moment(2, 12)))
    return _BOOKS[0]


def test_what_is_held_is_bounded(book: Book) -> None:
    feed = Feed(book)
    start = book.now() - timedelta(days=30)
    for minute in range(MOST_HELD + 50):
        at = (start + timedelta(minutes=minute)).isoformat()
        feed.take(_line(celsius=21, humidity=50, at=at))
    assert feed.held == MOST_HELD
    assert feed.full
    assert feed.lost == 50


def test_a_persons_undo_never_takes_a_sensors_batch(book: Book) -> None:
    write_air(book, 20.0, 50.0, SHELF)
    feed = Feed(book, SHELF)
    feed.take(_line(celsius=21, humidity=50))
    feed.write()
    undo(book)
    assert [one.celsius for one in air_at(book, SHELF).readings] == [21]


def test_a_page_shows_a_feed_as_one_line_that_counts(book: Book) -> None:
    feed = Feed(book, SHELF)
    for minute in range(4):
        stand_at(book, moment(2, 13, minute))
        feed.take(_line(celsius=20 + minute, humidity=50))
        feed.write()
    (line,) = page(book)
    assert line.words == "air: 4 readings, 20 °C to 23 °C, 50 % (in 4 entries; kind air shows each)"
    assert line.said.air is not None
    assert (line.said.air.celsius, line.said.air.humidity) == (21.5, 50)
    assert len(page(book, kind="air")) == 4


@pytest.mark.file
def test_a_write_that_fails_keeps_what_is_held(book: Book) -> None:
    feed = Feed(book, SHELF)
    feed.take(_line(celsius=21, humidity=50))
    away = book.file.path.with_name("away.book")
    book.file.path.rename(away)
    with pytest.raises(Refused):
        feed.write()
    assert feed.held == 1
    away.rename(book.file.path)
    assert feed.write() == 1


def test_an_unknown_place_is_refused_at_the_start(book: Book) -> None:
    with pytest.raises(Refused, match="no place"):
        Feed(book, "Attic")
