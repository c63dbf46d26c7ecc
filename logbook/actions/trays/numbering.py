"""Numbers for new trays."""

from __future__ import annotations

from logbook.actions.reading import Reading
from logbook.growing.numbers import next_numbers, pool_words
from logbook.store.reads.trays import last_used_number, live_numbers, numbers_out_of_use
from logbook.text import Refused, plural
from logbook.ways import Way


def free_numbers(reading: Reading, count: int) -> tuple[int, ...]:
    """Free numbers for so many new trays: those of the pool longest out of use, or the next ones.

    Raises Refused where the pool has too few.
    """
    pool = reading.about.pool
    if not pool:
        return next_numbers(count, last_used_number(reading), live_numbers(reading))
    free = numbers_out_of_use(reading, pool)
    if len(free) < count:
        only = f"only {plural(len(free), 'number')}" if free else "no number"
        raise Refused(
            f"The pool {pool_words(pool)} has {only} free for {plural(count, 'new tray')}. Give "
            f"other numbers, or make the pool larger ({Way.POOL}).",
            about="numbers",
        )
    return tuple(sorted(free[:count]))
