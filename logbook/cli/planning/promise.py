"""`logbook promise`: can I say yes?"""

import click

from logbook.actions.book import Book
from logbook.cli.printing import DONE, book_answers, tell, tell_done


@click.command()
@click.argument("text", nargs=-1, required=True)
@click.option("--by", default="", metavar="WHEN", help='When it is wanted, like "Fri 06:00".')
@click.option(
    "--accept", default="", metavar="CUSTOMER", help="Write it as an order of a customer."
)
@book_answers("logbook.actions.planning.promise:PromiseView", DONE)
def promise(book: Book, text: tuple[str, ...], by: str, accept: str) -> None:
    """Say whether an order can be promised: promise "500g daikon" --by "Fri 06:00".

    Yes from which trays, yes if it is soaked or sown in time, or no but from when, each with the chance
    of enough. Nothing is written; with --accept it is, the order and the sowing that it needs.
    """
    from logbook.actions.planning.promise import accept_promise, promised

    words = " ".join(text)
    if accept:
        tell_done(accept_promise(book, accept, words, by))
        return
    view = promised(book, words, by)
    tell(view, [view.words])
