"""Stories in a real terminal: a day's work, another size, old terminals, a line that drops."""

from __future__ import annotations

import fcntl
import os
import select
import signal
import termios
import time
from array import array
from datetime import UTC, datetime, timedelta
from itertools import cycle
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import FixedClock
from logbook.paths import settings_folder, state_folder
from logbook.ui.drafts import Drafts
from tests.made_once import made_once
from tests.ui.real_terminal import RealTerminal

GONE_WITHIN = 6.0
STALLED_FOR = 1.0
NOW = "2026-03-28T09:00"


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Radish 101-104 that can be cut and kale 105 106 that cannot; it is 09:00 on 28 March."""
    return cutting_day(tmp_path)


@made_once
def cutting_day(folder: Path) -> Book:
    """Make the book of the stories here."""
    sown = datetime(2026, 3, 20, 9, tzinfo=UTC)
    clock = FixedClock(sown)
    book = begin_book(
        folder / "room.book",
        BeginDraft("Test room", "Europe/London", racks=1, shelves=2, slots=6),
        clock,
        "ab",
        "sample",
    )
    sow(book, SowDraft("radish", trays=4))
    for days, chore in ((3, "weight_off"), (4, "light_on")):
        clock.at = sown + timedelta(days=days)
        did(book, chore, [101, 102, 103, 104])
    clock.at = sown + timedelta(days=6)
    sow(book, SowDraft("kale", trays=2))
    clock.at = sown + timedelta(days=8)
    return book


def options(book: Book) -> tuple[str, ...]:
    return "--book", str(book.file.path), "--now", NOW


def test_a_days_work_with_single_keys_and_the_number_pad(book: Book) -> None:
    with RealTerminal(*options(book)) as terminal:
        terminal.sees("the round", "101–104", "radish", "kale")
        terminal.type("\x1b[B\x1b[Bj")  # the cursor down twice, a jot
        terminal.sees("Jot on")
        terminal.type("tips are dry\r")
        terminal.sees("Who writes at this terminal?", "tester")
        terminal.type("cd\r")
        terminal.sees("jotted")
        terminal.type("l")
        terminal.sees("emerged")
        terminal.type("\x1b[20~")  # F9
        terminal.sees("look", gone="emerged %")
        terminal.type("n")
        terminal.sees("part of its name")
        terminal.type("cress\r2\x1b[20~")
        terminal.sees("Batch 3 sown: cress, 107 108")
        terminal.type("w")
        terminal.sees("weigh-in", "ready: 101–104")
        terminal.pad("283\n")
        terminal.sees("101       radish", "283 g today")
        terminal.pad("104+290\n")
        terminal.sees("573 g today")
        terminal.type("\x1b")
        terminal.sees("the round", gone="weigh-in")
        terminal.type("q")
        assert terminal.ends() == 0
    assert b"\x1b[?1049l" in terminal.output
    assert b"\x1b[?1000h" not in terminal.output  # the mouse is the terminal's own
    kinds = [line.kind for line in page(book) if line.by == "cd"]
    assert sorted(kinds) == ["jot", "look", "sow", "weigh", "weigh"]


def test_the_window_may_change_its_size_at_any_time(book: Book) -> None:
    with RealTerminal(*options(book)) as terminal:
        terminal.sees("Sat 28 Mar  09:00   the round")
        terminal.resize((40, 20))
        terminal.sees(" 09:00   the round", "radish day 9", gone="Sat 28 Mar")
        terminal.resize((200, 50))
        terminal.sees("Sat 28 Mar  09:00   the round")
        terminal.resize((10, 3))
        terminal.resize((60, 15))
        terminal.sees("the round", "radish day 9")
        terminal.type("q")
        assert terminal.ends() == 0


@pytest.mark.parametrize(
    ("environ", "mouse"),
    [
        ({"TERM": "linux"}, False),
        ({"TERM": "screen-256color"}, True),
        ({"TERM": "xterm", "LANG": "C", "NO_COLOR": "1"}, False),
    ],
)
def test_old_terminals_show_the_round(book: Book, environ: dict[str, str], mouse: bool) -> None:
    settings_folder().mkdir(parents=True)
    (settings_folder() / "settings.toml").write_text(f"mouse = {str(mouse).lower()}\n")
    with RealTerminal(*options(book), environ=environ) as terminal:
        plain = environ["TERM"] != "screen-256color"
        terminal.sees("the round", "101-104" if plain else "101–104", "? more")
        terminal.type("q")
        assert terminal.ends() == 0
    assert terminal.output.isascii() is plain
    assert (b"\x1b[?1000h" in terminal.output) is mouse
    if "NO_COLOR" in environ:
        assert b"\x1b[38;" not in terminal.output
        assert b"\x1b[48;" not in terminal.output


def stall(terminal: RealTerminal) -> None:
    """Have all drawn anew, and read nothing of it, until no more of it fits into the line."""
    waiting, since, sizes = -1, time.monotonic(), cycle([(100, 40), (120, 50)])
    while time.monotonic() - since < STALLED_FOR:
        terminal.resize(next(sizes))
        select.select([], [], [], 0.05)
        drawn = array("i", [0])
        fcntl.ioctl(terminal.master, termios.FIONREAD, drawn)
        if drawn[0] != waiting:
            waiting, since = drawn[0], time.monotonic()


@pytest.mark.parametrize("how", ["hang-up", "termination", "line closed", "line stalled"])
def test_when_the_line_drops_the_program_ends_and_the_draft_is_kept(book: Book, how: str) -> None:
    with RealTerminal(*options(book)) as terminal:
        terminal.sees("the round", "101–104")
        terminal.type("j")
        terminal.sees("Jot on")
        terminal.type("half a thought")
        terminal.sees("half a thought")
        if how == "line closed":
            os.close(terminal.master)  # the program has no controlling terminal: no signal comes
            terminal.process.wait(GONE_WITHIN)
        elif how == "line stalled":
            stall(terminal)
            terminal.process.send_signal(signal.SIGTERM)
            terminal.process.wait(GONE_WITHIN)
        else:
            terminal.process.send_signal(signal.SIGHUP if how == "hang-up" else signal.SIGTERM)
            terminal.ends(GONE_WITHIN)
            assert b"\x1b[?1049l" in terminal.output  # the terminal is as it was
    (draft,) = Drafts(book.file.path).all()
    assert draft.texts["text"].startswith("half a thought")


def test_two_people_are_not_offered_what_the_other_is_typing(book: Book) -> None:
    folder = Drafts(book.file.path).folder
    with RealTerminal(*options(book)) as one:
        one.sees("the round", "101–104")
        one.type("jhalf a thought")
        one.sees("Jot on", "half a thought")
        with RealTerminal(*options(book)) as two:
            two.sees("the round", "101–104", gone="Not saved last time")
            one.process.kill()
            one.process.wait(GONE_WITHIN)
            two.type("q")
            assert two.ends() == 0
    with RealTerminal(*options(book)) as three:
        three.sees("Not saved last time", "half a thought")
        three.type("\r")
        three.sees("Jot on", gone="Not saved last time")
        three.type(" and all of it\r")
        three.sees("Who writes at this terminal?")
        three.type("\r")
        three.sees("jotted")
        three.type("q")
        assert three.ends() == 0
    assert [line.note for line in page(book)][-1] == "half a thought and all of it"
    assert list(folder.iterdir()) == []


def test_it_can_be_put_aside_and_taken_up_again(book: Book) -> None:
    with RealTerminal(*options(book)) as terminal:
        terminal.sees("the round", "101–104")
        terminal.process.send_signal(signal.SIGTSTP)
        _, status = os.waitpid(terminal.process.pid, os.WUNTRACED)
        assert os.WIFSTOPPED(status)
        terminal.screen.reset()
        terminal.process.send_signal(signal.SIGCONT)
        terminal.sees("the round", "101–104")
        terminal.type("q")
        assert terminal.ends() == 0


def test_a_fault_shows_no_traceback_and_leaves_the_terminal_whole(book: Book) -> None:
    program = (
        "from logbook.__main__ import main\n"
        "from logbook.ui.screens.trays.round import RoundScreen\n"
        "def broken(self):\n"
        "    note = 'the lock opens with 4711'\n"
        "    raise ZeroDivisionError(note)\n"
        "RoundScreen.action_jot = broken\n"
        "main()\n"
    )
    with RealTerminal(*options(book), program=("-c", program)) as terminal:
        terminal.sees("the round", "101–104")
        terminal.type("j")
        assert terminal.ends() != 0
    after = terminal.output.rpartition(b"\x1b[?1049l")[2]
    assert b"Something went wrong inside the program (ZeroDivisionError)" in after
    assert b"Traceback" not in terminal.output
    assert b"4711" not in terminal.output
    log = (state_folder() / "faults.log").read_text()
    assert "ZeroDivisionError" in log
    assert "4711" not in log
