"""Questions about cleaning and checks that come round: what a check showed, how often one is due."""

from datetime import datetime
from typing import Any

from logbook.actions.book import Book
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.upkeep import check
from logbook.actions.trays.done import Done
from logbook.growing.room.upkeep import DueDuty
from logbook.growing.when import parse_when
from logbook.ui.drafts import Draft
from logbook.ui.screen import LogScreen

CHECK = "check"
"""The kind of drafts of what a check showed."""


async def do_duty(screen: LogScreen, due: DueDuty, *, when: bool = False) -> None:
    """Write that a cleaning was done, or ask what a check showed and write that.

    With `when`, or when the clock is in doubt, it is asked at what time.
    """
    duty, at = due.duty, None
    doubt = screen.logbook.doubt
    if when or doubt:
        now, zone = screen.book.now(), screen.book.zone
        at = await screen.ask_line(
            f"{doubt} When was it done?" if doubt else "Done when?",
            lambda text: parse_when(text, now, zone),
            await screen.likely_time() if doubt else "",
            "07:30 today, yesterday 18:00   esc back",
        )
        if at is None:
            return
    place = due.place if duty.place is not None else ""
    if duty.sort.reads is None:
        draft = UseDraft(duty.name, duty.how or "clean", place=place, at=at)
        screen.tell(await screen.ask_book(use_solution, draft))
    else:
        await _ask_check(screen, due, place, at)


async def _ask_check(screen: LogScreen, due: DueDuty, place: str, at: datetime | None) -> None:
    sort, units = due.duty.sort, screen.book.units
    assert sort.reads is not None  # noqa: S101 - asked only of those
    reads = sort.reads

    def write(book: Book, value: Any) -> Done:
        return check(book, due.duty.name, value, place, at=at)

    question = screen.asks_line(
        sort.asked, lambda text: reads.read(text, units), hint="enter save   esc back"
    )
    screen.tell(
        await screen.ask_to_write(question, write, Draft(CHECK, place, {}, (), due.duty.name))
    )
