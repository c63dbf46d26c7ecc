"""Keys that do something to trays, the same on every screen that shows trays.

A screen says which trays the cursor is on (`chosen`) and what chore, if any (`chosen_chore`); the
questions and the writing are here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from textual import work

from logbook.growing.chores import CHANGES
from logbook.growing.days import clock_words
from logbook.growing.numbers import numbers_words, parse_numbers
from logbook.growing.when import parse_when
from logbook.text import Refused, clean
from logbook.ui.drafts import ANSWER, Draft
from logbook.ui.screen import LogScreen


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the cursor is on: trays by number, a chore with its words or '', the place's path.

    `to` is where a move is likely to go.
    """

    numbers: tuple[int, ...]
    chore: str = ""
    words: str = ""
    place: str = ""
    crop: str = ""
    sign: str = ""
    to: str = ""

    @property
    def label(self) -> str:
        """Name the trays for a question."""
        return f"{numbers_words(self.numbers)} {self.crop}".strip() or self.place


class TrayKeys(LogScreen):
    """A screen on whose trays one can jot, look, move and so on."""

    digits_go_to_trays = True

    def chosen(self) -> Chosen | None:
        """Give what the cursor is on, or None."""
        return None

    def here(self) -> tuple[tuple[int, ...], str]:
        """Give what the cursor is on."""
        chosen = self.chosen()
        return (chosen.numbers, chosen.place) if chosen is not None else ((), "")

    def _chosen(self) -> Chosen | None:
        chosen = self.chosen()
        if chosen is None or not (chosen.numbers or chosen.place):
            self.say("The cursor is on no tray.")
            return None
        return chosen

    def on_key(self, event: object) -> None:
        """Let a digit begin a tray number."""
        from textual.events import Key

        if isinstance(event, Key) and event.character and event.character in "0123456789":
            event.stop()
            self.go_to_number(event.character)

    @work
    async def go_to_number(self, first: str) -> None:
        """Ask for the rest of a tray number and open its page."""
        from logbook.ui.asking import AskLine

        number = await self.app.push_screen_wait(
            AskLine("Tray", one_number, start=first, hint="enter open   esc back")
        )
        if number is not None:
            await self.open_tray(number)

    async def open_tray(self, number: int) -> None:
        """Open a tray's page; say when there is no such tray."""
        import asyncio

        from logbook.actions.viewing import tray_page

        try:
            await asyncio.to_thread(tray_page, self.book, number)
        except Refused as refused:
            self.say(str(refused), wants=True)
            return
        self.logbook.go("tray", number=number)

    async def ask_when(self, doubt: str = "") -> datetime | None:
        """Ask at what time it was done; with a doubt about the clock its time is offered."""
        from logbook.ui.asking import AskLine

        now, zone = self.book.now(), self.book.zone
        return await self.app.push_screen_wait(
            AskLine(
                f"{doubt} When was it done?" if doubt else "Done when?",
                lambda text: parse_when(text, now, zone),
                start=f"{clock_words(now, zone)}" if doubt else "",
                hint="07:30 today, yesterday 18:00, 2026-04-14T07:30   esc back",
            )
        )

    async def ask_part(self, chosen: Chosen) -> tuple[int, ...] | None:
        """Ask which of the trays."""
        from logbook.ui.asking import AskLine

        def read(text: str) -> tuple[int, ...]:
            numbers = parse_numbers(text)
            strange = [number for number in numbers if number not in chosen.numbers]
            if strange:
                raise Refused(
                    f"Not on this line: {numbers_words(strange)}. It is of {chosen.label}."
                )
            return numbers

        return await self.app.push_screen_wait(
            AskLine(f"Which of {chosen.label}?", read, hint="like 101 103-105   esc back")
        )

    async def do_chore(
        self, chosen: Chosen, numbers: Sequence[int], at: datetime | None = None
    ) -> None:
        """Write that a chore was done; a cut opens the weigh-in, a look its form."""
        from logbook.actions.doing import did

        if self.logbook.doubt and at is None and chosen.chore != "cut":
            at = await self.ask_when(self.logbook.doubt)
            if at is None:
                return
        if chosen.chore == "cut":
            self.logbook.go("weigh", trays=tuple(numbers))
            return
        if chosen.chore == "look":
            await self.ask_look(chosen, numbers, at)
            return
        place = ""
        if chosen.chore in CHANGES and "to the light" in chosen.words:
            suggested = await self._lit_place(chosen, len(numbers))
            if suggested is None:
                return
            place = suggested
        done = await self.ask_book(did, chosen.chore, list(numbers), at, place=place)
        if done is not None:
            self.say(" ".join([f"{done.words}.  {self.undoes}", *done.notices]))

    async def _lit_place(self, chosen: Chosen, count: int) -> str | None:
        """Give '' when the trays may stay, a lit shelf when theirs is dark, None for back."""
        import asyncio

        from logbook.actions.places import shelf_for_light
        from logbook.ui.asking import AskLine

        offer = await asyncio.to_thread(shelf_for_light, self.book, chosen.place, count)
        if offer is None:
            return ""
        return await self.app.push_screen_wait(
            AskLine(
                f"{chosen.place} is dark. To which lit shelf?",
                lambda text: clean(text, lines=False),
                start=offer,
                hint="enter take it   empty: they stay   esc back",
            )
        )

    async def ask_look(
        self, chosen: Chosen, numbers: Sequence[int], at: datetime | None = None
    ) -> None:
        """Ask what is seen, write it, and offer to throw a mouldy tray out."""
        from logbook.actions.doing import discard, look
        from logbook.ui.asking import AskYes
        from logbook.ui.look_form import LookForm

        drafts = self.logbook.drafts
        draft = Draft("look", chosen.label, {}, tuple(numbers))
        kept = drafts.find(draft.key)
        seen = await self.app.push_screen_wait(
            LookForm(
                f"Look: {chosen.label}",
                chosen.sign,
                self.book.units,
                kept.texts if kept else {},
                lambda texts: drafts.keep(replace(draft, texts=texts)),
            )
        )
        if seen is None:
            return
        done = await self.ask_book(look, list(numbers), seen.look, seen.note, at)
        if done is None:
            return
        drafts.drop(draft.key)
        self.say("  ".join([done.words, *done.notices]), wants=bool(done.notices))
        if not done.mould:
            return
        question = AskYes(
            f"Throw {numbers_words(numbers)} out?", done.notices[0] + "\ny throw out   n keep"
        )
        if await self.app.push_screen_wait(question):
            thrown = await self.ask_book(discard, list(numbers), "mould")
            if thrown is not None:
                self.say(f"{thrown.words}.  {self.undoes}")

    @work
    async def action_look(self) -> None:
        """Look at the trays under the cursor."""
        chosen = self._chosen()
        if chosen is not None and chosen.numbers:
            await self.ask_look(chosen, chosen.numbers)

    @work
    async def action_jot(self) -> None:
        """Jot on the trays under the cursor, or on the place."""
        chosen = self._chosen()
        if chosen is not None:
            await self.ask_jot(chosen)

    async def ask_jot(self, chosen: Chosen) -> None:
        """Ask for a note and write it; what is typed is kept until it is in the book."""
        from logbook.actions.doing import jot
        from logbook.ui.asking import AskText

        drafts = self.logbook.drafts
        place = "" if chosen.numbers else chosen.place
        draft = Draft("jot", chosen.label, {}, chosen.numbers, place)
        kept = drafts.find(draft.key)
        text = await self.app.push_screen_wait(
            AskText(
                f"Jot on {chosen.label}",
                kept.texts.get("text", "") if kept else "",
                lambda words: drafts.keep(replace(draft, texts={"text": words})),
            )
        )
        if text is None:
            return
        done = await self.ask_book(jot, list(chosen.numbers), text, place)
        if done is not None:
            drafts.drop(draft.key)
            self.say(f"{done.words}.")

    async def take_up(self, draft: Draft) -> None:
        """Go on with a kept draft."""
        chosen = Chosen(draft.trays, place=draft.place)
        if draft.kind == "jot":
            await self.ask_jot(chosen)
        elif draft.kind == "look":
            await self.ask_look(chosen, draft.trays)
        else:
            self.logbook.go(draft.kind, draft=draft)

    @work
    async def action_move(self) -> None:
        """Move the trays under the cursor."""
        import asyncio

        from logbook.actions.doing import move
        from logbook.actions.places import list_places
        from logbook.ui.asking import AskLine

        chosen = self._chosen()
        if chosen is None or not chosen.numbers:
            return
        views = await asyncio.to_thread(list_places, self.book)
        free = [view for view in views if view.place.kind == "shelf" and view.free]
        hint = ", ".join(f"{view.place.path} ({view.free})" for view in free[:6]) or "none"
        place = await self.app.push_screen_wait(
            AskLine(
                f"Move {chosen.label} to",
                lambda text: clean(text, lines=False),
                start=chosen.to,
                hint=f"→ completes. Free slots: {hint}",
                offers=[view.place.path for view in free],
            )
        )
        if place:
            done = await self.ask_book(move, list(chosen.numbers), place)
            if done is not None:
                self.say(f"{done.words}.  {self.undoes}")

    @work
    async def action_discard(self) -> None:
        """Throw the trays under the cursor out."""
        from logbook.actions.doing import discard
        from logbook.ui.asking import AskLine

        chosen = self._chosen()
        if chosen is None or not chosen.numbers:
            return
        numbers: tuple[int, ...] | None = chosen.numbers
        if len(chosen.numbers) > 1:
            numbers = await self.app.push_screen_wait(
                AskLine(
                    f"Throw out which of {chosen.label}?",
                    parse_numbers,
                    start=numbers_words(chosen.numbers, dash="-"),
                    hint="enter go on   esc back",
                )
            )
        if not numbers:
            return
        why = await self.ask_why(f"Why is {numbers_words(numbers)} thrown out?")
        if why:
            done = await self.ask_book(discard, list(numbers), why)
            if done is not None:
                self.say(f"{done.words}.  {self.undoes}")

    async def ask_why(self, asked: str) -> str | None:
        """Ask for a reason; what is typed is kept until it is given."""
        from logbook.ui.asking import AskLine

        drafts, draft = self.logbook.drafts, Draft(ANSWER, "", {}, place=asked)
        kept = drafts.find(draft.key)

        def read(text: str) -> str:
            why = clean(text)
            if not why:
                raise Refused("A word is enough, but say why.")
            return why

        why = await self.app.push_screen_wait(
            AskLine(
                asked,
                read,
                start=kept.texts.get("text", "") if kept else "",
                hint="enter save   esc back",
                keep=lambda text: drafts.keep(replace(draft, texts={"text": text})),
            )
        )
        if why:
            drafts.drop(draft.key)
        return why


def one_number(text: str) -> int:
    """Read one tray number; raise Refused."""
    numbers = parse_numbers(text, "tray number")
    if len(numbers) != 1:
        raise Refused("One tray number at a time.")
    return numbers[0]
