"""Numbers for new trays."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from logbook.actions.reading import Reading
from logbook.actions.trays.done import ids_of
from logbook.actions.writing import Act
from logbook.growing.days import day_of
from logbook.growing.numbers import next_numbers, pool_words
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.trays import last_used_number, live_numbers, numbers_out_of_use, read_trays
from logbook.text import Refused, plural
from logbook.ways import Way


def by_batch(reading: Reading, at: datetime) -> bool:
    """Whether trays planned for then take numbers of the pool later, when soaked or sown."""
    tomorrow = reading.today + timedelta(days=1)
    return bool(reading.about.pool) and day_of(at, reading.zone) > tomorrow


def take_numbers(act: Act, trays: Sequence[TrayNow]) -> list[TrayNow]:
    """Give numbers to trays that wait for them; the trays as they are then."""
    waiting = [each.id for each in trays if each.number < 0]
    for tray, number in zip(waiting, free_numbers(act.reading, len(waiting)), strict=True):
        act.change("tray", tray, number=number)
    reading = act.reading
    now = {each.id: each for each in read_trays(reading, ids_of(trays))}
    return reading.folded([now[tray] for tray in ids_of(trays)])


def free_numbers(reading: Reading, count: int) -> tuple[int, ...]:
    """Numbers for new trays: of the pool those longest out of use, or Refused; else the next."""
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
