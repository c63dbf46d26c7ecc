"""Lines of the round, drawn in columns that all of them share, or on two lines where it is narrow."""

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from rich.cells import cell_len
from textual.content import Content

from logbook.growing.numbers import numbers_within
from logbook.ui.columns import apart, column, fit, shared, spread

ONE_LINE = 76
"""Cells that a chore needs on one line, so that how late it is is never cut."""
_LEAST = (13, 8, 9, 7, 12)
"""Cells that each column keeps."""
_TONES = {"later": "$primary", "late": "$warning"}


class LineWords(NamedTuple):
    """What a line of the round says."""

    chore: str
    numbers: tuple[int, ...]
    crop: str
    day: str
    when: str
    mould: str
    arms: str
    """Arms and marks of trays that are in a trial."""
    kind: str
    """"later", "late", or the chore that is due."""

    @property
    def columns(self) -> tuple[str, ...]:
        return (self.chore, numbers_within(self.numbers, 40), self.crop, self.day, self.when)


def columns_of(lines: Sequence[LineWords], width: int) -> tuple[int, ...]:
    """The widths of chore, numbers, crop, day and when; where there is little room names are cut first."""
    every = [each.columns for each in lines]
    needs = [
        max((cell_len(text) + 2 for text in texts), default=0) for texts in zip(*every, strict=True)
    ]
    needs[4:] = [min(23, each - 2) for each in needs[4:]]  # nothing follows it
    if every:
        whole = max(
            cell_len("  ".join(filter(None, (one.chore, one.mould, one.arms)))) for one in lines
        )
        if sum(needs[1:]) + whole + 4 <= width:
            needs[0] = max(needs[0], whole + 2)
    return shared(needs or _LEAST, _LEAST, width - 2, first=(2, 0, 1))


@lru_cache(maxsize=256)
def drawn(line: LineWords, columns: tuple[int, ...], width: int) -> Content:
    """A line of the round; most are as they were at the last act."""
    tone = _TONES.get(line.kind, "")
    wants = "$warning" if line.kind == "cut" else tone
    mark = ("▌" if line.kind == "late" else " ", "$warning")
    if width < ONE_LINE:
        right = Content(numbers_within(line.numbers, 16))
        crop = fit(line.crop, width - 4 - right.cell_length - cell_len(line.day))
        head = Content.styled(f"{crop} {line.day}".strip(), f"bold {tone}")
        first = Content.assemble(mark, " ", spread(head, right, width - 2))
        chore, below = _beside(line, wants, width - 4 - cell_len(line.when))
        second = Content.assemble("  ", spread(chore, Content.styled(line.when, tone), width - 2))
        return Content("\n").join([first, second, *below])
    chore, below = _beside(line, wants, columns[0] - 2)
    first = Content.assemble(
        mark, " ",
        chore.truncate(columns[0] - 1, ellipsis=True).truncate(columns[0], pad=True),
        (column(numbers_within(line.numbers, columns[1] - 1), columns[1]), f"bold {tone}"),
        (column(line.crop, columns[2]), tone), (column(line.day, columns[3]), f"bold {tone}"),
        (fit(line.when, max(6, width - 2 - sum(columns[:4]))), tone),
    )  # fmt: skip
    return Content("\n").join([first, *below])


@lru_cache(maxsize=64)
def shelf_head(path: str, says: tuple[str, ...], width: int) -> Content:
    """A shelf's head with as much of what it says as fits beside its name."""
    room = width - cell_len(path) - 2
    most = next((n for n in range(len(says), 1, -1) if len("   ".join(says[:n])) <= room), 1)
    place = Content.styled(path, "bold $primary")
    return apart(place, Content("   ".join(says[:most])), width)


def _beside(line: LineWords, tone: str, width: int) -> tuple[Content, list[Content]]:
    """A chore with the trays on which mould was seen and the arms of trials, or these on lines below."""
    chore, below = Content.styled(line.chore, tone), list[Content]()
    for words, colour in ((line.mould, "$warning"), (line.arms, "$primary")):
        if not words:
            continue
        if not below and chore.cell_length + 2 + cell_len(words) <= width:
            chore = Content.assemble(chore, "  ", (words, colour))
        else:
            below.append(Content.assemble("    ", (words, colour)))
    return chore, below
