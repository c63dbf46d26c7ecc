"""The facts of a tray and of a batch as label and value; what is not known has no value."""

from collections.abc import Sequence
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.entry_lines import Line
from logbook.actions.trays.tray_page import TrayPage
from logbook.growing.crops.seed_lots import lots_words
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import grams_words, range_words
from logbook.growing.numbers import numbers_words
from logbook.ui.timeline_drawing import expected_words

Fact = tuple[str, str]


def _grams(book: Book, grams: float | None, after: str = "") -> str:
    return "" if grams is None else grams_words(grams, book.units) + after


def _day(book: Book, at: datetime | None) -> str:
    return "" if at is None else day_words(day_of(at, book.zone), book.today())


def tray_facts(page: TrayPage, book: Book, others: Sequence[Fact] = ()) -> list[Fact]:
    """Those of a tray; `others` are trays that had its number."""
    tray = page.tray
    slot = f" slot {tray.state.slot}" if tray.state.slot is not None else ""
    stage = f", {tray.stage}" if tray.stage else ""
    status = tray.status.words
    if tray.regrowth_day is not None:
        status = f"growing again, day {tray.regrowth_day}"
    stands = tray.place and tray.status in ("growing", "planned")
    place = f"{tray.place}{slot}" if stands else ""
    cut = _grams(book, tray.state.grams)
    if tray.state.grams is not None and page.grams_per_gram_seed is not None:
        cut += f", {page.grams_per_gram_seed:.2f} g per g of seed"
    elif tray.state.grams is not None and not tray.state.all_weighed:
        cut += ", not all of it was weighed"
    return [
        ("", " ".join(filter(None, [status + stage, _day(book, tray.state.ended_at)]))),
        *others,
        *([("on hold", tray.on_hold)] if tray.held else ()),
        ("mould seen", _day(book, tray.state.mould_at) if stage else ""),
        ("at", place or ("nowhere" if tray.status == "growing" else "")),
        ("batch", tray.batch),
        ("expected", expected_words(page.expected, book.units)),
        ("cut", cut),
        ("lot", tray.stored.lot),
        ("seed", _grams(book, tray.seed_grams)),
        ("tape", tray.colour),
        ("ready sign", tray.template.sign_to_cut if tray.status == "growing" else ""),
    ]


def entry_facts(line: Line, book: Book) -> list[Fact]:
    """Those of an entry."""
    return [
        ("what", f"struck: {line.words}" if line.struck else line.words),
        ("trays", numbers_words(line.trays)),
        ("place", line.place or ("" if line.trays else "the room")),
        ("at", book.when(line.at)),
        ("written", f"{book.when(line.written_at)} by {line.by}"),
    ]


def batch_facts(page: BatchPage, book: Book) -> list[Fact]:
    """Those of the trays that were sown together."""
    cut = _grams(book, page.cut_grams, " so far" if page.mean_grams is None else " in all")
    weights = [cut] if page.cut_trays else []
    if page.mean_grams is not None:
        weights.append(_grams(book, page.mean_grams, " per tray"))
    if page.grams_per_gram_seed is not None:
        weights.append(f"{page.grams_per_gram_seed:.2f} g per g of seed")
    left = page.rest
    sown, planned = (book.when(at) if at else "" for at in (page.sown_at, page.planned_for))
    rest = f"{range_words(left.low, left.high, book.units)}, 4 in 5" if left else ""
    return [
        ("template", f"{page.template_name}, version {page.version}"),
        ("sown", sown) if sown else ("planned for", planned),
        (f"cut {page.cut_trays} of {len(page.trays)}", ", ".join(weights)),
        ("lot", lots_words(page.lots, book.units)),
        ("seed", _grams(book, page.seed_grams, " per tray")),
        ("expected per tray", expected_words(page.expected, book.units)),
        ("all still to cut", rest),
        ("known cost", page.costs.words if page.costs else ""),
    ]
