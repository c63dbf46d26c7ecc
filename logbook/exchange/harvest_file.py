"""A spreadsheet of past harvests, saved as CSV: read line by line, each fault with its reason."""

import csv
import io
import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Literal

from logbook.actions.trays.harvests import Fault, Harvest
from logbook.exchange.column import MARK, guarded
from logbook.exchange.sheets import numbered, read_text
from logbook.growing.crops.seed_lots import lots_from, lots_words
from logbook.growing.measures import grams
from logbook.growing.quantities import TRAYS
from logbook.growing.when import EARLIEST, LATEST
from logbook.text import Refused, clean, clean_name, clean_note, fold, listed
from logbook.ways import Way

NEEDED = ("crop", "sown", "cut", "trays", "grams")
ALSO = ("lot", "note")
MOST_LINES = 50_000
Order = Literal["dmy", "mdy"]

_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_OTHER = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4})")
_MIDNIGHT = re.compile(r"[ T]0{1,2}:00(:00(\.0+)?)?$")
_COUNT = re.compile(r"(\d{1,9})([.,]0+)?")


@dataclass(frozen=True, slots=True)
class HarvestFile:
    """What a file holds: harvests, faulty lines, and the columns that were left out."""

    harvests: tuple[Harvest, ...]
    faults: tuple[Fault, ...]
    left_out: tuple[str, ...]


def write_harvests(harvests: Sequence[Harvest]) -> str:
    """A CSV text that read_harvests() takes, texts guarded so that no spreadsheet runs them."""
    made = io.StringIO()
    sheet = csv.writer(made, lineterminator="\n")
    sheet.writerow((*NEEDED, "lot"))
    for one in harvests:
        sheet.writerow(
            (guarded(one.crop), one.sown, one.cut, one.trays, f"{one.grams:g}", guarded(one.lot))
        )
    return made.getvalue()


Row = tuple[int, dict[str, str], list[str]]
"""Line number, cells by column, and the cells that no column heads."""


def read_harvests(path: Path, days: Order | None = None, *, per_tray: bool = False) -> HarvestFile:
    """Read a CSV file of harvests: columns crop, sown, cut, trays and grams, in any order.

    Grams are of all the trays together (of each with `per_tray`); 14/04/2026 is read where a day
    of the file or `days` shows which number is the day. Raises Refused where it is no such file.
    """
    header, rows = _rows(read_text(path))
    order = days or _order(rows)
    harvests, faults = [], []
    for line, cells, beyond in rows:
        try:
            if any(cell.strip() for cell in beyond):
                raise Refused(
                    f"it has {len(header) + len(beyond)} cells under {len(header)} columns; "
                    "put a text or number that holds the separator in quotes."
                )
            harvests.append(_harvest(line, cells, order, per_tray=per_tray))
        except Refused as refused:
            faults.append(Fault(line, str(refused)))
    left_out = tuple(clean(name, lines=False) for name in header if fold(name) not in NEEDED + ALSO)
    return HarvestFile(tuple(harvests), tuple(faults), tuple(name for name in left_out if name))


def _rows(text: str) -> tuple[list[str], list[Row]]:
    told = re.match(r"sep=([,;|\t])\r?\n", text)
    skipped = 1 if told else 0
    body = text[told.end() :] if told else text
    names, mark = _header(body, (told[1],) if told else (",", ";", "\t"))
    double = [name for name in NEEDED + ALSO if names.count(name) > 1]
    if double:
        raise Refused(f'The first line names "{double[0]}" twice.')
    lines = numbered(body, mark)
    _, header = next(lines)
    rows = []
    for line, cells in lines:
        if any(cell.strip() for cell in cells):
            filled = cells + [""] * (len(header) - len(cells))
            known = dict(zip(names, filled, strict=False))
            rows.append((line + skipped, known, cells[len(header) :]))
        if len(rows) > MOST_LINES:
            raise Refused(f"It has more than {MOST_LINES:,} lines; import it in parts.")
    return header, rows


def _header(body: str, marks: Sequence[str]) -> tuple[list[str], str]:
    """The folded names of the columns, and the mark between cells that makes them so."""
    for mark in marks:
        with suppress(Refused):
            names = [fold(name) for name in next(numbered(body, mark), (0, []))[1]]
            if set(NEEDED) <= set(names):
                return names, mark
    first = clean(body[:200].partition("\n")[0], lines=False)
    raise Refused(f'The first line must name the columns {listed(NEEDED)}; it is "{first[:80]}".')


def _order(rows: Sequence[Row]) -> Order | None:
    """Find which of two numbers is the day where the file itself shows it."""
    first: dict[Order, str] = {}
    unclear = ""
    for _, cells, _ in rows:
        for name in ("sown", "cut"):
            found = _OTHER.fullmatch(_day_text(cells[name]))
            if found is None or found[2] == ".":
                continue
            one, two = int(found[1]), int(found[3])
            if one > 12:
                first.setdefault("dmy", found[0])
            elif two > 12:
                first.setdefault("mdy", found[0])
            elif one != two:
                unclear = unclear or found[0]
    if len(first) == 2:
        raise Refused(
            f"{first['dmy']} has the day first and {first['mdy']} the month; write all days in "
            "one way."
        )
    if not first and unclear:
        raise Refused(
            f"{unclear} can be read in two ways: add {Way.DAYS.of('dmy')} if the day comes "
            f"first, {Way.DAYS.of('mdy')} if the month does."
        )
    return next(iter(first), None)


def _day_text(cell: str) -> str:
    return _MIDNIGHT.sub("", clean(cell, lines=False))


def _day(cell: str, what: str, order: Order | None) -> date:
    text = _day_text(cell)
    said = f'{what} "{text[:40]}"'
    if iso := _ISO.fullmatch(text):
        year, month, day = (int(each) for each in iso.groups())
    elif other := _OTHER.fullmatch(text):
        day, month, year = int(other[1]), int(other[3]), int(other[4])
        if order == "mdy":
            day, month = month, day
    else:
        raise Refused(f"{said} isn't a date; write it like 2026-04-14.")
    try:
        found = date(year, month, day)
    except ValueError as fault:
        raise Refused(f"{said} doesn't exist in the calendar.") from fault
    if not EARLIEST <= year <= LATEST:
        raise Refused(f"{said} is too far off; use {EARLIEST} to {LATEST}.")
    return found


def _harvest(line: int, cells: dict[str, str], order: Order | None, *, per_tray: bool) -> Harvest:
    count = _COUNT.fullmatch(clean(cells["trays"], lines=False))
    if count is None:
        raise Refused(f'trays "{cells["trays"][:40]}" is not a whole number, like 4.')
    trays, weight = TRAYS.checked(int(count[1])), grams(cells["grams"], "weight")
    lot = cells.get("lot", "").removeprefix(MARK)
    return Harvest(
        line=line, crop=clean_name(cells["crop"].removeprefix(MARK), "crop"), sown=_day(cells["sown"], "sown", order),
        cut=_day(cells["cut"], "cut", order), trays=trays,
        grams=weight * trays if per_tray else weight, lot=lots_words(lots_from(lot)),
        note=clean_note(cells.get("note", "")),
    )  # fmt: skip
