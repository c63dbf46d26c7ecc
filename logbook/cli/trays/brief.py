"""The round in one line, for the banner of a login."""

from collections import Counter
from collections.abc import Iterator

from logbook.actions.book import Book
from logbook.growing.days import clock_words, day_words
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.chores import WORDS, parts_of
from logbook.growing.trays.round import Round
from logbook.text import Refused, plural


def brief_words(today: Round, book: Book) -> Iterator[str]:
    """The round and what the copies want in one line: "Tue 14 Apr: 5 chores at 3 stops, 1 late: water 12 trays"."""
    day = day_words(today.day)
    also = f"; mould: {numbers_words(today.mouldy)}" if today.mouldy else ""
    dark = [number for each in today.in_the_dark for number in each.numbers]
    also += f"; in the dark: {numbers_words(dark)}" if dark else ""
    held = [number for each in today.on_hold for number in each.numbers]
    also += f"; on hold: {numbers_words(held)}" if held else ""
    also += _copies_words(book)
    upkeep = [each.words for each in today.upkeep_due]
    if not today.count:
        nexts = [f"; next {clock_words(line.walk_at, line.zone)}" for line in today.waiting[:1]]
        yield f"{day}: nothing due{''.join(nexts)}{also}."
        return
    counts: Counter[str] = Counter()
    for line in today.due:
        for chore in parts_of(line.chore):
            counts[WORDS[chore]] += len(line.trays)
    trays = [
        f"{chore} {count if at else plural(count, 'tray')}"
        for at, (chore, count) in enumerate(counts.items())
    ]
    words = ", ".join([*trays, *upkeep])
    late = f", {today.late} late" if today.late else ""
    yield (
        f"{day}: {plural(today.count, 'chore')} at {plural(today.stops, 'stop')}{late}: "
        f"{words}{also}"
    )


def _copies_words(book: Book) -> str:
    """What is said of copies on another disk, in a book older than such a copy may be."""
    from logbook.actions.copies import OLD_COPY, elsewhere_words
    from logbook.store.file.book_file import BookFile

    if (
        not isinstance(book.file, BookFile)
        or book.about.begun_as
        or book.now() - book.about.made_at <= OLD_COPY
    ):
        return ""
    try:
        words, old = elsewhere_words(book.file.path, book.now())
    except Refused:
        return ""
    return f"; {words}" if old else ""
