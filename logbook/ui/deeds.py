"""Keys that do something to trays, the same on every screen that shows trays.

A screen says which trays the cursor is on (`chosen`) and what chore, if any (`chosen_chore`); the
questions and the writing are here.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING, Any

from textual import work
from textual.events import Key

from logbook.growing.crops.seed_lots import SEVERAL, lots_from
from logbook.growing.days import moment_words
from logbook.growing.numbers import batch_named, numbers_words, of_these, parse_numbers
from logbook.growing.trays.chores import CHANGES, WORDS
from logbook.growing.trays.soaking import Soaked, read_soaked
from logbook.growing.when import parse_when
from logbook.text import Refused, clean, clean_name
from logbook.ui import subjects
from logbook.ui.drafts import Draft
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import Chosen

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.trays.done import Done
    from logbook.ui.forms.asking import AskLine, Question


class TrayKeys(LogScreen):
    """A screen on whose trays one can jot, look, move and so on."""

    digits_go_to_trays = True

    def __init__(self) -> None:
        super().__init__()
        self.unfolded: set[int | str] = set()
        """Keys of what is shown whole."""

    def unfold(self, key: int | str) -> None:
        """Show whole what has this key, or fold it again."""
        self.unfolded ^= {key}
        self.redraw()

    def _chosen(self, *, place: bool = False) -> Chosen | None:
        """What the cursor is on, where that is trays, or with `place` also a place; else says so."""
        chosen = self.chosen()
        if chosen is None or not (chosen.numbers or (place and chosen.place)):
            self.say_select("tray")
            return None
        return chosen

    def say_select(self, what: str) -> None:
        """Say what must be done before a key does something to trays."""
        listed = any(row.of is not None for walk in self.lists for row in walk.rows)
        none = self.keyed("No trays here: {sow} sows a batch, {racks} shows all trays.")
        self.say(f"Select a {what} first." if listed or not self.lists else none)

    def does(self, name: str) -> bool:
        if name not in ("jot", "look", "move", "discard"):
            return super().does(name)
        chosen = self.chosen()
        return chosen is not None and bool(chosen.numbers or (name == "jot" and chosen.place))

    def on_key(self, event: Key) -> None:
        if event.character and event.character in "0123456789":
            event.stop()
            self.go_to_number(event.character)

    @work
    async def go_to_number(self, first: str) -> None:
        hint = "enter open   esc back"
        number = await self.ask_line("Tray", one_number, first, hint, begun=True)
        if number is not None:
            await self.open_tray(number)

    async def open_tray(self, number: int) -> None:
        """Open the page of the tray with this name, or that of a batch whose trays are meant."""
        from logbook.actions.trays.batch_page import batch_page
        from logbook.actions.trays.tray_page import tray_page

        batch = batch_named(number)
        try:
            if batch:
                await asyncio.to_thread(batch_page, self.book, str(batch[0]))
            else:
                await asyncio.to_thread(tray_page, self.book, number)
        except Refused as refused:
            self.refuse(refused)
        else:
            self.logbook.go(
                subjects.BatchSubject(str(batch[0])) if batch else subjects.TraySubject(number)
            )

    async def _asks_when(self, chore: str) -> AskLine[datetime]:
        """The question at what time it was done; in doubt of the clock a likely one stands."""
        now, zone, doubt = self.book.now(), self.book.zone, self.logbook.doubt

        def read(text: str) -> datetime:
            at = parse_when(text, now, zone)
            if chore == "cut" and at > now and not doubt:  # the weights are written later
                words = moment_words(at, now, zone)
                raise Refused(f"{words} is still to come. Type a time up to now.")
            return at

        return self.asks_line(
            f"{doubt} When was it done?" if doubt else "When was it done?",
            read,
            start=await self.likely_time() if doubt else "",
            hint="07:30 today, yesterday 18:00, 2026-04-14T07:30   esc back",
        )

    async def _asks_part(self, chosen: Chosen) -> AskLine[tuple[int, ...]]:
        def read(text: str) -> tuple[int, ...]:
            numbers = of_these(parse_numbers(text), chosen.numbers)
            strange = [number for number in numbers if number not in chosen.numbers]
            if strange:
                raise Refused(f"Not on this line: {numbers_words(strange)}. It has {chosen.label}.")
            return numbers

        return self.asks_line(f"Which of {chosen.label}?", read, hint="like 101 103-105   esc back")

    async def do_chore(self, chosen: Chosen, *, part: bool = False, when: bool = False) -> None:
        """Write that a chore was done; a cut opens the weigh-in, a look its form.

        With `part` it is asked on which of the trays, with `when`, or when the clock is in doubt,
        at what time; that of a cut is asked only with `when`. The last question stands until the
        chore is written.
        """
        from logbook.actions.trays.doing import did, unsaid_soak

        chore, ends_here = chosen.chore, chosen.chore not in ("cut", "look")
        told: dict[str, Any] = {"numbers": chosen.numbers, "at": None}
        when = when or (chore != "cut" and bool(self.logbook.doubt))
        to_light = chore in CHANGES and WORDS["light_on"] in chosen.words
        to_light = to_light and await self._shelf_for_light(chosen, 1) is not None
        soak = 0
        if chore == "sow":
            soak = await asyncio.to_thread(unsaid_soak, self.book, chosen.numbers)
        asks: dict[str, tuple[bool, Callable[[], Awaitable[Question[Any]]]]] = {
            "numbers": (part, lambda: self._asks_part(chosen)),
            "at": (when, lambda: self._asks_when(chore)),
            "lot": (chore == "sow", lambda: self._asks_lot(told["numbers"])),
            "soaked": (soak > 0, lambda: self._asks_soaked(soak, told["at"])),
            "place": (to_light, lambda: self._asks_lit_place(chosen, len(told["numbers"]))),
        }
        steps = [step for step, (wanted, _) in asks.items() if wanted]

        def act(book: Book, answer: Any = None) -> Done:
            return did(book, chore, **told | ({steps[-1]: answer} if steps else {}))

        for step in steps:
            question = await asks[step][1]()
            if ends_here and step == steps[-1]:
                done = await self.ask_to_write(question, act)
                break
            answer = await self.ask(question)
            if answer is None:
                return
            told[step] = answer
        else:
            if chore == "cut":
                self.logbook.go(subjects.WeighSubject(told["numbers"], told["at"]))
                return
            if chore == "look":
                await self.ask_look(chosen, told["numbers"], told["at"])
                return
            done = await self.ask_book(act)
        self.tell(done)

    async def _asks_lot(self, numbers: Sequence[int]) -> Question[str]:
        """The question from which seed lot is sown; what was planned stands there."""
        from logbook.actions.seed.drawing import lots_of
        from logbook.actions.trays.lots import recent_lots

        def read(text: str) -> str:
            lots_from(text, self.book.units)
            return clean(text, lines=False)

        planned = await asyncio.to_thread(lots_of, self.book, numbers)
        newest = await asyncio.to_thread(recent_lots, self.book)
        hint = (f"newest: {newest[0]}   " if newest else "") + "right adds to it   esc back"
        asked = f"From which seed lot? Two bags: {SEVERAL}"
        return self.asks_line(asked, read, start=planned, hint=hint)

    async def _asks_soaked(self, soak: int, at: datetime | None) -> Question[Soaked]:
        from logbook.actions.trays.sow_words import soak_question

        book = self.book

        def read(text: str) -> Soaked:
            return read_soaked(text, book.now(), book.zone)

        asked = soak_question(soak, at or book.now(), book)
        return self.asks_line(asked, read, hint="a time   dry   now   esc back")

    async def _shelf_for_light(self, chosen: Chosen, count: int) -> str | None:
        from logbook.actions.room.places import shelf_for_light

        return await asyncio.to_thread(shelf_for_light, self.book, chosen.place, count)

    async def _asks_lit_place(self, chosen: Chosen, count: int) -> Question[str]:
        """The question to which lit shelf trays go; '' lets them stay."""
        return self.asks_line(
            f"{chosen.place} is dark. Move to which lit shelf?",
            lambda text: clean(text, lines=False),
            start=await self._shelf_for_light(chosen, count) or "",
            hint="enter move them   empty: they stay   esc back",
        )

    async def ask_look(
        self, chosen: Chosen, numbers: Sequence[int], at: datetime | None = None
    ) -> None:
        """Ask what is seen, write it, and offer to discard a mouldy tray."""
        from logbook.actions.trays.moving import discard
        from logbook.actions.trays.noticing import look
        from logbook.ui.forms.asking import AskSure
        from logbook.ui.forms.look_form import look_form

        done = await self.ask_to_write(
            look_form(f"Look: {chosen.label}", chosen.sign, self.book.units, numbers),
            lambda book, seen: look(
                book, list(numbers), seen.look, seen.note, at, mouldy=seen.mouldy
            ),
            Draft("look", chosen.label, {}, tuple(numbers)),
        )
        if done is None:
            return
        self.say("  ".join([done.words, *done.notices]), wants=bool(done.notices))
        if not done.mouldy:
            return
        question = AskSure(
            f"Discard {numbers_words(done.mouldy)}?",
            done.notices[0] + "\ny or / discard   n or - keep",
        )
        if await self.ask(question):
            self.tell(await self.ask_book(discard, list(done.mouldy), "mould"))

    @work
    async def action_look(self) -> None:
        if (chosen := self._chosen()) is not None:
            await self.ask_look(chosen, chosen.numbers)

    @work
    async def action_jot(self) -> None:
        if (chosen := self._chosen(place=True)) is not None:
            await self.ask_jot(chosen)

    async def ask_jot(self, chosen: Chosen) -> None:
        """Ask for a note and write it; what is typed is kept until it is in the book."""
        from logbook.actions.trays.noticing import jot
        from logbook.ui.forms.asking import AskText

        place = "" if chosen.numbers else chosen.place
        done = await self.ask_to_write(
            AskText(f"Jot on {chosen.label}"),
            lambda book, text: jot(book, chosen.numbers, text, place),
            Draft("jot", chosen.label, {}, chosen.numbers, place),
        )
        self.tell(done, "")

    async def take_up(self, draft: Draft) -> None:
        """Go on with a kept draft."""
        from logbook.actions.trays.tray_page import tray_page
        from logbook.ui.forms.cost_forms import COST
        from logbook.ui.forms.power_forms import POWER
        from logbook.ui.forms.readings import CHOICES
        from logbook.ui.forms.seed_forms import SEED

        chosen = Chosen(draft.trays, place=draft.place)
        if draft.kind == "jot":
            await self.ask_jot(chosen)
        elif draft.kind == "look":
            with suppress(Refused):
                page = await asyncio.to_thread(tray_page, self.book, draft.trays[0])
                template = page.tray.template
                chosen = replace(chosen, crop=template.label(), sign=template.sign_to_cut)
            await self.ask_look(chosen, draft.trays)
        elif draft.kind in CHOICES:
            await CHOICES[draft.kind][2](self, chosen)
        else:
            forms: dict[str, Callable[[str], subjects.Subject]] = {
                "template": subjects.TemplateSubject.of,
                "place": subjects.PlaceSubject,
                **{kind: partial(subjects.BillsSubject, kind) for kind in POWER},
                **{kind: partial(subjects.SeedSubject, kind) for kind in SEED},
                COST: partial(subjects.CostsSubject, asks=True),
            }
            form = forms.get(draft.kind)
            self.logbook.go(draft.kind if form is None else form(draft.place))

    @work
    async def action_move(self) -> None:
        from logbook.actions.room.places import free_words, list_places
        from logbook.actions.trays.moving import move

        chosen = self._chosen()
        if chosen is None:
            return
        views = await asyncio.to_thread(list_places, self.book)
        free = free_words(views, full=False)
        done = await self.ask_to_write(
            self.asks_line(
                f"Move {chosen.label} to",
                lambda text: clean_name(text, "place"),
                start=chosen.to,
                hint="part of its name, like 2/3   esc back",
                offers=tuple(free),
                beside=free,
                pick=True,
            ),
            lambda book, place: move(book, chosen.numbers, place),
        )
        self.tell(done)

    @work
    async def action_discard(self) -> None:
        from logbook.actions.trays.moving import discard

        chosen = self._chosen()
        if chosen is None:
            return
        numbers: tuple[int, ...] | None = chosen.numbers
        if len(chosen.numbers) > 1:
            numbers = await self.ask_line(
                f"Discard which of {chosen.label}?",
                parse_numbers,
                numbers_words(chosen.numbers, dash="-"),
                "enter next   esc back",
            )
        if numbers:
            await self.ask_why(
                f"Why discard {numbers_words(numbers)}?",
                lambda book, why: discard(book, numbers, why),
            )


def one_number(text: str) -> int:
    """Read one tray number; raise Refused."""
    numbers = parse_numbers(text, "tray number")
    if len(numbers) != 1:
        raise Refused("One tray number at a time.")
    return numbers[0]
