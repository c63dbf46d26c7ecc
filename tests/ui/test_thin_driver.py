"""What is sent to the terminal is less than what was painted, and shows the same."""

from __future__ import annotations

import pyte
from hypothesis import given
from hypothesis import strategies as st

from logbook.ui.thin_driver import Sent

WIDTH, HEIGHT = 24, 5
STYLES = ("", "1", "38;5;253;48;5;16", "1;38;5;253;48;5;16", "48;5;17", "7", "4;31", "97;40")
TEXTS = st.text(alphabet="ab  é─▌", min_size=1, max_size=8)


def drawn(*writes: str) -> list[list[tuple[str, ...]]]:
    """What a terminal shows; a blank's colour of letters and boldness are not seen."""
    screen = pyte.Screen(WIDTH, HEIGHT)
    stream = pyte.Stream(screen)
    for write in writes:
        stream.feed(write)
    cells = []
    for row in range(HEIGHT):
        line = []
        for column in range(WIDTH):
            cell = screen.buffer[row][column]
            seen = [cell.data, cell.bg, str(cell.reverse), str(cell.underscore)]
            if cell.data.strip() or cell.reverse or cell.underscore:
                seen += [cell.fg, str(cell.bold)]
            line.append(tuple(seen))
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
