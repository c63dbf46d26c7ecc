"""The round, as it is shown. Nothing is written."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from logbook.actions.book import Book
from logbook.actions.room.upkeep import due_duties
from logbook.actions.trays.dark import in_the_dark
from logbook.actions.trays.shelf_heads import shelf_heads
from logbook.growing.days import day_words
from logbook.growing.trays.round import Round, RoundLine, make_round
from logbook.store.reads.entries import last_standing_act
from logbook.store.reads.trials import arms_of_live
from logbook.text import Refused
from logbook.ways import Way

FARTHEST = timedelta(days=366)


def the_round(book: Book, day: date | None = None, inside: str = "") -> Round:
    """The round of now, or all that falls on a day, of a room, rack or shelf (path) or of all.

    Raises Refused for a day that is past, and where there is no such place.
    """
    with book.reading() as reading:
        if day is not None and day < reading.today:
            raise Refused(
                f"The round of {day_words(day, reading.today)} is past; {Way.PAGE_OF.of(day)} "
                "shows what was done."
            )
        if day is not None and day - reading.today > FARTHEST:
            raise Refused(
                f"{day_words(day, reading.today)} is more than a year ahead; check the date."
            )
        trays, duties = reading.live_in(inside), due_duties(reading, day)
        if inside:
            top = reading.places.find(inside).id
            duties = tuple(each for each in duties if top in each.walk[1::2])
        found = make_round(trays, reading.now, reading.today, day)
        return replace(found, in_the_dark=in_the_dark(reading, trays), upkeep=duties)


@dataclass(frozen=True, slots=True)
class RoundView:
    """The round, what heads of places say, arms by tray (id), ready signs by batch, what comes `after`.

    `undoes` is False where there are no trays and nothing of this person's that undo would take back.
    """

    round: Round
    heads: dict[str, tuple[str, ...]]
    arms: dict[int, str]
    signs: dict[int, str]
    empty: bool
    after: RoundLine | None = None
    undoes: bool = True


def round_view(book: Book) -> RoundView:
    """Today's round as the screen shows it."""
    with book.reading() as reading:
        trays = reading.live
        dark, heads, arms = in_the_dark(reading, trays), shelf_heads(reading), arms_of_live(reading)
        upkeep = due_duties(reading)
        undoes = bool(trays) or last_standing_act(reading, book.by) is not None
    today = make_round(trays, reading.now, reading.today)
    today = replace(today, in_the_dark=dark, upkeep=upkeep)
    after = None
    if not today.lines:
        tomorrow = reading.today + timedelta(days=1)
        lines = make_round(trays, reading.now, reading.today, tomorrow).lines
        after = min(lines, key=lambda line: line.walk_at, default=None)
    return RoundView(
        today,
        heads,
        arms,
        {tray.stored.batch_id: tray.template.sign_to_cut for tray in trays},
        not trays,
        after,
        undoes,
    )
