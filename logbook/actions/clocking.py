"""Whether the machine's clock can be believed: a small computer without a battery may be late."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

from logbook.actions.reading import Reading
from logbook.clock import SystemClock, ToldClock
from logbook.growing.days import moment_words
from logbook.store.file.health import clock_was_set, newest_known, newest_written
from logbook.store.rows import moment

SLACK = timedelta(minutes=2)
"""How much earlier than the newest entry the clock may be: two machines are never quite alike."""


def clock_doubt(reading: Reading, run: Path = Path("/run")) -> str:
    """Why the clock is in doubt, or ''.

    It is when now is earlier than the newest entry was written, or when this machine's own clock
    has not been set by the network since it started. Entries are still taken; they are marked.
    """
    newest = newest_written(reading)
    if newest is not None and moment(newest) > reading.now + SLACK:
        words = moment_words(moment(newest), reading.now, reading.zone)
        return f"The clock is behind: the newest entry was written {words}."
    if isinstance(reading.clock, SystemClock) and clock_was_set(run) is False:
        return "The network has not set the clock since the machine started."
    return ""


def likely_now(reading: Reading) -> datetime:
    """The time of the clock; of one in doubt, and not told, none before what the book knows.

    What is done now comes after what is written already, so that the order of the entries is right,
    whatever a late clock says.
    """
    now = reading.now
    if isinstance(reading.clock, ToldClock):
        return now
    known = newest_known(reading) if clock_doubt(reading) else None
    return now if known is None else max(now, moment(known))
