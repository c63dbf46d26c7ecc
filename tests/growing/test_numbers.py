"""Tray lists such as "101 104-109"."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.numbers import life, next_numbers, numbers_within, numbers_words, parse_numbers
from logbook.text import Refused

NUMBERS = st.lists(st.integers(1, 99_999), min_size=1, max_size=60, unique=True)


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("101", (101,)),
        ("101 103-105", (101, 103, 104, 105)),
        ("101,103 – 105;108", (101, 103, 104, 105, 108)),
        ("#7", (7,)),
        ("105 101-103 102", (105, 101, 102, 103)),
        ("101-101", (101,)),
    ],
)
def test_a_tray_list_is_read_in_its_order_each_once(text: str, numbers: tuple[int, ...]) -> None:
    assert parse_numbers(text) == numbers


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "empty"),
        ("  ,; ", "empty"),
        ("abc", "not a tray number"),
        ("105-101", "runs backwards"),
        ("0", "go from 1 to 99999"),
        ("100000", "go from 1 to 99999"),
        ("1-2001", "more than 2,000"),
        ("1-99999", "more than 2,000"),
        ("99999999999999999999", "not a tray number"),
        ("1.5", "not a tray number"),
        ("101-", "not a tray number"),
        ("[/]", "not a tray number"),
    ],
)
def test_a_tray_list_that_is_none_is_refused(text: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        parse_numbers(text)


@given(NUMBERS)
def test_numbers_written_are_read_back(numbers: list[int]) -> None:
    assert parse_numbers(numbers_words(numbers)) == tuple(sorted(numbers))
    assert parse_numbers(numbers_words(numbers, "-", ", ")) == tuple(sorted(numbers))


@pytest.mark.parametrize(
    ("room", "words"),
    [
        (15, "104 106 108 110"),
        (14, "104 106 108 +1"),
        (13, "104 106 +2"),
        (9, "104 +3"),
        (5, "+4"),
        (1, "+4"),
    ],
)
def test_numbers_that_have_no_room_are_counted(room: int, words: str) -> None:
    assert numbers_within((104, 106, 108, 110), room) == words
    assert numbers_within((12345,), room) == "12345"


def test_three_in_a_row_are_a_range() -> None:
    assert numbers_words([101, 102]) == "101 102"
    assert numbers_words([103, 101, 102, 110]) == "101–103 110"
    assert numbers_words([]) == ""
    ended = [life(number, 500 - number) for number in (101, 102, 103)]
    assert numbers_words([102, *ended]) == "101 102 102 103", "trays that ended go by their numbers"
    assert numbers_words(ended) == "101–103"


@given(
    st.integers(1, 500),
    st.none() | st.integers(1, 99_999),
    st.sets(st.integers(101, 700), max_size=300),
)
def test_the_book_gives_free_numbers_each_once(
    count: int, last: int | None, taken: set[int]
) -> None:
    given_out = next_numbers(count, last, taken)
    assert len(given_out) == len(set(given_out)) == count
    assert not taken & set(given_out)
    assert all(101 <= number <= 99_999 for number in given_out)


def test_numbers_go_on_and_begin_again_as_tape_does() -> None:
    assert next_numbers(2, None, ()) == (101, 102)
    assert next_numbers(3, 104, (106,)) == (105, 107, 108)
    assert next_numbers(3, 9998, ()) == (9999, 101, 102)
    assert next_numbers(2, 7, ()) == (101, 102)
