"""The commands that show: round, due, page, search, tray, batch, racks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import click

from logbook.cli.app import Options, pass_options
from logbook.cli.arguments import complete_trays, day, iso, json_option, trays
from logbook.cli.printing import print_json
from logbook.growing.days import clock_words, day_words, moment_words
from logbook.growing.measures import grams_words, spread_words
from logbook.growing.numbers import numbers_words
from logbook.text import Refused, plural

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.viewing import Ahead, Line, RackTray
    from logbook.growing.round import Round, RoundLine


@click.command("round")
@click.option("--day", "day_text", metavar="DATE", help="A day to come; today without it.")
@click.option("--brief", is_flag=True, help="One line, for a login banner.")
@click.option("--if-any", is_flag=True, help="Silent when nothing is due.")
@json_option
@pass_options
def the_round(
    options: Options, day_text: str | None, brief: bool, if_any: bool, as_json: bool
) -> None:
    """Show what every tray needs, in walking order: due now, then later that day."""
    from logbook.actions.viewing import the_round as make

    book = options.open()
    today = make(book, day(book, day_text))
    if as_json:
        print_json(
            {
                "day": today.day.isoformat(),
                "chores": [_chore_json(line, book) for line in today.lines],
            }
        )
        return
    if if_any and not today.due:
        return
    click.echo(brief_words(today, book) if brief else "\n".join(round_words(today, book)))


def _chore_json(line: RoundLine, book: Book) -> dict[str, Any]:
    return {
        "chore": line.chore,
        "trays": [str(number) for number in line.numbers],
        "batch": line.batch,
        "crop": line.crop,
        "place": line.place,
        "day_number": line.day_number,
        "stage": line.stage,
        "due_at": iso(line.due_at, book),
        "overdue": line.overdue,
        "later": line.later,
        "words": line.words,
        "mould_seen_on": [str(number) for number in line.mouldy],
    }


def brief_words(today: Round, book: Book) -> str:
    """Say the round in one line."""
    from logbook.growing.chores import WORDS

    day = day_words(today.day)
    mould = f"; mould: {numbers_words(today.mouldy)}" if today.mouldy else ""
    if not today.due:
        rest = f"; next {clock_words(today.waiting[0].due_at, book.zone)}" if today.waiting else ""
        return f"{day}: nothing due{rest}{mould}."
    counts: dict[str, int] = {}
    for line in today.due:
        counts[WORDS[line.chore]] = counts.get(WORDS[line.chore], 0) + len(line.trays)
    (first, most), *others = counts.items()
    words = ", ".join(
        [f"{first} {plural(most, 'tray')}", *(f"{chore} {count}" for chore, count in others)]
    )
    late = f", {today.late} late" if today.late else ""
    return (
        f"{day}: {plural(len(today.due), 'chore')} at {plural(today.stops, 'stop')}{late}: "
        f"{words}{mould}"
    )


def round_words(today: Round, book: Book) -> list[str]:
    """Say the round in plain lines."""
    lines = [
        (
            f"{day_words(today.day)}  {clock_words(today.now, book.zone)}  the round: "
            f"{plural(today.stops, 'stop')}, {plural(len(today.due), 'chore')}, {today.late} late"
        )
    ]
    place = None
    for line in today.due:
        if line.place != place:
            place = line.place
            lines.append(place)
        lines.append(f"  {_round_line(line, today, book)}")
    if not today.due:
        lines.append("Nothing is due now.")
    if today.waiting:
        lines.append("Later")
        lines += [f"  {_round_line(line, today, book)}, {line.place}" for line in today.waiting]
    return lines


def _round_line(line: RoundLine, today: Round, book: Book) -> str:
    stage = f", {line.stage}" if line.stage else ""
    day = f", day {line.day_number}" if line.stage else ""
    seed = ""
    if line.chore in ("soak", "sow") and line.seed_grams is not None:
        seed = f", {grams_words(line.seed_grams * len(line.trays), book.units)} seed"
    mould = f", mould seen on {numbers_words(line.mouldy)}" if line.mouldy else ""
    return (
        f"{line.words}: {numbers_words(line.numbers)}, {line.crop}{day}{stage}{seed}, "
        f"{line.when_words(today.now, book.zone)}{mould}"
    )


@click.command()
@click.option("--days", default=7, show_default=True, help="How many days ahead.")
@json_option
@pass_options
def due(options: Options, days: int, as_json: bool) -> None:
    """Show trays to cut today and in the days ahead, with the grams expected."""
    from logbook.actions.viewing import due as find
    from logbook.actions.viewing import due_by_day

    book = options.open()
    found = find(book, days)
    if as_json:
        rows = [
            {
                "tray": str(tray.number),
                "crop": tray.crop,
                "day_number": tray.day_number,
                "from": iso(tray.window.start, book),
                "best": iso(tray.window.best, book),
                "by": iso(tray.window.by, book),
                "state": tray.state,
                "expected_grams": None if tray.expected is None else round(tray.expected.grams, 1),
                "spread_grams": None
                if tray.expected is None
                else round(tray.expected.spread_grams, 1),
                "rests_on_trays": None if tray.expected is None else tray.expected.trays,
                "batch": tray.batch,
                "place": tray.place,
                "sign_seen": tray.sign_seen,
                "mould_seen": tray.mould,
            }
            for tray in found
        ]
        print_json({"trays": rows})
        return
    if not found:
        click.echo(f"Nothing comes ready within {plural(days, 'day')}. `logbook sow` sows a batch.")
        return
    now = book.now()
    for tray in found:
        expected = ""
        if tray.expected is not None:
            grams = spread_words(tray.expected.grams, tray.expected.spread_grams, book.units)
            expected = f", expect {grams} ({tray.expected.rests_on})"
        sign = ", sign seen" if tray.sign_seen else ""
        sign += ", mould seen" if tray.mould else ""
        click.echo(
            f"{tray.state}: {tray.number}, {tray.crop}, day {tray.day_number}, "
            f"best {moment_words(tray.window.best, now, book.zone)}, "
            f"by {moment_words(tray.window.by, now, book.zone)}{sign}{expected}, "
            f"{tray.place or 'no place'}"
        )
    click.echo("By day")
    for each in due_by_day(book, found):
        click.echo(
            f"  {day_words(each.day, book.today())}: {each.crop}, "
            f"{plural(len(each.numbers), 'tray')}, "
            f"{spread_words(each.grams, each.spread_grams, book.units)}"
        )


@click.command()
@click.option("--day", "day_text", metavar="DATE", help="Which day; today without it.")
@click.option("--tray", shell_complete=complete_trays, help="Only this tray.")
@click.option("--crop", default="", help="Only this crop.")
@click.option("--kind", default="", help="Only this kind: water, look, jot, weigh …")
@json_option
@pass_options
def page(
    options: Options, day_text: str | None, tray: str | None, crop: str, kind: str, as_json: bool
) -> None:
    """Show a day's entries, oldest first; struck ones are marked."""
    from logbook.actions.viewing import page as find

    book = options.open()
    which = day(book, day_text) or book.today()
    number = None if tray is None else _one_tray(tray)
    lines = find(book, which, tray=number, crop=crop, kind=kind)
    if as_json:
        print_json(
            {"day": which.isoformat(), "entries": [_entry_json(line, book) for line in lines]}
        )
        return
    click.echo(day_words(which, book.today()))
    if not lines:
        click.echo("No entries.")
    for line in lines:
        click.echo(f"  {entry_words(line, book)}")


def _entry_json(line: Line, book: Book) -> dict[str, Any]:
    return {
        "id": line.id,
        "kind": line.kind,
        "at": iso(line.at, book),
        "trays": [str(number) for number in line.trays],
        "by": line.by,
        "note": line.note,
        "struck": line.struck,
        "replaced_by": line.replaced_by,
        "replaces": line.replaces,
        "words": line.words,
        "written_at": iso(line.written_at, book),
        "clock_in_doubt": line.clock_in_doubt,
    }


def entry_words(line: Line, book: Book, *, day: bool = False) -> str:
    """Say an entry in one line."""
    when = moment_words(line.at, book.now(), book.zone) if day else clock_words(line.at, book.zone)
    where = numbers_words(line.trays) or line.place or "room"
    note = f' "{" / ".join(line.note.splitlines())}"' if line.note else ""
    marks = []
    if line.struck:
        marks.append("struck")
    if line.replaced_by is not None:
        marks.append(f"replaced by entry {line.replaced_by}")
    if line.replaces is not None:
        marks.append(f"in the place of entry {line.replaces}")
    standing = f" ({', '.join(marks)})" if marks else ""
    return f"{when}  {line.id}  {line.words}  {where}{note}  {line.by}{standing}"


@click.command()
@click.argument("words", nargs=-1, required=True)
@json_option
@pass_options
def search(options: Options, words: tuple[str, ...], as_json: bool) -> None:
    """Show entries that hold the words in their note, look or seed lot, oldest first."""
    from logbook.actions.viewing import search as find

    book = options.open()
    lines = find(book, " ".join(words))
    if as_json:
        print_json({"entries": [_entry_json(line, book) for line in lines]})
        return
    if not lines:
        raise Refused(f'No note, look or seed lot holds "{" ".join(words)[:60]}".')
    for line in lines:
        click.echo(entry_words(line, book, day=True))


def _line_words(past: Sequence[Line], ahead: Sequence[Ahead], book: Book) -> list[str]:
    now = book.now()
    lines = [f"  {entry_words(line, book, day=True)}" for line in past]
    lines.append(f"  now {moment_words(now, now, book.zone)}")
    for each in ahead:
        which = f"  {numbers_words(each.trays)}" if each.trays else ""
        lines.append(f"  {moment_words(each.at, now, book.zone)}  {each.words}{which}")
    return lines


def _one_tray(text: str) -> int:
    (wanted, *more) = trays(text)
    if more:
        raise Refused("One tray at a time; `logbook batch` shows several.")
    return wanted


@click.command()
@click.argument("number", shell_complete=complete_trays)
@json_option
@pass_options
def tray(options: Options, number: str, as_json: bool) -> None:
    """Show one tray as a time line: what happened, and what will."""
    from logbook.actions.viewing import tray_page

    book = options.open()
    found = tray_page(book, _one_tray(number))
    if as_json:
        print_json(
            {
                "tray": str(found.tray.number),
                "batch": found.tray.batch,
                "crop": found.tray.template.label(),
                "place": found.place,
                "status": found.status,
                "stage": found.stage,
                "day_number": found.day_number,
                "mould_seen": found.tray.state.mould_at is not None,
                "grams": found.grams,
                "grams_per_gram_seed": found.grams_per_gram_seed,
                "past": [_entry_json(line, book) for line in found.past],
                "ahead": [{"at": iso(each.at, book), "words": each.words} for each in found.ahead],
            }
        )
        return
    stage = f", {found.stage}" if found.stage else ""
    number_words = f", day {found.day_number}" if found.day_number is not None else ""
    place = f", {found.place}" if found.place else ""
    place += ", mould seen" if found.tray.state.mould_at is not None else ""
    click.echo(
        f"Tray {found.tray.number}: {found.tray.template.label()}, {found.status}"
        f"{number_words}{stage}{place}, batch {found.tray.batch}"
    )
    if found.grams is not None:
        ratio = found.grams_per_gram_seed
        per_seed = f", {ratio:.2f} g per g of seed" if ratio is not None else ""
        click.echo(f"Cut {grams_words(found.grams, book.units)}{per_seed}")
    click.echo("\n".join(_line_words(found.past, found.ahead, book)))


@click.command()
@click.argument("name")
@json_option
@pass_options
def batch(options: Options, name: str, as_json: bool) -> None:
    """Show one batch: its trays, what happened to them, and the weights."""
    from logbook.actions.viewing import batch_page

    book = options.open()
    found = batch_page(book, name)
    if as_json:
        print_json(
            {
                "batch": found.batch,
                "template": found.template_name,
                "version": found.version,
                "lot": found.lot,
                "seed_grams_per_tray": found.seed_grams,
                "sown_at": iso(found.sown_at, book) if found.sown_at else None,
                "planned_for": iso(found.planned_for, book) if found.planned_for else None,
                "trays": [
                    {
                        "tray": str(each.number),
                        "status": status,
                        "stage": stage,
                        "place": each.place,
                        "grams": each.state.grams,
                    }
                    for each, status, stage in zip(
                        found.trays, found.statuses, found.stages, strict=True
                    )
                ],
                "cut_grams": found.cut_grams,
                "past": [_entry_json(line, book) for line in found.past],
            }
        )
        return
    lot = f", seed lot {found.lot}" if found.lot else ""
    click.echo(f"Batch {found.batch}: {found.template_name} version {found.version}{lot}")
    for each, status, stage in zip(found.trays, found.statuses, found.stages, strict=True):
        grams = (
            f", {grams_words(each.state.grams, book.units)}" if each.state.grams is not None else ""
        )
        click.echo(f"  {each.number} {stage or status}{grams} {each.place}".rstrip())
    click.echo("\n".join(_line_words(found.past, found.ahead, book)))


@click.command()
@json_option
@pass_options
def racks(options: Options, as_json: bool) -> None:
    """Show the racks: each shelf's trays by slot, with crop, day and what is due."""
    from logbook.actions.viewing import racks as find

    book = options.open()
    found = find(book)
    if as_json:
        print_json(
            {
                "racks": [
                    {
                        "rack": rack.name,
                        "shelves": [
                            {
                                "place": shelf.place.path,
                                "slots": shelf.place.slots,
                                "trays": [
                                    {
                                        "tray": str(each.number),
                                        "slot": each.slot,
                                        "crop": each.crop,
                                        "day_number": each.day_number,
                                        "due": list(each.due),
                                        "late": each.late,
                                        "mould_seen": each.mould,
                                    }
                                    for each in shelf.trays
                                ],
                            }
                            for shelf in rack.shelves
                        ],
                    }
                    for rack in found.racks
                ],
                "loose": [str(each.number) for each in found.loose],
            }
        )
        return
    for rack in found.racks:
        click.echo(rack.name)
        for shelf in rack.shelves:
            place = shelf.place
            click.echo(f"  {place.name}, {place.hours_words}, {shelf.used} of {place.slots} slots")
            for each in shelf.trays:
                click.echo(f"    {each.slot or '-'}  {_rack_tray_words(each)}")
    if found.loose:
        click.echo("No place")
    for each in found.loose:
        click.echo(f"    {_rack_tray_words(each)}")


def _rack_tray_words(tray: RackTray) -> str:
    """Say a tray with its day and what there is to do on it: "103 radish day 4: water, late"."""
    from logbook.growing.chores import WORDS

    marks = [WORDS[chore] for chore in tray.due]
    marks += ["late"] if tray.late else []
    marks += ["mould seen"] if tray.mould else []
    due = f": {', '.join(marks)}" if marks else ""
    return f"{tray.number} {tray.crop} day {tray.day_number}{due}"
