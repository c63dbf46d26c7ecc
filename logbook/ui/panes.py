"""What stands beside a list on a broad screen: what the cursor is on, read and drawn off the loop."""

from collections.abc import Callable

from textual.content import Content
from textual.geometry import Size

from logbook.actions.book import Book
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.shelf_heads import shelf_heads
from logbook.actions.trays.tray_page import TrayPage, tray_page
from logbook.growing.numbers import name_words
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import clean
from logbook.ui.columns import wrapped
from logbook.ui.subjects import (
    BatchSubject,
    LightSubject,
    Subject,
    TraceSubject,
    TraySubject,
    TrialSubject,
)
from logbook.ui.timeline_drawing import TimeLine, facts
from logbook.ui.told import Facts, Part, facts_below, told
from logbook.ui.tray_facts import batch_facts, tray_facts
from logbook.ways import on_screens

AHEAD = 9
"""So many lines of what is ahead are kept in view, whatever happened before."""
TALL = 34
"""Lines of a pane that has room for facts one below the other."""
Keyed = Callable[[str], str]


def pane_of(book: Book, subject: Subject, size: Size, keyed: Keyed) -> Content:
    """What is shown of a subject in so many cells and lines; raise Refused where there is no such thing."""
    match subject:
        case TraySubject():
            lines = _tray(book, subject.number, size)
        case BatchSubject():
            lines = _batch(book, subject.batch, size)
        case TrialSubject():
            lines = _trial(book, subject.trial, size.width, keyed)
        case TraceSubject():
            lines = _trace(book, subject.code, size.width)
        case LightSubject():
            lines = [_head(subject.place), *_shelf(book, subject.place), Content("")]
            lines += facts_below(_standing(book, subject.place), size.width)
        case _:
            lines = []
    return Content("\n").join(
        line.truncate(size.width, ellipsis=True) for line in lines[: size.height]
    )


def _head(words: str) -> Content:
    return Content.styled(clean(words, lines=False), "bold $primary")


def _shelf(book: Book, path: str) -> list[Content]:
    """What is known of a shelf: its hours, the air and the light."""
    with book.reading() as reading:
        return [Content(each) for each in shelf_heads(reading).get(path, ())]


def _standing(book: Book, path: str) -> list[tuple[str, str]]:
    """The trays of a shelf by their slots."""
    with book.reading() as reading:
        trays = [
            tray
            for tray in reading.live
            if f"{tray.place}/".startswith(f"{path}/") and tray.status == "growing"
        ]
        return [
            (
                " ".join(filter(None, [tray.place.removeprefix(path).lstrip("/"), _slot(tray)])),
                f"{name_words(tray.number)}  {tray.template.label()}  day {tray.day_number}, {tray.stage}",
            )
            for tray in sorted(trays, key=lambda each: (each.walk, each.state.slot or 0))
        ]


def _slot(tray: TrayNow) -> str:
    return "" if tray.state.slot is None else f"slot {tray.state.slot}"


def _tray(book: Book, number: int, size: Size) -> list[Content]:
    page = tray_page(book, number)
    tray = page.tray
    day = f"day {tray.day_number}" if tray.day_number is not None else ""
    head = _head(f"{name_words(tray.number)}  {tray.template.label()}  {day}")
    looks = [line for line in page.past if line.kind == "look" and not line.struck]
    seen = [
        (book.when(line.at), line.words.removeprefix("look").lstrip(": ")) for line in looks[-1:]
    ]
    last = ", ".join(filter(None, (words for pair in seen for words in pair)))
    (_, stands), *known = tray_facts(page, book)
    known = [("now", stands), *known, ("last look", last)]
    known.append(("shelf", "   ".join(line.plain for line in _shelf(book, tray.place))))
    above = [head, *_facts(known, size), Content("")]
    return [*above, *_time_line(book, page, {tray.number}, size, len(above))]


def _facts(known: Facts, size: Size) -> list[Content]:
    """One below the other where there are lines for that."""
    if size.height >= TALL:
        return facts_below(known, size.width)
    return facts(known, size.width).wrap(size.width)


def _batch(book: Book, batch: str, size: Size) -> list[Content]:
    page = batch_page(book, batch)
    above = [_head(f"batch {page.batch}"), *_facts(batch_facts(page, book), size), Content("")]
    trays = {each.number for each in page.trays}
    return [*above, *_time_line(book, page, trays, size, len(above))]


def _time_line(
    book: Book, page: TrayPage | BatchPage, trays: set[int], size: Size, used: int
) -> list[Content]:
    """As much of the time line around now as there is room for."""
    sown = page.sown_at if isinstance(page, BatchPage) else page.tray.state.sown_at
    line = TimeLine(book, page, sown, trays, size.width, narrow=True, opened=())
    texts = [row.text.split("\n", allow_blank=True) for row in line.rows]
    before = [each for some in texts[: line.now_row] for each in some]
    after = [each for some in texts[line.now_row :] for each in some]
    room = max(0, size.height - used)
    past = max(room - len(after), room - AHEAD, 0)
    return [*(before[-past:] if past else []), *after]


def _trial(book: Book, trial: str, width: int, keyed: Keyed) -> list[Content]:
    from logbook.actions.trials.judging import judge_trial
    from logbook.actions.trials.words import judged_words

    lines = [_head(trial)]
    for head, texts in judged_words(judge_trial(book, trial), book.units):
        lines += [Content(""), Content.styled(head, "bold")]
        lines += [
            Content(line) for text in texts for line in wrapped(on_screens(text, keyed), width)
        ]
    return lines


def _trace(book: Book, code: str, width: int) -> list[Content]:
    from logbook.actions.packs.trace import SeedTrace, trace
    from logbook.actions.packs.trace_words import head_words, sums_words, trace_lines
    from logbook.actions.seed.tables import stock_facts

    found = trace(book, code)
    name, *heads = head_words(found)
    parts: list[Part] = [*heads, sums_words(found, book.units)]
    if isinstance(found, SeedTrace):
        parts.insert(0, stock_facts(found.stock, found.money, book.units))
        parts += [Content.styled(each, "$warning") for each in found.stock.cautions(book.units)]
    said = trace_lines(found, book.units, book.when)
    parts.append(Content("\n").join(_hung(each.text, width) for each in said))
    return told(name, parts, width).split("\n", allow_blank=True)


def _hung(text: str, width: int) -> Content:
    """A line with what follows its first set in two cells more."""
    words = clean(text.lstrip(), lines=False)
    indent = " " * (len(text) - len(text.lstrip()))
    first, *more = wrapped(words, width - len(indent) - 2)
    return Content("\n".join([indent + first, *(f"{indent}  {each}" for each in more)]))
