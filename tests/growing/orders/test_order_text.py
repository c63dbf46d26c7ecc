"""An order is read as a chef texts it; the calendar is worked by hand: 28 November 2026 is a Saturday."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from logbook.growing.orders.order_text import Asked, day_ordered, read_order
from logbook.growing.orders.weekdays import read_weekdays, weekdays_words
from logbook.text import Refused

LONDON = ZoneInfo("Europe/London")
NOW = datetime(2026, 11, 28, 9, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("daikon 500g fri", Asked("daikon", 1, 500, day="fri")),
        ("500 g daikon fri", Asked("daikon", 1, 500, day="fri")),
        ("pea shoots 6 x 50g every tue,fri", Asked("pea shoots", 6, 50, "tue,fri")),
        ("6x50g of pea shoots on Tuesday", Asked("pea shoots", 6, 50, day="Tuesday")),
        ("pea shoots 50g x 6 tomorrow 06:30", Asked("pea shoots", 6, 50, day="tomorrow", clock="06:30")),
        ("radish, pink stem 1,5 kg for 4 Dec at 6:00", Asked("radish, pink stem", 1, 1500, day="4 Dec", clock="6:00")),
        ("2 trays cress tue", Asked("cress", 2, None, day="tue")),
        ("2 live trays of cress", Asked("cress", 2, None)),
        ("kale 2 packs of 100g every day", Asked("kale", 2, 100, "mon,tue,wed,thu,fri,sat,sun")),
        ("kale 100g", Asked("kale", 1, 100)),
    ],
)  # fmt: skip
def test_what_was_texted_is_understood(text: str, asked: Asked) -> None:
    assert read_order(text, NOW, LONDON) == asked


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("daikon fri", "How much is that?"),
        ("500g", "Which crop is that?"),
        ("daikon 10 t fri", 'unknown unit "t"'),
        ("daikon 0 g fri", "more than 0 g"),
        ("daikon 2000 kg fri", "at most 1,000,000 g"),
        ("daikon 9000 x 500 kg fri", "at most 1,000,000 g"),
        ("0 trays cress fri", "whole number from 1 to 10,000"),
        ("daikon 500g someday", "isn't a day"),
        ("daikon 500g every someday", "isn't a day of the week"),
        ("daikon 500g fri 25:00", "isn't a time"),
        ("daikon 500g Fri 5 Dec", "Sat 5 Dec is the right day"),
    ],
)
def test_what_cannot_be_is_refused(text: str, sentence: str) -> None:
    with pytest.raises(Refused, match=sentence):
        read_order(text, NOW, LONDON)


@pytest.mark.parametrize(
    ("text", "weekdays", "expected"),
    [
        ("500g radish fri", "", (date(2026, 12, 4), None)),
        ("500g radish sat", "", (date(2026, 12, 5), None)),
        ("500g radish sat 18:00", "", (date(2026, 11, 28), 18 * 60)),
        ("500g radish 3 Jan", "", (date(2027, 1, 3), None)),
        ("500g radish", "tue,fri", (date(2026, 12, 1), None)),
    ],
)
def test_a_day_is_the_next_of_its_name(
    text: str, weekdays: str, expected: tuple[date, int | None]
) -> None:
    """Wanted at 07:00, which is over today."""
    assert day_ordered(read_order(text, NOW, LONDON), 7 * 60, weekdays, NOW, LONDON) == expected


@pytest.mark.parametrize(
    "text", ["500g radish yesterday", "500g radish 27 Nov", "500g radish today"]
)
def test_an_order_for_a_time_that_is_over_is_refused(text: str) -> None:
    with pytest.raises(Refused, match="is past"):
        day_ordered(read_order(text, NOW, LONDON), 7 * 60, "", NOW, LONDON)


def test_days_of_the_week_are_kept_in_their_order() -> None:
    assert read_weekdays("Fridays and tue") == "tue,fri"
    assert weekdays_words("tue,fri") == "Tue, Fri"
    assert weekdays_words(read_weekdays("every day")) == "every day"
