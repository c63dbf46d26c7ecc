"""Importing past harvests from a spreadsheet."""

from collections.abc import Iterator

from logbook.actions.trays.harvests import (
    HarvestsRead,
    check_harvests,
    odd_harvests,
    same_lines,
    take_harvests,
)
from logbook.cli.arguments import confirm
from logbook.cli.options import Options
from logbook.cli.printing import say, tell
from logbook.cli.progress import progress
from logbook.exchange.harvest_file import HarvestFile
from logbook.growing.measures import Units, grams_words
from logbook.text import Refused, listed, plural


def import_harvests(
    options: Options, found: HarvestFile, name: str, *, make_templates: bool, dry_run: bool, sure: bool,
) -> None:  # fmt: skip
    """Import the harvests of a file of this name, all or none; say what each line is like."""
    book = options.open()
    faults = [*found.faults, *check_harvests(book, found.harvests, make_templates=make_templates)]
    faults.sort(key=lambda fault: fault.line)
    odd = odd_harvests(book, found.harvests)
    twice = same_lines(found.harvests)
    if twice and not (faults or dry_run or sure):
        confirm(" ".join(f"Line {each.line} is {each.words}." for each in twice))
    written = not faults and not dry_run
    made: tuple[str, ...] = ()
    if written:
        with progress("Importing") as step:
            took = take_harvests(
                book, found.harvests, name, make_templates=make_templates, tell=step
            )
            made = took.made
    bad = {fault.line for fault in faults}
    good = [harvest for harvest in found.harvests if harvest.line not in bad]
    answer = HarvestsRead(
        written, len(good), sum(one.trays for one in good), sum(one.grams for one in good), made,
        found.left_out, tuple(faults), tuple(one for one in (*odd, *twice) if one.line not in bad),
    )  # fmt: skip
    tell(answer, _harvest_words(answer, book.units))
    if faults:
        raise Refused(f"{plural(len(faults), 'line')} cannot be imported; nothing was written.")


def _harvest_words(read: HarvestsRead, units: Units) -> Iterator[str]:
    for each in read.faults:
        say(f"line {each.line}: {each.words}")
    for each in read.odd:
        say(f"line {each.line} is odd, {each.words}")
    if read.columns_left_out:
        say(f"Columns ignored: {listed(list(read.columns_left_out))}.")
    done = "imported" if read.written else "can be imported"
    yield (
        f"{plural(read.harvests, 'harvest')} of {plural(read.trays, 'tray')}, "
        f"{grams_words(read.grams, units)} {done}."
    )
    if read.templates_made:
        yield f"Templates made: {listed(list(read.templates_made))}. Set their stages before you sow."
