"""A screen as an SVG picture: no outside font, no identifiers, the same screen the same bytes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from html import escape, unescape

from rich.cells import cell_len
from rich.color import Color as RichColor
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

ACROSS, DOWN, EDGE = 9.0, 19.0, 10.0
"""Width and height of a cell, and the room around the whole."""
CALLOUT = "#7db2dc"
CONSOLE = {
    "default": "#aaaaaa", "black": "#000000", "red": "#aa0000", "green": "#00aa00",
    "yellow": "#aa5500", "blue": "#0000aa", "magenta": "#aa00aa", "cyan": "#00aaaa",
    "white": "#aaaaaa", "bright_black": "#555555", "bright_red": "#ff5555",
    "bright_green": "#55ff55", "bright_yellow": "#ffff55", "bright_blue": "#5555ff",
    "bright_magenta": "#ff55ff", "bright_cyan": "#55ffff", "bright_white": "#ffffff",
}  # fmt: skip
"""The sixteen colours of the Linux text console (its default palette, from memory)."""


def hex_of(color: RichColor | None, default: str) -> str:
    """The colour as it is seen: one of the sixteen as on the Linux text console."""
    if color is None or color.is_default:
        return default
    if color.number is not None and color.number < 16:
        return list(CONSOLE.values())[1 + color.number]
    return color.get_truecolor().hex


def svg_of(
    strips: Iterable[Strip], width: int, background: str, callouts: Mapping[str, str] | None = None
) -> str:
    """Draw lines of `width` cells; a callout is written beside the first line that has its text."""
    rows = list(strips)
    beside = max((cell_len(words) + 5 for words in (callouts or {}).values()), default=0)
    wide, high = (width + beside) * ACROSS + 2 * EDGE, len(rows) * DOWN + 2 * EDGE
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}">',
        "<style>text { font: 15px monospace } .b { font-weight: bold }</style>",
        f'<rect width="{wide:g}" height="{high:g}" rx="6" fill="{background}"/>',
    ]
    for row, strip in enumerate(rows):
        at = 0
        for segment in Segment.simplify(strip):
            parts += _piece(segment.text, segment.style or Style(), at, row, background)
            at += cell_len(segment.text)
    for text, words in (callouts or {}).items():
        row = next(row for row, strip in enumerate(rows) if text in strip.text)
        parts += _callout(words, width, row)
    return "\n".join([*parts, "</svg>", ""])


def _callout(words: str, width: int, row: int) -> list[str]:
    x, y = EDGE + width * ACROSS, EDGE + row * DOWN
    return [
        f'<path d="M{x:g} {y + DOWN / 2:g}h{3 * ACROSS:g}" stroke="{CALLOUT}" stroke-width="2"/>',
        *_piece(words, Style(color=CALLOUT, bold=True), width + 4, row, ""),
    ]


def _piece(text: str, style: Style, at: int, row: int, background: str) -> list[str]:
    colours = hex_of(style.color, CONSOLE["default"]), hex_of(style.bgcolor, background)
    front, back = reversed(colours) if style.reverse else colours
    x, y = EDGE + at * ACROSS, EDGE + row * DOWN
    parts = []
    if background and back != background:
        parts.append(
            f'<rect x="{x:g}" y="{y:g}" width="{cell_len(text) * ACROSS:g}" height="{DOWN:g}" '
            f'fill="{back}"/>'
        )
    bold = ' class="b"' if style.bold else ""
    if style.underline:
        below = f"M{x:g} {y + DOWN - 1:g}h{cell_len(text) * ACROSS:g}"
        parts.append(f'<path d="{below}" stroke="{front}"/>')
    for found in re.finditer(r"\S+(?: \S+)*", text):
        words = found[0]
        x = EDGE + (at + cell_len(text[: found.start()])) * ACROSS
        parts.append(
            f'<text x="{x:g}" y="{y + 14:g}" textLength="{cell_len(words) * ACROSS:g}" '
            f'fill="{front}"{bold}>{escape(words)}</text>'
        )
    return parts


def words_of(svg: str) -> list[str]:
    """Give the text of a picture, line by line, without spaces."""
    lines: dict[float, list[tuple[float, str]]] = {}
    for x, y, words in re.findall(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]*)</text>', svg):
        lines.setdefault(float(y), []).append((float(x), unescape(words)))
    return [
        "".join("".join(words for _, words in sorted(pieces)).split())
        for _, pieces in sorted(lines.items())
    ]
