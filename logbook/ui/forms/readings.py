"""Entering a reading from anywhere, of what the cursor is on: light, air, water, cleaning."""

import asyncio
from collections.abc import Awaitable, Callable
from datetime import datetime
from typing import TypeVar

from logbook.actions.book import Book
from logbook.actions.room.air import write_air
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.light import ShelfLight, all_light, write_survey
from logbook.actions.room.odd import odd_air, odd_survey, odd_water
from logbook.actions.room.outages import write_outage
from logbook.actions.room.water import measure_water
from logbook.actions.trays.done import Done
from logbook.growing.measures import Units, length_words
from logbook.growing.numbers import numbers_words
from logbook.growing.room.air import air_from
from logbook.growing.room.outages import outage_from
from logbook.growing.room.water import WaterReading
from logbook.growing.room.water_reading import quality_from, watering_from
from logbook.text import Refused, clean
from logbook.ui.drafts import Draft
from logbook.ui.forms.asking import AskChoice, AskLine
from logbook.ui.forms.meter_form import MeterForm
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import Chosen

Given = TypeVar("Given")
WATERED = "watering"
"""The reading that is only of trays."""


def asked_once(
    odd: Callable[[Book, Given], str], act: Callable[[Book, Given], Done]
) -> Callable[[Book, Given], Done]:
    """The act, which refuses an answer that looks odd, and takes it when it is given again."""
    asked: list[Given] = []

    def write(book: Book, given: Given) -> Done:
        if given not in asked and (doubt := odd(book, given)):
            asked.append(given)
            raise Refused(f"{doubt} Enter writes it.")
        return act(book, given)

    return write


async def ask_reading(screen: LogScreen) -> None:
    """Ask which reading, then for it, of what the cursor is on."""
    numbers, place = screen.here() if screen.view is not None else ((), "")
    chosen = screen.chosen() if numbers else None
    kind = await screen.ask(
        AskChoice(
            f"Reading at {place or 'the room'}",
            [
                (kind, letter, words)
                for kind, (letter, words, _) in CHOICES.items()
                if kind != WATERED or chosen is not None
            ],
            "esc back",
        )
    )
    if kind:
        await CHOICES[kind][2](screen, chosen or Chosen(tuple(numbers), place=place))


async def ask_light(screen: LogScreen, of: Chosen) -> None:
    """Ask for the light of a shelf, spot after spot, and write it; a dropped line loses nothing."""
    by_path = {one.place.path: one for one in await asyncio.to_thread(all_light, screen.book)}
    place = of.place
    if place not in by_path:
        place = await _ask_shelf(screen, list(by_path)) or ""
        if not place:
            return
    units = screen.book.units

    form = MeterForm(place, units, _offers(by_path[place], units))
    kept = Draft("light", place, {}, (), place)
    done = await screen.ask_to_write(form, asked_once(odd_survey, write_survey), kept)
    if done is not None:
        too = any("Too " in notice for notice in done.notices)
        screen.say("  ".join([f"{done.words}.", *done.notices]), wants=too)


def _offers(shelf: ShelfLight, units: Units) -> dict[str, str]:
    newest = shelf.newest
    if newest is None:
        return {"grid": "3"}
    survey = newest.survey
    columns = survey.grid.columns
    offers = {"grid": str(survey.grid.rows) + (f"x{columns}" if columns > 1 else "")}
    if survey.height_mm is not None:
        offers["height"] = length_words(survey.height_mm, units)
    if survey.lux_lamp:
        offers["meter"] = survey.lux_lamp
    return offers


async def _ask_shelf(screen: LogScreen, paths: list[str]) -> str | None:
    def read(text: str) -> str:
        wanted = clean(text, lines=False).casefold()
        for path in paths:
            if path.casefold() == wanted:
                return path
        raise Refused(f'There is no shelf "{text[:40]}"; the book has {", ".join(paths[:6])}.')

    return await screen.ask(
        AskLine(
            "On which shelf?", read, hint="part of its name   esc back", offers=paths, pick=True
        )
    )


async def ask_air(screen: LogScreen, of: Chosen) -> None:
    """Ask for temperature and humidity and write them."""
    units, place, where = screen.book.units, of.place, of.place or "the room"
    done = await screen.ask_to_write(
        AskLine(
            f"Air at {where}: temperature and humidity",
            lambda text: air_from(text, units),
            hint="like 21.4 63, or 70F 55% still   enter save   esc back",
        ),
        asked_once(
            lambda book, found: odd_air(book, found[0], found[1], place),
            lambda book, found: write_air(book, found[0], found[1], place, still=found[2]),
        ),
        Draft("air", where, {}, (), place),
    )
    screen.tell(done, "")


async def ask_watering(screen: LogScreen, chosen: Chosen) -> None:
    """Ask when trays were watered (in doubt of the clock it must be said), how much, pH and EC."""
    from logbook.actions.trays.doing import did

    book, doubt = screen.book, screen.logbook.doubt

    def read(text: str) -> tuple[datetime | None, WaterReading]:
        at, water = watering_from(text, book.now(), book.zone, book.units)
        if doubt and at is None:
            raise Refused("The clock may be wrong: write the time too, like 07:30 300ml ph 6.1.")
        return at, water

    def write(book: Book, given: tuple[datetime | None, WaterReading]) -> Done:
        at, water = given
        return did(
            book, chosen.chore or "water", chosen.numbers, at,
            amount_ml=water.millilitres, ph=water.ph, ec=water.ec,
        )  # fmt: skip

    done = await screen.ask_to_write(
        AskLine(
            f"{doubt} Watered {chosen.label}: when, how much per tray, pH, EC".strip(),
            read,
            start=f"{await screen.likely_time()} " if doubt else "",
            begun=True,
            hint="like 07:30 300ml ph 6.1 ec 1.2; left out: now, not measured   esc back",
        ),
        asked_once(
            lambda book, given: odd_water(book, given[1], chosen.numbers, at=given[0]), write
        ),
        Draft("watering", chosen.label, {}, chosen.numbers),
    )
    screen.tell(done)


async def ask_water(screen: LogScreen, of: Chosen) -> None:
    """Ask for pH and EC of the water and write them, for the trays the cursor is on."""
    what = numbers_words(of.numbers) or of.place or "the room"
    where = "" if of.numbers else of.place
    done = await screen.ask_to_write(
        AskLine(
            f"Water for {what}: pH and EC in mS/cm",
            quality_from,
            hint="like 6.1 1.2, or ec 1200 µS/cm   enter save   esc back",
        ),
        asked_once(
            lambda book, reading: odd_water(book, reading, of.numbers, where),
            lambda book, reading: measure_water(book, reading, of.numbers, where),
        ),
        Draft("water", what, {}, of.numbers, where),
    )
    screen.tell(done, "")


async def ask_clean(screen: LogScreen, of: Chosen) -> None:
    """Ask what was cleaned, how and with what, and write it; the cautions are shown."""

    def read(text: str) -> UseDraft:
        parts = [part.strip() for part in clean(text, lines=False).split(";")]
        if len(parts) not in (2, 3) or not all(parts[:2]):
            raise Refused("Write what; how; with what: trays; soak 10 min and rinse; bleach.")
        return UseDraft(parts[0], parts[1], parts[2] if len(parts) == 3 else "", place=of.place)

    done = await screen.ask_to_write(
        AskLine(
            "Cleaned: what; how; with what",
            read,
            hint="like trays; soak 10 min and rinse; bleach   enter save   esc back",
        ),
        use_solution,
        Draft("clean", of.place or "the room", {}, (), of.place),
    )
    if done is not None:
        screen.say("\n".join([f"{done.words}.", *done.notices[:3]]), wants=bool(done.notices))


async def ask_outage(screen: LogScreen, _: Chosen) -> None:
    """Ask from when to when the power was off in the whole room, and write it."""
    book = screen.book
    done = await screen.ask_to_write(
        AskLine(
            "Power was off in the room: from when to when",
            lambda text: outage_from(text, book.now(), book.zone),
            hint="like 14:00 to 16:30, or yesterday 22:00 to now   enter save   esc back",
        ),
        lambda book, times: write_outage(book, *times),
        Draft("outage", "the room", {}, ()),
    )
    screen.tell(done, "")


CHOICES: dict[str, tuple[str, str, Callable[[LogScreen, Chosen], Awaitable[None]]]] = {
    "light": ("l", "light: a shelf, spot after spot", ask_light),
    "air": ("a", "air: temperature and humidity", ask_air),
    "water": ("w", "water: pH and EC only", ask_water),
    WATERED: ("g", "water given: how much, pH, EC", ask_watering),
    "outage": ("p", "power was off: from when to when", ask_outage),
    "clean": ("c", "cleaned: what, how and with what", ask_clean),
}
"""The kinds of readings, and of their drafts, with the letter and words of each and what asks."""
