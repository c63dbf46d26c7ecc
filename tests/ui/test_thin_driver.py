"""What is sent to the terminal is less than what was painted, and shows the same."""

from __future__ import annotations

import re
import unicodedata

import pyte
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from logbook.ui.line.thin_driver import Sent

WIDTH, HEIGHT = 24, 5
STYLES = ("", "1", "38;5;253;48;5;16", "1;38;5;253;48;5;16", "48;5;17", "7", "4;31", "97;40")
TEXTS = st.text(alphabet="ab  é─▌", min_size=1, max_size=8)


def drawn(*writes: str) -> list[list[tuple[str, ...]]]:
    """What a terminal shows of some writes."""
    screen = pyte.Screen(WIDTH, HEIGHT)
    stream = pyte.Stream(screen)
    for write in writes:
        stream.feed(write)
    return seen(screen)


def seen(screen: pyte.Screen) -> list[list[tuple[str, ...]]]:
    """What can be seen of a screen; of a blank its letters' colour, weight and slant cannot."""
    cells = []
    for row in range(screen.lines):
        line = []
        for column in range(screen.columns):
            cell = screen.buffer[row][column]
            lines = (cell.reverse, cell.underscore, cell.strikethrough)
            shown = [cell.data, cell.bg, *map(str, lines)]
            if cell.data.strip() or any(lines):
                shown += [cell.fg, str(cell.bold), str(cell.italics)]
            line.append(tuple(shown))
        cells.append(line)
    return cells


@st.composite
def paintings(draw: st.DrawFn) -> str:
    """A painting: pieces of text at places, each styled and reset, as Textual writes them."""
    pieces = []
    for _ in range(draw(st.integers(1, 6))):
        row, column = draw(st.integers(1, HEIGHT)), draw(st.integers(1, WIDTH - 20))
        pieces.append(f"\x1b[{row};{column}H")
        for _ in range(draw(st.integers(1, 2))):
            text, style = draw(TEXTS)[:4], draw(st.sampled_from(STYLES))
            pieces.append(f"\x1b[{style}m{text}\x1b[0m" if style else text)
    return "".join(pieces)


@given(st.lists(paintings(), min_size=1, max_size=5))
def test_the_terminal_shows_what_was_painted(frames: list[str]) -> None:
    sent = Sent()
    thin = [sent.thin(frame) for frame in frames]

    assert drawn(*thin) == drawn(*frames)
    assert sent.thin(frames[-1]) == ""


FIELD, FIELDS, MOST_ROWS = 8, 4, 6
MORE_STYLES = (
    *STYLES,
    "3",
    "9",
    "1;4",
    "2;31",
    "2;1",
    "38;2;1;2;3;48;2;4;5;6",
    "94;100",
    "7;48;5;9",
)
PIECES = st.text(alphabet="abc   é─▌景🌱", max_size=FIELD)


@st.composite
def fields(draw: st.DrawFn) -> tuple[int, int, str]:
    """A row, a field of it, and what is painted there: as many cells as the field has."""
    text = ""
    for letter in draw(PIECES) + draw(st.sampled_from(("", "e\u0301", "o\u0308\u0301"))):
        if cell_len(text + letter) <= FIELD:
            text += letter
    text += " " * (FIELD - cell_len(text))
    cut = draw(st.integers(0, len(text)))
    while cut < len(text) and unicodedata.combining(text[cut]):
        cut += 1
    styled = (
        f"\x1b[{draw(st.sampled_from(MORE_STYLES))}m{part}\x1b[0m"
        for part in (text[:cut], text[cut:])
        if part
    )
    return draw(st.integers(0, MOST_ROWS - 1)), draw(st.integers(0, FIELDS - 1)), "".join(styled)


class Copies:
    """One terminal that gets all that is painted, and one that gets what differs."""

    def __init__(self) -> None:
        self.fields, self.rows = FIELDS, MOST_ROWS
        self.sent = Sent()
        self.whole, self.thin = (pyte.Screen(FIELD * FIELDS, MOST_ROWS) for _ in range(2))

    def paint(self, *some: tuple[int, int, str]) -> None:
        writes = "".join(
            f"\x1b[{row + 1};{field * FIELD + 1}H{text}"
            for row, field, text in some
            if row < self.rows and field < self.fields
        )
        pyte.Stream(self.whole).feed(writes)
        pyte.Stream(self.thin).feed(self.sent.thin(writes))

    def resize(self, fields: int, rows: int) -> None:
        """Take another size, at which Textual paints all anew; a terminal keeps what it likes."""
        self.fields, self.rows = fields, rows
        self.sent.forget()
        for screen in (self.whole, self.thin):
            screen.resize(rows, fields * FIELD)
        self.whole.reset()
        blank = " " * FIELD
        self.paint(*((row, field, blank) for row in range(rows) for field in range(fields)))

    def scribble(self) -> None:
        """Let another program write over the terminal, and paint anew for ctrl+l."""
        pyte.Stream(self.thin).feed("\x1b[0m\x1b[2;3Hwall message\r\n")
        self.resize(self.fields, self.rows)


STEPS = st.one_of(
    st.lists(fields(), min_size=1, max_size=5),
    st.tuples(st.integers(1, FIELDS), st.integers(1, MOST_ROWS)),
    st.none(),
)


@settings(max_examples=60)
@given(st.lists(STEPS, min_size=1, max_size=8))
def test_any_story_of_paintings_sizes_and_scribbles_shows_the_same(
    steps: list[list[tuple[int, int, str]] | tuple[int, int] | None],
) -> None:
    copies = Copies()
    for step in steps:
        if step is None:
            copies.scribble()
        elif isinstance(step, tuple):
            copies.resize(*step)
        else:
            copies.paint(*step)
        assert seen(copies.thin) == seen(copies.whole)


LISTED = (
    "water   101–105  kale",
    "look    106    🌱",
    "cut     117",
    "",
    "Rack 2 ─────",
    "day 4  ▌",
)
LIST_STEPS = st.lists(
    st.tuples(
        st.sampled_from(("out", "in", "other")),
        st.integers(0, 9),
        st.sampled_from(LISTED),
        st.sampled_from(STYLES),
    ),
    min_size=1,
    max_size=3,
)


def listing(lines: list[tuple[str, str]], first: int, last: int) -> str:
    """Paint lines of a list from a row to another, over the whole width."""
    drawn = []
    for row in range(first, last + 1):
        text, style = lines[row]
        text = text + " " * (40 - cell_len(text))
        drawn.append(f"\x1b[{row + 1};1H\x1b[{style}m{text}\x1b[0m")
    return "".join(drawn)


@settings(max_examples=60)
@given(st.integers(0, 2), st.integers(0, 2), st.lists(LIST_STEPS, min_size=1, max_size=6))
def test_a_list_whose_lines_go_and_come_shows_the_same(
    above: int, below: int, steps: list[list[tuple[str, int, str, str]]]
) -> None:
    lines = [(f"{number} {LISTED[number % 6]}", STYLES[number % 3]) for number in range(30)]
    sent, whole, thin = Sent(), pyte.Screen(40, 14), pyte.Screen(40, 14)
    for step in [[], *steps]:
        for what, at, text, style in step:
            if what == "out":
                del lines[above + at]
            elif what == "in":
                lines.insert(above + at, (text, style))
            else:
                lines[above + at] = (text, style)
        painting = listing(lines, above, 13 - below) if step else listing(lines, 0, 13)
        pyte.Stream(whole).feed(painting)
        pyte.Stream(thin).feed(sent.thin(painting))
        assert seen(thin) == seen(whole)


@pytest.mark.parametrize(("gone", "letter"), [(True, "M"), (False, "L")])
def test_lines_that_move_are_moved_by_the_terminal(gone: bool, letter: str) -> None:
    sent = Sent()
    long = [(f"{number}  water  {LISTED[number % 3]}", "") for number in range(20)]
    short = [*long[:3], *long[4:]]
    sent.thin(listing(long if gone else short, 0, 11))

    moved = sent.thin(listing(short if gone else long, 0, 11))

    assert moved.startswith(f"\x1b[4;12r\x1b[4H\x1b[1{letter}\x1b[r")
    assert len(moved) < 80


def test_lines_of_different_lengths_are_not_moved() -> None:
    lines = [(f"{number}  water  {LISTED[number % 3]}", "") for number in range(20)]
    beyond = "\x1b[6;41Hbeyond"
    sent = Sent()
    sent.thin(listing(lines, 0, 11) + beyond)

    painted = sent.thin(listing([*lines[:3], *lines[4:]], 0, 11))

    assert "beyond" not in painted
    assert not re.search(r"\x1b\[\d+;\d+r", painted)


@pytest.mark.parametrize("grapheme", ["👩\u200d🌾", "❤\ufe0f", "1\ufe0f\u20e3", "🇬🇧", "e\u0301"])
def test_what_terminals_give_different_widths_shifts_nothing_after_it(grapheme: str) -> None:
    screen = pyte.Screen(WIDTH, HEIGHT)
    column = cell_len(grapheme)

    pyte.Stream(screen).feed(Sent().thin(f"\x1b[1;1H{grapheme}kale"))

    assert "".join(screen.buffer[0][column + at].data for at in range(4)) == "kale"


def test_what_stands_there_already_is_not_sent_again() -> None:
    sent = Sent()
    first = "\x1b[1;1H\x1b[1mwater\x1b[0m   101–104 🌱 kale"

    assert "water" in sent.thin(first)
    assert sent.thin(first) == ""
    changed = sent.thin(first.replace("kale", "kali"))
    assert changed.endswith("i")
    assert len(changed) < 12


def test_after_a_forget_or_on_a_new_screen_all_is_sent() -> None:
    sent = Sent()
    painting = "\x1b[2;3Hround"
    whole = sent.thin(painting)

    sent.forget()
    assert sent.thin(painting) == whole
    assert sent.thin("\x1b[?1049h") == "\x1b[?1049h"
    assert sent.thin(painting) == whole


def test_bells_modes_and_the_clipboard_pass_through_in_order() -> None:
    sent = Sent()
    for other in ("\x07", "\x1b[?25l", "\x1b]52;c;YQ==\x07", "\x1b[>25u"):
        assert sent.thin(other) == other
    assert sent.thin("\x1b[1;1Ha\x07\x1b[1;2Hb") == "\x1b[1;1Ha\x07\x1b[1;2Hb"


def test_a_frame_with_nothing_new_in_it_is_not_framed() -> None:
    sent = Sent()
    begin, end = "\x1b[?2026h", "\x1b[?2026l"
    painting = "\x1b[1;1Hround"

    assert [sent.thin(each) for each in (begin, painting, end)] == ["", begin + painting, end]
    assert [sent.thin(each) for each in (begin, painting, end)] == ["", "", ""]


def test_the_cursor_is_left_where_the_painting_left_it() -> None:
    sent = Sent()
    assert sent.thin("\x1b[1;1Hround\x1b[3;4H").endswith("\x1b[3;4H")
    assert sent.thin("\x1b[1;1Hround\x1b[3;4H") == ""
