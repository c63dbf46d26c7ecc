"""`logbook light`: readings of a shelf and what they mean."""

import re
from dataclasses import replace
from itertools import product

import click

from logbook.actions.book import Book
from logbook.actions.room import light as acts
from logbook.actions.room.light_table import LIGHT
from logbook.actions.room.odd import odd_survey
from logbook.cli.arguments import AT, NOTE, PLACE, SURE, confirm, when
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.cli.usage import WrongUsage
from logbook.cli.wordy import ManyOption, WordyCommand, many_values
from logbook.growing import measures
from logbook.growing.measures import number_words
from logbook.growing.quantities import LAMP_HEIGHT, LUX, PPFD
from logbook.growing.room.light import Grid, Spot, odd_reading, read_grid
from logbook.growing.table import table
from logbook.text import Refused, plural

_SPOT = re.compile(r"\s*(\d{1,4})\s*[,/.]\s*(\d{1,4})\s*[=:]\s*(.+)")


@click.command(cls=WordyCommand)
@PLACE
@click.option("--ppfd", cls=ManyOption, help="Readings, front row first, left to right.")
@click.option("--lux", cls=ManyOption, help="Readings in lux instead; needs --lamp.")
@click.option("--lamp", metavar="KIND", help='Kind of lamp for --lux, such as "white LED".')
@click.option(
    "--grid", type=read_grid, metavar="ROWSxCOLUMNS",
    help="Rows and columns of spots: 3x2; one column by default.",
)  # fmt: skip
@click.option("--spot", "spots", cls=ManyOption, metavar="ROW,COLUMN=PPFD", help="A single spot.")
@click.option("--height", metavar="LENGTH", help="Distance from the trays to the lamp.")
@SURE
@AT
@NOTE
@book_answers(DONE, "shelves=logbook.actions.room.light:ShelfLight")
def light(
    book: Book, place: str, ppfd: tuple[str, ...], lux: tuple[str, ...], lamp: str | None,
    grid: Grid | None, spots: tuple[str, ...], height: str | None, sure: bool, at: str | None, note: str,
) -> None:  # fmt: skip
    """Show the light of a shelf, or of all; with readings, write them."""
    if ppfd or lux or spots:
        draft = _survey(place, ppfd, lux, lamp, grid, spots)
        tall = LAMP_HEIGHT.given(height, book.units)
        draft = replace(draft, height_mm=tall, at=when(book, at), note=note)
        if not sure:
            far = odd_reading(draft.spots)
            confirm(far[1] if far else odd_survey(book, draft))
        tell_done(acts.write_survey(book, draft))
        return
    if place:
        shelf = acts.shelf_light(book, place)
        tell({"shelves": [shelf]}, _light_words(shelf, book))
        return
    found = acts.all_light(book)
    falling = [f"{each.place.path}: {each.falling}" for each in found if each.falling]
    tell({"shelves": found}, [*table(LIGHT, found, width()).lines, *falling])


def _survey(
    place: str, ppfd: tuple[str, ...], lux: tuple[str, ...], lamp: str | None, layout: Grid | None,
    spots: tuple[str, ...],
) -> acts.SurveyDraft:  # fmt: skip
    if not place:
        raise WrongUsage('On which shelf? Give --place, like --place "Rack 1/Shelf 2".')
    if sum(map(bool, (ppfd, lux, spots))) != 1:
        raise WrongUsage(
            "Give the readings after --ppfd, or after --lux with --lamp, or as --spot."
        )
    if lux and lamp is None:
        raise WrongUsage('With --lux, give the kind of lamp too, like --lamp "white LED".')
    if lamp is not None and not lux:
        raise WrongUsage("--lamp goes with --lux; PPFD needs none.")
    if spots:
        read = tuple(map(_spot, spots))
        layout = layout or Grid(max(one.row for one in read), max(one.column for one in read))
        return acts.SurveyDraft(place, layout, read)
    values = list(map(LUX.read if lux else PPFD.read, many_values(ppfd or lux, "light reading")))
    layout = layout or Grid(len(values), 1)
    if len(values) != layout.rows * layout.columns:
        raise Refused(
            f"A grid of {layout.rows} × {layout.columns} has {layout.rows * layout.columns} "
            f"spots, but {plural(len(values), 'reading')} given; use --spot to leave spots out."
        )
    where = product(range(1, layout.rows + 1), range(1, layout.columns + 1))
    read = tuple(Spot(*spot, value) for spot, value in zip(where, values, strict=True))
    return acts.SurveyDraft(place, layout, read, lux_lamp=lamp or "")


def _spot(text: str) -> Spot:
    one = _SPOT.fullmatch(text)
    if not one:
        raise Refused(f'The spot "{text[:30]}" must be like 2,1=210 (row, column = PPFD).')
    return Spot(int(one[1]), int(one[2]), PPFD.read(one[3]))


def _light_words(shelf: acts.ShelfLight, book: Book) -> list[str]:
    """A shelf's light with every survey and what it means."""
    newest = shelf.newest
    if newest is None:
        return [f"{shelf.place.path}: no light reading yet, {shelf.place.hours_words}"]
    daily = "" if shelf.daily is None else f", DLI {number_words(shelf.daily)} mol/m²/d"
    lines = [f"{shelf.place.path}: {newest.words}{daily}"]
    by_wall = f" ({shelf.hours.words})" if shelf.hours else ""
    lines += [
        f"  evenness: {newest.even.words}",
        f"  lit today {measures.hours_words(shelf.lit_hours)}{by_wall}",
        *(f"  {each.crop}: {each.judgement.words}" for each in shelf.verdicts),
        *(f"  {wish}" for wish in (*shelf.wishes, shelf.falling) if wish),
    ]
    for view in reversed(shelf.surveys):
        at = book.when(view.survey.at)
        lines.append(f"  {at}, {view.survey.by}: {view.words}")
    return lines
