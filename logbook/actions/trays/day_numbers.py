"""The day numbers of a tray: since its sowing, and since the cut after which it grows again."""

from __future__ import annotations

from logbook.actions.reading import Reading
from logbook.actions.trays.known import Known


def regrowth_day(known: Known, reading: Reading) -> int | None:
    """As day_of_tray(), from the cut after which a tray grows again; None where it does not."""
    since = known.state.regrowing_since
    if since is None or known.state.status != "growing":
        return None
    return reading.hours_of(known.state.place).day_number(since, max(reading.now, since))


def day_of_tray(known: Known, reading: Reading) -> int | None:
    """The day number of today, or of the day on which the tray ended; None before sowing."""
    sown = known.state.sown_at
    if sown is None:
        return None
    until = known.state.ended_at or reading.now
    return reading.hours_of(known.state.place).day_number(sown, max(until, sown))
