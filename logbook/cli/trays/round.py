"""`logbook round`: what every tray needs, in walking order."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.trays.round import the_round as make
from logbook.cli.arguments import IN, day
from logbook.cli.printing import book_answers, tell
from logbook.cli.trays.brief import brief_words
from logbook.growing.days import clock_words, day_bounds, day_of, day_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.room.upkeep import DueDuty
from logbook.growing.trays.round import Round, RoundLine
from logbook.text import plural


@click.command("round")
@click.option(
    "--day", "day_text", metavar="DATE", help="A whole day's round, to take along on paper."
)
@IN
@click.option("--brief", is_flag=True, help="One line, for a login banner.")
@click.option("--if-any", is_flag=True, help="Print nothing when nothing is due.")
@book_answers("logbook.growing.trays.round:Round")
def the_round(book: Book, day_text: str | None, inside: str, brief: bool, if_any: bool) -> None:
    """Show what every tray needs now, in walking order, then later today."""
    today = make(book, day(book, day_text), inside)
    silent = if_any and not today.count
    tell(
        today,
        ()
        if silent
        else brief_words(today, book)
        if brief
        else round_words(today, book, whole=day_text is not None),
    )


def round_words(today: Round, book: Book, *, whole: bool = False) -> Iterator[str]:
    """The round as plain lines, place by place; `whole` has what comes later in its place too."""
    lines = list(today.whole() if whole else today.walked())
    stops = len({line.place for line in lines})
    rehearsal = f"{book.rehearsal}, " if book.rehearsal else ""
    seen = clock_words(today.now, book.zone)
    if today.day != (written := day_of(today.now, book.zone)):
        seen = f"as of {day_words(written)} {seen}"
    yield (
        f"{day_words(today.day)}  {seen}  {rehearsal}the round: "
        f"{plural(stops, 'stop')}, {plural(len(lines), 'chore')}, {today.late} late"
    )
    yield from (f"{each.words}." for each in today.in_the_dark)
    yield from (f"{each.words}." for each in today.on_hold)
    place = None
    for line in lines:
        if line.place != place:
            place = line.place
            yield place
        yield f"  {_line_words(line, today, book)}"
    if not lines:
        yield "Nothing is due." if whole else "Nothing is due now."
    later: list[RoundLine | DueDuty] = [*today.upkeep_later, *today.waiting]
    if later and not whole:
        yield "Later"
        for line in later:
            yield f"  {_line_words(line, today, book)}, {line.place}"


def _line_words(line: RoundLine | DueDuty, today: Round, book: Book) -> str:
    if isinstance(line, DueDuty):
        return f"{line.words}, {line.when_words(today.now)}"
    stage = f", {line.stage}" if line.stage else ""
    day = f", day {line.day_number}" if line.stage else ""
    seed = ""
    if line.chore in ("soak", "sow") and line.seed_grams is not None:
        seed = f", {grams_words(line.seed_grams * len(line.trays), book.units)} seed"
    mould = f", mould seen on {numbers_words(line.mouldy)}" if line.mouldy else ""
    at = today.now
    if line.chore == "cut":  # "best today" is of the round's day
        at = max(at, day_bounds(today.day, book.zone)[0])
    return (
        f"{line.words}: {numbers_words(line.numbers)}, {line.crop}{day}{stage}{seed}, "
        f"{line.when_words(at)}{mould}"
    )
