"""`logbook month`: a month on one page, as text, CSV or one HTML page with its charts."""

from collections.abc import Sequence
from html import escape
from pathlib import Path
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.made_files import mark_of, write_made, written_to
from logbook.actions.yields.month import Month
from logbook.actions.yields.month import month as find
from logbook.cli.csv_lines import csv_lines
from logbook.cli.paper import PAGE
from logbook.cli.printing import book_answers, tell, width
from logbook.exchange.paper import html_page
from logbook.growing.costs.margin import margin_columns
from logbook.growing.costs.parts import unknown_words
from logbook.growing.table import Column, table
from logbook.growing.yields.crop_yields import yield_columns

MADE_BY = "logbook month"
BAR_WIDTH, BAR_HEIGHT = 320, 18
"""Of a chart, in pixels."""


@click.command()
@click.argument("month", default="", metavar="[YYYY-MM]")
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV: the yield of each crop.")
@PAGE
@book_answers("logbook.actions.yields.month:Month")
def month(book: Book, month: str, as_csv: bool, page: Path | None) -> None:
    """Show a month on one page: what crops gave and cost, losses, and what was unusual.

    By default, the last whole month.
    """
    found = find(book, month)
    if page is not None:
        write_made(page, _page(found), mark_of(MADE_BY))
        tell(found, [f"The page was {written_to(page)}"], made=True)
        return
    tell(found, csv_lines(found.crops, book.zone) if as_csv else _lines(found))


def _tables(found: Month) -> list[tuple[str, Sequence[Column[Any]], Sequence[Any]]]:
    units, money = found.yields.units, found.costs.currency
    return [
        ("What crops gave", yield_columns("crop", units), found.crops),
        ("What they cost", margin_columns(money, units), found.cost_rows),
    ]


def _notes(found: Month) -> list[str]:
    """Sentences below the tables: losses, what was unusual, what isn't known."""
    notes = [f"{one.crop}: lost {one.lost_words}" for one in found.crops if one.lost]
    notes += [f"{one.name}: {one.unusual}" for one in found.unusual]
    unknown = unknown_words(one for crop in found.cost_rows for one in crop.costs.unknown)
    notes += [f"Costs not known for some: {unknown}."] if unknown else []
    return notes


def _lines(found: Month) -> list[str]:
    lines = [found.title]
    if not found.crops:
        return [*lines, "No tray left the rack."]
    for head, columns, rows in _tables(found):
        lines += ["", head, *table(columns, rows, width()).lines]
    notes = _notes(found)
    return [*lines, "", *notes] if notes else lines


def _page(found: Month) -> str:
    body = "" if found.crops else "<p>No tray left the rack.</p>"
    for head, columns, rows in _tables(found):
        body += f"<h2>{escape(head)}</h2>{_html_table(columns, rows)}" if rows else ""
    slot_day = [(one.crop, one.grams_per_slot_day or 0.0) for one in found.crops]
    left = [
        (one.crop, float(one.margin_per_slot_day))
        for one in found.cost_rows
        if one.margin_per_slot_day is not None
    ]
    code = found.costs.currency.code or ""
    body += _chart("g per slot-day", slot_day, 1) + _chart(
        f"left per slot-day {code}".strip(), left, 3
    )
    body += "".join(f"<p>{escape(each)}</p>" for each in _notes(found))
    return html_page(found.title, body, MADE_BY)


def _html_table(columns: Sequence[Column[Any]], rows: Sequence[Any]) -> str:
    said = [(one, [one.what(row) for row in rows]) for one in columns]
    kept = [(one, texts) for one, texts in said if any(texts)]
    heads = "".join(f"<th>{escape(one.titled)}</th>" for one, _ in kept)
    body = "".join(
        "<tr>"
        + "".join(
            f"<td{' style=text-align:right' if one.right else ''}>{escape(texts[place])}</td>"
            for one, texts in kept
        )
        + "</tr>"
        for place in range(len(rows))
    )
    return f"<table><tr>{heads}</tr>{body}</table>"


def _chart(title: str, values: Sequence[tuple[str, float]], digits: int) -> str:
    """Bars as SVG, with names and figures beside them; '' for nothing to draw."""
    if not values:
        return ""
    low = min(0.0, *(value for _, value in values))
    span = max(0.0, *(value for _, value in values)) - low or 1.0
    zero = 150 - low / span * BAR_WIDTH
    bars = []
    for place, (name, value) in enumerate(values):
        top = place * (BAR_HEIGHT + 6)
        long = abs(value) / span * BAR_WIDTH
        begin = zero if value >= 0 else zero - long
        end = 150 + BAR_WIDTH + 8
        bars.append(
            f'<text x="0" y="{top + 14}">{escape(name)}</text>'
            f'<rect x="{begin:.1f}" y="{top}" width="{max(1.0, long):.1f}" height="{BAR_HEIGHT}" '
            f'fill="{"#555" if value >= 0 else "#b40"}"/><text x="{end}" y="{top + 14}">'
            f"{value:.{digits}f}</text>"
        )
    high = len(values) * (BAR_HEIGHT + 6)
    return (
        f'<h2>{escape(title)}</h2><svg xmlns="http://www.w3.org/2000/svg" width="{BAR_WIDTH + 230}" '
        f'height="{high}" font-size="12" role="img" aria-label="{escape(title)}">{"".join(bars)}</svg>'
    )
