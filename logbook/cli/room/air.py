"""`logbook air`: temperature and humidity, by hand or from a feed."""

import click

from logbook.actions.book import Book
from logbook.actions.room.air import AirView, air_at, air_places, batch_air, write_air
from logbook.actions.room.odd import odd_air
from logbook.cli.arguments import AT, BATCH, NOTE, PLACE, SURE, confirm, when
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import DONE, answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.growing import measures
from logbook.growing.room.air import air_from
from logbook.text import plural


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("words", nargs=-1, metavar="[TEMPERATURE HUMIDITY]")
@PLACE
@click.option("--still/--moving", default=None, help="Whether the air is still.")
@click.option("--back", "span", metavar="HOURS", help="How far back to show; 24 h by default.")
@click.option("--batch", type=BATCH, help="Show the air over a batch's life.")
@click.option("--feed", is_flag=True, help="Read JSON lines from standard input until it ends.")
@click.option("--every", metavar="TIME", help="How often the feed writes; 1 min or more.")
@SURE
@AT
@NOTE
@answers(DONE, "logbook.actions.room.air:AirView", "logbook.actions.room.air_feed:Fed")
@pass_options
def air(
    options: Options, words: tuple[str, ...], place: str, still: bool | None, span: str | None,
    batch: int | None, feed: bool, every: str | None, sure: bool, at: str | None, note: str,
) -> None:  # fmt: skip
    """Show the air of a place; with temperature and humidity write them: air 21.4 63.

    --feed takes lines like {"celsius": 21.4, "humidity": 63, "place": "Rack 1", "still": false,
    "at": "2026-04-14T07:30:00+01:00"}; place, still and at may be left out; fahrenheit may replace celsius. The lines of a minute become one reading; one that is already in the book is not written again.
    """
    book = options.open()
    if feed:
        from logbook.cli.room.feeding import feed_air

        if words:
            raise WrongUsage("A feed reads its numbers from standard input; give none with --feed.")
        feed_air(book, place, options.by, every)
        return
    if every is not None:
        raise WrongUsage("--every goes with --feed.")
    if words:
        if len(" ".join(words).split()) < 2:
            raise WrongUsage("Give temperature and humidity, like 21.4 63 or 70F 55%.")
        degrees, damp, seen = air_from(" ".join(words), book.units)
        still = seen if still is None else still
        moment = when(book, at)
        confirm("" if sure else odd_air(book, degrees, damp, place, moment))
        tell_done(write_air(book, degrees, damp, place, still=still, at=moment, note=note))
        return
    back = 24.0 if span is None else measures.hours(span, "time to show")
    view = batch_air(book, batch) if batch is not None else air_at(book, place, hours=back)
    tell(view, _air_lines(view, book))


def _air_lines(view: AirView, book: Book) -> list[str]:
    span = f"{book.when(view.start)} to {book.when(view.end)}"
    if view.newest is None:
        lines = [f"{view.place}: no air reading from {span}."]
        places = sorted(air_places(book), key=lambda one: one[1].at, reverse=True)
        if places:
            lines.append(
                "Newest readings, place by place (--place shows one, --back goes further back):"
            )
        return lines + [
            f"  {path}, {book.when(one.at)}: {one.words(book.units)}" for path, one in places
        ]
    measured = "" if view.source == view.place else f" (measured at {view.source})"
    last = book.when(view.newest.at)
    lines = [
        f"{view.place}{measured}, {span}: {plural(len(view.readings), 'reading')}",
        f"  last {last}: {view.newest.words(book.units)}",
    ]
    for name, mean in (("lit", view.means.day), ("dark", view.means.night)):
        if mean is not None:
            lines.append(f"  {name}: {mean.words(book.units)}")
    lines += [f"  {crop.words}" for crop in view.crops]
    if view.caution is not None:
        since = book.when(view.caution.since)
        lines.append(f"  since {since}: {view.caution.words}")
    return lines
