"""Differential rendering: over the line go only the cells that differ from what is shown there.

Textual paints a screen anew when it is opened, when a question comes up over it and when its
layout changes, two or three times over. Most cells stay what they were. Here every painting is
laid over a copy of what was sent, and what differs is sent: over a slow line that is the
difference between a word and a page. Lines that moved up or down together, as those of a list do
when one of them goes, are moved by the terminal itself.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from operator import ne
from typing import Any

from rich.cells import split_graphemes
from textual.drivers import linux_driver
from textual.drivers.linux_driver import LinuxDriver

from logbook.ui.line.reads import ReadsNumbered

_TOKEN = re.compile(
    r"\x1b\[(?P<row>\d+);(?P<column>\d+)H"
    r"|\x1b\[(?P<style>[\d;]*)m"
    r"|(?P<line>\r?\n)"
    r"|(?P<other>\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x1b\[[^@-~]*[@-~]|[\x00-\x1f\x7f])"
    r"|(?P<text>[^\x00-\x1f\x7f]+)"
)
_FRAME_BEGINS, _FRAME_ENDS = "\x1b[?2026h", "\x1b[?2026l"
_NEW_SCREEN = ("\x1b[?1049h", "\x1b[?1049l", "\x1b[2J")
_LINK = "\x1b]8;"
_RESET = "\x1b[m"
_SHORT_GAP = 5
"""Fewer unchanged cells than that are rather sent again than jumped over."""

_MOVES = (1, -1, 2, -2, 3, -3)
"""How far lines are looked for that moved up (or, below zero, down), the likeliest first."""

_WORTH_MOVING = 40
"""Moving lines must spare so many cells; the sequences for it take half as many bytes."""

_FLAGS = frozenset(map(chr, range(0x1F1E6, 0x1F200)))
"""The letters that flags are made of; some terminals draw two of them as one."""

Cell = tuple[str, str]
"""A grapheme ("" for the second half of a wide one) and its style as the numbers of an SGR."""
_UNKNOWN: Cell = ("", "?")


@lru_cache(maxsize=512)
def _parts(style: str) -> tuple[frozenset[str], str, str]:
    """Take a style apart: attributes, foreground, background."""
    attributes: set[str] = set()
    front = back = ""
    numbers = iter(style.split(";"))
    for number in numbers:
        if number in ("38", "48"):
            kind = next(numbers, "")
            colour = [number, kind, *(next(numbers, "") for _ in range(1 if kind == "5" else 3))]
            if number == "38":
                front = ";".join(colour)
            else:
                back = ";".join(colour)
        elif number == "39":
            front = ""
        elif number == "49":
            back = ""
        elif number in ("", "0"):
            attributes, front, back = set(), "", ""
        elif len(number) > 1 and number[0] in "39":
            front = number
        elif len(number) > 1 and number[0] in "41":
            back = number
        else:
            attributes.add(number)
    return frozenset(attributes), front, back


@lru_cache(maxsize=512)
def _of_blank(style: str) -> str:
    """What of a style shows on a space: the background, and lines or a reversal if any."""
    attributes, _, back = _parts(style)
    return style if attributes - {"1", "2", "3"} else back


@lru_cache(maxsize=512)
def _turn(old: str, new: str) -> str:
    """The shortest sequence from one style to another."""
    attributes, front, back = _parts(new)
    had, old_front, old_back = _parts(old)
    numbers = []
    gone = had - attributes
    if gone and gone <= {"1", "2"}:
        numbers.append("22")
        had -= {"1", "2"}
    elif gone:
        numbers.append("0")
        had, old_front, old_back = frozenset(), "", ""
    numbers += sorted(attributes - had)
    if front != old_front:
        numbers.append(front or "39")
    if back != old_back:
        numbers.append(back or "49")
    return f"\x1b[{';'.join(numbers)}m" if numbers else ""


class Sent:
    """What the terminal shows, as far as this program has painted it."""

    def __init__(self) -> None:
        self._rows: dict[int, list[Cell]] = {}
        self._fresh: dict[int, list[Cell]] = {}
        self._cursor = (1, 1)
        self._frame_held = False

    # Textual writes a frame in pieces: begin, some paintings, end. The begin is held back until a
    # piece has something to send, so that a frame in which nothing differs costs no byte; and the
    # cursor that is followed here is where the terminal's is, or (0, 0) when that is not known.

    def forget(self) -> None:
        """Know nothing any more: all of the next painting is sent."""
        self._rows.clear()
        self._cursor = (0, 0)

    def thin(self, data: str) -> str:
        """The part of a painting that the terminal does not show yet.

        What is no painting (modes, titles, bells, the clipboard) passes through, in its order.
        """
        if data == _FRAME_BEGINS:
            self._frame_held = True
            return ""
        if data == _FRAME_ENDS and self._frame_held:
            self._frame_held = False
            return ""
        out = self._thin(data)
        if out and self._frame_held:
            self._frame_held = False
            return _FRAME_BEGINS + out
        return out

    def _thin(self, data: str) -> str:
        if _LINK in data:
            self.forget()
            return data
        out: list[str] = []
        row = column = 1
        style = ""
        placed = False
        for token in _TOKEN.finditer(data):
            kind = token.lastgroup
            if kind == "text":
                column = self._lay(row, column, token[0], style)
                placed = False
            elif kind == "style":
                given = token["style"]
                style = "" if given in ("", "0") else f"{style};{given}" if style else given
            elif kind == "column":
                row, column, placed = int(token["row"]), int(token["column"]), True
            elif kind == "line":
                row, column, placed = row + 1, 1, False
            else:
                out.append(self._changes())
                out.append(token[0])
                if token[0] in _NEW_SCREEN:
                    self.forget()
        out.append(self._changes())
        if placed and self._cursor != (row, column):
            self._cursor = (row, column)
            out.append(f"\x1b[{row};{column}H")
        return "".join(out)

    def _lay(self, row: int, column: int, text: str, style: str) -> int:
        """Put text into the picture that is to be; give the column after it."""
        line = self._fresh.get(row)
        if line is None:
            line = self._fresh[row] = list(self._rows.get(row, ()))
        cells = list(_cells(text, style))
        start, end = column - 1, column - 1 + len(cells)
        if end > len(line):
            line.extend([_UNKNOWN] * (end - len(line)))
        line[start:end] = cells
        return column + len(cells)

    def _move(self) -> str:
        """Let the terminal move lines that are to stand elsewhere, where that spares cells.

        Lines are deleted (or inserted) at the top of a scroll region: VT102, ECMA-48 DL and IL.
        What comes in at its other end is taken for unknown, as terminals differ in its colour.
        """
        was, fresh = self._rows, self._fresh
        changed = [row for row, line in fresh.items() if line != was.get(row)]
        none: list[list[Cell]] = []
        best, spared = ("", range(0), none, none), _WORTH_MOVING
        for by in _MOVES if len(changed) > 2 else ():
            moved = [
                row for row in changed
                if (old := was.get(row + by)) and 4 * _unlike(fresh[row], old) < len(old)
            ]  # fmt: skip
            if not moved:
                continue
            top, bottom = min(moved) + min(by, 0), max(moved) + max(by, 0)
            rows = range(top, bottom + 1)
            before = [was.get(row, []) for row in rows]
            after = [fresh.get(row, old) for row, old in zip(rows, before, strict=True)]
            if len(set(map(len, before + after))) > 1:
                continue
            come = before[by:] + [[]] * by if by > 0 else [[]] * -by + before[:by]
            gain = sum(map(_unlike, after, before)) - sum(map(_unlike, after, come))
            if gain > spared:
                step = f"\x1b[{abs(by)}{'M' if by > 0 else 'L'}"
                sequence = f"\x1b[{top};{bottom}r\x1b[{top}H{step}\x1b[r"
                best, spared = (sequence, rows, come, after), gain
        sequence, rows, come, after = best
        was.update(zip(rows, come, strict=True))
        fresh.update(zip(rows, after, strict=True))
        if sequence:
            self._cursor = (0, 0)
        return sequence

    def _changes(self) -> str:
        """What leads from the picture that is to the one that is to be.

        Terminals differ in how wide a flag or a grapheme of several characters is: what comes
        after one is put at its column.
        """
        out = [self._move()]
        pen = ""
        for row in sorted(self._fresh):
            new, old = self._fresh[row], self._rows.get(row, [])
            self._rows[row] = new
            at = -1
            for start, end in _runs(old, new):
                self._cursor = (0, 0)
                if at >= 0:
                    out.append(f"\x1b[{start - at}C")
                else:
                    out.append(f"\x1b[{row};{start + 1}H")
                at = start
                for place in range(start, end):
                    grapheme, style = new[place]
                    if not grapheme:
                        continue
                    if at < 0:
                        out.append(f"\x1b[{row};{place + 1}H")
                    if grapheme != " " or _of_blank(pen) != style:
                        out.append(_turn(pen, style))
                        pen = style
                    out.append(grapheme)
                    at = place if len(grapheme) == 1 and grapheme not in _FLAGS else -1
                at = end if at >= 0 else -1
        self._fresh.clear()
        if pen:
            out.append(_RESET)
        return "".join(out)


def _cells(text: str, style: str) -> Iterator[Cell]:
    if text.isascii():
        blank = _of_blank(style)
        for letter in text:
            yield letter, (blank if letter == " " else style)
        return
    grapheme, width = "", 0
    for start, end, cells in split_graphemes(text)[0]:
        if cells and grapheme:
            yield from _one(grapheme, width, style)
            grapheme, width = "", 0
        grapheme += text[start:end]
        width += cells
    if grapheme:
        yield from _one(grapheme, width, style)


def _one(grapheme: str, width: int, style: str) -> Iterator[Cell]:
    if grapheme == " ":
        style = _of_blank(style)
    if width:
        yield grapheme, style
        for _ in range(width - 1):
            yield "", style


def _runs(old: list[Cell], new: list[Cell]) -> list[tuple[int, int]]:
    known = len(old)
    runs: list[tuple[int, int]] = []
    for place, cell in enumerate(new):
        if cell == _UNKNOWN or (place < known and old[place] == cell):
            continue
        if runs and _is_small(new[runs[-1][1] - 1 : place]):
            runs[-1] = (runs[-1][0], place + 1)
        else:
            runs.append((place, place + 1))
    return [_whole(new, *run) for run in runs]


def _unlike(line: list[Cell], other: list[Cell]) -> int:
    """Count the cells of a line that are not those of another."""
    return sum(map(bool, map(ne, line, other))) + max(0, len(line) - len(other))


def _is_small(gap: list[Cell]) -> bool:
    """Whether to send a gap (with the cell before it) again is shorter than to jump over it."""
    style = gap[0][1]
    return len(gap) <= _SHORT_GAP and all(
        each[1] == style or each == (" ", _of_blank(style)) for each in gap
    )


def _is_half(cell: Cell) -> bool:
    return not cell[0] and cell != _UNKNOWN


def _whole(line: list[Cell], start: int, end: int) -> tuple[int, int]:
    """Widen a stretch so that it begins and ends with no half of a wide grapheme."""
    while start > 0 and _is_half(line[start]):
        start -= 1
    while end < len(line) and _is_half(line[end]):
        end += 1
    return start, end


class ThinDriver(LinuxDriver):
    """Textual's driver for a terminal, sending only what differs."""

    def __init__(self, app: Any, **options: Any) -> None:
        super().__init__(app, **options)
        self.sent: Sent = app.sent

    def run_input_thread(self) -> None:
        """Read keys with a parser that notes which came at once; Textual makes its own in here."""
        linux_driver.XTermParser = ReadsNumbered  # type: ignore[attr-defined]
        super().run_input_thread()

    def write(self, data: str) -> None:
        """Send what the terminal does not show yet."""
        data = self.sent.thin(data)
        if data:
            super().write(data)
