"""`logbook plan`: what to soak and sow for the deliveries to come."""

import click

from logbook.actions.book import Book
from logbook.cli.printing import DONE, book_answers, tell, tell_done


@click.command()
@click.option("--weeks", type=int, default=2, show_default=True, help="How many weeks ahead.")
@click.option(
    "--accept", multiple=True, metavar="WHICH",
    help='Which of its sowings to write: all, a day, a crop, or a crop on a day ("radish fri").',
)  # fmt: skip
@book_answers("logbook.actions.planning.plan:PlanView", DONE)
def plan(book: Book, weeks: int, accept: tuple[str, ...]) -> None:
    """Say what to soak and sow for the deliveries to come, day by day, and how sure each is.

    It writes nothing unless --accept names sowings to plan; these come onto the round.
    """
    from logbook.actions.planning.plan import accept as write
    from logbook.actions.planning.plan import plan as made
    from logbook.actions.planning.plan_words import plan_lines

    if accept:
        tell_done(write(book, accept, weeks))
        return
    view = made(book, weeks)
    tell(view, plan_lines(view, book))
