"""The commands that take back: undo and redo, and strike with or without a replacement."""

from dataclasses import replace
from typing import Any

import click

from logbook.actions.book import Book
from logbook.cli.arguments import AT, SURE, confirm, trays, when
from logbook.cli.completing import complete_places, complete_recent_entries, complete_templates
from logbook.cli.printing import DONE, book_answers, tell_done
from logbook.cli.trays.look_options import look_given, look_options
from logbook.growing.measures import grams
from logbook.growing.quantities import WATER
from logbook.growing.room.water import WaterReading
from logbook.text import Refused


@click.command()
@click.argument("entry", type=int, required=False, shell_complete=complete_recent_entries)
@book_answers(DONE)
def undo(book: Book, entry: int | None) -> None:
    """Undo what you wrote last; everything is shown as it was before.

    Anything older than an hour, and a weight, discard or sowing, needs the number of its entry.
    """
    from logbook.actions.trays.striking import last_act, struck_words
    from logbook.actions.trays.striking import undo as write

    last = last_act(book)
    if entry is None and last.asks:
        raise Refused(f"Last written: {last.words}. `logbook undo {last.id}` undoes it.")
    if entry is not None and entry not in last.entries:
        raise Refused(
            f"Undo takes only what you wrote last: entry {last.id}, {last.words}. `logbook strike "
            f"{entry}` strikes out any other."
        )
    done = write(book, last.id)
    tell_done(replace(done, notices=(struck_words(book, done.act_id), *done.notices)))


@click.command()
@book_answers(DONE)
def redo(book: Book) -> None:
    """Bring back what undo took, as long as nothing was written since."""
    from logbook.actions.trays.striking import redo as write

    tell_done(write(book))


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("entry", type=int, shell_complete=complete_recent_entries)
@click.option("--why", required=True, help="The reason.")
@AT
@click.option("--note", help="The right note.")
@click.option("--trays", "numbers", metavar="LIST", help="The right trays: 101-104.")
@click.option(
    "--grams", "weight", metavar="WEIGHT", help="Cut weight, or seed per tray of a sowing."
)
@click.option("--part/--whole", default=None, help="A part cut, or the whole.")
@click.option("--keep/--no-keep", default=None, help="Cut and growing again, or not.")
@click.option("--amount", metavar="VOLUME", help="Water per tray, like 300ml.")
@click.option("--place", shell_complete=complete_places, help="Where they were put.")
@click.option("--lot", help="Seed lot of a sowing.")
@click.option("--template", shell_complete=complete_templates, help="What was sown.")
@look_options
@SURE
@book_answers(DONE)
def strike(
    book: Book, /, entry: int, why: str, at: str | None, note: str | None, numbers: str | None,
    weight: str | None, part: bool | None, keep: bool | None, amount: str | None, place: str | None,
    lot: str | None, template: str | None, sure: bool, **seen: Any,
) -> None:  # fmt: skip
    """Strike out one entry (its number is on the page); it stays in the record.

    Say what is right (--grams, --at, --note, --trays, --place …) and the right entry is written
    in its place in the same act: strike 57 --why "misread" --grams 238.
    """
    from logbook.actions.trays.replacement import Changes
    from logbook.actions.trays.replacing import replace_entry
    from logbook.actions.trays.striking import strike as write

    look, moment = look_given(book, seen), when(book, at)
    changes = Changes(
        at=moment, note=note, part=part, keep=keep, place=place, lot=lot, template=template,
        numbers=trays(numbers) if numbers is not None else None,
        grams=grams(weight, "weight") if weight is not None else None,
        amount_ml=WATER.given(amount, book.units), look=None if look.empty else look,
    )  # fmt: skip
    if changes.amount_ml is not None and not sure:
        from logbook.actions.room.odd import odd_water

        water = WaterReading(millilitres=changes.amount_ml)
        confirm(odd_water(book, water, changes.numbers or (), at=moment))
    if changes.filled():
        tell_done(replace_entry(book, entry, why, changes))
    else:
        tell_done(write(book, entry, why))
