"""What goes onto paper: sections of lines as plain text for so many columns, or as one HTML page."""

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from logbook.actions.made_files import mark_of

_STYLE = """
body { font: 11pt sans-serif; margin: 1.5cm; } h1 { font-size: 14pt; } h2 { font-size: 12pt; }
table { border-collapse: collapse; width: 100%; } td { border-bottom: 1px solid #888; padding: 3pt; }
tr { break-inside: avoid; } .code { font: bold 12pt monospace; } .box { font-size: 14pt; }
.blank { width: 5cm; } .place td { border: 0; padding-top: 8pt; font-weight: bold; }
"""


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and its lines, each a few cells; the first, like a time, keeps its width."""

    head: str
    lines: Sequence[tuple[str, str]]


def section_words(sections: Sequence[Section], columns: int) -> list[str]:
    """Sections as plain text; a line that is too long goes on below its words."""
    found = []
    for each in sections:
        found += ["", each.head]
        wide = max((len(first) for first, _ in each.lines), default=0)
        for first, rest in each.lines:
            start = f"  {first:<{wide}}  " if wide else "  "
            found += textwrap.wrap(
                rest, columns, initial_indent=start, subsequent_indent=" " * len(start)
            ) or [start.rstrip()]
    return found[1:]


def section_page(title: str, sections: Sequence[Section], made_by: str) -> str:
    """Sections as one HTML page."""
    body = "".join(
        f"<h2>{escape(each.head)}</h2><table>"
        + "".join(
            f"<tr><td>{escape(first)}</td><td>{escape(rest)}</td></tr>"
            for first, rest in each.lines
        )
        + "</table>"
        for each in sections
    )
    return html_page(title, body, made_by)


def html_page(title: str, body: str, made_by: str) -> str:
    """One HTML page that needs nothing else; `body` is HTML, the title plain text."""
    named = escape(title)
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">{mark_of(made_by)}'
        f"<title>{named}</title><style>{_STYLE}</style></head><body><h1>{named}</h1>{body}"
        "</body></html>\n"
    )
