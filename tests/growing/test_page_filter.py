"""A filter of the page, read."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from logbook.growing.page_filter import PageFilter, parse_filter
from logbook.text import Refused


@pytest.mark.parametrize(
    ("text", "only"),
    [
        ("", PageFilter()),
        ("all", PageFilter()),
        ("tray 101", PageFilter(tray=101)),
        ("101", PageFilter(tray=101)),
        ("crop pea shoots", PageFilter(crop="pea shoots")),
        ("pea shoots", PageFilter(crop="pea shoots")),
        ("kind water", PageFilter(kind="water")),
        ("Water", PageFilter(kind="water")),
        ("thrown out", PageFilter(kind="discard")),
        ("2026-03-27", PageFilter(day=date(2026, 3, 27))),
        ("day yesterday", PageFilter(day=date(2026, 3, 27))),
    ],
)
def test_a_filter_is_read(text: str, only: PageFilter) -> None:
    assert parse_filter(text, datetime(2026, 3, 28, 9, tzinfo=UTC), ZoneInfo("UTC")) == only


@pytest.mark.parametrize("text", ["kind wine", "tray 1-3", "tray x", "2026-13-40", "day"])
def test_a_filter_that_cannot_be_is_refused(text: str) -> None:
    with pytest.raises(Refused, match=r"[.]$"):
        parse_filter(text, datetime(2026, 3, 28, 9, tzinfo=UTC), ZoneInfo("UTC"))


def test_what_is_shown_is_said() -> None:
    shown = (
        PageFilter(tray=101),
        PageFilter(crop="radish"),
        PageFilter(kind="water"),
        PageFilter(),
    )
    assert [only.words for only in shown] == ["tray 101", "crop radish", "kind water", ""]
