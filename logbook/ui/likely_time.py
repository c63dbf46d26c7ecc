"""The time that a question offers while the clock is in doubt."""

from __future__ import annotations

import asyncio
from datetime import timedelta
from typing import TYPE_CHECKING

from logbook.growing.days import clock_words, day_of

if TYPE_CHECKING:
    from logbook.actions.book import Book


async def offered_time(book: Book) -> str:
    """A likely time of something done now, as it is typed, when the clock is in doubt."""
    likely = await asyncio.to_thread(book.likely_now)
    likely += timedelta(seconds=59)  # the whole minute after it, not the one before
    words, day = clock_words(likely, book.zone), day_of(likely, book.zone)
    return words if day == book.today() else f"{day.isoformat()}T{words}"
