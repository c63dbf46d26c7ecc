"""Cleaning and checks that come round: how often each, and when next."""

import asyncio
from datetime import datetime

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.room.places import list_places
from logbook.actions.room.upkeep import DutyDraft, Upkeep, set_duty, upkeep
from logbook.growing.days import day_words
from logbook.growing.room.upkeep import DueDuty, Interval
from logbook.growing.table import Column
from logbook.text import plural
from logbook.ui.drafts import Draft
from logbook.ui.forms.upkeep_forms import UPKEEP, duty_form
from logbook.ui.screen import LogScreen
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row


class UpkeepScreen(LogScreen):
    """One line for each; what is to be done now is on the round."""

    heading = "cleaning and checks"
    enter = "edit"
    purpose = "Racks, trays, cold store, water test, scale, and cleanings of your own: how often each comes round. They come up on the round, at their place, and are done there."
    own = ("edit", "add", "retire")
    view: Upkeep

    def load(self, book: Book) -> Upkeep:
        return upkeep(book)

    def rows(self, view: Upkeep) -> list[Row]:
        self.counts = plural(len(view.duties), "line")
        columns: tuple[Column[DueDuty], ...] = (
            Column("what", lambda one: one.words, right=False),
            Column("place", self._place, right=False),
            Column("how often", lambda one: one.duty.interval.words, right=False, spare=1),
            Column("last", lambda one: self._short(one.last_at), right=False, spare=2),
            Column(
                "next", lambda one: self._short(one.walk_at) if one.later else "now", right=False
            ),
        )
        rows = table_rows(
            columns, view.duties, self.width, lambda one: f"{one.duty.entry}",
            lambda one: "$warning" if one.late else "",
        )  # fmt: skip
        return rows or [Row(Content(self.keyed("Nothing yet: {add} adds one, like racks.")))]

    def beside(self) -> Content | None:
        due: DueDuty | None = self.walk.under
        if due is None:
            return None
        known = self.grams(due.duty.known_grams)
        facts = (
            ("place", due.place), ("how often", due.duty.interval.words), ("how", due.duty.how),
            ("known weight", known), ("last", self.moment(due.last_at) or "never"),
            ("next", self.moment(due.walk_at) if due.later else "now"), ("set", self.moment(due.duty.set_at)),
        )  # fmt: skip
        return self.told(due.words, facts, Content.styled(due.shown, "$warning"))

    @work
    async def action_add(self) -> None:
        await self._ask(None)

    @work
    async def action_edit(self) -> None:
        await self._ask(self.walk.under)

    @work
    async def action_retire(self) -> None:
        due: DueDuty | None = self.walk.under
        if due is not None:
            draft = DutyDraft(due.duty.name, Interval(0.0), self._place(due))
            self.tell(await self.ask_book(set_duty, draft))

    async def _ask(self, due: DueDuty | None) -> None:
        views = await asyncio.to_thread(list_places, self.book)
        places = [view.place.path for view in views if view.place.kind != "room"]
        form = duty_form(
            due.duty if due else None, places, self._place(due), self.book.units
        )  # fmt: skip
        name = due.duty.name if due else ""
        self.tell(await self.ask_to_write(form, set_duty, Draft(UPKEEP, name, {}, (), name)))

    def _short(self, at: datetime | None) -> str:
        """The time of today, the day of others."""
        day = self.day(at)
        return self.moment(at) if day == day_words(self.book.today()) else day

    @staticmethod
    def _place(due: DueDuty | None) -> str:
        """The path of its place; '' for the room."""
        return due.place if due is not None and due.duty.place is not None else ""
