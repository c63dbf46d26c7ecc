"""`logbook order` and `logbook orders`: what customers want, once or on standing days."""

import click

from logbook.actions.book import Book
from logbook.cli.arguments import OF_ALL_AT
from logbook.cli.printing import book_answers, tell, tell_done

ORDERED = "logbook.actions.orders.ordering:Ordered"
WHICH = click.argument("which")
SINCE = click.option(
    "--from", "since", default="", metavar="DAY", help="From which day; today by default."
)
UNTIL = click.option("--until", default="", metavar="DAY", help="Its last day.")
PRICE = click.option("--price", default="", help="Price per pack, in the book's currency.")


@click.command()
@click.argument("customer")
@click.argument("text", nargs=-1, required=True)
@SINCE
@UNTIL
@PRICE
@OF_ALL_AT
@book_answers(ORDERED)
def order(
    book: Book, customer: str, text: tuple[str, ...], since: str, until: str, price: str
) -> None:
    """Write what a customer wants: order "Bistro" "daikon 500g fri".

    Packs read "6 x 50g", live trays "2 trays"; "every tue,fri" makes a standing order. By default it is for
    the customer's next delivery day, at the customer's hour or when the room's day begins. A new
    customer is added to the book.
    """
    from logbook.actions.orders.ordering import OrderDraft
    from logbook.actions.orders.ordering import order as write

    tell_done(write(book, OrderDraft(customer, " ".join(text), price, since, until)))


@click.group(invoke_without_command=True)
@book_answers("logbook.actions.orders.listing:OrderList")
def orders(book: Book) -> None:
    """Show what is ordered, with the number of each line."""
    _list(book)


@orders.command("list")
@book_answers("logbook.actions.orders.listing:OrderList")
def list_all(book: Book) -> None:
    """Show what is ordered, with the number of each line."""
    _list(book)


def _list(book: Book) -> None:
    from logbook.actions.orders.listing import list_orders

    found = list_orders(book)
    money = book.about.money
    lines = [
        f"{each.order}  {each.words}"
        + (
            f", {money.price(each.price_per_pack)} per pack"
            if each.price_per_pack is not None
            else ""
        )
        for each in found.orders
    ]
    tell(found, lines or ["Nothing is ordered."])


@orders.command()
@WHICH
@click.argument("text", nargs=-1)
@SINCE
@UNTIL
@PRICE
@OF_ALL_AT
@book_answers(ORDERED)
def change(
    book: Book, which: str, text: tuple[str, ...], since: str, until: str, price: str
) -> None:
    """Change an order from a day on: orders change 12 "8 x 50g radish every tue,fri" --from fri.

    Before that day it stays as it was.
    """
    from logbook.actions.orders.ordering import change_order

    tell_done(change_order(book, which, " ".join(text), since, until, price))


@orders.command()
@WHICH
@SINCE
@OF_ALL_AT
@book_answers(ORDERED)
def stop(book: Book, which: str, since: str) -> None:
    """Call off a single order, or end a standing one from a day on."""
    from logbook.actions.orders.ordering import stop_order

    tell_done(stop_order(book, which, since))
