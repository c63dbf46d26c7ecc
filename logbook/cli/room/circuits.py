"""`logbook tariff` and `circuit`: what electricity costs, and what carries it."""

from collections.abc import Iterable, Iterator
from decimal import Decimal

import click

from logbook.actions.book import Book
from logbook.actions.room import lamps as acts
from logbook.cli.arguments import OF_ALL_AT, day, measured
from logbook.cli.completing import complete_places
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.growing import quantities
from logbook.growing.cautions import words_of
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_reading import wall_hours
from logbook.text import Refused


def _other_hours(text: str) -> OtherHours:
    hours, mark, much = text.partition("=")
    if not mark:
        raise Refused(f'"{text[:40]}" must be hours = price, like 17:00-20:00=0.42.')
    return OtherHours(wall_hours(hours), quantities.PRICE.read(much))


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("price", required=False, type=quantities.PRICE.read)
@click.option("--from", "since", metavar="DATE", help="First day; today by default.")
@click.option(
    "--price-at", "others", multiple=True, type=_other_hours, metavar="HOURS=PRICE",
    help="Like 17:00-20:00=0.42.",
)  # fmt: skip
@book_answers(DONE, "tariffs=logbook.growing.room.tariffs:Tariff")
def tariff(
    book: Book, price: Decimal | None, since: str | None, others: tuple[OtherHours, ...]
) -> None:
    """Show the prices per kWh; with a price, set one: tariff 0.30 --from 2026-01-01."""
    if price is not None:
        tell_done(acts.set_tariff(book, Tariff(day(book, since) or book.today(), price, others)))
        return
    found, money = acts.list_tariffs(book), book.about.money
    none = ["No tariff yet; set one like: logbook tariff 0.30 --from 2026-01-01"]
    unset = [money.unset_words] if found and money.unset_words else []
    tell({"tariffs": found}, [*unset, *(one.words for one in found)] or none)


@click.command()
@click.argument("name", required=False)
@measured("--breaker", quantities.BREAKER, "AMPS", "Rating of its breaker, like 15.")
@measured("--volts", quantities.VOLTS, "VOLTS", "Like 120 or 230.")
@click.option(
    "--place", "places", multiple=True, shell_complete=complete_places,
    help="A rack or shelf whose lamps are on it; may be repeated.",
)  # fmt: skip
@measured(
    "--other other_amps", quantities.LOAD, "AMPS", "What else runs on it for hours: fans, pumps.",
    default="0",
)  # fmt: skip
@measured(
    "--share share_percent", quantities.SHARE, "PERCENT", "Share of the breaker's rating for loads that run for hours; 80 %.",
    default="80%",
)  # fmt: skip
@click.option("--gone", is_flag=True, help="Remove the circuit.")
@OF_ALL_AT
@book_answers(DONE, "circuits=logbook.actions.room.lamps:CircuitView")
def circuit(
    book: Book, name: str | None, breaker: float | None, volts: float | None,
    places: tuple[str, ...], gone: bool, **more: float,
) -> None:  # fmt: skip
    """Show the circuits and their loads; with a name and its breaker, add one."""
    if name is not None:
        if gone:
            tell_done(acts.remove_circuit(book, name))
            return
        if breaker is None or volts is None:
            raise WrongUsage("Give the breaker and the voltage, like --breaker 15 --volts 120.")
        draft = acts.CircuitDraft(name, breaker, volts, places, **more)
        tell_done(acts.set_circuit(book, draft))
        return
    found = acts.list_circuits(book)
    tell({"circuits": found}, _circuits_words(found))


def _circuits_words(found: Iterable[acts.CircuitView]) -> Iterator[str]:
    for one in found:
        yield from circuit_lines(one)
    if not found:
        yield 'No circuits yet; add one like: logbook circuit "A" --breaker 15 --volts 120'
    yield from words_of("electricity by water")


def circuit_lines(one: acts.CircuitView) -> list[str]:
    """A circuit with its load and what the sum is based on."""
    on = ", ".join(one.shelves) or "no shelf"
    return [f"{one.name}: {on}", f"  {one.load.words}", *(f"  {each}" for each in one.notices)]
