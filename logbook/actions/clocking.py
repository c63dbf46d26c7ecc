"""Whether the machine's clock can be believed: a small computer without a battery may be late."""

from datetime import datetime, timedelta
from pathlib import Path

from logbook.actions.reading import Reading
from logbook.clock import SystemClock, ToldClock
from logbook.store.file.health import clock_was_set, newest_known, newest_written
from logbook.store.rows import moment

JUST_AFTER = timedelta(microseconds=1)
"""No clock and no person tells a time as finely: it is known by this that nobody told it."""
AHEAD = timedelta(minutes=5)
"""So far ahead a time may be told, and is: clocks differ."""
SLACK = timedelta(minutes=2)
"""How much earlier than the newest entry the clock may be: two machines are never quite alike."""


def clock_doubt(reading: Reading, run: Path = Path("/run")) -> str:
    """Why the clock is in doubt, or ''.

    It is when now is earlier than the newest entry was written, or when this machine's own clock
    has not been set by the network since it started; never once the network has set it, nor where
    somebody told the time. Entries are still taken; they are marked.
    """
    own = isinstance(reading.clock, SystemClock)
    was_set = clock_was_set(run) if own else None
    if was_set or isinstance(reading.clock, ToldClock):
        return ""
    newest = newest_written(reading)
    if newest is not None and moment(newest) > reading.now + SLACK:
        words = reading.when(moment(newest))
        return f"The clock is behind: the newest entry was written {words}."
    if was_set is False:
        return "The network has not set the clock since the machine started."
    return ""


def likely_now(reading: Reading) -> datetime:
    """The time of the clock; of one in doubt, none before what the book knows."""
    known = newest_known(reading) if clock_doubt(reading) else None
    return reading.now if known is None else max(reading.now, moment(known) + JUST_AFTER)
