"""Questions about cleaning and checks that come round: what a check showed, how often one is due."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from logbook.actions.book import Book
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.upkeep import DutyDraft, check
from logbook.actions.trays.done import Done
from logbook.growing.measures import Units
from logbook.growing.quantities import KNOWN
from logbook.growing.room.upkeep import SORTS, DueDuty, Duty, read_interval
from logbook.growing.when import parse_when
from logbook.text import clean_name
from logbook.ui.drafts import answer_to
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import Field, measured

UPKEEP = "upkeep"
"""The kind of drafts of what comes round."""


async def do_duty(screen: LogScreen, due: DueDuty, *, when: bool = False) -> None:
    """Write that a cleaning was done, or ask what a check showed and write that.

    With `when`, or when the clock is in doubt, it is asked at what time.
    """
    duty, at = due.duty, None
    doubt = screen.logbook.doubt
    if when or doubt:
        now, zone = screen.book.now(), screen.book.zone
        at = await screen.ask_line(
            f"{doubt} When was it done?" if doubt else "When was it done?",
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
    kept = answer_to(f"{due.words}, {due.place}")
    screen.tell(await screen.ask_to_write(question, write, kept))


def duty_form(
    old: Duty | None, places: Sequence[str], place: str, units: Units
) -> AskForm[DutyDraft]:
    """Ask how often something is cleaned or checked; `place` is where `old` is, '' for the room."""
    fields = (
        Field("name", "what", "or a cleaning of your own", old.name if old else "", offers=tuple(SORTS),
              read=lambda text: clean_name(text, "name")),
        Field("interval", "how often", "7 days, 2 a day, tue,fri", _written(old), read_interval,
              optional=True),
        Field("place", "place", "empty: the room", place, offers=places),
        Field("how", "how", "written each time", old.how if old else "", optional=True),
        measured("known_grams", "scale weight", KNOWN, "of a scale check",
                 old.known_grams if old else None, units),
    )  # fmt: skip
    asked = "What comes round, and how often"
    return AskForm(asked, fields, lambda values: DutyDraft(**values, instead=old))


def _written(old: Duty | None) -> str:
    """An interval as it is typed."""
    return "" if old is None else old.interval.weekdays or old.interval.words
