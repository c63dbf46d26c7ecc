"""`logbook customer` and `logbook mix`: who gets what, and mixes of crops."""

from typing import Any

import click

from logbook.actions.book import Book
from logbook.cli.arguments import OF_ALL_AT
from logbook.cli.printing import DONE, book_answers, tell, tell_done

LIST = "customers=logbook.growing.orders.customer:Customer"
MIXES = "logbook.actions.orders.mixes:MixList"
ABOUT = (
    click.option("--kind", help="kitchen, shop, stall or household; a stall takes what is left."),
    click.option("--contact", help="Telephone, e-mail or name."),
    click.option("--weekdays", "days", metavar="DAYS", help="Delivery days: tue,fri."),
    click.option(
        "--near/--far",
        default=None,
        help="For a kitchen or shop: whether it is in your state or within 275 miles.",
    ),
    click.option("--hour", metavar="HOUR", help="When deliveries are wanted: 06:00, or none."),
)


def about(command: Any) -> Any:
    """Add what may be said of a customer."""
    for option in reversed(ABOUT):
        command = option(command)
    return command


@click.group(invoke_without_command=True)
@book_answers(LIST)
def customer(book: Book) -> None:
    """Show the customers."""
    _list(book)


@customer.command("list")
@book_answers(LIST)
def list_all(book: Book) -> None:
    """Show the customers."""
    _list(book)


def _list(book: Book) -> None:
    from logbook.actions.orders.customers import customer_words, list_customers

    found = list_customers(book)
    tell({"customers": found}, map(customer_words, found) if found else ["No customers yet."])


@customer.command()
@click.argument("name")
@about
@OF_ALL_AT
@book_answers(DONE)
def add(book: Book, name: str, **said: Any) -> None:
    """Add a customer: add "The chef" --kind kitchen --days tue,fri --hour 06:00."""
    from logbook.actions.orders.customers import CustomerDraft, put_customer

    tell_done(put_customer(book, CustomerDraft(name, **said), new=True))


@customer.command()
@click.argument("name")
@click.option("--name", "new_name", help="Another name.")
@about
@OF_ALL_AT
@book_answers(DONE)
def change(book: Book, name: str, **said: Any) -> None:
    """Change a customer's details, from now on."""
    from logbook.actions.orders.customers import CustomerDraft, put_customer

    tell_done(put_customer(book, CustomerDraft(name, **said), new=False))


@customer.command()
@click.argument("name")
@OF_ALL_AT
@book_answers(DONE)
def remove(book: Book, name: str) -> None:
    """Remove a customer; what they got stays in the record."""
    from logbook.actions.orders.customers import remove_customer

    tell_done(remove_customer(book, name))


@customer.command()
@click.argument("name")
@click.option(
    "--from", "since", default="today", metavar="DAY", help="The first day; today by default."
)
@click.option("--until", metavar="DAY", help="The last day.")
@click.option("--order", type=click.IntRange(1, 10**9), help="Only this standing order.")
@OF_ALL_AT
@book_answers(DONE)
def pause(book: Book, name: str, since: str, until: str | None, order: int | None) -> None:
    """Pause a customer's orders: pause "The chef" --from "24 Dec" --until "2 Jan"."""
    from logbook.actions.orders.customers import pause as write

    tell_done(write(book, name, since, until, order))


@click.group(invoke_without_command=True)
@book_answers(MIXES)
def mix(book: Book) -> None:
    """Show the mixes of crops."""
    _list_mixes(book)


@mix.command("list")
@book_answers(MIXES)
def list_mixes(book: Book) -> None:
    """Show the mixes of crops."""
    _list_mixes(book)


def _list_mixes(book: Book) -> None:
    from logbook.actions.orders import mixes

    found = mixes.list_mixes(book)
    tell(found, [f"{each.name}: {each.words}" for each in found.mixes] or ["No mixes yet."])


@mix.command()
@click.argument("name")
@click.argument("parts", nargs=-1)
@click.option(
    "--from", "since", default="", metavar="DAY", help="From which day; today by default."
)
@click.option("--rename", default="", metavar="NAME", help="The name that it has from then on.")
@OF_ALL_AT
@book_answers(DONE)
def put(book: Book, name: str, parts: tuple[str, ...], since: str, rename: str) -> None:
    """Write a mix, in parts by weight: put "salad mix" "2 radish" "1 pea shoots".

    With --rename it keeps its parts where none are given.
    """
    from logbook.actions.orders.mixes import put_mix

    tell_done(put_mix(book, rename or name, "+".join(parts), since, name if rename else ""))


@mix.command("remove")
@click.argument("name")
@OF_ALL_AT
@book_answers(DONE)
def remove_mix(book: Book, name: str) -> None:
    """Remove a mix; past orders of it stay in the record."""
    from logbook.actions.orders.mixes import remove_mix as write

    tell_done(write(book, name))
