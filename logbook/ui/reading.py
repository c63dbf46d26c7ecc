"""Drawing the handbook's Markdown as lines of a given width.

It knows what the chapters use and no more: headings, paragraphs, lists of one level, fenced code,
and inside a line `code`, **strong** and *stressed* words.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from textual.content import Content

_BLOCK = re.compile(
    r"""
    ^```.*\n (?P<code> (?: .*\n )*? ) ```
    | ^\#[ ] (?P<title> .+ )
    | ^\#+[ ] (?P<heading> .+ )
    | ^-[ ] (?P<item> .+ (?: \n (?! -[ ] | \# | ``` ) .*\S.* )* )
    | ^ (?P<text> .*\S.* (?: \n (?! -[ ] | \# | ``` ) .*\S.* )* )
    """,
    re.MULTILINE | re.VERBOSE,
)
_INLINE = re.compile(r"`(?P<code>[^`]+)`|\*\*(?P<strong>[^*]+)\*\*|\*(?P<stressed>[^*]+)\*")
_HEADS = {"title": "bold $primary", "heading": "bold $secondary"}
_STYLES = {"code": "bold $primary", "strong": "bold", "stressed": "italic"}


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a chapter. `kind` is title, heading, item, code or text."""

    kind: str
    text: str


def blocks_of(markdown: str) -> Iterator[Block]:
    """What a chapter is made of: headings, paragraphs, lists of one level, fenced code."""
    for found in _BLOCK.finditer(markdown):
        kind = found.lastgroup or ""
        lines = found[kind].splitlines()
        joined = "\n".join(lines) if kind == "code" else " ".join(map(str.strip, lines))
        yield Block(kind, joined)


def inline(text: str) -> Content:
    """Draw what stands in a line."""
    pieces: list[str | tuple[str, str]] = []
    at = 0
    for found in _INLINE.finditer(text):
        pieces.append(text[at : found.start()])
        name = found.lastgroup or ""
        pieces.append((found[name], _STYLES[name]))
        at = found.end()
    return Content.assemble(*pieces, text[at:])


def lines_of(markdown: str, width: int) -> list[Content]:
    """Draw a chapter in lines of at most `width` cells."""
    lines: list[Content] = []
    before = ""
    for block in blocks_of(markdown):
        if before and not (before == block.kind == "item"):
            lines.append(Content(""))
        lines += _drawn(block, max(12, width))
        before = block.kind
    return lines


def _drawn(block: Block, width: int) -> list[Content]:
    if block.kind in _HEADS:
        return _hung(Content.styled(block.text, _HEADS[block.kind]), width, "", "")
    if block.kind != "code":
        marks = ("- ", "  ") if block.kind == "item" else ("", "")
        return _hung(inline(block.text), width, *marks)
    found = []
    for line in block.text.split("\n"):
        indent = " " * (len(line) - len(line.lstrip()))
        styled = Content.styled(line.strip(), "$primary")
        found += _hung(styled, width, f"  {indent}", f"    {indent}")
    return found


def _hung(text: Content, width: int, first: str, rest: str) -> list[Content]:
    """Wrap a text; `first` stands before its first line, `rest` before the others."""
    wrapped = text.wrap(max(8, width - len(rest))) or [Content("")]
    return [
        Content.assemble(rest if number else first, line.rstrip())
        for number, line in enumerate(wrapped)
    ]
