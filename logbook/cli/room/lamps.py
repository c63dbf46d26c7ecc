"""`logbook lamps`, `tariff`, `circuit` and `bills`: what hangs there, what it costs, what carries it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal

import click

from logbook.actions.book import Book
from logbook.actions.room import lamps as acts
from logbook.actions.room.bills import BatchBill, Bills, ShelfBill, batch_bill, no_one_words
from logbook.actions.room.bills import bills as find
from logbook.actions.room.light import ShelfLamps, ShelfLight, all_light
from logbook.actions.room.outages import list_outages, write_outage
from logbook.cli.arguments import (
    AT,
    BATCH,
    NOTE,
    OF_ALL_AT,
    PLACE,
    complete_places,
    day,
    measured,
    when,
)
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.wordy import WordyCommand
from logbook.growing import quantities
from logbook.growing.days import moment_words
from logbook.growing.measures import Units, grams_words, hours_words
from logbook.growing.room.power import LOCAL_CODE, WET_ROOM_CAUTIONS, LampSet
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import wall_hours
from logbook.text import Refused, clean_words, plural


@click.command(cls=WordyCommand)
@PLACE
@measured("--lamps count", quantities.LAMPS, "COUNT", "How many lamps hang over each shelf.")
@measured("--watts", quantities.WATTS, "WATTS", "Watts of one lamp.")
@measured("--amps", quantities.AMPS, "AMPS", "Amperes of one lamp, from its label.")
@measured("--volts", quantities.VOLTS, "VOLTS", "Voltage, like 120 or 230.")
@click.option("--kind", default="", help='Own words, like "LED bar".')
@click.option("--light", "light_words", default="", help='Like "4000 K" or "red and blue".')
@click.option("--height", metavar="LENGTH", help="From the shelf to the lamp, like 21 cm.")
@click.option("--bought", metavar="DATE", help="When they were bought.")
@click.option("--off", is_flag=True, help="The lamps were taken off.")
@AT
@book_answers(DONE, "shelves=logbook.actions.room.light:ShelfLamps")
def lamps(
    book: Book, place: str, count: int | None, watts: float | None, amps: float | None,
    volts: float | None, kind: str, light_words: str, height: str | None, bought: str | None,
    off: bool, at: str | None,
) -> None:  # fmt: skip
    """Show the lamps of every shelf; with --place and --watts write what hangs there."""
    if not off and watts is None:
        if any((count, amps, volts, kind, light_words, height, bought)):
            raise Refused("Give the watts of one lamp, like --watts 18, and --place.")
        found = all_light(book, place)
        shelves = list(map(ShelfLamps, found))
        tell({"shelves": shelves}, [lamps_line(each, book) for each in found])
        return
    if not place:
        raise Refused('Over which shelf? Give --place, like --place "Rack 1/Shelf 2".')
    if off:
        tell_done(acts.hang_lamps(book, place, LampSet(0), when(book, at)))
        return
    assert watts is not None  # noqa: S101 - checked above
    kind, colour = clean_words(kind, "kind of lamp"), clean_words(light_words, "light of the lamp")
    above = quantities.LAMP_HEIGHT.given(height, book.units)
    made = LampSet(count or 1, watts, kind, colour, amps, volts, above, day(book, bought))
    tell_done(acts.hang_lamps(book, place, made, when(book, at)))


def lamps_line(shelf: ShelfLight | ShelfBill, book: Book) -> str:
    """A shelf with its lamps, in the units of the room, and their hours."""
    lamps = "lamps not known" if shelf.lamps is None else shelf.lamps.words(book.units)
    return f"{shelf.place.path}: {lamps}, {shelf.place.hours_words}"


def _other_hours(text: str) -> OtherHours:
    hours, mark, much = text.partition("=")
    if not mark:
        raise Refused(f'"{text[:40]}" must be hours = price, like 17:00-20:00=0.42.')
    return OtherHours(wall_hours(hours), quantities.PRICE.read(much))


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("price", required=False, type=quantities.PRICE.read)
@click.option(
    "--from", "since", metavar="DATE", help="From which day it applies; today by default."
)
@click.option(
    "--hours", "others", multiple=True, type=_other_hours, metavar="HOURS=PRICE",
    help="Like 17:00-20:00=0.42.",
)  # fmt: skip
@book_answers(DONE, "tariffs=logbook.growing.room.tariffs:Tariff")
def tariff(
    book: Book, price: Decimal | None, since: str | None, others: tuple[OtherHours, ...]
) -> None:
    """Show the prices per kWh; with a price write one: tariff 0.30 --from 2026-01-01."""
    if price is not None:
        tell_done(acts.set_tariff(book, Tariff(day(book, since) or book.today(), price, others)))
        return
    found, money = acts.list_tariffs(book), book.about.money
    none = ["No tariff yet; write one like: logbook tariff 0.30 --from 2026-01-01"]
    unset = [money.unset_words] if found and money.unset_words else []
    tell({"tariffs": found}, [*unset, *(one.words for one in found)] or none)


@click.command()
@click.argument("name", required=False)
@measured("--breaker", quantities.BREAKER, "AMPS", "What its breaker carries, like 15.")
@measured("--volts", quantities.VOLTS, "VOLTS", "Like 120 or 230.")
@click.option(
    "--place", "places", multiple=True, shell_complete=complete_places,
    help="A rack or shelf whose lamps hang on it; may be repeated.",
)  # fmt: skip
@measured(
    "--other other_amps", quantities.LOAD, "AMPS", "What else hangs on it for hours: fans, pumps.",
    default="0",
)  # fmt: skip
@measured(
    "--share share_percent", quantities.SHARE, "PERCENT", "What a breaker carries for hours; 80 %.",
    default="80%",
)  # fmt: skip
@click.option("--gone", is_flag=True, help="There is no such circuit any more.")
@OF_ALL_AT
@book_answers(DONE, "circuits=logbook.actions.room.lamps:CircuitView")
def circuit(
    book: Book, name: str | None, breaker: float | None, volts: float | None,
    places: tuple[str, ...], gone: bool, **more: float,
) -> None:  # fmt: skip
    """Show the circuits and their loads; with a name and its breaker write one."""
    if name is not None:
        if gone:
            tell_done(acts.remove_circuit(book, name))
            return
        if breaker is None or volts is None:
            raise Refused("Give the breaker and the voltage, like --breaker 15 --volts 120.")
        draft = acts.CircuitDraft(name, breaker, volts, places, **more)
        tell_done(acts.set_circuit(book, draft))
        return
    found = acts.list_circuits(book)
    tell({"circuits": found}, _circuits_words(found))


def _circuits_words(found: Iterable[acts.CircuitView]) -> Iterator[str]:
    for one in found:
        yield from circuit_lines(one)
    if not found:
        yield 'No circuit yet; write one like: logbook circuit "A" --breaker 15 --volts 120'
    yield from (*WET_ROOM_CAUTIONS, LOCAL_CODE)


def circuit_lines(one: acts.CircuitView) -> list[str]:
    """A circuit with its load and what the sum is based on."""
    on = ", ".join(one.shelves) or "no shelf"
    return [f"{one.name}: {on}", f"  {one.load.words}", *(f"  {each}" for each in one.notices)]


@click.command()
@click.option("--from", "since", metavar="WHEN", help="When the power went off.")
@click.option("--to", "until", metavar="WHEN", help="When it came back; now by default.")
@PLACE
@NOTE
@book_answers(DONE, "outages=logbook.actions.room.outages:Outage")
def outage(book: Book, since: str | None, until: str | None, place: str, note: str) -> None:
    """Show when the power was off; with --from write it: lamps and bills leave that time out.

    It is off in the whole room, or at --place.
    """
    start = when(book, since)
    if start is not None:
        tell_done(write_outage(book, start, when(book, until), place, note))
        return
    if until or place or note:
        raise Refused('Say when the power went off, like --from "yesterday 18:00".')
    found = list_outages(book)
    lines = [
        f"{moment_words(one.start, book.now(), book.zone)} to "
        f"{moment_words(one.end, book.now(), book.zone)}, {hours_words(one.hours)}, {one.place}"
        for one in found
    ]
    tell({"outages": found}, lines or ["The power was never off, as far as the book knows."])


@click.command()
@click.option("--days", default=30, show_default=True, help="The period before now.")
@click.option("--batch", type=BATCH, help="Only this batch.")
@book_answers("logbook.actions.room.bills:Bills", "logbook.actions.room.bills:BatchBill")
def bills(book: Book, days: int, batch: int | None) -> None:
    """Show what light costs: by shelf, tray-day and batch, from the hours really lit."""
    if batch is not None:
        one = batch_bill(book, batch)
        tell(one, [_batch_words(one, book.units)])
        return
    found = find(book, days)
    tell(found, _bill_lines(found, book))


def _bill_lines(found: Bills, book: Book) -> list[str]:
    money = found.money
    price = found.tariff.words if found.tariff else "no tariff yet: `logbook tariff 0.30`"
    lines = [
        *filter(None, (found.money.unset_words if found.tariff else "",)),
        f"A whole day: {found.today.bill.words(money)}; {price}",
        f"Last {plural(found.days, 'day')}, until now: {found.period.bill.words(money)}",
        *filter(None, (no_one_words(found.over_no_one, money),)),
    ]
    for shelf in found.shelves:
        lines.append(lamps_line(shelf, book))
        if shelf.lamps is not None and shelf.lamps.lamps:
            each = shelf.cost_per_tray_today
            share = (
                f", {money.rate(each)} per tray" if each is not None else ", no tray in the light"
            )
            lines.append(f"  a whole day {shelf.today.bill.words(money)}{share}")
            each = shelf.cost_per_tray_day
            if each is not None:
                lines.append(f"  {money.rate(each)} per tray-day in the period")
            lines += [f"  {words}" for words in (no_one_words(shelf.over_no_one, money),) if words]
    lines += [_batch_words(one, book.units) for one in found.batches]
    for circuit_view in found.circuits:
        lines += circuit_lines(circuit_view)
    return lines


def _batch_words(one: BatchBill, units: Units) -> str:
    parts = [
        f"batch {one.batch}, {one.crop}, {plural(one.trays, 'tray')}: {one.use.bill.words(one.money)}"
    ]
    if one.grams:
        parts.append(grams_words(one.grams, units))
    parts += [
        one.worth.cost_words(one.money, units),
        *one.worth.yield_words(units),
        one.growing_words,
    ]
    if one.use.unknown_hours >= 1:
        parts.append("part of its lit hours fell before any lamps were written down")
    return ", ".join(filter(None, [*parts, one.unmeasured_words]))
