"""`logbook promise`: can I say yes?"""

import click

from logbook.actions.book import Book
from logbook.cli.printing import DONE, book_answers, tell, tell_done


@click.command()
@click.argument("text", nargs=-1, required=True)
@click.option("--by", default="", metavar="WHEN", help='When it is wanted, like "Fri 06:00".')
@click.option("--accept", default="", metavar="CUSTOMER", help="Write it as this customer's order.")
@book_answers("logbook.actions.planning.promise:PromiseView", DONE)
def promise(book: Book, text: tuple[str, ...], by: str, accept: str) -> None:
    """Say whether an order can be promised: promise "500g daikon" --by "Fri 06:00".

    The answer is yes, and from which trays; or yes, if you soak or sow in time; or no, and from when: each
    with the chance of enough. Nothing is written unless --accept writes the order and its sowing.
    """
    from logbook.actions.planning.promise import accept_promise, promised

    words = " ".join(text)
    if accept:
        tell_done(accept_promise(book, accept, words, by))
        return
    view = promised(book, words, by)
    tell(view, [view.words])
